"""The table game: parts given to sticks one by one, what is left shown, and then the plan beside it.

The plan of a table is found by trying everything, so it is proven and needs no solver.

>>> table = TABLES[1]
>>> [exact(length) for length in table.best if length >= 3]
['38 5/8', '15 1/8']
>>> print(table.judged({}))
6 parts are not placed yet: A5L, A4, A2L, A2R, A3 (1 of 2) and A3 (2 of 2).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Any

from anglelib.drawing.sheet import Sheet
from anglelib.drawing.stock_sheets import Side, foot_fits, hand_rows, one_rack_sheet, planned_rows, two_racks_sheet
from anglelib.job import Job
from anglelib.lengths import exact
from anglelib.lessons.ask import Predict
from anglelib.lessons.controls import ChoiceControl, by_id
from anglelib.lessons.demo import demo_job, demo_rack
from anglelib.lessons.live import LivePicture, View
from anglelib.questions import plan_stock as ask
from anglelib.questions.answers import AnswerBook
from anglelib.stock.by_hand import HandStick, by_hand, lefts, packing_of, told
from anglelib.stock.cutting import lay_out
from anglelib.stock.problem import Problem, problems
from anglelib.stock.rack import Rack
from anglelib.stock.small import best_packing
from anglelib.stock.wording import and_

NOT_YET = ""
"""What a part's control holds until it has a stick."""
TITLE = "The table"


@dataclass(frozen=True)
class Table:
    """Some parts of the demo kit, how many of each, and the sticks on the table."""

    wanted: tuple[tuple[str, int], ...]
    sticks: tuple[str, ...]

    @cached_property
    def problem(self) -> Problem:
        """The table as the planner sees it; blanks in the order of their claims."""
        job = demo_job()
        parts = tuple(replace(job.part(id_), quantity=number, mirror_of="") for id_, number in self.wanted)
        return problems(Job("Table", job.shop, parts), Rack([demo_rack().stick(name) for name in self.sticks]))[0]

    @cached_property
    def plan(self):
        """The best packing there is."""
        return best_packing(self.problem.instance)

    @property
    def best(self) -> tuple[Fraction, ...]:
        """What the plan leaves, longest first [in]."""
        return lefts(self.problem, self.plan)

    # --- what somebody makes of it --------------------------------------------------------------
    def given(self, values: Mapping[str, Any]) -> dict[int, str]:
        """The stick of every blank that has one, from the controls' values."""
        return {n: values[name(n)] for n in range(len(self.problem.blanks)) if values.get(name(n), NOT_YET) != NOT_YET}

    def hands(self, values: Mapping[str, Any]) -> tuple[HandStick, ...]:
        """Every stick with the blanks that were given to it."""
        return by_hand(self.problem, self.given(values), demo_job().shop)

    def done(self, values: Mapping[str, Any]) -> bool:
        """Whether every part has a stick that it fits."""
        return len(self.given(values)) == len(self.problem.blanks) and not any(hand.over for hand in self.hands(values))

    def judged(self, values: Mapping[str, Any], brief: bool = False) -> str:
        """What is to be said of it, in words, ``brief``: without what is too long to stand under a picture; of the plan only when all is placed."""
        given, hands = self.given(values), self.hands(values)
        long = [f"{hand.stick.id} is TOO LONG by {exact(hand.over)}" for hand in hands if hand.over]
        if long:
            return f"{' and '.join(long)}." if brief else f"{' and '.join(long)}: blanks, kerfs and all. Move a part."
        waiting = [str(blank) for n, blank in enumerate(self.problem.blanks) if n not in given]
        if waiting:
            said = f"{len(waiting)} part{'s are' if len(waiting) > 1 else ' is'} not placed yet"
            return f"{said}." if brief else f"{said}: {and_(waiting)}."
        least = demo_job().shop.usable_minimum
        mine = lefts(self.problem, packing_of(self.problem, hands))
        if brief:
            return "Everything is made."
        return f"Everything is made. Pieces left: {told(mine, least)}."

    def compared(self, values: Mapping[str, Any]) -> str:
        """A finished table against the plan, in words."""
        instance, least = self.problem.instance, demo_job().shop.usable_minimum
        packing = packing_of(self.problem, self.hands(values))
        mine, best = instance.score(packing), instance.score(self.plan)
        if mine.left == best.left:
            fewer = best.touched > mine.touched
            return "In whole inches no plan leaves longer pieces: every way was tried." + (" The plan cuts into fewer sticks." if fewer else "")
        n = next(n for n, (have, most) in enumerate(zip(mine.left, best.left)) if have != most)
        which = ("longest", "second longest", "third longest", "fourth longest", "fifth longest")[n]
        ours = lefts(self.problem, packing)[n]
        yours = f"yours is {exact(ours)}" if ours >= least else "yours is too short to keep"
        return f"The plan leaves {told(self.best, least)}: its {which} piece is {exact(self.best[n])}, {yours}."


def name(n: int) -> str:
    """The control of the n-th blank."""
    return f"blank-{n}"


TABLES = {
    1: Table((("A3", 2), ("A2L", 1), ("A2R", 1), ("A4", 1), ("A5L", 1)), ("S-04", "S-05", "S-06", "S-08", "S-09")),
    2: Table((("A3", 3), ("A2L", 1), ("A2R", 1), ("A4", 1)), ("S-04", "S-06", "S-08", "S-09")),
}
"""The tables by number. On each of them the first stick that fits, and the longest part first, end worse than the plan."""


def draw_table(table: Table, values: Mapping[str, Any], view: View) -> Sheet:
    """The sticks with what was given to them; with the plan beside them once all is placed and it is asked for."""
    longest = max(stick.length for stick in table.problem.sticks)
    mine = hand_rows(table.hands(values))
    judged = table.judged(values)
    if not (values.get("plan") and table.done(values)):
        first = " Place every part first." if values.get("plan") else ""
        foot = "" if not table.given(values) else judged if foot_fits(judged) else table.judged(values, brief=True)
        return one_rack_sheet(Side("your table: give every part a stick", mine, foot), longest, TITLE, _sentence(table, values, judged + first))
    least = demo_job().shop.usable_minimum
    plans = lay_out(table.problem, table.plan, demo_job().shop, ())
    one = Side("yours", mine, f"left: {told(lefts(table.problem, packing_of(table.problem, table.hands(values))), least)}")
    two = Side("the plan, every way tried", planned_rows(plans, least), f"left: {told(table.best, least)}")
    return two_racks_sheet(one, two, longest, TITLE, _sentence(table, values, f"{judged} {table.compared(values)}"), view.few)


def _sentence(table: Table, values: Mapping[str, Any], judged: str) -> str:
    said = []
    for hand in table.hands(values):
        blanks = ", ".join(f"{blank.part.id} ({exact(blank.part.length)})" for blank, _, _ in hand.placed)
        said.append(f"{hand.stick.id}, {exact(hand.stick.length)}: {blanks or 'nothing yet'}")
    return f"{'; '.join(said)}. {judged}"


class Game(LivePicture):
    """A table with a control for each part; where one part has one stick only, it is asked for first."""

    def __init__(self, table: Table, book: AnswerBook) -> None:
        self.table = table
        options = by_id({NOT_YET: "not yet", **{stick: stick for stick in table.sticks}})
        controls: dict[str, Any] = {
            name(n): ChoiceControl(f"{blank}, {exact(blank.part.length)}", options, NOT_YET)
            for n, blank in enumerate(table.problem.blanks)
        }
        controls["plan"] = ChoiceControl("The plan", by_id({False: "hidden", True: "beside mine"}), False)
        super().__init__(lambda values, view: draw_table(table, values, view), controls, ask=self._ask(book))

    def _ask(self, book: AnswerBook) -> Predict | None:
        problem = self.table.problem
        one_of_each = list({blank.part.id: blank for blank in problem.blanks}.values())
        try:
            question = ask.not_to_be_spoiled(one_of_each, problem.sticks, demo_job().shop)
        except ValueError:
            return None
        return Predict(lambda n: question, book)
