"""The list of offers: what it is read as, and every wrong cell told in the words of the bench, with file, row and column, all of it at once."""

from __future__ import annotations

import csv
import io
from fractions import Fraction as F

import pytest

from anglelib.errors import BenchError, FileProblems
from anglelib.files.offers_file import offers_path, parse_offers, read_offers
from anglelib.files.rack_file import parse_rack
from anglelib.lengths import MM
from anglelib.section import Section
from tests.unit.refused_lengths import REMEDIES

COLUMNS = ("format", "leg_a", "leg_b", "thickness_a", "fillet", "alloy", "length", "price", "most")
GOOD = dict(zip(COLUMNS, ("1", "3/4 in", "3/4 in", "1/8 in", "1/8 in", "6061-T6", "12 ft", "$31.50", ""), strict=True))
STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")


def table(*rows: dict[str, str], sign: str = ",") -> str:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=sign, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows([(GOOD | row)[column] for column in COLUMNS] for row in rows)
    return out.getvalue()


def refusal(text: str) -> str:
    with pytest.raises(FileProblems) as caught:
        parse_offers(text)
    assert str(caught.value).isprintable() or "\n" in str(caught.value)
    return str(caught.value)


@pytest.mark.parametrize(("text", "length"), [("12 ft", 144), ("144", 144), ("96 in", 96), ("2440 mm", 2440 * MM), ("6'", 72), ("3 m", 3000 * MM), ("95 7/8", F(767, 8))])
def test_lengths_are_read_as_everywhere(text, length):
    assert parse_offers(table({"length": text})).rows[0].length == length


def test_a_list_as_a_spreadsheet_writes_it():
    offers = parse_offers("sep=;\n" + table({"price": "31,50 €"}, {"length": "8 ft", "price": "1.021,00 €", "most": "4"}, {"length": "6 ft", "price": ""}, sign=";"))
    assert [(o.length, o.price, o.most, o.row) for o in offers.rows] == [(144, F("31.5"), None, 2), (96, 1021, 4, 3), (72, None, None, 4)]
    assert (offers.currency.sign, offers.currency.behind) == ("€", True)
    assert [o.length for o in offers.of(STOCK.swapped(), "6061-T6")] == [72, 96, 144] and not offers.of(STOCK, "6063-T5")


def test_cells_of_a_rack_can_be_copied():
    """The columns of a section are the rack's own: a rack's row reads the same there."""
    columns = "format,leg_a,leg_b,thickness_a,thickness_b,fillet,toe_radius,heel_radius,alloy,length"
    cells = "1,1 1/2 in,1 in,1/8 in,3/16 in,1/8 in,1/16 in,1/32 in,6063-T5,96 in"
    rack = parse_rack(f"{columns},stick_id,kind,trim_1,trim_2\n{cells},S-1,new,0,0")
    (offer,) = parse_offers(f"{columns},note\n{cells},the blue one").rows
    assert (offer.section, offer.alloy, offer.length) == (rack.sticks[0].section, rack.sticks[0].alloy, rack.sticks[0].length)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ({"length": "0"}, "row 2, length: the length to buy is 0: give a length above 0."),
        ({"length": ""}, "row 2, length: there is no length to buy"),
        ({"length": "long"}, "row 2, length: the length to buy"),
        ({"length": "3-Apr"}, "row 2, length: "),
        ({"price": "ask"}, 'row 2, price: "ask" is no price: write a number with its sign'),
        ({"price": "-3"}, "row 2, price: "),
        ({"price": "0"}, 'row 2, price: "0" is nothing'),
        ({"price": "1,250"}, 'row 2, price: "1,250" may be 1250 or 1.250'),
        ({"most": "few"}, 'row 2, most: "few" is no number of lengths'),
        ({"most": "0"}, 'row 2, most: "0" is out of range'),
        ({"most": "2.5"}, 'row 2, most: "2.5" is no number of lengths'),
        ({"most": "9" * 9}, "row 2, most: "),
        ({"thickness_a": "1 in"}, "row 2, thickness_a: "),  # no stick has such a section
        ({"fillet": ""}, "row 2, fillet: there is no fillet radius"),
        ({"leg_b": "x"}, "row 2, leg_b: "),
        ({"alloy": "unknown"}, "row 2, alloy: what is bought has a known alloy"),
        ({"alloy": "steel"}, 'row 2, alloy: "steel" is no alloy with its temper'),
        ({"price": "31", "most": "50"}, 'row 2, most: "31" and "50" may be one price: write 31.50 with a point; or, if there are 50, 31.00 as the price.'),
        ({"price": "$31", "most": "50"}, 'row 2, most: "$31" and "50" may be one price: write 31.50'),
        ({"format": "2"}, "row 2, format: "),
    ],
)
def test_a_wrong_cell_is_told_by_row_and_column(row, says):
    assert f"rack.offers.csv, {says}" in refusal(table(row))


def test_twice_the_same_length_and_two_currencies():
    said = refusal(table({}, {"length": "96 in"}, {"length": "144 in", "leg_a": "3/4 in"}, {"price": "30 EUR", "length": "60"}))
    assert "row 4, length: 144 of this section and alloy is also in row 2: keep one of the two." in said
    assert "row 5, price: the prices are $ (row 2) and EUR (row 5): one list has one currency" in said
    assert "without a sign (row 3)" in refusal(table({}, {"length": "96 in", "price": "20"}))
    turned = {"leg_a": "1 in", "leg_b": "3/4 in"}, {"leg_a": "3/4 in", "leg_b": "1 in"}
    assert "is also in row 2" in refusal(table(*turned))  # an L lies as one likes
    assert len(parse_offers(table({}, {"alloy": "6063-T5"}, {"fillet": "0"})).rows) == 3
    assert parse_offers(table({"price": "31.00", "most": "50"}, {"price": "9", "most": "4", "length": "60"})).rows[0].most == 50
    assert parse_offers(table({"price": "31", "most": "50"}, sign=";")).rows[0].most == 50


def test_so_many_lengths_are_compared():
    assert len(parse_offers(table(*({"length": f"{n} ft"} for n in range(3, 11)))).rows) == 8
    assert "row 10, length: it is length number 9 of 3/4 x 3/4 x 1/8, 6061-T6: at most 8 are compared" in refusal(table(*({"length": f"{n} ft"} for n in range(3, 12))))


def test_all_that_is_wrong_is_told_at_once():
    said = refusal(table({"length": "0", "price": "x"}, {}, {"most": "x"})).splitlines()
    assert [line.split(":")[0] for line in said] == ["rack.offers.csv, row 2, length", "rack.offers.csv, row 2, price", "rack.offers.csv, row 4, most"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "the file is empty"),
        ("a,b\n1,2", "this row must name the columns"),
        (table({}).replace("length", "lenght"), 'unknown column "lenght": did you mean length?'),
        (table({}).replace(",alloy", "").replace(",6061-T6", ""), "there is no column alloy: add it."),
        (table({}).replace("most", "price"), "the column price stands here 2 times"),
        (table({}).replace("$31.50", "31,50 $"), "may be one price: write 31.50 with a point"),
        (table({}).replace("$31.50,", "31,50,4"), "stands beyond the last column"),
        ('format,length\n"1', "not closed"),
    ],
)
def test_what_is_no_list_of_offers(text, says):
    assert says in refusal(text)


def test_a_length_is_refused_with_its_remedy():
    for text, remedy in REMEDIES.items():
        sentence = refusal(table({"length": text}))
        assert sentence.startswith("rack.offers.csv, row 2, length: ") and remedy in sentence, (text, sentence)


def test_it_lies_beside_its_rack(tmp_path):
    path = offers_path(tmp_path / "my-rack.csv")
    assert path.name == "my-rack.offers.csv"
    path.write_bytes(b"PK\x03\x04 xl/workbook.xml")
    with pytest.raises(BenchError, match="a list of offers is a CSV text"):
        read_offers(path)
    path.write_text(table({}))
    assert read_offers(path).file.endswith("my-rack.offers.csv")
