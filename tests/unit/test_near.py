"""A name that there is not: what was meant is offered, where the difference is only one of capitals or of a letter."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from anglelib.__main__ import main
from anglelib.errors import BenchError
from anglelib.files import parse_job, parse_rack, save_job, save_rack
from anglelib.inspection.by_amount import one_way
from anglelib.job import Shop
from anglelib.lessons.demo import demo_job, demo_rack
from anglelib.near import near
from anglelib.paper.chapters import SHEETS, chosen
from anglelib.paper.export import WHAT, _kinds
from anglelib.stock.record import Record
from anglelib.workshop.readings_file import parse_readings

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "files"))
from spoiled import JOB  # noqa: E402

del sys.path[0]

PARTS = [part.id for part in demo_job().parts]
STICKS = [stick.id for stick in demo_rack().sticks]


def other_ways(name: str) -> set[str]:
    """The name as somebody may write it who means it."""
    return {name.lower(), name.upper(), name.swapcase(), name.title()} - {name}


@pytest.mark.parametrize("known", [PARTS, STICKS, list(SHEETS), list(WHAT)])
def test_only_the_exact_id_is_offered_where_capitals_differ(known):
    for name in known:
        for said in other_ways(name):
            assert near(said, known) == (name,)


@pytest.mark.parametrize("known", [PARTS, STICKS])
def test_every_id_is_offered_without_its_dash_or_its_leading_noughts(known):
    for name in known:
        for said in {name.replace("-", ""), name.replace("-", " "), name.replace("-0", "-")}:
            assert name in near(said, [*known]), said


def test_at_most_three_are_offered_and_none_of_another_number():
    assert len(near("A1X", [f"A1{letter}" for letter in "LRSTUV"])) == 3
    assert near("S-99", STICKS) == () and near("A9", PARTS) == ()


def job_with(old: str, new: str):
    from anglelib.files import render_job

    text = render_job(demo_job())
    assert old in text
    return parse_job(text.replace(old, new, 1))


def rack_with(old: str, new: str):
    from anglelib.files import render_rack

    text = render_rack(demo_rack())
    assert old in text
    return parse_rack(text.replace(old, new, 1))


ASKED = {
    "a part": (lambda: demo_job().part("a1l"), 'There is no part "a1l": did you mean A1L?'),
    "a stick": (lambda: demo_rack().stick("s-05"), 'There is no stick "s-05": did you mean S-05?'),
    "a stick to be marked": (lambda: Record(demo_rack()).on_hand("s-5"), "did you mean S-05?"),
    "a mistake": (lambda: one_way("m07", demo_job().parts[0], Shop()), "did you mean M07?"),
    "sheets": (lambda: chosen("tag"), "did you mean tags?"),
    "what to export": (lambda: _kinds("sadle"), "did you mean saddle?"),
    "a section's name": (lambda: job_with('section = "', 'section = "X '), "is not described in this file"),
    "a key": (lambda: job_with("kerf =", "Kerf ="), "did you mean kerf?"),
    "a table": (lambda: job_with("[shop]", "[Shop]"), "did you mean shop?"),
    "a word of a key": (lambda: job_with('hand = "left"', 'hand = "Left"'), 'did you mean "left"?'),
    "a leg": (lambda: job_with('leg = "A"', 'leg = "a"'), 'did you mean "A"?'),
    "an alloy": (lambda: job_with('alloy = "6061-T6"', 'alloy = "6061-t6"'), "did you mean 6061-T6?"),
    "an alloy on the rack": (lambda: rack_with("6061-T6", "6061T6"), "did you mean 6061-T6?"),
    "a column": (lambda: rack_with("thickness_a", "thicknes a"), "did you mean thickness_a?"),
    "a kind": (lambda: rack_with(",remnant,", ",remnants,"), "did you mean remnant?"),
    "a part of the readings": (lambda: parse_readings("code,part,id,read\nK1,A1-L,heel,4", demo_job()), "did you mean A1L?"),
    "a reading": (lambda: parse_readings("code,part,id,read\nK1,A1L,heal,4", demo_job()), "did you mean heel?"),
}


@pytest.mark.parametrize("what", ASKED)
def test_what_was_meant_is_offered(what):
    ask, wanted = ASKED[what]
    with pytest.raises(BenchError) as caught:
        ask()
    assert wanted in str(caught.value)


def test_a_section_whose_name_differs_in_capitals_and_spaces():
    with pytest.raises(BenchError, match='"Heavy" is not described in this file: did you mean "heavy"?'):
        parse_job(JOB.replace('section = "heavy"', 'section = "Heavy"', 1))
    with pytest.raises(BenchError, match="names t1r as its mirror image, which is not in the job: did you mean T1R?"):
        parse_job(JOB.replace('mirror_of = "T1R"', 'mirror_of = "t1r"', 1))


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        (["plan", "--one", "3/4 x 3/4 x 1/8", "6061-t6", "10"], "did you mean 6061-T6?"),
        (["plan", "JOB", "RACK", "--done", "s-05"], "did you mean S-05?"),
        (["plan", "JOB", "RACK", "--undo", "s-05"], "did you mean S-05?"),
        (["plan", "JOB", "RACK", "--done", "S-01: a3"], "did you mean A3?"),
        (["plan", "JOB", "RACK", "--done", "S-01: a3 at 17 5/16"], "did you mean A3?"),
        (["plan", "JOB", "RACK", "--spoiled", "S-05: a3 scrap"], "did you mean A3?"),
        (["plan", "JOB", "RACK", "--one", "3/4 x 3/4 x 1/8", "6061-T6", "17 1/4", "--part", "a3"], "did you mean A3?"),
        (["export", "JOB", "--part", "a1l"], "did you mean A1L?"),
        (["export", "JOB", "--what", "meshes"], "did you mean mesh?"),
        (["pack", "JOB", "RACK", "--sheets", "card"], "did you mean cards?"),
        (["check", "--job", "JOB", "--form", "FORM", "--parts", "a1l"], "did you mean A1L?"),
        (["class", "--learners", "4", "--minutes", "saws=8"], "did you mean saw?"),
    ],
)
def test_the_commands_offer_it_too(words, wanted, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    save_job(demo_job(), "job.toml")
    save_rack(demo_rack(), "rack.csv")
    if "--undo" in words or "--spoiled" in words:
        assert main(["plan", "job.toml", "rack.csv", "--done", "S-05: A3 at 17 5/16"]) == 0
        capsys.readouterr()
    named = {"JOB": "job.toml", "RACK": "rack.csv", "FORM": "form.csv"}
    before = (tmp_path / "rack.csv").read_bytes()
    assert main([named.get(word, word) for word in words]) == 2
    assert wanted in capsys.readouterr().err
    assert (tmp_path / "rack.csv").read_bytes() == before
