"""A year in a shop, at random: sheets followed whole and part-way, spoiled pieces, sticks used elsewhere, bought, a revised drawing, another
blade, plans made anew, an older rack saved back. After every event the record is held against a shop in which the metal was really sawn."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction as F
from random import Random

import pytest
from shop_model import Bar, ShopModel, whole

from anglelib.errors import BenchError, RackError
from anglelib.files.rack_record import change_record, look_at, mend
from anglelib.files.rack_text import save_record
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.anew import plan_anew
from anglelib.stock.in_hand import against, differences, in_hand, part_way, to_do
from anglelib.stock.part_way import rows_of
from anglelib.stock.pieces import Mark, Piece
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record
from anglelib.stock.standing import standing
from anglelib.storage import read_text

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
LENGTHS = {"A": 10, "B": F(41, 2), "C": F(59, 8), "D": F(125, 4)}


class Memory:
    """The record as a program has it."""

    def __init__(self, record: Record):
        self.record = record

    def change(self, do) -> None:
        self.record = do(self.record)


class OnDisk(Memory):
    """The record in its file, with its journal."""

    def __init__(self, record: Record, folder):
        super().__init__(record)
        self.path, self.copies = folder / "rack.csv", []
        save_record(record, self.path)

    def change(self, do) -> None:
        self.copies.append(self.path.read_bytes())
        self.record = change_record(self.path, do)

    def by_hand(self, do) -> None:
        from anglelib.files.rack_file import open_record

        opened = open_record(self.path)
        self.record = save_record(do(opened.value), self.path, opened).value


class Year:
    """A shop, its record, the sheets in hand, and what may happen."""

    def __init__(self, seed: int, folder=None):
        self.dice, self.model, self.seen, self.done = Random(seed), ShopModel(), set(), Counter()
        names = self.dice.sample(sorted(LENGTHS), 3)
        self.job = Job("Kit", Shop(), [self._part(name) for name in names])
        sticks = []
        for n in range(self.dice.randint(3, 5)):
            sticks.append(self._stick(f"S-{n}"))
        record = Record(Rack(sticks))
        self.store = Memory(record) if folder is None else OnDisk(record, folder)
        self.hand = None
        self.plan()

    def _part(self, name: str) -> Part:
        return Part(name, name, STOCK, "6061-T6", LENGTHS[name], quantity=self.dice.randint(1, 4), one_piece=self.dice.random() < 0.2)

    def _stick(self, name: str) -> Stick:
        length, near, far = self.dice.randint(20 * 64, 90 * 64), self.dice.choice([0, 4, 16]), self.dice.choice([0, 4, 16])
        self.model.buy(name, Bar(length, near, far))
        return Stick(name, STOCK, "6061-T6", F(length, 64), F(near, 64), F(far, 64))

    @property
    def record(self) -> Record:
        return self.store.record

    # --- planning -----------------------------------------------------------------------------------------
    def plan(self) -> None:
        if self.hand is None:
            now = standing(self.job, self.record)
            if now is not None:
                self.hand = in_hand(now.printed, self.job)
            return
        begun = part_way(self.hand, self.record)
        rest = {name: self._still_in(self.hand.stick(name), row) for name, row in begun.items()}
        made = plan_anew(self.hand, self.job, self.record)
        if made is None:
            return
        now, self.done["anew"] = made.standing, self.done["anew"] + 1
        same = {d.about for d in differences(self.hand, self.job, self.record) if d.id in ("revised", "part-gone")}
        new = in_hand(now.printed, self.job, before=self.hand)
        if not any(d.id in ("rule", "quantity") or d.about in begun for d in differences(self.hand, self.job, self.record)):
            for name, waiting in rest.items():  # what is started stays where it is
                (tag,) = [t for t in self.model.sawn[name].left if t == self.model.sawn[name].rest_tag]
                planned = new.stick(tag)
                gives = Counter(p.blank.part.id for p in planned.placed) if planned is not None else Counter()
                short = {name: n for name, n in (waiting - gives).items() if name not in same}
                made_now = self.record.made(self.job)
                for part, number in short.items():
                    assert made_now[part] + sum(waiting[part] for waiting in rest.values()) > self.job.part(part).quantity, (name, part, number)
        told = {c.stick_id for c in made.changes}
        for planned in new.sticks:  # a sheet that nobody names still holds, line by line
            old = self.hand.stick(planned.stick.id)
            if old is not None and planned.stick.id not in told:
                assert [(c.kind, c.x) for c in old.cuts] == [(c.kind, c.x) for c in planned.cuts]
        self.hand = new

    def _still_in(self, planned, row: int) -> Counter:
        return Counter(cut.blank.part.id for cut in planned.cuts[row:] if cut.blank is not None) + Counter(
            p.blank.part.id for p in planned.placed if not p.sawn
        )

    # --- events -------------------------------------------------------------------------------------------
    def sheet(self) -> None:
        """A stick is cut as its sheet says, whole or to a row of it."""
        able = [s for s in to_do(self.hand, self.record)]
        if not able:
            return
        planned = self.dice.choice(able)
        name, had = planned.stick.id, part_way(self.hand, self.record).get(planned.stick.id, 0)
        rows = self.dice.choice([0, self.dice.randint(had + 1, rows_of(planned))]) if rows_of(planned) > had else 0
        mark = self.hand.mark(name, rows)
        speaks = against(differences(self.hand, self.job, self.record), planned)
        printed = bool(speaks) and self.dice.random() < 0.5 and all(d.id in ("rule", "revised") for d in speaks)
        if speaks and not printed:
            return
        before = set(self.record.order)
        try:
            self.store.change(lambda record: record.marked(mark, self.job))
        except RackError as error:
            assert self._refused_rightly(mark, name), str(error)
            self.done["refused"] += 1
            return
        self.done["sheet" if not mark.rows else "part-way"] += 1
        finished = {p.id: p.length for p in self.job.parts}
        to = mark.rows or len(planned.cuts)
        paper = []
        for cut in planned.cuts[had:to]:
            part = cut.blank.part.id if cut.blank else ""
            length = whole(cut.blank.length) if cut.blank else 0
            paper.append((cut.kind, part, length - 4, length, whole(cut.kerf)))
        if not mark.rows:
            paper += [("end", p.blank.part.id, whole(p.blank.length) - 4, whole(p.end - p.start), 0) for p in planned.placed if not p.sawn]
        assert finished is not None
        left = self.model.saw(name, paper, done=not mark.rows)
        self._tag(name, left, before, begun=bool(mark.rows))

    def _refused_rightly(self, mark, name: str) -> bool:
        """More than are wanted, or the rest of a stick is not any more what it was."""
        made = self.record.made(self.job)
        new = Counter()
        for piece in mark.pieces:
            new[piece.part_id] += piece.number
        more = any(made[part.id] + new[part.id] > part.quantity for part in self.job.parts)
        old = self.model.sawn.get(name)
        return more or (old is not None and old.rest_tag not in self.model.rack)

    def _tag(self, parent: str, left: Bar | None, before: set[str], begun: bool) -> None:
        """The tag that the record gives to what is left is a new one, and on the right metal."""
        here = [s for s in self.record.rack.sticks if dict(self.record.origins).get(s.id) == parent and s.id not in self.model.rack]
        if left is None:
            assert not here, here
            return
        (stick,) = here
        again = stick.id in before  # the rest of a stick that is cut on keeps its tag
        assert again == (stick.id in self.seen and stick.id in before)
        self.seen.add(stick.id)
        self.model.tagged(parent, stick.id, left, begun)

    def typed(self) -> None:
        """A stick is cut otherwise than any sheet says."""
        name = self.dice.choice(sorted(self.model.rack))
        bar, kerf, wanted = self.model.rack[name], whole(self.job.shop.kerf), self.record.still_wanted(self.job)
        if wanted is None:
            return
        room, pieces = bar.length - bar.near - bar.far, []
        for part in self.dice.sample(wanted.parts, len(wanted.parts)):
            blank = whole(part.length) + 4
            if room >= blank + kerf and self.dice.random() < 0.7:
                pieces.append((part.id, blank))
                room -= blank + kerf
        if not pieces:
            return
        before = set(self.record.order)
        self.store.change(lambda record: record.marked(Mark(name, tuple(Piece(part) for part, _ in pieces)), self.job))
        self.done["typed"] += 1
        trim = [("trim", "", 0, 0, 0)] if bar.near else []
        self._tag(name, self.model.saw(name, [*trim, *(("part-off", part, blank - 4, blank, kerf) for part, blank in pieces)], done=True), before, False)

    def used(self) -> None:
        name = self.dice.choice(sorted(self.model.rack))
        length = F(self.model.rack[name].length, 64)
        self.store.change(lambda record: record.marked(Mark(name, (Piece("other", 1, length),)), self.job))
        self.model.used(name)
        self.done["used"] += 1

    def spoiled(self) -> None:
        good = [(tag, p) for tag, old in self.model.sawn.items() for p in old.pieces if p.good and p.part != "other"]
        if not good:
            return
        tag, piece = self.dice.choice(good)
        first = next(p for p in self.model.sawn[tag].pieces if p.part == piece.part and p.good)
        left = self.dice.choice([0, self.dice.randint(1, first.length)])
        before = set(self.record.order)
        self.store.change(lambda record: record.spoiled(tag, first.part, F(left, 64)))
        self.done["spoiled"] += 1
        bar = self.model.spoil(tag, first.part, first.finished, left)
        if bar is not None:
            (new,) = set(self.record.order) - before
            assert new not in self.seen
            self.seen.add(new)
            self.model.rack[new] = bar
            self.model.sawn[tag].left.append(new)

    def undo(self) -> None:
        if not self.model.sawn:
            return
        tag = self.dice.choice(sorted(self.model.sawn))
        if any(name in self.model.sawn for name in self.model.sawn[tag].left):
            with pytest.raises(RackError, match="is cut too"):
                self.store.change(lambda record: record.undone(tag))
            return
        self.store.change(lambda record: record.undone(tag))
        self.seen -= set(self.model.sawn[tag].left)
        self.model.undo(tag)
        self.done["undo"] += 1

    def buy(self) -> None:
        stick = self._stick(f"N-{len(self.model.roots)}")
        add = lambda record: replace(record, rack=Rack([*record.rack.sticks, stick]))  # noqa: E731
        self.store.by_hand(add) if isinstance(self.store, OnDisk) else self.store.change(add)
        self.done["bought"] += 1

    def revise(self) -> None:
        part = self.dice.choice(self.job.parts)
        new = replace(part, length=part.length + F(self.dice.choice([-8, 8, 16]), 64))
        self.job = replace(self.job, parts=tuple(new if p is part else p for p in self.job.parts))
        self.done["revised"] += 1

    def blade(self) -> None:
        self.job = replace(self.job, shop=replace(self.job.shop, kerf=F(self.dice.choice([2, 4, 6, 8]), 64)))
        self.done["blade"] += 1

    def serves(self) -> None:
        """The pieces of an older drawing are taken for the part as it is."""
        other = self.record.otherwise(self.job)
        if not other:
            return
        part = self.dice.choice(other).part_id
        try:
            self.store.change(lambda record: record.taken_for(part, self.job))
        except RackError as error:
            assert "mark those that do not serve as spoiled first" in str(error)
            return
        length = whole(self.job.part(part).length)
        for old in self.model.sawn.values():
            for piece in old.pieces:
                if piece.part == part and piece.good:
                    piece.finished = length
        self.done["serves"] += 1

    def older_copy(self) -> None:
        """A spreadsheet saves the rack as it was some marks ago."""
        if not isinstance(self.store, OnDisk) or not self.store.copies:
            return
        now = self.record
        self.store.path.write_bytes(self.dice.choice(self.store.copies))
        found = look_at(self.store.path)
        if found.lost:
            with pytest.raises(RackError, match="does not know marks that are in its journal"):
                change_record(self.store.path, lambda record: record)
            assert mend(self.store.path) == found.lost
            self.done["mended"] += 1
        # a stick that was bought by hand since is in no journal: it is written again by hand
        opened = read_text(self.store.path)
        assert opened.text
        self.store.record = change_record(self.store.path, lambda record: record)
        missing = [s for s in now.rack.sticks if s.id not in self.record.order]
        assert all(s.id.startswith("N-") for s in missing)
        self.store.by_hand(lambda record: replace(record, rack=Rack([*record.rack.sticks, *missing])))

    # --- held ---------------------------------------------------------------------------------------------
    def check(self) -> None:
        record, model = self.record, self.model
        assert {s.id: whole(s.length) for s in record.rack.sticks} == {tag: bar.length for tag, bar in model.rack.items()}
        assert {old.stick.id for old in record.cut} == set(model.sawn)
        assert +record.made(self.job) - Counter({"other": 10**6}) == model.made({p.id: whole(p.length) for p in self.job.parts})
        for old in record.cut:
            said = Counter((p.part_id, whole(p.length), not p.spoiled, whole(p.left)) for p in old.pieces for _ in range(p.number))
            assert said == Counter((p.part, p.length, p.good, p.left) for p in model.sawn[old.stick.id].pieces), old.stick.id
        model.check_metal()
        wanted = record.still_wanted(self.job)
        left = {p.id: p.quantity for p in wanted.parts} if wanted is not None else {}
        made = model.made({p.id: whole(p.length) for p in self.job.parts})
        assert left == {p.id: p.quantity - made[p.id] for p in self.job.parts if p.quantity > made[p.id]}

    def live(self, events: int) -> Counter:
        what = [self.sheet] * 8 + [self.spoiled] * 3 + [self.undo] * 2 + [self.typed, self.used, self.buy, self.revise, self.blade, self.serves, self.plan, self.plan]
        what += [self.older_copy] * 2
        for _ in range(events):
            if self.hand is None or not self.model.rack:
                self.buy()
                self.plan()
            self.dice.choice(what)()
            self.check()
        while self.model.sawn:  # all of it taken back: every stick is in its place
            tag = next(t for t in sorted(self.model.sawn) if not any(name in self.model.sawn for name in self.model.sawn[t].left))
            self.store.change(lambda record, tag=tag: record.undone(tag))
            self.model.undo(tag)
        return self.done


def years(seeds, events: int, folder=None) -> Counter:
    done: Counter = Counter()
    for seed in seeds:
        place = None
        if folder is not None and seed % 4 == 0:
            place = folder / str(seed)
            place.mkdir()
        try:
            done += Year(seed, place).live(events)
        except (AssertionError, BenchError) as error:
            raise AssertionError(f"year {seed}: {error}") from error
    return done


def test_twenty_years_in_a_shop(tmp_path):
    done = years(range(20), 14, tmp_path)
    assert all(done[event] for event in ("sheet", "part-way", "typed", "used", "spoiled", "undo", "bought", "revised", "blade", "anew", "mended")), done


@pytest.mark.slow
@pytest.mark.parametrize("first", range(0, 1000, 125))
def test_a_thousand_years_in_a_shop(first, tmp_path):
    done = years(range(first, first + 125), 20, tmp_path)
    assert min(done[event] for event in ("sheet", "part-way", "typed", "used", "spoiled", "undo", "bought", "revised", "blade", "anew", "serves", "mended")) > 6, done
