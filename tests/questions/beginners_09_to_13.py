"""What beginners type at the questions of lessons 09 to 13: each slip's arithmetic is written out here from the numbers in the question."""

from fractions import Fraction as F
from math import atan, cos, pi, sin, sqrt

from tests.questions.beginner_forms import NONE, RIGHT, UNIT, Row, dec, mm, rule

# lesson 09: a leg of 3/4, run 2, left 3/8; the hole 1 7/16 along, 7/16 up, a rivet of 1/8
_ABOVE = float(F(3, 8) + F(3, 16) * F(23, 16) - F(7, 16))
_SQUARE = cos(atan(3 / 16))
_COLD = 5.375 * 60 * 23.6e-6
_ALONG = (1 / 32) / sin(atan(0.75 / 2.125))  # lesson 12: 3/4 high, run 2 1/8, 1/32 square to the line


def _vertex(run: F, leg: F) -> dict[str, float]:
    """The inside marks of a taper to the vertex, 1/8 thick, fillet 1/8."""
    slope = float(run / leg)
    return {
        "mark": slope / 8, "flat": slope / 4, "arc": slope / 4 - slope * pi / 16, "along": sqrt(run**2 - leg**2) / float(leg) / 8, "exchanged": float(leg / run) / 8,
    }  # fmt: skip


_OWN = _vertex(F(33, 8), F(7, 4))
_CODE = _vertex(F(29, 8), F(7, 4))


def _marks(of: dict[str, float]) -> list[Row]:
    return [
        ("0", "M12"), (dec(of["arc"]), "straight-over-fillet"), (dec(of["flat"]), "first-flat-as-vertex"), (rule(of["flat"]), "first-flat-as-vertex"), ("0.125", "offset-as-thickness"),
        (dec(of["along"]), "M19"), (rule(of["along"]), "M19"), (dec(of["exchanged"]), "M20"), (rule(of["mark"]), RIGHT), (mm(of["mark"]), RIGHT), ("0.4", NONE),
    ]  # fmt: skip


ROWS: dict[tuple[str, str], list[Row]] = {
    ("09", "to-the-taper"): [
        (dec(_ABOVE * _SQUARE * 8 - 0.5, 2), "beyond-hole-edge"), ("2.5", "to-untapered-toe"), (dec((_ABOVE - 0.125) * _SQUARE * 8, 2), "M11"), (dec(_ABOVE * _SQUARE * 8, 2), RIGHT),
        ("1.6 D", RIGHT), ("1.75", NONE), ("0", NONE),
    ],
    # 2 1/8 long, the hole at 1 11/16
    ("09", "edge-to-end-2"): [("13.5", "M17"), ("3", "beyond-hole-edge"), ("3.5", RIGHT), ("3 1/2", RIGHT), ("3.6", NONE), ("7/16", NONE)],
    ("09", "metal-beyond"): [("2", "centre-as-hole-edge"), ("1", "whole-diameter-off"), ("2.5", "half-diameter-added"), ("1.5 D", RIGHT), ("1.6", NONE)],
    ("09", "by-the-trap"): [("0", "centre-as-hole-edge"), ("1/8", "whole-diameter-off"), ("1/4", "distance-as-shortfall"), ("1/16", RIGHT), ("3/16", NONE)],
    # a flush rivet of 5/32
    ("09", "least-edge"): [
        (rule(2 * F(5, 32)), "other-head|beyond-hole-edge"), (rule(4 * F(5, 32)), "most-as-least"), (rule(F(25, 64) - F(1, 16)), "M08"), ("25/64", RIGHT), (mm(F(25, 64)), RIGHT), ("13/32", NONE), ("0.4", NONE),
    ],
    # 1/8 thick, fillet 1/8, rivet 1/8
    ("09", "row"): [
        ("1/4", "no-head|no-fillet"), (rule(F(1, 4) + F(1, 16)), "rivet-as-head"), (rule(F(1, 4) + F(1, 4)), "whole-head|M11"), (rule(F(3, 8) + F(1, 4)), "M11"), ("7/16", "M08"), ("3/8", RIGHT),
        ("25/64", NONE),
    ],
    # 1/8 and 1/16, rivet 1/8
    ("09", "rivet"): [
        ("3/16", "nothing-to-drive"), ("5/16", "one-diameter-tail|grip-of-one"), (rule(F(3, 16) + F(1, 4)), "two-diameter-tail"), ("1/4", "M08"), ("3/8", RIGHT), ("9.5 mm", RIGHT), ("9.525", UNIT),
        ("23/64", NONE),
    ],
    # 5 3/8, 60 kelvin warmer
    ("10", "cold-length"): [("5 3/8", "M25"), (dec(5.375 + _COLD), "M25"), (dec(5.375 - _COLD), RIGHT), ("5.37", NONE), ("5.4", NONE)],
    # wanted 0.500, it reads 0.470, the other leg 1/8
    ("10", "off-by"): [
        ("0.07", "M08"), ("0.13", "M08"), ("0.155", "M11"), ("0.47", "reading-as-deviation"), ("0.470", "reading-as-deviation"), (dec(0.03 * 25.4), "M27"), ("0.030", RIGHT), ("0.03", RIGHT), ("0.76 mm", RIGHT),
        ("0.04", NONE), ("0", NONE), ("0.5", NONE),
    ],
    # S-30: 48, dent 29 1/2 to 31, trims 1/4, kerf 1/16, allowance 1/32; the last cut runs into the dent
    ("11", "longest-part"): [
        (rule(48 - F(1, 2) - F(1, 16)), "no-dent"), ("47 1/2", "no-dent-kerf-allowance"), ("29 1/2", "no-trim-kerf-allowance"), ("48", "no-dent-no-trims"),
        (rule(F(59, 2) - F(1, 16)), "no-trim"), (rule(F(59, 2) - F(1, 4)), "no-allowance"), (rule(F(59, 2) - F(1, 4) - F(1, 8)), "one-kerf-too-many"),
        (rule(48 - 31 - F(1, 4) - F(1, 16)), "shorter-side"), ("29 3/16", RIGHT), ("741.4 mm", RIGHT), ("29 13/64", NONE), ("29", NONE), ("30", NONE),
    ],
    ("11", "batch-needs"): [("15", "no-kerf"), (rule(15 + F(2, 16)), "one-kerf-too-few"), (rule(15 + F(4, 16)), "one-kerf-too-many"), ("15 3/16", RIGHT), ("15.2", NONE), ("385.76", UNIT)],
    # 32 5/8, trims 1/16 and 1/16, one part of 17 1/4
    ("11", "left-of-a-stick"): [
        (rule(F(121, 8) + F(1, 8)), "no-trim"), (rule(F(121, 8) + F(1, 16)), "no-kerf|no-allowance|one-kerf-too-few"), (rule(F(261, 8) - F(69, 4)), "no-trims-kerfs-allowances"), ("15 1/8", RIGHT), ("15 9/64", NONE),
    ],
    # 92 1/8 less trims, a part of 91 3/4; its cut runs into the trim
    ("11", "how-short"): [
        (rule(F(1, 8)), "one-kerf-too-many"), (rule(F(92) - F(367, 4)), "no-allowance|no-trim"), (rule(F(737, 8) - F(367, 4)), "no-trims-kerf-allowance"), ("3/16", RIGHT), ("4.8 mm", RIGHT),
        ("7/32", NONE),
    ],
    ("11", "longest-further-part"): [(rule(F(55, 4) - F(1, 8)), "one-kerf-too-many"), ("13.75", "no-allowance"), ("13 11/16", RIGHT), ("13.6", NONE)],
    # run 2 1/8, 3/4 high, 1/32 to sand
    ("12", "saw-line"): [
        ("2 1/8", "M04"), (rule(2.125 + _ALONG), "M13"), (rule(F(17, 8) - F(1, 32)), "allowance-along-toe"), (dec(2.125 - 2 * _ALONG), "M05"), (rule(2.125 - _ALONG), RIGHT), ("2.05", NONE), ("2", NONE),
    ],
    ("12", "far-hole"): [("3 1/2", "M07"), ("5.5", "M07"), (rule(F(43, 8) - F(9, 2)), "M17"), ("4 1/2", RIGHT), ("114.3 mm", RIGHT), ("4 17/32", NONE)],
    ("12", "inside-mark"): [*_marks(_OWN), ("1/8", "straight-over-fillet|offset-as-thickness")],
    # 10 1/4, 3/64 an end, kerf 1/16
    ("12", "blank"): [
        ("10 1/4", "M04"), (rule(F(41, 4) + F(3, 64)), "allowance-one-end"), (rule(F(41, 4) + F(12, 64)), "M05"), (rule(F(41, 4) + F(6, 64) + F(1, 16)), "kerf-in-blank"), (rule(F(41, 4) - F(6, 64)), "allowance-off"),
        ("10 11/32", RIGHT), ("262.73 mm", RIGHT), ("10 23/64", NONE),
    ],
    ("13", "printed-mark"): _marks(_CODE),
    ("13", "exact-mark"): _marks(_CODE),
}  # fmt: skip
