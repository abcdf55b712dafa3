"""What is saved is what is read, comments are kept, and the file of somebody else is not overwritten."""

from __future__ import annotations

import csv
import difflib
import io
import re
import tomllib
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from nouns import jobs, racks
from spoiled import JOB, RACK

from anglelib.errors import FileProblems, JobError, RackError, StorageError
from anglelib.files import (
    check_job_against_rack,
    open_job,
    open_rack,
    parse_job,
    parse_rack,
    read_job,
    read_rack,
    render_job,
    render_rack,
    save_job,
    save_rack,
)
from anglelib.job import Job, Shop
from anglelib.part import Hole, Taper
from anglelib.stock.rack import Rack
from anglelib.storage import previous_of

counted = settings(max_examples=50)


# --- exact ------------------------------------------------------------------------------------------
@counted
@given(jobs())
def test_a_job_comes_back_exactly(job):
    text = render_job(job)
    assert parse_job(text) == job
    assert render_job(job, text) == text, "a save that changes nothing writes the same text"


@settings(counted, max_examples=25)
@given(jobs(), jobs())
def test_a_job_put_into_the_text_of_another_comes_back_exactly(job, other):
    assert parse_job(render_job(job, render_job(other))) == job


@counted
@given(racks())
def test_a_rack_comes_back_exactly(rack):
    for sign in ",;\t":
        assert parse_rack(render_rack(rack, sign)) == rack


@counted
@given(racks())
def test_no_cell_of_a_rack_is_a_formula(rack):
    for row in csv.reader(io.StringIO(render_rack(rack), newline="")):
        assert not any(re.match(r"\s*[=+\-@\t\r]", cell) for cell in row)


@counted
@given(racks())
def test_no_cell_of_a_rack_is_a_number_or_a_date_to_a_spreadsheet(rack):
    """A bare 3/4 is read as a date and 144 as a number; a cell with its unit stays what it is."""
    for row in csv.DictReader(io.StringIO(render_rack(rack), newline="")):
        for column in ("leg_a", "leg_b", "thickness_a", "fillet", "length", "trim_1", "trim_2"):
            assert re.fullmatch(r"[0-9 ./]+ (in|mm)", row[column])


def test_lengths_without_an_exact_text_are_refused_and_nothing_is_written(tmp_path):
    job, rack = parse_job(JOB), parse_rack(RACK)
    odd = Fraction(1, 3) + Fraction(1, 10_007)
    with pytest.raises(JobError, match="cannot be saved: .* 30021 under the bar"):
        save_job(replace(job, parts=[replace(job.part("T2"), length=odd + 4)]), tmp_path / "job.toml")
    bent = replace(job.part("T2"), tapers=[Taper("A", 1, 0, angle=Fraction(70, 3))], corners=(), hand=None)
    with pytest.raises(JobError, match="angle 23.333333 degrees has no exact decimal"):
        save_job(replace(job, parts=[bent]), tmp_path / "job.toml")
    with pytest.raises(RackError, match="cannot be saved: .*row 2, length.* 30021 under the bar"):
        save_rack(Rack([replace(rack.sticks[0], length=odd + 4)]), tmp_path / "rack.csv")
    assert list(tmp_path.iterdir()) == []


def test_thirds_are_exact():
    job = parse_job(JOB)
    thirds = replace(job, parts=[replace(job.part("T2"), length="5 1/3")])
    assert parse_job(render_job(thirds)).part("T2").length == Fraction(16, 3)


# --- comments ---------------------------------------------------------------------------------------
TYPED = '''\
# Tail repair, after the hangar door.
format = 1
name = "Tail repair" # for the left side

# The new blade is thin.
[shop]
kerf = "1.5 mm"   # measured in a scrap

# --- stock ---
[section.heavy]
leg_a = "0.75"
leg_b = "3/4"
thickness_a = "1/8" # with a micrometer
fillet = "1/8"

# --- cleats ---
# Make these first.
[[part]]
id = "T1"
name = "Tail cleat"
section = "heavy"
alloy = "6061-T6"
length = "2.25"          # as measured
holes = [
    {leg = "A", x = "1 1/2", y = "7/16", diameter = "1/8"}, # drilled
    # this one by hand
    {leg = "B", x = "1 3/4", y = "7/16", diameter = "1/8"}, # to the skin
]

# --- bars ---
[[part]]
id = "T2"
name = "Tail bar"
section = "heavy"
alloy = "6061-T6"
length = "2 1/4"
hand = 'neither'
# That is all.
'''


def difference(job: Job) -> list[str]:
    """The lines that a save takes out and puts in."""
    text = render_job(job, TYPED)
    lines = difflib.unified_diff(TYPED.splitlines(), text.splitlines(), n=0, lineterm="")
    return [line for line in lines if line[:3] not in ("---", "+++") and not line.startswith("@@")]


def test_what_has_not_changed_is_not_touched():
    assert difference(parse_job(TYPED)) == []


def test_a_changed_value_keeps_the_comment_beside_it():
    job = parse_job(TYPED)
    first = replace(job.part("T1"), length="2 1/2", quantity=3)
    changed = replace(job, shop=replace(job.shop, kerf="1/16", grain="1/2"), parts=[first, job.part("T2")])
    assert difference(changed) == [
        '-kerf = "1.5 mm"   # measured in a scrap',
        '+kerf = "1/16"   # measured in a scrap',
        '+grain = "1/2"',
        '-length = "2.25"          # as measured',
        '+length = "2 1/2"          # as measured',
        "+quantity = 3",
    ]


def test_a_changed_list_keeps_the_comments_of_its_other_entries():
    job = parse_job(TYPED)
    first, second = job.part("T1").holes
    holes = [replace(second, flush=True), replace(second, x="1/2")]
    assert difference(replace(job, parts=[replace(job.part("T1"), holes=holes), job.part("T2")])) == [
        '-    {leg = "A", x = "1 1/2", y = "7/16", diameter = "1/8"}, # drilled',
        '+    {leg = "B", x = "1 3/4", y = "7/16", diameter = "1/8", flush = true}, # drilled',
        '-    {leg = "B", x = "1 3/4", y = "7/16", diameter = "1/8"}, # to the skin',
        '+    {leg = "B", x = "1/2", y = "7/16", diameter = "1/8"}, # to the skin',
    ]
    assert difference(replace(job, parts=[replace(job.part("T1"), holes=[first]), job.part("T2")])) == [
        '-    {leg = "B", x = "1 3/4", y = "7/16", diameter = "1/8"}, # to the skin',
    ]
    more = [first, Hole("A", "3/4", "7/16", "1/8"), second]
    assert difference(replace(job, parts=[replace(job.part("T1"), holes=more), job.part("T2")])) == [
        '+    {leg = "A", x = "3/4", y = "7/16", diameter = "1/8"},',
    ]


def test_parts_that_change_places_take_their_comments_along():
    job = parse_job(TYPED)
    text = render_job(replace(job, parts=reversed(job.parts)), TYPED)
    assert sorted(text.splitlines()) == sorted(TYPED.splitlines())
    assert text.index("# --- bars ---\n[[part]]") < text.index("# --- cleats ---\n# Make these first.\n[[part]]")


def test_a_part_that_goes_takes_only_its_own_comments():
    job = parse_job(TYPED)
    lines = difference(replace(job, parts=[job.part("T2")]))
    assert all(line.startswith("-") for line in lines)
    assert [line for line in lines if "# ---" in line] == ["-# --- cleats ---"]


def test_a_part_that_comes_stands_last():
    job = parse_job(TYPED)
    lines = difference(replace(job, parts=[*job.parts, replace(job.part("T2"), id="T3")]))
    assert all(line.startswith("+") for line in lines)
    assert render_job(replace(job, parts=[*job.parts, replace(job.part("T2"), id="T3")]), TYPED).endswith("# That is all.\n")


def test_a_section_that_all_its_parts_leave_for_one_other_is_changed_in_place():
    job = parse_job(TYPED)
    thin = replace(job.parts[0].section, thickness_a="3/32", thickness_b="3/32")
    assert difference(replace(job, parts=[replace(part, section=thin) for part in job.parts])) == [
        '-thickness_a = "1/8" # with a micrometer',
        '+thickness_a = "3/32" # with a micrometer',
    ]
    text = render_job(replace(job, parts=[job.parts[0], replace(job.parts[1], section=thin)]), TYPED)
    assert list(tomllib.loads(text)["section"]) == ["heavy", "3/4 x 3/4 x 3/32"]


@pytest.mark.parametrize(
    "odd",
    [
        TYPED.replace("[section.heavy]", "[section]\n[section.'heavy']"),
        TYPED.replace("[[part]]", "[[ part ]]"),
        TYPED.replace("[[part]]", '[["part"]]'),
        TYPED.replace("[shop]\nkerf", "[shop]\n\n\nkerf"),
        TYPED.replace('[shop]\nkerf = "1.5 mm"', 'shop.kerf = "1.5 mm"'),
        TYPED.replace("\n", "\r\n"),
        TYPED.rstrip("\n"),
        re.sub(r"holes = \[.*?\n\]\n", '[[part.holes]]\nleg = "A"\nx = "1"\ny = "7/16"\ndiameter = "1/8" # so\n', TYPED, flags=re.DOTALL),
    ],
    ids=["plain and quoted heading", "spaces", "quoted", "blank lines", "dotted key", "CRLF", "no last line end", "tables"],
)
def test_texts_laid_out_oddly_keep_their_comments_too(odd):
    job = parse_job(odd)
    assert render_job(job, odd).rstrip("\r\n") == odd.rstrip("\r\n")
    changed = replace(job, name="More", parts=[*job.parts[:1], replace(job.parts[1], id="T3", quantity=7)])
    text = render_job(changed, odd)
    assert parse_job(text) == changed
    kept = [comment for comment in re.findall(r"^#.*$", odd.replace("\r", ""), re.MULTILINE) if "bars" not in comment]
    assert all(comment in text for comment in kept)


# --- saving -----------------------------------------------------------------------------------------
def test_saving_keeps_the_previous_version_and_refuses_what_others_changed(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(TYPED, encoding="utf-8")
    opened = open_job(path)
    again = save_job(replace(opened.value, name="Second"), path, opened)
    third = save_job(replace(opened.value, name="Third"), path, again)
    assert read_job(path).name == "Third" and third.value.name == "Third"
    assert 'name = "Third" # for the left side' in path.read_text(encoding="utf-8")
    assert read_job(previous_of(path)).name == "Second"
    with pytest.raises(StorageError, match="has changed on the disk"):
        save_job(opened.value, path, opened)
    with pytest.raises(StorageError, match="already a file"):
        save_job(opened.value, path)
    assert read_job(path).name == "Third"


def test_a_rack_is_saved_with_the_separator_that_it_was_read_with(tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text(RACK, encoding="utf-8")
    rack = read_rack(path)
    semicolons = tmp_path / "europe.csv"
    semicolons.write_text(render_rack(rack, ";"), encoding="utf-8")
    opened = open_rack(semicolons)
    saved = save_rack(Rack(rack.sticks[1:]), semicolons, opened)
    assert semicolons.read_text(encoding="utf-8").startswith("format;stick_id;")
    assert read_rack(semicolons) == saved.value == Rack(rack.sticks[1:])
    assert read_rack(previous_of(semicolons)) == rack


def test_a_rack_with_letters_beyond_ascii_carries_the_mark_that_a_spreadsheet_needs(tmp_path):
    rack = parse_rack(RACK)
    noted = Rack([replace(rack.sticks[0], note="à l'école, ⅝")])
    first = save_rack(noted, tmp_path / "rack.csv")
    assert (tmp_path / "rack.csv").read_bytes()[:3] == b"\xef\xbb\xbf"
    assert read_rack(tmp_path / "rack.csv") == noted
    save_rack(rack, tmp_path / "rack.csv", first)
    assert (tmp_path / "rack.csv").read_bytes()[:6] == b"format"


def test_an_empty_rack_is_a_rack(tmp_path):
    save_rack(Rack([]), tmp_path / "rack.csv")
    assert read_rack(tmp_path / "rack.csv") == Rack([])


def test_what_is_left_out_of_a_job_is_the_default():
    job = parse_job(TYPED)
    assert job.shop == Shop(kerf="1.5 mm")
    assert job.part("T1").hand is None and job.part("T1").quantity == 1


# --- the two together ---------------------------------------------------------------------------------
PAIRS = {
    "S-09": "the stick S-09 is not on the rack: check its id",
    "S-03": "another section than the part",
    "S-02": "is 6063-T5, the part 6061-T6",
    "S-01": "marked hands-off",
}


@pytest.mark.parametrize("stick_id", PAIRS)
def test_a_part_that_names_a_stick_needs_that_stick(stick_id):
    job, rack = parse_job(JOB), parse_rack(RACK.replace("yes,no,29", "yes,no,29").replace("6061-T6,56", "6063-T5,56"))
    rack = Rack([replace(rack.sticks[0], hands_off=True), *rack.sticks[1:]])
    pinned = replace(job, parts=[*job.parts[:2], replace(job.parts[2], only_stick=stick_id)])
    with pytest.raises(FileProblems) as caught:
        check_job_against_rack(pinned, rack)
    [problem] = caught.value.problems
    assert problem.place == "part T2, only_stick" and PAIRS[stick_id] in problem.message
    check_job_against_rack(job, rack)


def test_a_part_may_name_a_stick_that_serves():
    job, rack = parse_job(JOB), parse_rack(RACK)
    check_job_against_rack(replace(job, parts=[*job.parts[:2], replace(job.parts[2], only_stick="S-01")]), rack)
