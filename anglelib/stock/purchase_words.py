"""What to buy, in words; the purchase is data in :mod:`anglelib.stock.purchase`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from anglelib.lengths import about, exact, unit_word
from anglelib.stock.wording import and_

if TYPE_CHECKING:
    from anglelib.stock.bought_for import HeldShort
    from anglelib.stock.purchase import GroupPurchase, Purchase
    from anglelib.stock.purchase_search import NotForSale

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def lines(purchase: Purchase) -> list[str]:
    """What to buy, a line a section; one line where nothing need be bought."""
    if not purchase.needing:
        return ["Nothing need be bought: everything can be made from the rack."]
    return [f"{each.section.size}, {each.alloy}: {group(each)}" for each in purchase.needing]


def group(found: GroupPurchase) -> str:
    """What to buy of one section and alloy."""
    said = []
    lost = [reason.part_id for reason in found.not_for_sale]
    if found.bought:
        what = and_([f"{_number(number)} {exact(length)}" for length, number in found.bought])
        then = f"everything but {and_(lost)}" if lost else "everything"
        money = f", {found.currency.written(found.price)}" if found.price is not None else ""
        said.append(f"buy {what}{money}; then {then} can be made.")
    elif not lost:
        said.append("nothing need be bought.")
    return " ".join(text if n == 0 else text[0].upper() + text[1:] for n, text in enumerate([*said, *proven(found)]))


def proven(found: GroupPurchase) -> list[str]:
    """What is proven of a purchase, and what it does not help."""
    said = []
    if found.bought:
        if found.priced:
            said.append(_for_less(found))
        elif found.smallest:
            said.append("Less is proven not to be enough.")
        elif found.least < found.inches:
            said.append(f"Less than {exact(found.least)} in all is proven not to be enough; something between is not ruled out.")
        else:
            said.append(f"A purchase of as many {unit_word()} in fewer sticks is not ruled out.")
    said += [not_for_sale(reason) for reason in found.not_for_sale]
    if not found.sure:
        said.append("That no more of these can be made is not proven.")
    return said


def held_short(short: Sequence[HeldShort]) -> list[str]:
    """What of the jobs that are only held has no metal, and is not bought for.

    >>> from anglelib.stock.bought_for import HeldShort
    >>> held_short([HeldShort("wing.A3", 2, True), HeldShort("wing.B1", 1, False)])
    ['Not bought for: 2 of wing.A3 and 1 of wing.B1, which are only held; the rack has no metal for them. To buy for their job too, name it with --together.', 'wing.A3 may not be spliced: a plan with its job held gives it metal first, what is bought too.']
    """
    if not short:
        return []
    one = len(short) == 1 and short[0].missing == 1
    what = and_([f"{held.missing} of {held.part_id}" for held in short])
    said = [f"Not bought for: {what}, which {'is' if one else 'are'} only held; the rack has no metal for {'it' if one else 'them'}. To buy for {'its' if len(short) == 1 else 'their'} job too, name it with --together."]
    first = [held.part_id for held in short if held.first]
    if first:
        it = "it" if len(first) == 1 else "them"
        said.append(f"{and_(first)} may not be spliced: a plan with {'its' if len(first) == 1 else 'their'} job held gives {it} metal first, what is bought too.")
    return said


def _for_less(found: GroupPurchase) -> str:
    """What is proven where the least money was sought."""
    if found.smallest:
        return "For less money there is proven not to be enough."
    if not found.least:
        return "That less is not enough is not proven."
    if found.price is not None and found.least < found.price:
        return f"For less than {found.currency.written(found.least)} there is proven not to be enough; something between is not ruled out."
    return "Less metal for the same money is not ruled out."


def not_for_sale(reason: NotForSale) -> str:
    """Why no purchase helps a part."""
    if reason.named:
        return f"no purchase helps {reason.part_id}: the plans name {reason.named} for it."
    if not reason.longest:
        return f"no purchase helps {reason.part_id}: nothing of its section and alloy is on offer."
    if reason.scarce:
        return f"{reason.missing} of {reason.part_id} {'is' if reason.missing == 1 else 'are'} not made: of the lengths that would serve there are too few on offer."
    return (
        f"no purchase helps {reason.part_id}: its blank {'' if reason.alone else 'with its cut '}takes {about(reason.needs)}, and of the longest "
        f"length sold, {exact(reason.longest)}, {about(reason.usable)} can be used."
    )


def _number(number: int) -> str:
    return NUMBERS[number] if number < len(NUMBERS) else str(number)
