"""The offers: a CSV in which a person lists the lengths that a supplier has, one row a length of a section and alloy.

Its columns are those of the rack, so that cells can be copied; ``price`` is that of one length ("": not known), ``most`` how many there are
("": as many as wanted). It lies beside the rack, as rack.offers.csv. All prices are in one currency; nothing is converted.

>>> head = "format,leg_a,leg_b,thickness_a,fillet,alloy,length,price,most\\n"
>>> offers = parse_offers(head + "1,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,12 ft,$31.50,")
>>> [(str(offer.length), str(offer.price), offer.most, offer.row) for offer in offers.rows], offers.currency.sign
([('144', '63/2', None, 2)], '$')
>>> parse_offers(head + "1,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,0,$31.50,")
Traceback (most recent call last):
    ...
anglelib.errors.FileProblems: rack.offers.csv, row 2, length: the length to buy is 0: give a length above 0.
>>> parse_offers(head + "1,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,12 ft,ask,some")
Traceback (most recent call last):
    ...
anglelib.errors.FileProblems: rack.offers.csv, row 2, price: "ask" is no price: write a number with its sign, like $31.50 or 31.50 EUR, or leave the cell empty.
rack.offers.csv, row 2, most: "some" is no number of lengths: write how many there are, like 4, or leave the cell empty.
"""

from __future__ import annotations

import re
from fractions import Fraction
from os import PathLike
from pathlib import Path

from anglelib.contents_words import OFFERS
from anglelib.errors import BenchError
from anglelib.files.cells import Row
from anglelib.files.csv_text import read_table
from anglelib.files.report import MOST_PIECES, Report, quoted, read_source, sentence
from anglelib.files.stock_rows import check_format, columns_of, section_of
from anglelib.lengths import exact
from anglelib.names import MOST_NOTE_CHARACTERS
from anglelib.part import MOST_QUANTITY
from anglelib.stock.fit import alike
from anglelib.stock.offers import MOST_LENGTHS, Offer, Offers
from anglelib.stock.price import Currency, read_price
from anglelib.storage import shown

ENDING = ".offers.csv"
_WHOLE, _FIGURES = re.compile(r"[$€£]?\s*\d+"), re.compile(r"\d\d(?:\s*[^\d\s.,]{1,3})?")
"""A price without a point, and what would stand behind its comma."""
REQUIRED = ("format", "leg_a", "leg_b", "thickness_a", "fillet", "alloy", "length")
COLUMNS = (
    "format", "leg_a", "leg_b", "thickness_a", "thickness_b", "fillet", "toe_radius", "heel_radius", "alloy", "length", "price", "most", "note",
)  # fmt: skip
"""The columns, in any order; those that are not REQUIRED may be absent."""
EMPTY = f"the first row is {','.join((*REQUIRED, 'price', 'most'))}, and each row below it a length that can be bought."


def offers_path(rack_file: str | PathLike) -> Path:
    """Where the offers for a rack are kept.

    >>> offers_path("kit/my-rack.csv").name
    'my-rack.offers.csv'
    """
    path = Path(rack_file)
    return path.with_name(path.stem + ENDING)


def read_offers(path: str | PathLike) -> Offers:
    """The offers in a file. Raises FileProblems with everything that is wrong in it, or StorageError."""
    return parse_offers(read_source(path, OFFERS).text, shown(path))


def parse_offers(text: str, file: str = f"rack{ENDING}") -> Offers:
    """The offers in a CSV text; ``file`` is the name that its problems carry."""
    report = Report(file)
    report.check_limits(text, EMPTY)
    table = read_table(text, report, COLUMNS)
    columns, rows = columns_of(table.head, report, COLUMNS, REQUIRED, (), EMPTY), table.rows
    if len(rows) > MOST_PIECES:
        report.stop("", f"there are {len(rows)} offers: at most {MOST_PIECES}; keep those of your sections.")
    found: list[Offer] = []
    signs: dict[Currency, int] = {}
    for number, cells in rows:
        row = Row(report, number, columns, cells)
        check_format(row, first=number == rows[0][0])
        offer = _offer(row, signs, table.sign)
        if offer is not None:
            _check_new(row, offer, found)
            found.append(offer)
    if len({currency.sign for currency in signs}) > 1:
        _refuse_currencies(report, signs)
    report.close()
    return Offers(tuple(found), next(iter(signs), Currency()), file)


def _offer(row: Row, signs: dict[Currency, int], sign: str) -> Offer | None:
    if not row.fits():
        return None
    section, alloy = section_of(row), row.alloy()
    if alloy == "":
        row.problem("alloy", "what is bought has a known alloy: write the one that the plans ask for, like 6061-T6.")
    length = row.length("length", "length to buy", zero=False)
    price, most = (_price(row, signs), _most(row)) if not _halved(row, sign) else (None, None)
    row.text("note", MOST_NOTE_CHARACTERS)
    if not row.ok or section is None or length is None:
        return None
    return Offer(section, alloy, length, price, most, row.number)  # type: ignore[arg-type]


def _halved(row: Row, sign: str) -> bool:
    """Whether a price with a decimal comma and no quotes has fallen into two cells: 31,50 would be 31, for 50 of them."""
    price, most = row.cell("price"), row.cell("most")
    halved = sign == "," and _WHOLE.fullmatch(price) is not None and _FIGURES.fullmatch(most) is not None
    if halved:
        number = price.strip("$€£ ")
        row.problem("most", f"{quoted(price)} and {quoted(most)} may be one price: write {number}.{most[:2]} with a point; or, if there are {most[:2]}, {number}.00 as the price.")
    return halved


def _price(row: Row, signs: dict[Currency, int]) -> Fraction | None:
    if not row.cell("price"):
        return None
    try:
        price, currency = read_price(row.cell("price"))
    except BenchError as error:
        row.problem("price", sentence(error))
        return None
    signs.setdefault(currency, row.number)
    return price


def _most(row: Row) -> int | None:
    text = row.cell("most")
    if not text:
        return None
    if not (text.isascii() and text.isdigit()):
        return row.problem("most", f"{quoted(text)} is no number of lengths: write how many there are, like 4, or leave the cell empty.")
    if len(text) > 6 or not 1 <= int(text) <= MOST_QUANTITY:
        return row.problem("most", f"{quoted(text)} is out of range: write a number from 1 to {MOST_QUANTITY}, take the row out, or leave the cell empty.")
    return int(text)


def _check_new(row: Row, offer: Offer, found: list[Offer]) -> None:
    """A length that is there already, or one more of a section than are compared."""
    same = [other for other in found if other.alloy == offer.alloy and alike(other.section, offer.section)]
    twin = next((other for other in same if other.length == offer.length), None)
    if twin is not None:
        row.problem("length", f"{exact(offer.length)} of this section and alloy is also in row {twin.row}: keep one of the two.")
    if len(same) == MOST_LENGTHS:
        row.problem("length", f"it is length number {MOST_LENGTHS + 1} of {offer.section.size}, {offer.alloy}: at most {MOST_LENGTHS} are compared; take some out.")


def _refuse_currencies(report: Report, signs: dict[Currency, int]) -> None:
    """Prices under several signs, or some without one: what they come to together nobody knows."""
    first: dict[str, int] = {}
    for currency, number in signs.items():
        first.setdefault(currency.sign, number)
    said = " and ".join(f"{sign} (row {number})" if sign else f"without a sign (row {number})" for sign, number in first.items())
    at = list(first.values())[1]
    report.add(f"row {at}, price", f"the prices are {said}: one list has one currency, and nothing is converted; write all of them with the same sign.")
