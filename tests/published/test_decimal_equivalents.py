"""Decimal equivalents of the fractions of an inch, as every shop chart and rule carries them.

Source: the decimal-equivalent chart printed in machinists' handbooks and on wall charts (common
knowledge; exact, because an inch is 25.4 mm). Status: derived. All 63 rows: the fraction in lowest
terms, the decimal in full, millimetres to four places, halves up.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from anglelib.lengths import decimal, exact, millimetres, read, show

CHART = """
     1/64 .015625  0.3969    1/32 .03125   0.7938    3/64 .046875  1.1906
     1/16 .0625    1.5875    5/64 .078125  1.9844    3/32 .09375   2.3813
     7/64 .109375  2.7781     1/8 .125     3.1750    9/64 .140625  3.5719
     5/32 .15625   3.9688   11/64 .171875  4.3656    3/16 .1875    4.7625
    13/64 .203125  5.1594    7/32 .21875   5.5563   15/64 .234375  5.9531
      1/4 .25      6.3500   17/64 .265625  6.7469    9/32 .28125   7.1438
    19/64 .296875  7.5406    5/16 .3125    7.9375   21/64 .328125  8.3344
    11/32 .34375   8.7313   23/64 .359375  9.1281     3/8 .375     9.5250
    25/64 .390625  9.9219   13/32 .40625  10.3188   27/64 .421875 10.7156
     7/16 .4375   11.1125   29/64 .453125 11.5094   15/32 .46875  11.9063
    31/64 .484375 12.3031     1/2 .5      12.7000   33/64 .515625 13.0969
    17/32 .53125  13.4938   35/64 .546875 13.8906    9/16 .5625   14.2875
    37/64 .578125 14.6844   19/32 .59375  15.0813   39/64 .609375 15.4781
      5/8 .625    15.8750   41/64 .640625 16.2719   21/32 .65625  16.6688
    43/64 .671875 17.0656   11/16 .6875   17.4625   45/64 .703125 17.8594
    23/32 .71875  18.2563   47/64 .734375 18.6531     3/4 .75     19.0500
    49/64 .765625 19.4469   25/32 .78125  19.8438   51/64 .796875 20.2406
    13/16 .8125   20.6375   53/64 .828125 21.0344   27/32 .84375  21.4313
    55/64 .859375 21.8281     7/8 .875    22.2250   57/64 .890625 22.6219
    29/32 .90625  23.0188   59/64 .921875 23.4156   15/16 .9375   23.8125
    61/64 .953125 24.2094   31/32 .96875  24.6063   63/64 .984375 25.0031
"""
WORDS = CHART.split()
ROWS = list(zip(WORDS[::3], WORDS[1::3], WORDS[2::3], strict=True))


def test_the_chart_is_whole():
    assert len(ROWS) == 63 and len({row[0] for row in ROWS}) == 63


@pytest.mark.parametrize("fraction, point, metric", ROWS, ids=[row[0] for row in ROWS])
def test_row(fraction, point, metric):
    value = read(fraction)
    assert value == Fraction(fraction) == read(point) == read("0" + point + '"')
    assert show(value) == show(read(point)) == exact(value) == fraction
    assert decimal(value, 6) == "0" + point.ljust(7, "0")
    assert millimetres(value, 4) == metric
    # The chart's millimetres are rounded: they come back to the same sixty-fourth, not to the same number.
    assert show(read(metric + " mm")) == fraction


@pytest.mark.parametrize("fraction, point, metric", ROWS[::9], ids=[row[0] for row in ROWS[::9]])
def test_row_beyond_an_inch(fraction, point, metric):
    assert read("3 " + fraction) == read("3-" + fraction) == read("3" + point) == 3 + Fraction(fraction)
    assert show(3 + Fraction(fraction)) == "3 " + fraction
