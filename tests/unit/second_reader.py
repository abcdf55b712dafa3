"""A second opinion on what a typed length is: characters by their Unicode names, tokens, and a grammar read by hand.

It shares nothing with ``anglelib.lengths`` but the meaning: no pattern, no table of marks. What a person can be taken to have
meant is a Fraction of an inch; anything else is None.

    length := [sign] amount [unit] | [sign] whole foot [join] amount [inch]
    amount := whole / whole | whole join whole / whole | whole [join] vulgar | vulgar | decimal
    join   := space | "-" | " - " | "- "                       (" -" is a minus sign)
"""

from __future__ import annotations

import unicodedata
from fractions import Fraction
from typing import NamedTuple

MARKS = {
    "-": {"HYPHEN-MINUS", "HYPHEN", "NON-BREAKING HYPHEN", "FIGURE DASH", "EN DASH", "EM DASH", "MINUS SIGN"},
    "+": {"PLUS SIGN"},
    "/": {"SOLIDUS", "FRACTION SLASH", "DIVISION SLASH"},
    "'": {"APOSTROPHE", "PRIME", "LEFT SINGLE QUOTATION MARK", "RIGHT SINGLE QUOTATION MARK", "MODIFIER LETTER PRIME", "ACUTE ACCENT", "GRAVE ACCENT"},
    '"': {"QUOTATION MARK", "DOUBLE PRIME", "LEFT DOUBLE QUOTATION MARK", "RIGHT DOUBLE QUOTATION MARK", "DOUBLE LOW-9 QUOTATION MARK",
          "DOUBLE ACUTE ACCENT", "FULLWIDTH QUOTATION MARK"},
}  # fmt: skip
KIND = {name: kind for kind, names in MARKS.items() for name in names}
FOOT = {"'", "ft", "feet", "foot"}
INCH = {'"', "in", "inch", "inches"}
OTHER = {"mm": Fraction(10, 254), "cm": Fraction(100, 254), "m": Fraction(100_000, 2540), "thou": Fraction(1, 1000)}
OTHER |= {"thousandth": OTHER["thou"], "thousandths": OTHER["thou"]}


class Token(NamedTuple):
    """``kind`` is n (number), v (vulgar fraction), w (word) or a mark; ``spaced``: a space stands before it."""

    kind: str
    text: str
    spaced: bool


class No(Exception):
    """It is no length."""


def second_reading(text: str, unit: str = "in") -> Fraction | None:
    """The length [in] that a text means, or None."""
    try:
        if len(text) > 40:
            raise No
        value = _Reader(_tokens(text.strip()), unit).length()
    except No:
        return None
    return value if abs(value) <= 1200 else None


def _tokens(text: str) -> list[Token]:
    found: list[Token] = []
    at, spaced = 0, False
    while at < len(text):
        c = text[at]
        if c == "\t" or unicodedata.category(c) == "Zs":
            at, spaced = at + 1, True
            continue
        begin = at
        name = unicodedata.name(c, "")
        if c in "0123456789" or (c == "." and text[at + 1 : at + 2] in set("0123456789")):
            points = 0
            while at < len(text) and (text[at] in "0123456789" or (text[at] == "." and not points)):
                points += text[at] == "."
                at += 1
            kind = "n"
        elif name.startswith("VULGAR FRACTION") and unicodedata.numeric(c):
            kind, at = "v", at + 1
        elif c.isalpha():
            while at < len(text) and text[at].isalpha():
                at += 1
            kind = "w"
        elif name in KIND:
            kind, at = KIND[name], at + 1
        else:
            raise No
        token = Token(kind, text[begin:at].lower(), spaced)
        if kind == "w" and text[at : at + 1] == ".":
            at += 1
        if kind == "'" and found and found[-1].kind == "'" and not spaced:
            found[-1] = Token('"', "''", found[-1].spaced)
        else:
            found.append(token)
        spaced = False
    return found


class _Reader:
    def __init__(self, tokens: list[Token], unit: str) -> None:
        self.tokens, self.at, self.unit = tokens, 0, unit

    def peek(self, ahead: int = 0) -> Token:
        place = self.at + ahead
        return self.tokens[place] if place < len(self.tokens) else Token("", "", False)

    def length(self) -> Fraction:
        sign = 1
        if self.peek().kind in ("+", "-"):
            sign = -1 if self.peek().kind == "-" else 1
            self.at += 1
        amount, form = self.amount()
        unit = self.word()
        if self.at == len(self.tokens):
            return sign * self.single(amount, form, unit)
        if unit not in FOOT or form != "whole":
            raise No
        if unit == "'" and self.peek().text[:1] == "." and not self.peek().spaced:
            raise No  # 3'.5: a stray mark in 3.5
        self.join()
        inches, bar = self.peek(), self.peek(1).kind == "/"
        number, _ = self.amount()
        behind = self.word()
        if behind not in INCH | {""} or self.at < len(self.tokens):
            raise No
        if inches.kind == "n" and not bar and len(inches.text.partition(".")[0]) > 2:
            raise No  # 1'000 is a thousand to half of the world
        if number >= 12:
            raise No
        return sign * (12 * amount + number)

    def single(self, amount: Fraction, form: str, unit: str) -> Fraction:
        if unit == "m" and form not in ("whole", "decimal"):
            raise No
        if unit in FOOT:
            return 12 * amount
        if unit in INCH:
            return amount
        return amount * (OTHER[unit] if unit else {"in": Fraction(1), "mm": OTHER["mm"]}[self.unit])

    def word(self) -> str:
        """A unit, if there is one."""
        token = self.peek()
        name = token.text if token.kind == "w" else token.kind if token.kind in ("'", '"') else ""
        if token.kind == "w" and name not in FOOT | INCH | set(OTHER):
            raise No
        self.at += bool(name)
        return name

    def join(self) -> None:
        """What may stand between two numbers that belong together."""
        dash, after = self.peek(), self.peek(1)
        if dash.kind == "-":
            if dash.spaced and not after.spaced:
                raise No
            self.at += 1

    def amount(self) -> tuple[Fraction, str]:
        token = self.peek()
        if token.kind == "v":
            self.at += 1
            return Fraction(unicodedata.numeric(token.text)).limit_denominator(16), "vulgar"
        if token.kind != "n":
            raise No
        self.at += 1
        if "." in token.text:
            if len(token.text.partition(".")[2]) > 6:
                raise No
            return Fraction(token.text if token.text[-1] != "." else token.text[:-1]), "decimal"
        whole = int(token.text)
        if self.peek().kind == "/":
            return self.over(whole), "fraction"
        start = self.at
        spaced = self.peek().spaced or self.peek().kind in ("-", "v")
        try:
            self.join()
        except No:
            self.at = start
            return Fraction(whole), "whole"
        if self.peek().kind == "v":
            part, _ = self.amount()
            return whole + part, "mixed"
        if spaced and self.peek().kind == "n" and self.peek().text.isdigit() and self.peek(1).kind == "/":
            top = int(self.peek().text)
            self.at += 1
            part = self.over(top)
            if part >= 1:
                raise No
            return whole + part, "mixed"
        self.at = start
        return Fraction(whole), "whole"

    def over(self, top: int) -> Fraction:
        """What stands under the bar."""
        self.at += 1
        token = self.peek()
        if token.kind != "n" or "." in token.text or not 0 < int(token.text) <= 1024:
            raise No
        self.at += 1
        return Fraction(top, int(token.text))
