"""The order of work: the operations of every part, its cards, and what an order costs in which they lie otherwise."""

from __future__ import annotations

from itertools import permutations
from typing import Any

from tests.outcomes.facts import facts
from tests.outcomes.kit import JOB

STICK = 40


def orders() -> list[Any]:
    """Operations and cards by ids; of every part some orders, each walked: what lies wrong, why, and what it costs."""
    from fractions import Fraction

    from anglelib.geometry.order import cards, walk
    from anglelib.geometry.order_words import one_word, reason, short, title
    from anglelib.geometry.work import operations
    from anglelib.geometry.work_words import said

    found = []
    for part in JOB.parts:
        steps = operations(part, JOB.shop)
        found.append([part.id, [[step.id, step.on_stick, step.clamped, len(step.marks)] for step in steps], facts([said(step, part, JOB.shop) for step in steps])])
        ids = [card.id for card in cards(part, JOB.shop)]
        for order in [ids, ids[::-1], *list(permutations(ids))[1 :: max(1, len(list(permutations(ids))) // 12)]] if len(ids) < 8 else [ids, ids[::-1]]:
            walked = walk(part, JOB.shop, Fraction(STICK), order)
            found.append([part.id, *order, facts([[s.held, s.clamped, s.metal, s.again, s.fault, s.dear, s.work] for s in walked])])
            found.append(facts([[title(s.card), short(s.card, part), one_word(s.card), reason(s, part)] for s in walked]))
    return found


def rules() -> list[Any]:
    """The rules of lesson 08's questions: which of two cards comes first, and the slip behind each."""
    from anglelib.questions import order_of_work

    found = []
    for make in order_of_work.QUESTIONS.values():
        question = make()
        found.append([question.id, facts(question.answer), [[rule.first, rule.then, rule.slip] for rule in getattr(question, "rules", ())]])
    return found
