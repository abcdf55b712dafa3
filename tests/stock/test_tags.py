"""A tag is given once: random sheets of dented sticks, sawn from one end and from both, followed row by row, with other cuts in between.

Oracle: where every piece lay in the bar that was bought. A tag that is seen again must lie within the metal that had it, and one whose metal
is sawn up is never seen again.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction as F
from random import Random

import pytest

from anglelib.errors import RackError
from anglelib.job import Job, Shop
from anglelib.part import Part, Taper
from anglelib.section import Section
from anglelib.stock.in_hand import in_hand, part_way
from anglelib.stock.part_way import rows_of
from anglelib.stock.pieces import OTHER, Mark, Piece
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record

RAIL = Section("1 1/2", 1, "1/8", fillet="1/8")
ALLOY = "6061-T6"


class Metal:
    """Every piece by where it lay in the bar: (bar, from, to). ``had`` is the metal that each tag was ever on."""

    def __init__(self) -> None:
        self.had: dict[str, tuple[str, F, F]] = {}
        self.here: set[str] = set()

    def seen(self, tags: dict[str, tuple[str, F, F]]) -> None:
        """The tags on the rack now, and the metal that has them."""
        for tag, (bar, begin, end) in tags.items():
            if tag in self.had:
                assert tag in self.here, f"{tag} was sawn up, and is given again"
                old = self.had[tag]
                assert old[0] == bar and old[1] <= begin and end <= old[2], f"{tag} was on {old}, and is on {(bar, begin, end)}"
            self.had[tag] = (bar, begin, end)
        self.here = set(tags)


def pieces(bar: str, begin: F, planned, rows: int) -> list[tuple[str, F, F]]:
    """What so many rows leave of a stick that lay from ``begin`` on in its bar, the sawn blanks aside."""
    whole = [(F(0), planned.stick.length)]
    sawn = []
    for cut in planned.cuts[: rows or None]:
        near = cut.x if (cut.blank is None) == cut.turned else cut.x - cut.kerf  # the blade's near side
        whole = [p for a, b in whole for p in ([(a, near), (near + cut.kerf, b)] if a <= near and near + cut.kerf <= b else [(a, b)]) if p[0] < p[1]]
        sawn += [(p.start, p.end) for p in planned.placed if cut.blank is not None and p.blank == cut.blank]
    if not rows or rows >= len(planned.cuts):
        sawn += [(p.start, p.end) for p in planned.placed if not p.sawn]
    return [(bar, begin + a, begin + b) for a, b in whole if (a, b) not in sawn]


def kit(dice: Random) -> tuple[Job, Rack]:
    """Parts of both hands, and sticks with up to four dents."""
    taper = [Taper("A", 1, run=1, width_left="1/2")]
    parts = [
        Part("L", "Left", RAIL, ALLOY, F(dice.randint(40, 90), 8), quantity=dice.randint(2, 5), tapers=taper),
        Part("R", "Right", RAIL, ALLOY, F(dice.randint(40, 90), 8), quantity=dice.randint(2, 5), tapers=[replace(taper[0], end=2)]),
        Part("N", "Plain", RAIL, ALLOY, F(dice.randint(30, 70), 8), quantity=dice.randint(1, 4)),
    ]
    sticks = []
    for n in range(dice.randint(2, 3)):
        length = dice.randint(50 * 64, 90 * 64)
        at = sorted(dice.sample(range(6, length // 64 - 6, 3), dice.randint(1, 4)))
        dents = [(F(x) + F(dice.randint(0, 60), 64), F(x + 1) + F(dice.randint(0, 60), 64)) for x in at]
        sticks.append(Stick(f"S-{n}", RAIL, ALLOY, F(length, 64), "1/4", "1/8", dents=dents))
    return Job("Kit", Shop(usable_minimum=F(dice.choice([1, 3]))), parts), Rack(sticks)


def life(seed: int) -> Counter:
    """One rack, followed at random; how often what happened."""
    dice = Random(f"tags {seed}")
    job, rack = kit(dice)
    hand, record, metal, done = in_hand(plan(job, rack), job), Record(rack), Metal(), Counter()
    lies = {s.id: (s.id, F(0), s.length) for s in rack.sticks}
    metal.seen(lies)
    for _ in range(14):
        begun = part_way(hand, record)
        able = [s for s in hand.sticks if s.stick.id in lies or s.stick.id in begun]
        if able and dice.random() < 0.75:
            planned = dice.choice(able)
            name, had, most = planned.stick.id, begun.get(planned.stick.id, 0), rows_of(planned)
            rows = dice.randint(had + 1, min(most, had + 3)) if dice.random() < 0.85 and had < most else 0
            try:
                after = record.marked(hand.mark(name, rows), job)
            except RackError as error:  # what was left of it went into something else
                assert "is not as it was left then" in str(error), error
                done["refused"] += 1
                continue
            old = metal.had[name]
            left = pieces(old[0], old[1], planned, rows)
            found = Counter(end - begin for _, begin, end in left)
            done["part-way" if after.cut_stick(name).rows else "whole"] += 1
            done["pieces"] += len([old for old in after.children(name) if after.cut_stick(name).rows]) > 1
            gone = {child for child in record.children(name)}
        elif lies:  # otherwise than any sheet says
            name = dice.choice(sorted(lies))
            old, whole = lies[name], dice.random() < 0.5
            length = old[2] - old[1] if whole else F(1)
            try:
                after = record.marked(Mark(name, (Piece(OTHER, 1, length),)), job)
            except RackError:  # too short for it
                continue
            done["typed"] += 1
            found, left, gone = Counter(), [], set()
            if not whole:
                done["undone"] += 1
                after = after.undone(name)
                assert {s.id for s in after.rack.sticks} == set(lies)
                continue
        new = {s.id: s.length for s in after.rack.sticks if s.id in after.children(name)}
        if any(found[length] > 1 for length in new.values()):
            continue  # two of one length, one of them used perhaps: nobody could tell which is which
        lies = {tag: lies[tag] for tag in lies if tag != name and tag not in gone}
        lies |= {tag: next(p for p in left if p[2] - p[1] == length) for tag, length in new.items()}
        assert set(lies) == {s.id for s in after.rack.sticks}
        metal.seen(lies)
        record = after
    return done


def test_no_tag_is_given_twice():
    done = sum(map(life, range(30)), Counter())
    assert min(done[what] for what in ("part-way", "whole", "pieces", "typed")) > 8, done


@pytest.mark.slow
@pytest.mark.parametrize("first", range(0, 4000, 500))
def test_no_tag_is_given_twice_in_four_thousand_lives(first):
    done = sum(map(life, range(first, first + 500)), Counter())
    assert done["pieces"] > 200 and done["refused"], done
