"""The purchase in hand and what came of it: kept in the record through cuts, undone cuts and spoiled pieces, in the file and back."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest

from anglelib.errors import BenchError, FileProblems, PlanError, RackError
from anglelib.files.purchase_file import parse_purchase, render_purchase
from anglelib.files.rack_file import parse_record, read_record
from anglelib.files.rack_record import change_record
from anglelib.files.rack_text import render_record, save_record
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.offers import Offer, Offers
from anglelib.stock.pieces import Mark, Piece
from anglelib.stock.planner import plan
from anglelib.stock.price import Currency
from anglelib.stock.purchase import smallest_purchase
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record
from anglelib.stock.to_buy import came, have_come, next_names, still_to_come, taken_back, to_buy, with_what_comes

STOCK, WIDE = Section("3/4", "3/4", "1/8", fillet="1/8"), Section("1 1/2", 1, "1/8", fillet="1/8")
ALLOY = "6061-T6"
JOB = Job("Demo", Shop(), [Part("A1", "Bar", STOCK, ALLOY, 60, quantity=5), Part("A2", "Rail", WIDE, ALLOY, 40, quantity=2), Part("A3", "Spar", WIDE, ALLOY, 200)])
RACK = Rack([Stick("S-07", STOCK, ALLOY, 64, "1/4", "1/4"), Stick("S-08", STOCK, ALLOY, 30, remnant=True)])
PRICED = Offers(tuple(Offer(section, ALLOY, length, F(length, 4) + 1) for section in (STOCK, WIDE) for length in (48, 72, 144)), Currency("€", behind=True))


def purchase(rack: Rack = RACK, job: Job = JOB, offers: Offers | None = PRICED, before: int = 0):
    found = smallest_purchase(job, rack, offers=offers)
    return to_buy(found, plan(job, found.rack), job, "2024-05-01", before)


def test_lines_sums_and_what_is_served_agree_with_the_plan():
    mine = purchase()
    found = smallest_purchase(JOB, RACK, offers=PRICED)
    assert F(mine.price, 100) == found.price == sum(group.price for group in found.groups)
    assert [line.number for line in mine.lines] == list(range(1, len(mine.lines) + 1))
    served = [sum(count for line in mine.lines for name, count in line.serves if name == part) for part in ("A1", "A2", "A3")]
    assert served == [4, 2, 0] and mine.sections[1].not_for_sale[0].part_id == "A3"
    # what is left, with what was sawn, the blade and the ends is what is bought: of each section, by length alone
    for section in mine.sections:
        metal = sum(line.length * line.count for line in section.lines)
        blanks = sum(count * (JOB.part(name).length + 2 * JOB.shop.allowance) for line in section.lines for name, count in line.serves)
        assert 0 <= metal - blanks - sum(section.left_new) < metal / 3


def test_it_is_read_back_as_it_was_written_and_a_change_is_noticed():
    for mine in (purchase(), purchase(offers=None), purchase(job=replace(JOB, parts=(replace(JOB.parts[0], quantity=90),)), offers=None)):
        text = render_purchase(mine)
        again = parse_purchase(text)
        assert again == mine and again.number == mine.number and render_purchase(again) == text
        assert [s.group(mine.currency).sentence for s in again.sections] == [s.group(mine.currency).sentence for s in mine.sections]
    said = json.loads(text)
    said["purchase"]["sections"][0]["lines"][0]["count"] += 1
    with pytest.raises(PlanError, match="says other things"):
        parse_purchase(json.dumps(said))
    for broken in ("", "[]", "{}", text[: len(text) // 2], text.replace('"format": 1', '"format": 2')):
        with pytest.raises(PlanError):
            parse_purchase(broken)


def test_the_same_purchase_a_second_time_is_another_one():
    assert purchase().number == purchase().number != purchase(before=2).number
    assert purchase().number == replace(purchase(), sent="2024-05-02", made_on="").number


def test_what_came_is_counted_by_line():
    mine, record = purchase(), Record(RACK)
    assert still_to_come(mine, record) == {line.number: line.count for line in mine.lines}
    record = came(record, mine, 1, [F(143)], "2024-05-02")
    assert have_come(mine, record) == {1: ("S-09",)} and record.rack.stick("S-09").length == 143
    everything = with_what_comes(mine, record)
    assert len(everything.sticks) == len(RACK.sticks) + sum(line.count for line in mine.lines)
    for line in mine.lines:
        if line.number in still_to_come(mine, record):
            record = came(record, mine, line.number, None, "2024-05-03")
    assert not still_to_come(mine, record) and record.rack.sticks[: len(RACK.sticks)] == RACK.sticks
    with pytest.raises(RackError, match="Line 1 of purchase .* has come already"):
        came(record, mine, 1, None, "")
    assert have_come(purchase(before=1), record) == {}  # another purchase's lines are not these
    for line in mine.lines:
        record = taken_back(record, mine, line.number)
    assert record == Record(RACK)
    with pytest.raises(RackError, match="Nothing of line 1"):
        taken_back(record, mine, 1)


def test_names_go_on_and_none_is_given_twice():
    record = Record(Rack([Stick("K-099", STOCK, ALLOY, 96), Stick("X", STOCK, ALLOY, 96), Stick("k-101", STOCK, ALLOY, 96, remnant=True)]))
    assert next_names(record, 3) == ["K-100", "K-102", "K-103"]
    cut = record.marked(Mark("K-099", (Piece("P", 1, F(10)),)))
    assert next_names(cut, 1) == ["K-100"]  # what is cut is not forgotten
    assert next_names(Record(Rack([Stick("X", STOCK, ALLOY, 96)])), 2) == ["S-01", "S-02"]


def test_what_comes_is_no_stick_of_a_row_of_equal_ones():
    """Six of S-01 are S-01.1 to S-01.6; what is bought beside them has another length, and the next number of a row."""
    equal = [Stick(f"S-01.{n}", STOCK, ALLOY, 72, one_of="S-01") for n in range(1, 7)]
    assert next_names(Record(Rack([*equal, Stick("S-02", STOCK, ALLOY, 96)])), 2) == ["S-03", "S-04"]
    assert next_names(Record(Rack(equal)), 1) == ["S-02"]


def year(seed: int, path: Path) -> None:
    """Whatever is done in whichever order: the file says it, sticks bought are told from others, and all of it undone is the rack as it was."""
    rng = random.Random(f"year {seed}")
    save_record(Record(RACK), path)
    first, mine, done = path.read_bytes(), purchase(), []
    for _ in range(12):
        record = read_record(path)
        here = [one.stick_id for one in record.bought]
        free = [stick for stick in record.rack.sticks if stick.length > 12]
        kind = rng.choice(["buy", "buy", "saw", "undo", "back"])
        try:
            if kind == "buy":
                line = rng.choice(mine.lines)
                change_record(path, lambda r: came(r, mine, line.number, [F(rng.randint(300, 1100), 8)], "2024-05-01"), "bought")  # noqa: B023
            elif kind == "saw" and free:
                stick = rng.choice(free)
                change_record(path, lambda r: r.marked(Mark(stick.id, (Piece("P", 1, F(5)),)), on="2024-05-02"), "sawn")  # noqa: B023
                done.append(stick.id)
            elif kind == "undo" and done:
                change_record(path, lambda r: r.undone(done[-1]), "undo")  # noqa: B023
                done.pop()
            elif kind == "back" and here:
                change_record(path, lambda r: taken_back(r, mine, here[0]), "back")  # noqa: B023
        except RackError as error:
            assert kind == "back" and "is cut already" in str(error)
        now = read_record(path)
        known = {stick.id for stick in now.rack.sticks} | {old.stick.id for old in now.cut}
        assert {one.stick_id for one in now.bought} <= known and parse_record(render_record(now)) == now
        assert {one.stick_id for one in now.bought} == {name for name in known if name not in ("S-07", "S-08") and name not in dict(now.origins)}
    for name in reversed(done):
        change_record(path, lambda r: r.undone(name), "undo")  # noqa: B023
    change_record(path, lambda r: r.without_bought([one.stick_id for one in r.bought]), "back")
    assert path.read_bytes() == first


@pytest.mark.parametrize("seed", range(2))
def test_a_year_of_buying_sawing_and_undoing(seed, tmp_path):
    year(seed, tmp_path / "rack.csv")


@pytest.mark.slow
def test_fifty_years_of_it(tmp_path):
    for seed in range(2, 52):
        year(seed, tmp_path / f"rack{seed}.csv")


@pytest.mark.parametrize("cell", ["K7M2PX", "1", "K7M2PX:", "K7M2PX:one", ":1", "K7 M2:1"])
def test_a_line_that_is_none_is_told_by_row(cell):
    text = render_record(came(Record(RACK), purchase(), 1, None, "2024-05-01"))
    number = purchase().number
    with pytest.raises(FileProblems, match="row 4, bought_as: .* is no line of a purchase"):
        parse_record(text.replace(f"{number}:1", cell, 1))
    assert parse_record(text.replace(f"{number}:1", f"{number.lower()}:1")).bought[0].purchase == number


def test_what_never_came_cannot_go_back():
    record = came(Record(RACK), purchase(), 1, None, "2024-05-01")
    for name, says in (("S-07", "those that did are"), ("S-9", "did you mean S-09"), ("S-99", "those that did are")):
        with pytest.raises(BenchError, match=f'No stick "{name}" came by a purchase: .*{says}'):
            record.without_bought([name])
