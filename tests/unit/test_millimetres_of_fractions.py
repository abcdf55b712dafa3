"""The sixty-fourths in millimetres, to four places, halves up. Status: derived; an inch is 25.4 mm."""

from __future__ import annotations

import pytest

from anglelib.lengths import millimetres, read, show

# 1/64 to 63/64, as they were worked out apart from the library.
IN_MM = """
     0.3969  0.7938  1.1906  1.5875  1.9844  2.3813  2.7781  3.1750  3.5719  3.9688  4.3656  4.7625  5.1594  5.5563  5.9531  6.3500
     6.7469  7.1438  7.5406  7.9375  8.3344  8.7313  9.1281  9.5250  9.9219 10.3188 10.7156 11.1125 11.5094 11.9063 12.3031 12.7000
    13.0969 13.4938 13.8906 14.2875 14.6844 15.0813 15.4781 15.8750 16.2719 16.6688 17.0656 17.4625 17.8594 18.2563 18.6531 19.0500
    19.4469 19.8438 20.2406 20.6375 21.0344 21.4313 21.8281 22.2250 22.6219 23.0188 23.4156 23.8125 24.2094 24.6063 25.0031
""".split()


@pytest.mark.parametrize("number, metric", list(enumerate(IN_MM, 1)), ids=lambda v: f"{v}")
def test_a_fraction_in_millimetres_and_back(number, metric):
    """Rounded millimetres come back to the same sixty-fourth, not to the same number."""
    fraction = read(f"{number}/64")
    assert millimetres(fraction, 4) == metric
    assert show(read(metric + " mm")) == show(fraction)


def test_none_is_left_out():
    assert len(IN_MM) == 63
