"""The purchase in hand in words: the same on the terminal and on its sheet."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from anglelib.lengths import about, exact, own, unit_word, unit_written
from anglelib.section import Section
from anglelib.stock.offers import Offer, Offers
from anglelib.stock.purchase_words import proven as proven_words
from anglelib.stock.to_buy import Line, OfSection, ToBuy
from anglelib.stock.wording import MOST, and_, and_more, counted, runs

CAUTION = (
    "The kit's plans decide section, alloy and temper: order what they ask for. What comes is taken for what its mark or certificate says; the same size with "
    "another temper or another inside radius is other metal."
)
ONE_PIECE = "Every part comes in one piece. Reckoned with are the kerf, what each end of a new stick loses when it is squared, and what lies on the rack."


def example() -> str:
    """Lengths that came otherwise than they were ordered, as one says it of line 1."""
    return "1: 2435" if unit_written() == "mm" else "1: 95 7/8"


def lengths(found: Sequence[Fraction]) -> str:
    """Lengths, those that are equal counted.

    >>> lengths([Fraction(96), Fraction(96), Fraction(83, 2)]), lengths([])
    ('2 x 96, 41 1/2', 'nothing')
    """
    shown = found[: 2 * MOST]
    more = len(found) - len(shown)
    return f"{runs([about(one) for one in shown])}{f' and {more} more' if more else ''}" or "nothing"


def inside(section: Section) -> str:
    """How a section is inside, by which a supplier has it or not.

    >>> inside(Section("3/4", "3/4", "1/8", fillet="1/8")), inside(Section("3/4", "3/4", "1/8"))
    ('fillet 1/8', 'square inside')
    """
    return f"fillet {own(section.fillet)}" if section.fillet else "square inside"


def serves(line: Line) -> str:
    """The parts that come from a line."""
    return and_more([f"{count} x {name}" if count > 1 else name for name, count in line.serves]) or "nothing yet"


def proven(section: OfSection, purchase: ToBuy) -> str:
    """What is proven of the purchase of a section, and what it does not help."""
    return " ".join(text[:1].upper() + text[1:] for text in proven_words(section.group(purchase.currency)))


def trims(section: OfSection) -> str:
    """What a new stick is reckoned to lose."""
    one, two = section.lines[0].trims
    each = f"{exact(one)} at each end" if one == two else f"{exact(one)} at end 1 and {exact(two)} at end 2"
    return f"A new stick is reckoned to lose {each}."


def left(section: OfSection) -> str:
    """What is left once all is made."""
    if not section.lines:
        return ""
    return f"Left once all is made: of what is bought {lengths(section.left_new)}; of what is on the rack {lengths(section.left_old)}."


def of_section(section: OfSection, purchase: ToBuy) -> str:
    """All that is said of a section under its lines."""
    return " ".join(filter(None, [proven(section, purchase), trims(section) if section.lines else "", left(section)]))


def total(purchase: ToBuy) -> str:
    """What all of it comes to."""
    count = sum(line.count for line in purchase.lines)
    metal = about(sum((line.length * line.count for line in purchase.lines), Fraction(0)))
    said = f"{counted(count, 'length')}, {metal}{f' {unit_word()}' if metal[-1].isdigit() else ''} in all"
    if not count:
        return "Nothing can be bought that helps."
    known = [line for line in purchase.lines if line.sum is not None]
    if not known:
        return f"{said}; no price is known."
    money = purchase.money(sum(line.sum for line in known))  # type: ignore[misc]
    if len(known) < len(purchase.lines):
        return f"{said}; {money} without {and_([f'line {line.number}' for line in purchase.lines if line.sum is None])}, whose price is not known."
    return f"{said}, {money}."


def near_misses(section: OfSection, offers: Offers | None) -> str:
    """Offers of the same size that are other metal, where the section lacks one; "" without any."""
    if offers is None or not section.not_for_sale:
        return ""
    found = offers.sizes_like(section.section, section.alloy)[:MOST]
    return f"In {offers.file} that size is {and_([_other(offer) for offer in found])}: other metal." if found else ""


def _other(offer: Offer) -> str:
    return f"{offer.alloy}, {inside(offer.section)} (row {offer.row})"
