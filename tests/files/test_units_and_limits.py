"""A job says its unit and its limits; a part may say another unit; what is saved is read back as the same job."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from anglelib.errors import FileProblems, StorageError
from anglelib.files import parse_job, render_job
from anglelib.lengths import MM
from anglelib.storage import read_text
from anglelib.tolerances import Limits

JOB = """format = 1
name = "Trial"
{head}
[section."thirty"]
leg_a = "30 mm"
leg_b = "30 mm"
thickness_a = "3 mm"
fillet = "2 mm"

[[part]]
id = "P1"
name = "Bar"
section = "thirty"
alloy = "6061-T6"
{part}
"""


def job(head: str = "", part: str = 'length = "85"'):
    return parse_job(JOB.format(head=head, part=part))


def test_a_number_without_a_unit_is_in_the_jobs_unit():
    metric = job('unit = "mm"')
    assert (metric.unit, metric.parts[0].unit, metric.parts[0].length) == ("mm", "mm", 85 * MM)
    assert job().parts[0].length == 85 and job().parts[0].unit == "in"


def test_a_part_may_have_another_unit_than_its_job():
    found = job("", 'unit = "mm"\nlength = "85"\nholes = [{leg = "A", x = "20", y = "15", diameter = "1/8 in"}]')
    part = found.parts[0]
    assert (found.unit, part.unit, part.length) == ("in", "mm", 85 * MM)
    assert (part.holes[0].x, part.holes[0].y, part.holes[0].diameter) == (20 * MM, 15 * MM, F(1, 8))


@pytest.mark.parametrize("text", ["1/2", "3 1/2", "½", "12 ¾"])
def test_a_fraction_without_a_unit_is_asked_about_in_millimetres(text):
    with pytest.raises(FileProblems, match="is a fraction without a unit, in millimetres: write in or mm behind it"):
        job('unit = "mm"', f'length = "{text}"')
    assert job('unit = "mm"', f'length = "{text} in"').parts[0].unit == "mm"


def test_the_usual_limits_follow_the_unit_and_others_are_named():
    assert job().limits == Limits("inch") and job('unit = "mm"').limits == Limits("iso-m")
    for said, meant in (("inch", Limits()), ("ISO 2768-1 f", Limits("iso-f")), ("1/32", Limits("own", F(1, 32))), ("0.2 mm", Limits("own", F(2, 10) * MM))):
        assert job(f'limits = "{said}"').limits == meant
    with pytest.raises(FileProblems, match=r'limits: the limits "tight" are unknown: write inch, ISO 2768-1 m'):
        job('limits = "tight"')
    with pytest.raises(FileProblems, match=r'unit: the unit "ell" is unknown: write "in" or "mm"'):
        job('unit = "ell"')


CASES = [
    ("", 'length = "85"'),
    ('unit = "mm"', 'length = "85.5"'),
    ('unit = "mm"', 'length = "3 1/64 in"'),
    ('unit = "mm"', 'length = "0.043 in"'),
    ('unit = "mm"\nlimits = "inch"', 'unit = "in"\nlength = "3 1/2"'),
    ('limits = "ISO 2768-1 m"', 'unit = "mm"\nlength = "85"'),
    ('limits = "0.3 mm"', 'length = "85"\ntapers = [{leg = "A", end = 1, run = "2", width_left = "0", blunt = "1/32"}]'),
]


@pytest.mark.parametrize("head, part", CASES)
def test_what_is_saved_is_read_back_as_the_same_job(head, part):
    text = JOB.format(head=head, part=part)
    found = parse_job(text)
    assert parse_job(render_job(found)) == found
    assert render_job(found, text) == text  # nothing changed: as it was typed


def test_a_job_that_goes_over_to_another_unit_keeps_its_lengths():
    from dataclasses import replace

    inch = job("", 'length = "3 1/2"')
    metric = replace(inch, unit="mm", limits=Limits("iso-m"))
    text = render_job(metric, JOB.format(head="# a comment\n", part='length = "3 1/2"'))
    assert parse_job(text) == metric and "# a comment" in text


def test_only_a_taper_to_the_vertex_is_blunted():
    with pytest.raises(FileProblems, match="only a taper to the vertex leaves a feather edge"):
        job("", 'length = "85"\ntapers = [{leg = "A", end = 1, run = "2", width_left = "1/4", blunt = "1/32"}]')
    with pytest.raises(FileProblems, match="is to be blunted to 1/8, and leg B is only 3 mm thick"):
        job("", 'length = "85"\ntapers = [{leg = "A", end = 1, run = "2", width_left = "0", blunt = "1/8"}]')


def test_quotes_that_a_telephone_made_curly_are_put_right_in_the_remedy():
    with pytest.raises(FileProblems, match=r'write text and lengths in quotes, length = "20"\.'):
        job("", "length = \u201c20\u201d")


def test_how_to_store_as_utf_8_is_said_by_the_kind_of_file(tmp_path):
    for name, kind, said in (("job.toml", "job", "text editor"), ("rack.csv", "rack", '"CSV UTF-8" in the spreadsheet')):
        (tmp_path / name).write_bytes("format".encode("utf-16"))
        with pytest.raises(StorageError, match=said):
            read_text(tmp_path / name, kind=kind)
