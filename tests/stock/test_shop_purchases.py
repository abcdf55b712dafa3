"""A year in a shop again (:mod:`test_shop_events`), in which equal sticks stand in one row, sticks have lots, and some come by a purchase and go back."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction as F

import pytest
from shop_model import Bar
from test_shop_events import OnDisk, Year

from anglelib.errors import BenchError, RackError
from anglelib.files.rack_file import parse_record
from anglelib.files.rack_text import render_record
from anglelib.stock.rack import Rack, Stick


class YearOfRows(Year):
    """The same shop with quantity rows, lots, purchases, and lines of them that are taken back."""

    def __init__(self, seed: int, folder=None):
        self.lots: dict[str, str] = {}
        self.came: list[str] = []
        super().__init__(seed, folder)
        row = self._row("Q-1")
        add = lambda record: replace(record, rack=Rack([*record.rack.sticks, *row]))  # noqa: E731
        self.store.by_hand(add) if isinstance(self.store, OnDisk) else self.store.change(add)

    def _stick(self, name: str) -> Stick:
        self.lots[name] = self.dice.choice(["", "H123", "H099"])
        return replace(super()._stick(name), lot=self.lots[name])

    def _row(self, name: str) -> list[Stick]:
        """Two to four equal sticks of one row."""
        first, number = self._stick(name), self.dice.randint(2, 4)
        bar = self.model.rack.pop(name)
        self.model.bought -= bar.length
        self.model.roots.remove(name)
        found = [replace(first, id=f"{name}.{n}", one_of=name) for n in range(1, number + 1)]
        for stick in found:
            self.model.buy(stick.id, Bar(bar.length, bar.near, bar.far))
            self.lots[stick.id] = first.lot
        return found

    def came_by_line(self) -> None:
        """A line of a purchase has come: one stick, or a row of equal ones."""
        name = f"B-{len(self.lots)}"
        sticks = self._row(name) if self.dice.random() < 0.6 else [self._stick(name)]
        line = len(self.came) + 1
        self.store.change(lambda record: record.with_bought(sticks, "2025-05-01", "K7M2PX", line))
        self.came += [stick.id for stick in sticks]
        self.done["line came"] += 1

    def went_back(self) -> None:
        """A stick was said by mistake to have come: refused once it is cut."""
        if not self.came:
            return
        name = self.dice.choice(self.came)
        if name in self.model.sawn:
            with pytest.raises(RackError, match="is cut already"):
                self.store.change(lambda record: record.without_bought([name]))
            self.done["kept"] += 1
            return
        self.store.change(lambda record: record.without_bought([name]))
        self.came.remove(name)
        self.model.bought -= self.model.rack.pop(name).length
        self.model.roots.remove(name)
        self.done["went back"] += 1

    def older_copy(self) -> None:
        super().older_copy()
        for _ in range(self.dice.choice([0, 1])):
            self.dice.choice([self.came_by_line, self.came_by_line, self.went_back])()

    def buy(self) -> None:
        self.dice.choice([super().buy, self.came_by_line, self.went_back])()

    def check(self) -> None:
        super().check()
        record, from_ = self.record, dict(self.record.origins)
        for stick in (*record.rack.sticks, *(old.stick for old in record.cut)):
            root = stick.id
            while root in from_:
                root = from_[root]
            assert stick.lot == self.lots[root], (stick.id, root)
        assert {one.stick_id for one in record.bought} == set(self.came)
        again = parse_record(render_record(record))  # rows put together are read as the same sticks
        assert {s.id: (s.length, s.lot) for s in again.rack.sticks} == {s.id: (s.length, s.lot) for s in record.rack.sticks}
        assert {old.stick.id for old in again.cut} == {old.stick.id for old in record.cut} and set(again.bought) == set(record.bought)


def years(seeds, events: int, folder) -> Counter:
    done: Counter = Counter()
    for seed in seeds:
        place = None
        if seed % 2 == 0:
            place = folder / str(seed)
            place.mkdir()
        try:
            done += YearOfRows(seed, place).live(events)
        except (AssertionError, BenchError) as error:
            raise AssertionError(f"year {seed}: {error}") from error
    return done


def test_years_with_rows_and_purchases(tmp_path):
    done = years(range(8), 14, tmp_path)
    assert all(done[event] for event in ("sheet", "spoiled", "undo", "line came", "went back")), done


@pytest.mark.slow
@pytest.mark.parametrize("first", range(0, 400, 100))
def test_four_hundred_years_with_rows_and_purchases(first, tmp_path):
    done = years(range(first, first + 100), 20, tmp_path)
    assert min(done[event] for event in ("sheet", "part-way", "spoiled", "undo", "line came", "went back", "mended")) > 3, done


def test_the_checks_see_a_lot_that_is_lost_and_a_stick_that_went_back_twice():
    year = YearOfRows(3)
    year.check()
    name = year.record.rack.sticks[0].id
    year.lots[name] = "another"
    with pytest.raises(AssertionError):
        year.check()
    year.lots[name] = year.record.rack.sticks[0].lot
    year.model.bought += int(F(1) * 64)
    with pytest.raises(AssertionError):
        year.check()
