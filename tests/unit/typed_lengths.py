"""What people type for a length, at random: forms of a grammar, and slips of the finger in them."""

from __future__ import annotations

from random import Random

SPACES = (" ", " ", " ", "  ", "\u00a0", "\u2009", "\u202f", "\t")
DASHES = ("-", "-", "–", "—", "‑", "−")
BARS = ("/", "/", "/", "⁄", "∕", " / ")
VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒"
FEET = ("'", "'", "’", "′", "ft", "ft.", " ft", " feet", " foot", " FT")
INCH = ("", "", '"', "”", "″", "''", "′′", " in", " in.", "in", " inch", " inches", " IN.")
METRIC = ("mm", " mm", " mm.", " MM", " cm", "cm.")
THOU = (" thou", "thou", " thou.", " thousandths", " thousandth")
ALPHABET = (
    *"0123456789", *"0123456789", *" .,/-+'\"", *" ./-'", *VULGAR[:6], *DASHES, *SPACES[4:], "′", "″", "’", "”", "‴", "⁄", "\n", "\u200b", "\u2028",
    "٣", "３", "५", "²", "㎜", "±", "ft", "in", "mm", "m", "cm", "thou", "full", "bare", "(", ")", "x", "e", "_", "½5", " -", "--", ". ",
)  # fmt: skip


def _fraction(r: Random) -> str:
    below = r.choice((2, 4, 8, 16, 32, 64, 128, 3, 10))
    return f"{r.randrange(1, below)}{r.choice(BARS)}{below}"


def _space(r: Random) -> str:
    return r.choice(SPACES)


def _mixed(r: Random, most: int = 99) -> str:
    between = r.choice((_space(r), _space(r), r.choice(DASHES), f" {r.choice(DASHES)} "))
    return f"{r.randrange(most)}{between}{_fraction(r)}"


def _sign(r: Random, most: int = 99) -> str:
    whole = r.choice(("", str(r.randrange(most)), f"{r.randrange(most)} ", f"{r.randrange(most)}-"))
    return whole + r.choice(VULGAR)


def _decimal(r: Random) -> str:
    return r.choice((f"{r.randrange(100)}.{r.randrange(1000)}", f".{r.randrange(1000)}", f"{r.randrange(100)}.", f"{r.uniform(0, 99):.4f}"))


def _below_12(r: Random) -> str:
    return r.choice((str(r.randrange(12)), _mixed(r, 12), _sign(r, 12), _fraction(r), f"{r.randrange(12)}.{r.randrange(100)}"))


def _feet(r: Random) -> str:
    return f"{r.randrange(99)}{r.choice(FEET)}"


ACCEPTED = {
    "whole": lambda r: f"{r.randrange(1200)}{r.choice(INCH)}",
    "decimal": lambda r: _decimal(r) + r.choice(INCH),
    "fraction": lambda r: _fraction(r) + r.choice(INCH),
    "mixed": lambda r: _mixed(r) + r.choice(INCH),
    "sign": lambda r: _sign(r) + r.choice(INCH),
    "signed": lambda r: f"{r.choice('+-−')}{r.choice((' ', ''))}{r.choice((_mixed, _decimal, _sign))(r)}",
    "feet": _feet,
    "part of a foot": lambda r: r.choice((_fraction, _sign, _decimal, _mixed))(r).rstrip() + r.choice(FEET),
    "feet and inches": lambda r: f"{_feet(r)}{r.choice(('', ' ', '-', ' - '))}{_below_12(r)}{r.choice(INCH)}",
    "millimetres": lambda r: f"{r.choice((str(r.randrange(3000)), _decimal(r)))}{r.choice(METRIC)}",
    "metric fraction": lambda r: _fraction(r) + r.choice(METRIC),
    "metres": lambda r: f"{r.choice((str(r.randrange(30)), f'{r.randrange(30)}.{r.randrange(1000)}'))}{r.choice((' m', 'm', ' m.'))}",
    "thousandths": lambda r: f"{r.choice((str(r.randrange(3000)), _decimal(r)))}{r.choice(THOU)}",
}
"""Forms that are read, each made at random."""

QUESTIONED = {
    "digit behind a sign": lambda r: r.choice((f"{r.choice(VULGAR)}{r.randrange(10)}", f"{r.randrange(10)}{r.choice(VULGAR)}{r.randrange(10)}")),
    "comma": lambda r: f"{r.randrange(1, 99)},{r.randrange(1000)}{r.choice(METRIC + INCH)}",
    "commas": lambda r: f"{r.randrange(1, 9)},{r.randrange(9)},{r.randrange(1000)}",
    "comma and point": lambda r: f"{r.randrange(1, 9)}.{r.randrange(100, 1000)},{r.randrange(10)}",
    "mark of thousands": lambda r: f"{r.randrange(1, 30)}{r.choice(chr(39) + '’')}{r.randrange(1000):03d}",
    "space of thousands": lambda r: f"{r.randrange(1, 30)}{r.choice(SPACES)}{r.randrange(1000):03d} mm",
    "two dashes": lambda r: f"{r.randrange(99)}--{_fraction(r)}",
    "minus": lambda r: f"{r.randrange(99)} {r.choice(DASHES)}{_fraction(r)}",
    "line break": lambda r: f"{r.randrange(99)}{r.choice(chr(10) + chr(13) + chr(0x2028) + chr(11))}{_fraction(r)}",
    "fraction of a metre": lambda r: f"{_mixed(r)}{r.choice(('m', ' m', ' m.'))}",
    "inches over 12": lambda r: f"{_feet(r)} {r.randrange(12, 99)}",
    "part of a foot and inches": lambda r: f"{r.randrange(9)}.{r.randrange(1, 10)}{r.choice(FEET)} {r.randrange(12)}",
    "mark": lambda r: f"{_mixed(r)} {r.choice(('full', 'bare'))}",
    "twice": lambda r: f"{_mixed(r)} ({r.uniform(0, 99):.3f})",
}
"""Forms of which nobody can say what is meant, each made at random."""


def slipped(text: str, r: Random) -> str:
    """The text with one to three slips: characters inserted, dropped, doubled, swapped, put in another's place."""
    for _ in range(r.choice((1, 1, 1, 2, 3))):
        at = r.randrange(len(text) + 1)
        slip = r.randrange(5)
        if slip == 0:
            text = text[:at] + r.choice(ALPHABET) + text[at:]
        elif slip == 1:
            text = text[:at] + text[at + 1 :]
        elif slip == 2:
            text = text[:at] + text[at : at + 1] * 2 + text[at + 1 :]
        elif slip == 3:
            text = text[:at] + text[at + 1 : at + 2] + text[at : at + 1] + text[at + 2 :]
        else:
            text = text[:at] + r.choice(ALPHABET) + text[at + 1 :]
    return text
