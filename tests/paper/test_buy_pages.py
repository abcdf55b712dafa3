"""The sheet of what is to be bought: on both papers, in both units, of one line and of many, nothing hides, and its sums are right."""

from __future__ import annotations

import re
from fractions import Fraction as F

import pytest

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.sheet import Label
from anglelib.lengths import writing
from anglelib.paper.buy_pages import buy_pages
from anglelib.paper.page import A4, LETTER
from anglelib.section import Section
from anglelib.stock.price import Currency
from anglelib.stock.purchase_search import NotForSale
from anglelib.stock.to_buy import Line, OfSection, ToBuy
from anglelib.stock.to_buy_words import total

INCH = [Section("3/4", "3/4", "1/8", fillet="1/8"), Section("1 1/2", 1, "3/16", fillet="3/16", toe_radius="1/16")]
METRIC = [Section("30 mm", "30 mm", "3 mm", fillet="2 mm"), Section("40 mm", "25 mm", "4 mm")]


def many(sections: list[Section], unit: str, lines: int, priced: bool = True) -> ToBuy:
    """A purchase of so many lines, with lengths, prices and names as long as they come."""
    found, number = [], 0
    for section in sections:
        ours = []
        for n in range(lines):
            number += 1
            length = F(24400 + 105 * n, 254) if unit == "mm" else F(1537 + 8 * n, 16)
            serves = tuple((f"BRACKET-LEFT-{k:02}", 1 + k % 3) for k in range(1 + 4 * n))
            ours.append(Line(number, section, "6061-T6511", length, 12 + n, (F(1, 4), F(1, 8)), 123456 + n if priced or n else None, serves))
        lost = (NotForSale("SPAR-RIGHT", 2, "", F(301), F(144), F(287, 2)), NotForSale("SPAR-LEFT", 1, "S-07", F(0), F(144), F(144)))
        found.append(OfSection(section, "6061-T6511", tuple(ours), lost, False, False, priced, (0, 1), 99900 if priced else None, (F(1537, 16),) * 9 + (F(7), F(13, 2)), (F(144),)))
    return ToBuy("A kit with a long name, which has many sections", "", "H7M3YW", tuple(found), Currency("CHF"), "2024-05-01", number="")


def faults(sheet) -> list:
    found = [[item.text for item in pair] for pair in overlaps(sheet, "paper")]
    found += [(label.text, item) for label, item in struck(sheet, "paper")]
    return found + [label.text for label in clipped(sheet, "paper", 5.0)]


def words(pages) -> str:
    return " ".join(item.text for page in pages for item in page.items if isinstance(item, Label))


@pytest.mark.parametrize("lines", [0, 1, 8])
@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("on", [A4, LETTER], ids=lambda paper: paper.name)
def test_nothing_hides_and_all_is_there(on, unit, lines):
    mine = many(INCH if unit == "in" else METRIC, unit, lines)
    with writing(unit):
        pages = buy_pages(mine, on)
        sheets = [page.sheet(on, mine.job_name, "2024-05-01", n, len(pages), f"H7M3YW, purchase {mine.number}") for n, page in enumerate(pages, 1)]
        said = words(pages)
    assert [faults(sheet) for sheet in sheets] == [[]] * len(sheets)
    for line in mine.lines:
        assert re.search(rf"\b{line.number} {line.count} .*CHF {line.price / 100:.2f}", said) and f"CHF {line.count * line.price / 100:.2f}" in said
    if lines:
        together = sum(line.count * line.price for line in mine.lines)
        assert f"CHF {together / 100:.2f}" in said and mine.number in said and "temper" in said
    assert "SPAR-RIGHT" in said and "S-07" in said
    assert ("length, mm" in said) == (unit == "mm" and bool(lines))


def test_what_has_no_price_is_named_in_the_sum():
    mine = many(INCH, "in", 2, priced=False)
    known = sum(line.sum for line in mine.lines if line.sum is not None)
    assert total(mine).endswith(f"CHF {known / 100:.2f} without line 1 and line 3, whose price is not known.")
