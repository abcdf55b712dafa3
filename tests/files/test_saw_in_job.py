"""The saw in the job file: read, written, taken out again, and refused in words with file and key."""

from dataclasses import replace
from fractions import Fraction

import pytest

from anglelib.errors import FileProblems
from anglelib.files.job_file import SAW_KEYS, parse_job
from anglelib.files.job_text import render_job
from anglelib.job import Shop
from anglelib.lengths import MM
from anglelib.saw import WORDS, Saw

TEXT = """format = 1
name = "Trial"
{unit}
# how we cut
[shop]
kerf = "1/16 in"   # measured
{saw}
[section."L"]
leg_a = "3/4 in"
leg_b = "3/4 in"
thickness_a = "1/8 in"
fillet = "1/8 in"

[[part]]
id = "A1"
name = "Bar"
section = "L"
alloy = "6061-T6"
length = "12 in"
"""


def text(*saw: str, unit: str = "") -> str:
    return TEXT.format(saw="\n".join(saw), unit=unit)


def test_read_in_inches_and_in_millimetres():
    job = parse_job(text('throat = "9"', 'table = "8"', 'table_front = "6 1/2"', 'column = "2"', 'fence = "4"', 'hacksaw_allowance = "1/8"', 'hacksaw_kerf = "3/64"'))
    assert job.shop.saw == Saw("9", "2", "8", "6 1/2", "4", "1/8", "3/64")
    metric = parse_job(text('throat = "230"', 'hacksaw_allowance = "1.5"', unit='unit = "mm"'))
    assert (metric.shop.saw.throat, metric.shop.saw.hacksaw_allowance) == (230 * MM, Fraction(3, 2) * MM)
    assert parse_job(text()).shop.saw is None


@pytest.mark.parametrize("unit", ["", 'unit = "mm"'])
def test_written_and_taken_out_with_comments_kept(unit):
    bare = text(unit=unit)
    job = parse_job(bare)
    saw = Saw(9, table=8, hacksaw_allowance=Fraction(1, 8))
    with_saw = render_job(replace(job, shop=replace(job.shop, saw=saw)), bare)
    assert parse_job(with_saw).shop.saw == saw and "# measured" in with_saw and "# how we cut" in with_saw
    assert "fence" not in with_saw and "hacksaw_kerf" not in with_saw  # what nobody gave is not written
    again = parse_job(with_saw)
    assert parse_job(render_job(again)).shop == again.shop  # anew
    without = render_job(replace(again, shop=replace(again.shop, saw=None)), with_saw)
    assert parse_job(without) == job and "throat" not in without and "# measured" in without


@pytest.mark.parametrize("lines, said", [
    (['table = "8"'], "job.toml, shop, throat: it is missing, and table says nothing without it"),
    (['throat = "9"', 'hacksaw_allowance = "2"'], "job.toml, shop: the allowance of the hacksaw is over 1/2 in.: check the unit"),
    (['throat = "9 mm"'], "job.toml, shop: the throat of the saw is 9 mm: no band saw has less than 2 in.; check the unit"),
    (['throat = "900"'], "job.toml, shop: the throat of the saw is 900 in.: no band saw has more than 60 in."),
    (['throat = 9'], 'job.toml, shop, throat: the throat of the saw "9" is a bare number'),
    (['throat = "0"'], "job.toml, shop, throat: "),
    (['troat = "9"'], "did you mean throat?"),
    (['throat = "9"', 'fense = "4"'], "did you mean fence?"),
    (['throat = "9"', 'column = "-1"'], "job.toml, shop, column: "),
])  # fmt: skip
def test_refused_with_its_key(lines, said):
    with pytest.raises(FileProblems) as caught:
        parse_job(text(*lines))
    assert said in str(caught.value) and len(caught.value.problems) == 1


def test_every_length_of_the_saw_has_a_key_and_a_word():
    assert list(SAW_KEYS) == list(WORDS) == [name for name in Saw.__dataclass_fields__]


def test_a_larger_sanding_allowance_is_the_hacksaws_too():
    shop = Shop(allowance="1/8", saw=Saw(9))
    assert shop.by_hacksaw.allowance == Fraction(1, 8) and shop.wander == 0 and shop.rough_more == 0
