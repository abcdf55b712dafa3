"""Decimal equivalents of the fractions of an inch, and inches of the whole millimetres.

Source: N. Hawkins, Self-help mechanical drawing, an educational treatise, "Useful tables for draughtsmen": "Table of decimal equivalents, 8ths,
16ths, 32ds and 64ths of an inch" and "Table of decimal equivalents of millimeters and fractions of millimeters". Status: seen, all 63 rows of the
first, the 49 fiftieths and 26 whole millimetres of the second, five decimals. Millimetres beside fractions, as wall charts have them,
differ in how they round a half; they follow from 25.4 mm and are in the unit tests.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from anglelib.lengths import decimal, exact, read, show

CHART = """
     1/8  .125      1/4  .250      3/8  .375      1/2  .500      5/8  .625      3/4  .750      7/8  .875
     1/16 .0625     3/16 .1875     5/16 .3125     7/16 .4375     9/16 .5625    11/16 .6875    13/16 .8125    15/16 .9375
     1/32 .03125    3/32 .09375    5/32 .15625    7/32 .21875    9/32 .28125   11/32 .34375   13/32 .40625   15/32 .46875
    17/32 .53125   19/32 .59375   21/32 .65625   23/32 .71875   25/32 .78125   27/32 .84375   29/32 .90625   31/32 .96875
     1/64 .015625   3/64 .046875   5/64 .078125   7/64 .109375   9/64 .140625  11/64 .171875  13/64 .203125  15/64 .234375
    17/64 .265625  19/64 .296875  21/64 .328125  23/64 .359375  25/64 .390625  27/64 .421875  29/64 .453125  31/64 .484375
    33/64 .515625  35/64 .546875  37/64 .578125  39/64 .609375  41/64 .640625  43/64 .671875  45/64 .703125  47/64 .734375
    49/64 .765625  51/64 .796875  53/64 .828125  55/64 .859375  57/64 .890625  59/64 .921875  61/64 .953125  63/64 .984375
"""
WORDS = CHART.split()
ROWS = list(zip(WORDS[::2], WORDS[1::2], strict=True))

# Inches of 1/50 to 49/50 mm, then of 1 to 26 mm.
FIFTIETHS = """
    .00079 .00157 .00236 .00315 .00394 .00472 .00551 .00630 .00709 .00787 .00866 .00945 .01024 .01102 .01181 .01260 .01339
    .01417 .01496 .01575 .01654 .01732 .01811 .01890 .01969 .02047 .02126 .02205 .02283 .02362 .02441 .02520 .02598 .02677
    .02756 .02835 .02913 .02992 .03071 .03150 .03228 .03307 .03386 .03465 .03543 .03622 .03701 .03780 .03858
""".split()
MILLIMETRES = """
    .03937 .07874 .11811 .15748 .19685 .23622 .27559 .31496 .35433 .39370 .43307 .47244 .51181
    .55118 .59055 .62992 .66929 .70866 .74803 .78740 .82677 .86614 .90551 .94488 .98425 1.02362
""".split()


def test_the_charts_are_whole():
    assert len({row[0] for row in ROWS}) == 63 and (len(FIFTIETHS), len(MILLIMETRES)) == (49, 26)


@pytest.mark.parametrize("fraction, point", ROWS, ids=[row[0] for row in ROWS])
def test_row(fraction, point):
    value = read(fraction)
    assert value == Fraction(fraction) == read(point) == read("0" + point + '"')
    assert show(value) == show(read(point)) == exact(value) == fraction
    assert decimal(value, 6) == "0" + point.ljust(7, "0")


@pytest.mark.parametrize("fraction, point", ROWS[::9], ids=[row[0] for row in ROWS[::9]])
def test_row_beyond_an_inch(fraction, point):
    assert read("3 " + fraction) == read("3-" + fraction) == read("3" + point) == 3 + Fraction(fraction)
    assert show(3 + Fraction(fraction)) == "3 " + fraction


@pytest.mark.parametrize("number", range(1, 27))
def test_millimetres_in_inches(number):
    printed = MILLIMETRES[number - 1]
    assert decimal(read(f"{number} mm"), 5) == (printed if printed[0] == "1" else "0" + printed)


def test_fiftieths_of_a_millimetre_in_inches():
    assert [decimal(read(f"{number / 50:.2f} mm"), 5) for number in range(1, 50)] == ["0" + printed for printed in FIFTIETHS]
