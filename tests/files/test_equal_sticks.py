"""Equal sticks in one row of the rack: never counted twice, whatever is marked, undone, spoiled, or edited by hand; and the lot that goes with the metal.

The ledger is the test's own, in whole 64ths: what was bought, what lies on the rack, what was sawn, what the blade took, what was too short to keep.
"""

import csv
import io
import random
from dataclasses import replace
from fractions import Fraction as F

import pytest

from anglelib.errors import BenchError, FileProblems
from anglelib.files import read_record
from anglelib.files.rack_file import parse_record, row_of
from anglelib.files.rack_record import change_record, look_at, mark_cuts, mend, undo_cut
from anglelib.files.rack_text import render_record
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.checker import faults
from anglelib.stock.in_hand import in_hand
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Mark, Record, pieces_from

STOCK, ALLOY = Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6"
HEAD = "format,stick_id,leg_a,leg_b,thickness_a,fillet,alloy,length,quantity,trim_1,trim_2,kind,lot,one_of"
JOB = Job("Kit", Shop(), [Part("A", "Bar", STOCK, ALLOY, 20, quantity=500), Part("B", "Clip", STOCK, ALLOY, "6 1/2", quantity=500)])


def row(name, length="96 in", quantity="", kind="new", lot="", one_of="", sizes="3/4 in,3/4 in,1/8 in,1/8 in"):
    return f"1,{name},{sizes},{ALLOY},{length},{quantity},0,0,{kind},{lot},{one_of}"


def text(*rows):
    return "\n".join([HEAD, *rows]) + "\n"


def ids(record):
    return [stick.id for stick in record.rack.sticks]


def listed(path):
    """The rows of a file as a spreadsheet shows them: name, quantity, kind."""
    return [(cells["stick_id"], cells.get("quantity", ""), cells["kind"]) for cells in csv.DictReader(path.read_text().splitlines())]


def sixty_fourths(length):
    assert (length * 64).denominator == 1
    return int(length * 64)


# --- one row ------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("length", ["96 in", "2440 mm"])
def test_a_row_splits_into_the_one_that_was_cut_and_the_rest_and_undo_puts_it_back(tmp_path, length):
    path = tmp_path / "rack.csv"
    path.write_text(text(row("S-04", length, 6, lot="H4711"), row("S-05", "30 in")))
    change_record(path, lambda record: record.marked(Mark("S-05", pieces_from("B")), JOB))
    undo_cut(path, "S-05")
    before = path.read_text()
    assert ids(read_record(path)) == [*(f"S-04.{n}" for n in range(1, 7)), "S-05"]
    mark_cuts(path, [Mark("S-04.3", pieces_from("2 x A"))], JOB)
    assert listed(path) == [("S-04", "5", "new"), ("S-04.3-R1", "", "remnant"), ("S-05", "", "new"), ("S-04.3", "", "cut")]
    assert ids(read_record(path)) == ["S-04.1", "S-04.2", "S-04.4", "S-04.5", "S-04.6", "S-04.3-R1", "S-05"]
    assert row_of(path, "S-04.5") == 2 and row_of(path, "S-04.3") == 5
    for n in (1, 2, 4, 5, 6):
        mark_cuts(path, [Mark(f"S-04.{n}", pieces_from("A"))], JOB)
    assert "S-04" not in {name for name, _, _ in listed(path)}
    for n in (4, 1, 6, 3, 2, 5):
        undo_cut(path, f"S-04.{n}")
    assert path.read_text() == before


def test_the_last_one_of_a_row_keeps_its_name(tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text(text(row("S-04", quantity=2)))
    mark_cuts(path, [Mark("S-04.1", pieces_from("A"))], JOB)
    assert sorted(ids(read_record(path))) == ["S-04.1-R1", "S-04.2"] and ("S-04", "1", "new") in listed(path)


def test_a_name_that_another_row_has_is_not_given_again():
    record = parse_record(text(row("S-04", quantity=3), row("S-04.2", "40 in"), row("S-9", quantity=1)))
    assert ids(record) == ["S-04.1", "S-04.3", "S-04.4", "S-04.2", "S-9"]
    assert parse_record(render_record(record)) == record


def test_one_that_measures_otherwise_has_its_own_row():
    record = parse_record(text(row("S-04", quantity=3)))
    sticks = [replace(stick, length=F(95)) if stick.id == "S-04.2" else stick for stick in record.rack.sticks]
    again = render_record(Record(Rack(sticks)))
    assert parse_record(again).rack == Rack(sticks)
    gone = Rack([stick for stick in record.rack.sticks if stick.id != "S-04.2"])  # given away: nobody else gets its number
    assert parse_record(render_record(Record(gone))).rack == gone


@pytest.mark.parametrize(
    ("rows", "place", "words"),
    [
        ([row("S-04", quantity="six")], "row 2, quantity", "no whole number"),
        ([row("S-04", quantity="0")], "row 2, quantity", "no whole number"),
        ([row("S-04", quantity="2.5")], "row 2, quantity", "no whole number"),
        ([row("S-05"), row("S-04", quantity="9999")], "row 3, quantity", "no whole number"),
        ([row("S-04", quantity="2"), row("S-04")], "row 3, stick_id", "also in row 2"),
        ([row("S" * 31, quantity="12")], "row 2, stick_id", "shorten it"),
        ([row("S-04", quantity="2", one_of="S-03")], "row 2, one_of", "lists 2 sticks itself"),
        ([row("S-04", quantity="2", kind="cut")], "row 2, quantity", "a row of its own"),
        ([row("S-04", lot="L" * 41)], "row 2, lot", "shorten it"),
        ([row("S-04", quantity="1500"), row("S-05", quantity="1500")], "", "3000 sticks"),
    ],
)  # fmt: skip
def test_what_a_row_cannot_say_is_refused_by_row(rows, place, words):
    with pytest.raises(FileProblems) as found:
        parse_record(text(*rows))
    assert any(problem.place == place and words in problem.message for problem in found.value.problems), found.value


def test_a_row_is_no_stick_to_be_marked():
    record = parse_record(text(row("S-04", quantity=3)))
    with pytest.raises(BenchError, match="S-04 lists 3 equal sticks: name the one, as its sheet has it .S-04.1 to S-04.3"):
        record.marked(Mark("S-04", pieces_from("A")), JOB)


# --- the journal and the plan ---------------------------------------------------------------------------------
def test_an_older_copy_saved_back_is_mended(tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text(text(row("S-04", quantity=4, lot="H1")))
    mark_cuts(path, [Mark("S-04.1", pieces_from("A"))], JOB)
    older = path.read_text()
    mark_cuts(path, [Mark("S-04.2", pieces_from("2 x A"))], JOB)
    newer = path.read_text()
    path.write_text(older)
    assert [one.stick_id for one in look_at(path).lost] == ["S-04.2"]
    mend(path)
    assert path.read_text() == newer


def test_more_sticks_by_hand_are_welcome(tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text(text(row("S-04", quantity=4)))
    mark_cuts(path, [Mark("S-04.1", pieces_from("A"))], JOB)
    rows = list(csv.reader(path.read_text().splitlines()))
    at = rows[0].index("quantity")
    next(cells for cells in rows[1:] if cells[at] == "3")[at] = "7"
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    path.write_text(out.getvalue())
    assert not look_at(path).lost
    assert sorted(ids(read_record(path))) == ["S-04.1-R1", *(f"S-04.{n}" for n in range(2, 9))]


def test_a_plan_of_equal_sticks_is_followed_by_their_names(tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text(text(row("S-04", "50 in", 3, lot="H1"), row("S-05", "21 in", lot="H2")))
    record, job = read_record(path), replace(JOB, parts=(replace(JOB.parts[0], quantity=5),))
    made = plan(job, record.rack)
    assert faults(made, job, record.rack) == ()
    hand = in_hand(made, job)
    for planned in hand.sticks:
        record = change_record(path, lambda now, name=planned.stick.id: now.marked(hand.mark(name), job))
    assert record.still_wanted(job) is None
    assert {stick.lot for stick in record.rack.sticks} <= {"H1", "H2"} and all(stick.lot == "H1" for stick in record.rack.sticks if stick.id.startswith("S-04"))


def test_a_lot_that_is_put_right_before_the_mark_goes_to_what_is_left():
    record = parse_record(text(row("S-04", lot="H1")))
    hand = in_hand(plan(replace(JOB, parts=(replace(JOB.parts[0], quantity=2),)), record.rack), replace(JOB, parts=(replace(JOB.parts[0], quantity=2),)))
    right = Record(Rack([replace(record.rack.sticks[0], lot="H7")]))
    after = right.marked(hand.mark("S-04"), JOB)
    assert {after.cut[0].stick.lot, *(stick.lot for stick in after.rack.sticks)} == {"H7"}
    assert {stick.lot for stick in after.spoiled("S-04", "A", F(12)).rack.sticks} == {"H7"}


# --- a year of it -----------------------------------------------------------------------------------------------
class Shelf:
    """A rack file as text, and the test's own ledger of it, in 64ths; every change is written and read again."""

    def __init__(self, rng):
        self.rng, self.bought = rng, 0
        self.kerf, self.least = sixty_fourths(JOB.shop.kerf), sixty_fourths(JOB.shop.usable_minimum)
        rows = []
        for n in range(rng.randint(1, 3)):
            whole, many = rng.randint(40, 120), rng.choice([1, 2, 3, 6])
            self.bought += whole * 64 * many
            rows.append(row(f"S-{n:02}", f"{whole} in", many if rng.random() < 0.9 or many > 1 else "", rng.choice(["new", "remnant"]), rng.choice(["", "H1", "H2"])))
        self.text = text(*rows)

    @property
    def record(self):
        return parse_record(self.text)

    def step(self):
        self.rng.choice([self.cut, self.cut, self.cut, self.undo, self.spoil, self.buy, self.give_away])(self.record)
        self.count()

    def save(self, record):
        self.text = render_record(record)

    def cut(self, record):
        able = [stick for stick in record.rack.sticks if stick.length > 7]
        if able:
            stick = self.rng.choice(able)
            part, blank = self.rng.choice([("A", F(321, 16)), ("B", F(105, 16))]) if stick.length > 21 else ("B", F(105, 16))
            most = int(stick.length // (blank + F(1, 16)))
            after = record.marked(Mark(stick.id, pieces_from(f"{self.rng.randint(1, most)} x {part}")), JOB)
            again = parse_record(render_record(after)).undone(stick.id)
            assert [without_place(one) for one in (again, record)] == [without_place(record)] * 2, "taken back at once, the file is what it was"
            self.save(after)

    def undo(self, record):
        parents = {parent for child, parent in record.origins if child in {old.stick.id for old in record.cut}}
        if able := [old.stick.id for old in record.cut if old.stick.id not in parents]:
            self.save(record.undone(self.rng.choice(able)))

    def spoil(self, record):
        if able := [(old, piece) for old in record.cut for piece in old.pieces if not piece.spoiled]:
            old, piece = self.rng.choice(able)
            self.save(record.spoiled(old.stick.id, piece.part_id, self.rng.choice([F(0), F(4), piece.length])))

    def _edit(self, change):
        """The quantity of a row, by hand."""
        rows = list(csv.reader(self.text.splitlines()))
        at = rows[0].index("quantity") if "quantity" in rows[0] else None
        if able := [cells for cells in rows[1:] if at is not None and cells[at]]:
            cells = self.rng.choice(able)
            self.bought += change(cells, at) * int(F(cells[rows[0].index("length")].removesuffix(" in")) * 64)
            out = io.StringIO()
            csv.writer(out, lineterminator="\n").writerows(rows)
            self.text = out.getvalue()

    def buy(self, _):
        def more(cells, at):
            cells[at] = str(int(cells[at]) + 2)
            return 2

        self._edit(more)

    def give_away(self, _):
        def less(cells, at):
            fewer = int(cells[at]) > 1
            cells[at] = str(int(cells[at]) - fewer)
            return -fewer

        self._edit(less)

    def count(self):
        """Every stick that was bought is there once, and of each that was cut metal in is metal out."""
        record = self.record
        names = [stick.id for stick in record.rack.sticks] + [old.stick.id for old in record.cut]
        assert len(set(names)) == len(names)
        children = dict(record.origins)
        every = {stick.id: stick for stick in (*record.rack.sticks, *(old.stick for old in record.cut))}
        assert sum(sixty_fourths(stick.length) for name, stick in every.items() if name not in children) == self.bought
        for old in record.cut:
            left = [every[child] for child, parent in record.origins if parent == old.stick.id]
            spoils = sorted(sixty_fourths(piece.left) for piece in old.pieces for _ in range(piece.number) if piece.left)
            sawn = sum(sixty_fourths(piece.length) * piece.number for piece in old.pieces)
            rest = sixty_fourths(old.stick.length) - sawn - sum(piece.number for piece in old.pieces) * self.kerf
            assert rest >= 0, "no more is sawn than there was"
            kept = [rest] if rest >= self.least else []
            assert sorted(sixty_fourths(stick.length) for stick in left) == sorted([*kept, *spoils])
            assert {stick.lot for stick in left} <= {old.stick.lot}


def without_place(record):
    """The rows of a file but for the stick after which one lay: where that was edited away by hand, another takes its place."""
    return [{key: cell for key, cell in cells.items() if key != "cut_after"} for cells in csv.DictReader(render_record(record).splitlines())]


def year(seed, steps):
    shelf = Shelf(random.Random(f"equal sticks {seed}"))
    shelf.count()
    for _ in range(steps):
        shelf.step()
    return shelf.record


def test_metal_in_is_metal_out_through_years_of_marks():
    ends = [year(seed, 20) for seed in range(6)]
    assert sum(len(record.cut) for record in ends) > 20 and any(stick.one_of for record in ends for stick in record.rack.sticks)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(10))
def test_metal_in_is_metal_out_through_many_years(block):
    for seed in range(100 + 20 * block, 120 + 20 * block):
        year(seed, 60)


def test_the_ledger_sees_a_stick_that_is_counted_twice():
    """The guard: the row that was split still says six."""
    shelf = Shelf(random.Random("guard"))
    shelf.text, shelf.bought = text(row("S-04", quantity=6)), 6 * 96 * 64
    shelf.save(shelf.record.marked(Mark("S-04.1", pieces_from("A")), JOB))
    shelf.count()
    shelf.text = shelf.text.replace(",5,new", ",6,new")
    with pytest.raises(AssertionError):
        shelf.count()


def test_sticks_are_told_apart_by_nothing_else():
    assert Stick("S-04.1", STOCK, ALLOY, 96, one_of="S-04") == Stick("S-04.1", STOCK, ALLOY, 96)
