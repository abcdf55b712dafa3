"""Levels 5 and 6 as a model in integers: how many of each part come from each usable length, what levels 1 to 4 come to kept.

The set-ups are counted stick by stick in the order of the plan: one for each length without a tapered blank in a stick, but none where the stop stands at
that length from the stick before. Lengths with tapered blanks are begun with one of them, whose parting cut sets the stop in any case.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from anglelib.stock.blank import Blank
from anglelib.stock.effort import Effort
from anglelib.stock.families import Together, family
from anglelib.stock.search import solve
from anglelib.stock.set_ups import tapered

if TYPE_CHECKING:
    from anglelib.stock.arrange import Arranging

LINKED = 400
"""With more lengths times sticks the stops that stay from stick to stick are left out, and nothing is proven of the set-ups."""


class Found(NamedTuple):
    """How many of each part come from each place, and what the model's aim cannot be below."""

    counts: list[list[int]] | None
    bound: int


class Model:
    """The model of one section; ``exact``: it counts the set-ups as the sheets do."""

    def __init__(self, asked: Arranging):
        from ortools.sat.python import cp_model

        self.asked, self.instance = asked, asked.instance
        self.model = model = cp_model.CpModel()
        spaces, self.total = self.instance.spaces, sum(len(lot) for _, lot in asked.parts)
        self.counts = []
        for size, lot in asked.parts:
            able, width = set(asked.able(size)), max(1, self.instance.sizes[size].width)
            most = [min(len(lot), self.instance.capacity(space) // width) if n in able else 0 for n, space in enumerate(spaces)]
            row = [model.new_int_var(0, number, "") if number else 0 for number in most]
            model.add(sum(row) == len(lot))
            self.counts.append(row)
        self.sticks = list(dict.fromkeys(spaces[n].stick for n in asked.order))
        self.lengths = sorted({_length(lot[0]) for _, lot in asked.parts})
        self.pairs = 0
        self._keep_score()
        moves, split = self._together()
        runs = self._set_ups()
        self.many = self.total * 4 + 10  # more than any number of set-ups counted here
        self.more = self.many * (self.total + 1)
        self.families = len({family(lot[0].part) for _, lot in asked.parts})
        model.minimize(self.more * split + self.many * moves + runs)

    def level_5(self, met: Together) -> int:
        """What the model's aim comes to by level 5 alone."""
        return self.more * (met.pairs - met.whole) + self.many * (met.moves + self.families)

    def answer(self, start: Sequence[Sequence[int]], effort: Effort, limit: float) -> Found:
        """Search from an arrangement on, within a limit of deterministic work."""
        from ortools.sat.python import cp_model

        for row, numbers in zip(self.counts, start):
            for count, number in zip(row, numbers):
                if not isinstance(count, int):
                    self.model.add_hint(count, number)
        solver, status = solve(self.model, effort, limit)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return Found(None, 0)
        counts = [[count if isinstance(count, int) else solver.value(count) for count in row] for row in self.counts]
        return Found(counts, int(-(-(solver.best_objective_bound - 1e-6) // 1)))

    # --- levels 1 to 4 stay -----------------------------------------------------------------------------------------
    def _keep_score(self) -> None:
        model, instance, asked = self.model, self.instance, self.asked
        score, cuts, scrap = asked.score, [], []
        used: dict[int, list] = {}
        pieces = sorted({instance.threshold(grains) for grains in score.left if grains})
        left: dict[int, list] = {piece: [] for piece in pieces}
        blanks = 0
        for n, space in enumerate(instance.spaces):
            column = [(row[n], instance.sizes[size].width) for (size, _), row in zip(asked.parts, self.counts) if not isinstance(row[n], int)]
            held = [instance.sizes[asked.size_of(b)].width for b in asked.held[n]]
            load = sum(count * width for count, width in column) + sum(held)
            number = sum(count for count, _ in column) + len(held)
            blanks += sum(width - instance.kerf for width in held)
            model.add(load <= instance.capacity(space))
            taken = model.new_bool_var("")
            if held:
                model.add(taken == 1)
            for count, _ in column:
                model.add(count <= self.total * taken)
            for piece in pieces:
                if piece <= space.length:
                    stays = model.new_bool_var("")
                    model.add(load <= space.length - piece).only_enforce_if(stays)
                    left[piece].append(stays)
            used.setdefault(space.stick, []).append(taken)
            cuts.append(space.facing * taken + number)
            if space.unsawn:
                ends = model.new_bool_var("")
                model.add(load >= space.length + 1).only_enforce_if(ends)
                cuts.append(-ends)
            keeps, kept = model.new_bool_var(""), model.new_int_var(0, space.length, "")
            model.add(kept <= space.length * keeps)
            model.add(kept <= space.length * taken)
            model.add(kept + load <= space.length).only_enforce_if(keeps)
            model.add(load <= space.length - instance.minimum).only_enforce_if(keeps)
            scrap.append(space.length * taken - kept)
        blanks += sum((instance.sizes[size].width - instance.kerf) * len(lot) for size, lot in asked.parts)
        for piece in pieces:
            model.add(sum(left[piece]) >= sum(instance.threshold(grains) >= piece for grains in score.left if grains))
        full = {space.stick: space.full for space in instance.spaces}
        touched = []
        for stick, taken in used.items():
            any_ = model.new_bool_var("")
            for one in taken:
                model.add(one <= any_)
            touched.append((any_, full[stick]))
        model.add(sum(one for one, _ in touched) <= -score.touched)
        model.add(sum(one for one, whole in touched if whole) <= -score.opened)
        model.add(sum(cuts) <= -score.cuts)
        model.add(sum(scrap) - blanks <= -score.scrap)

    # --- level 5 ------------------------------------------------------------------------------------------------------
    def _from(self, c: int, stick: int):
        """How many of a part come from a stick."""
        return sum(self.counts[c][n] for n, space in enumerate(self.instance.spaces) if space.stick == stick)

    def _together(self):
        """On how many sticks families lie, added up, and how many pairs are split."""
        model, families = self.model, {}
        for c, (_, lot) in enumerate(self.asked.parts):
            families.setdefault(family(lot[0].part), []).append(c)
        moves, whole = 0, 0
        for members in families.values():
            number = sum(len(self.asked.parts[c][1]) for c in members)
            sides: dict[str, list[int]] = {}
            for c in members:
                sides.setdefault(self.asked.parts[c][1][0].part.id, []).append(c)
            for stick in self.sticks:
                here = model.new_bool_var("")
                model.add(sum(self._from(c, stick) for c in members) <= number * here)
                moves += here
                if len(sides) == 2:
                    pair = model.new_int_var(0, number, "")
                    for side in sides.values():
                        model.add(pair <= sum(self._from(c, stick) for c in side))
                    whole += pair
            if len(sides) == 2:
                self.pairs += min(sum(len(self.asked.parts[c][1]) for c in side) for side in sides.values())
        return moves, self.pairs - whole

    # --- level 6 ------------------------------------------------------------------------------------------------------
    def _set_ups(self):
        """How often the stop is set for a length that has no tapered blank in its stick, less the times that it stands there already."""
        asked, instance = self.asked, self.instance
        twins = len(self.sticks) < len(instance.spaces)
        turned = not asked.problem.section.equal_legs
        mixed = len({abs(length) for _, length in self.lengths}) < len(self.lengths)
        linked = len(self.lengths) * len(self.sticks) <= LINKED
        self.exact = linked and not (twins or turned or mixed or any(space.unsawn for space in instance.spaces))
        runs, before = 0, None
        for stick in self.sticks:
            present, plain, lasts = [], [], []
            for length in self.lengths:
                own = [c for c, (_, lot) in enumerate(asked.parts) if _length(lot[0]) == length]
                here, set_ = self.model.new_bool_var(""), self.model.new_bool_var("")
                every = sum(self._from(c, stick) for c in own)
                self.model.add(every <= self.total * here)
                self.model.add(here <= every)
                taper = [c for c in own if tapered(asked.parts[c][1][0].part)]
                # the stop is set unless a tapered blank begins the length
                if len(taper) == len(own):
                    self.model.add(set_ == 0)
                elif not taper:
                    self.model.add(set_ == here)
                else:
                    some = self.model.new_bool_var("")
                    self.model.add(some <= sum(self._from(c, stick) for c in taper))
                    self.model.add(set_ >= here - some)
                runs += set_
                present.append(here)
                plain.append(set_)
            if not linked:
                continue
            cut = self.model.new_bool_var("")
            self.model.add(sum(present) <= len(present) * cut)
            self.model.add(cut <= sum(present))
            for k, here in enumerate(present):
                last = self.model.new_bool_var("")
                self.model.add(last <= here)
                for later in present[k + 1 :]:
                    self.model.add(last <= 1 - later)
                if before is not None:
                    stands = self.model.new_bool_var("")
                    self.model.add(stands <= before[k])
                    self.model.add(stands <= plain[k])
                    for earlier in present[:k]:
                        self.model.add(stands <= 1 - earlier)
                    runs -= stands
                carried = self.model.new_bool_var("")
                self.model.add(carried <= last + 1 - cut)
                self.model.add(carried <= (before[k] if before is not None else 0) + cut)
                lasts.append(carried)
            before = lasts
        return runs


def _length(blank: Blank) -> tuple[bool, Fraction]:
    """The place of a length in the order of cuts: what may not be spliced first, the longest before; then short before long."""
    return (False, -blank.length) if blank.part.one_piece else (True, blank.length)
