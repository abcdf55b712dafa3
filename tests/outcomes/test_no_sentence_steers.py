"""Every sentence of the course is reworded at its source, and what it makes stays: plans, cards, orders, checks, files, pages, pictures.

What is asked is run once as it is and once reworded, all of it in one Python each. Of plans, checks and files ids and numbers are
compared; of pages and pictures also every place of every line and word: other words are as wide.
"""

from functools import cache
from typing import Any

import pytest

from tests.outcomes import checks, classes, commands, kept, orders, pictures, plans, sheets
from tests.rewording import Raised, outcomes

QUICK = (
    plans.plans, plans.rough, plans.again, plans.asked, plans.doubted, plans.shared, orders.orders, orders.rules, checks.diagnoses, checks.typed_in, kept.jobs,
    kept.racks,
    kept.refused, sheets.cards, sheets.cuts, sheets.fold_sheets, sheets.check_prints, sheets.coordinates, sheets.pack, sheets.safety,
    sheets.part_sheets, classes.day, classes.stuck, classes.home, classes.votes, pictures.bench_facts,
)  # fmt: skip
SLOW = (
    checks.every_diagnosis, sheets.exports, sheets.pack_on_letter, sheets.demo_pack, classes.readings, classes.guide, classes.guide_pages,
    classes.class_pack, pictures.offered, pictures.drawn, pictures.bench, pictures.boxes, commands.commands, commands.buying,
)  # fmt: skip


def name(function) -> str:
    """How a function is named where it is run."""
    return f"{function.__module__}:{function.__name__}"


@cache
def found(functions: tuple, reword: bool = False) -> dict[str, Any]:
    """What functions return, all run in one Python."""
    return outcomes([name(function) for function in functions], reword=reword)


def differences(plain: Any, other: Any, place: str = "") -> list[str]:
    """Where two outcomes differ, the first few."""
    if isinstance(plain, Raised) or isinstance(other, Raised):
        return [f"raised: {plain if isinstance(plain, Raised) else other}"]
    if isinstance(plain, list) and isinstance(other, list) and len(plain) == len(other):
        return [said for n, (one, two) in enumerate(zip(plain, other, strict=True)) for said in differences(one, two, f"{place}[{n}]")][:5]
    return [] if plain == other else [f"{place}: {str(plain)[:300]} | {str(other)[:300]}"]


@pytest.mark.parametrize(
    ("functions", "function"),
    [
        *(pytest.param(QUICK, function, id=name(function)) for function in QUICK),
        *(pytest.param(SLOW, function, id=name(function), marks=pytest.mark.slow) for function in SLOW),
    ],
)
def test_no_sentence_steers(functions, function):
    plain, other = (found(functions, reword)[name(function)] for reword in (False, True))
    assert differences(plain, other) == []
    assert len(str(plain)) > 200


@pytest.mark.slow
def test_what_a_control_offers_are_ids_and_numbers():
    assert found((pictures.said_not_meant,))[name(pictures.said_not_meant)] == []


# --- the guard itself ---------------------------------------------------------------------------------------------
PLANTED = {
    sheets.cards: ("anglelib.paper.card_marks", "for mark in step.marks:", "for mark in (m for m in step.marks if m.kind != 'witness' or name(m) == 'witness line'):"),
    orders.orders: ("anglelib.geometry.order", "if card.squares:\n        return replace(", "from anglelib.geometry.order_words import title\n    if title(card).startswith('Square end '):\n        return replace("),
    plans.plans: ("anglelib.stock.unused", "return refusals(free[0], stick) if free else ()", "return tuple(r for r in refusals(free[0], stick) if r.id != 'no-mark' or 'carries no mark' in r.sentence) if free else ()"),
    kept.racks: ("anglelib.files.rack_text", '"kind": KINDS[stick.remnant, True]', '"kind": "cut remnant" if stick.remnant else "cut"'),
    checks.typed_in: ("anglelib.workshop.check_parts", "return _OF_VERDICT[self.verdict.outcome]", "return SCRAP if self.verdict.sentence.startswith('Scrap as ') else REWORK if self.verdict.sentence.startswith('Rework: ') else AGAIN if self.verdict.sentence.startswith('Read again') else PASS"),
    sheets.safety: ("anglelib.paper.safety_sheet", "if step == SAW:", "if name == 'At the saw':"),
    sheets.part_sheets: ("anglelib.drawing.part_sheet", "bounds(seen_from_end[:1])[3]", "next((i.y - 0.7 * letter for i in views if getattr(i, 'text', '') == 'seen from end 1'), 0.0)"),
}  # fmt: skip
"""What goes by a sentence that another place of the source says: as it is nothing is different, and reworded it breaks."""


def test_what_goes_by_a_sentence_is_seen():
    """A comparison of English, planted into cards, orders, the stock, files, checks and drawings: each is found."""
    functions = tuple(PLANTED)
    planted = {module: [(old, new)] for module, old, new in PLANTED.values()}
    plain, other = (outcomes([name(f) for f in functions], planted=planted, reword=reword) for reword in (False, True))
    unplanted = found(QUICK)
    for function in functions:
        assert differences(unplanted[name(function)], plain[name(function)]) == [], name(function)
        assert differences(unplanted[name(function)], other[name(function)]) != [], name(function)
