"""What a length of stock costs: an exact amount, with the currency sign that somebody wrote and where it stood.

Nothing is converted: amounts add up under one sign only. A comma before two figures is a decimal comma; before three it may
part thousands, and is asked about.

>>> read_price("$31.50"), read_price("31,5 €")
((Fraction(63, 2), Currency(sign='$', behind=False)), (Fraction(63, 2), Currency(sign='€', behind=True)))
>>> Currency("$").written(Fraction(63, 2)), Currency("CHF").written(Fraction(12)), Currency("€", behind=True).written(Fraction(1234)), Currency().written(Fraction(7, 2))
('$31.50', 'CHF 12.00', '1234.00 €', '3.50')
>>> read_price("about 30")
Traceback (most recent call last):
    ...
anglelib.errors.PlanError: "about 30" is no price: write a number with its sign, like $31.50 or 31.50 EUR, or leave the cell empty.
>>> read_price("1,250")
Traceback (most recent call last):
    ...
anglelib.errors.PlanError: "1,250" may be 1250 or 1.250: write 1250.00, or two figures behind the point.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import PlanError
from anglelib.names import visible

MOST = 1_000_000
"""No length of angle costs so much."""
_SIGN = r"[^\W\d_]{0,3}[^\w\s\d.,;:/\\+*()'\"%#&<>=!?@-]?\.?"
_PRICE = re.compile(rf"(?P<before>{_SIGN})\s*(?P<number>\d[\d\s'.,]*\d|\d)\s*(?P<after>{_SIGN})")
_PLAIN = re.compile(r"(\d+)(?:[.,](\d{1,2}))?")
_DOUBTFUL = re.compile(r"(\d{1,3})[.,](\d{3})")
_GROUPED = re.compile(r"(\d{1,3}(?:[ ']\d{3})+|\d{1,3}(?:,\d{3})+(?=\.)|\d{1,3}(?:\.\d{3})+(?=,))(?:[.,](\d{1,2}))?")
_NO_CURRENCY = ("in", "in.", "ft", "ft.", "mm", "cm", "m", "kg", "lb", "ea", "ea.", "pc", "pcs", "no", "no.")
REMEDY = "write a number with its sign, like $31.50 or 31.50 EUR, or leave the cell empty."


@dataclass(frozen=True)
class Currency:
    """The sign of a currency ("": none was written), and whether it stands behind the number."""

    sign: str = ""
    behind: bool = False

    def written(self, amount: Fraction) -> str:
        """An amount with its sign; to a hundredth, of which nothing that was read is finer."""
        number = f"{int(amount * 100) // 100}.{int(amount * 100) % 100:02d}"
        if not self.sign:
            return number
        return f"{number} {self.sign}" if self.behind else f"{self.sign}{' ' if self.sign[-1].isalpha() else ''}{number}"


def read_price(text: str) -> tuple[Fraction, Currency]:
    """The amount and the currency of a price as somebody writes it. Raises :class:`~anglelib.errors.PlanError` with the remedy."""
    found = _PRICE.fullmatch(" ".join(text.split()))
    said = f'"{visible(text.strip())[:40]}"'
    signs = [found["before"], found["after"]] if found is not None else []
    if found is None or all(signs) or any(sign.lower() in _NO_CURRENCY for sign in signs if sign):
        raise PlanError(f"{said} is no price: {REMEDY}")
    number = found["number"].strip()
    if doubt := _DOUBTFUL.fullmatch(number):
        one, more = doubt.groups()
        raise PlanError(f"{said} may be {one}{more} or {one}.{more}: write {one}{more}.00, or two figures behind the point.")
    plain = _PLAIN.fullmatch(number) or _GROUPED.fullmatch(number)
    if plain is None:
        raise PlanError(f"{said} is no price: {REMEDY}")
    whole, part = re.sub(r"\D", "", plain[1]), plain[2] or ""
    if len(whole) > 9 or int(whole) > MOST:
        raise PlanError(f"{said} is more than a length of angle costs: write the price of one length.")
    amount = Fraction(int(whole + part), 10 ** len(part))
    if not amount:
        raise PlanError(f"{said} is nothing: write the price, or leave the cell empty where none is known.")
    return amount, Currency(found["before"] or found["after"], bool(found["after"]))
