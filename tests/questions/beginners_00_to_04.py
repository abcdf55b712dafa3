"""What beginners type at the questions of lessons 00 to 04: each slip's arithmetic is written out here from the numbers in the question."""

from fractions import Fraction as F
from math import atan, degrees, pi, sqrt

from tests.questions.beginner_forms import NONE, RIGHT, UNIT, Row, dec, mm, rule

_PLAIN = F(5, 4) * F(1, 8) + F(9, 8) * F(1, 8)  # 1 1/4 x 1 1/4 x 1/8, without its fillet of 1/8
_AREA = float(_PLAIN) + (1 - pi / 4) / 64
_WIDE = F(2) * F(1, 8) + F(11, 8) * F(1, 8)  # 2 x 1 1/2 x 1/8, the same
_WIDE_AREA = float(_WIDE) + (1 - pi / 4) / 64
_FOOT = 12 * 0.0975  # pounds for each square inch of section
_LIGHT = degrees(atan(F(1, 32) / F(5, 4)))
_GAPS = [F(3, 4), F(21, 16), F(21, 16), F(21, 16)]
_RUNNING = [
    (rule(sum(_GAPS[1:])), "from-first-mark"), (rule(sum(_GAPS[:-1])), "last-gap-missed"), (rule(_GAPS[-1]), "gap-as-running"),
    (rule(sum(_GAPS) - 1), "M07"), (rule(sum(_GAPS) + 1), "M07"), (rule(sum(_GAPS) - F(1, 16)), "M08"),
]  # fmt: skip

ROWS: dict[tuple[str, str], list[Row]] = {
    # the rule shows 5 3/8 and began at 1
    ("00", "from-the-1-inch-mark"): [
        ("5 3/8", "M07"), (dec(F(43, 8) + 1), "M07"), ("4 3/8", RIGHT), (" 4-3/8 in ", RIGHT), ("111.1 mm", RIGHT), ("111.125", UNIT), ("4 13/32", NONE),
        ("61 3/4", NONE), ("5", NONE), ("0", NONE),
    ],
    # wanted 11/16; 1/8 thick, fillet 1/8; measured from the inside corner
    ("00", "predict-the-hole"): [
        ("11/16", "no-difference"), ("0.69", "no-difference"), (rule(F(11, 16) - F(1, 8)), "taken-off"), (rule(F(11, 16) + F(1, 8) + F(1, 8)), "M11"), ("13/16", RIGHT),
        ("20.64 mm", RIGHT), (".81", RIGHT), ("27/32", NONE), ("0.7", NONE),
    ],
    # P 1, Q 5 5/8, end 2 at 8 1/2
    ("00", "predict-the-gap"): [
        ("5 5/8", "running-as-gap"), (mm(F(45, 8)), "running-as-gap"), (rule(F(45, 8) + 1), "running-added"), (dec(F(17, 2) - F(45, 8)), "M17"), ("37/8", RIGHT), ("4.6", NONE),
        ("117.475", UNIT),
    ],
    ("00", "to-end-2"): [
        ("5 5/8", "from-datum"), (dec(F(17, 2) - 1 - F(45, 8)), "running-added"), ("7.5", "wrong-hole"), ("2⅞", RIGHT), ("73 mm", RIGHT), ("2 29/32", NONE), ("3", NONE),
    ],
    ("00", "last-step"): [("5.625", "from-datum"), ("1 7/8", "running-added"), ("7 1/2", "wrong-hole"), ("2.875", RIGHT), ("2.9", NONE)],
    # wanted 7/8; 1/8 thick, fillet 3/16; from the inside corner
    ("00", "corner"): [
        ("7/8", "no-difference"), ("3/4", "taken-off"), (rule(F(7, 8) + F(3, 16)), "own-place-only"), (rule(F(7, 8) + F(1, 8) + F(3, 16)), "M11"), ("1", RIGHT), ("25.4 mm", RIGHT),
        ("1 1/32", NONE),
    ],
    # wanted 3/4; 3/16 thick, fillet 3/16; from the fillet's edge
    ("00", "edge"): [
        ("3/4", "no-difference"), (rule(F(3, 4) - F(3, 8)), "taken-off"), (rule(F(3, 4) + F(3, 16)), "own-place-only|M11"), ("1 1/8", RIGHT), ("1.1", NONE), ("1 5/32", NONE),
    ],
    # P 13/16, Q 4 7/8, end 2 at 6
    ("00", "gap"): [
        ("4 7/8", "running-as-gap"), (rule(F(13, 16) + F(39, 8)), "running-added"), (rule(6 - F(39, 8)), "M17"), ("4 1/16", RIGHT), ("4.0625", RIGHT), ("4 1/8", NONE),
    ],
    # beam 3/4, line 1 of the vernier
    ("01", "predict-the-reading"): [
        ("3/4", "M08"), (dec(F(3, 4)), "M08"), (rule(F(97, 128) + F(1, 16), 128), "M08"), (rule(F(3, 4) + F(1, 64)), "M08"), ("13/16", "M08"), ("97/128", RIGHT), ("0.758", RIGHT),
        ("0.77", NONE), ("1", NONE),
    ],
    ("01", "last-step"): [
        (dec((_AREA + 1 / 64) * _FOOT), "corner-twice"), (dec(float(_PLAIN) * _FOOT), "no-fillet"), (dec(_AREA * 12 * 0.1), "M24"), (dec(_AREA * 0.0975), "inch-for-foot"),
        (dec(_AREA * 12), "no-density"), (dec(_AREA * 12, 1), "no-density"), (dec(_AREA * _FOOT), RIGHT), ("0.35 lb/ft", RIGHT), ("0.523 kg/m", RIGHT), ("0.354", NONE), ("0.3", NONE),
    ],
    # 5/8 from the inner face; 1/8 thick, fillet 1/8
    ("01", "inside-reading"): [
        ("5/8", "M11"), ("0.625", "M11"), (rule(F(5, 8) - F(1, 8)), "M11"), ("7/8", "M11"), ("11/16", "M08"), ("13/16", "M08"), ("3/8", "M08"), ("3/4", RIGHT), ("19.05 mm", RIGHT),
        ("49/64", NONE),
    ],
    # beam 11/16, line 6
    ("01", "vernier"): [
        ("11/16", "M08"), (rule(F(47, 64) + F(1, 16)), "M08"), (rule(F(11, 16) + F(6, 64)), "M08"), (rule(F(11, 16) + F(6, 16)), "M08"), ("94/128", RIGHT), ("0.734", RIGHT),
        ("23/32", NONE), ("0.7", NONE),
    ],
    # beam 1.4, hand at 71
    ("01", "dial"): [
        ("1.4", "M08"), ("0.071", "M08"), ("1.571", "M08"), ("1.371", "M08"), ("1.4071", "M08"), ("1.471", RIGHT), ("37.36 mm", RIGHT), ("1.472", NONE), ("1.47", NONE),
        ("1 13/32", NONE),
    ],
    ("01", "weight"): [
        (dec((_WIDE_AREA + 1 / 64) * _FOOT), "corner-twice"), (dec(float(_WIDE) * _FOOT), "no-fillet"), (dec(_WIDE_AREA * 12 * 0.1), "M24"),
        (dec(_WIDE_AREA * 0.0975, 4), "inch-for-foot"), (dec(_WIDE_AREA * 12), "no-density"), (dec(_WIDE_AREA * _FOOT), RIGHT), ("0.505", NONE),
    ],
    # beam 0.1, hand at 27
    ("02", "caliper-again"): [("0.1", "M08"), ("0.027", "M08"), ("0.227", "M08"), ("0.1027", "M08"), (".127 in", RIGHT), ("3.226 mm", RIGHT), ("0.13", NONE), ("1/8", NONE)],
    ("02", "how-many-parts"): [("4", "description-as-part"), ("1", "turned-as-mirrored"), ("3 pieces", "leg-as-another-part"), ("2", RIGHT), ("8", NONE), ("0", NONE)],
    # light 1/32 on 1 1/4
    ("03", "angle"): [
        (dec(90 - _LIGHT, 1), "M20"), ("0.025", "slope-as-degrees"), (dec(2 * _LIGHT, 2), "both-sides"), (dec(2 * _LIGHT, 1), "both-sides"), ("1.43", RIGHT), ("1.4 degrees", RIGHT),
        ("1° 26'", RIGHT), ("0", NONE), ("0.1", NONE), ("1/32", NONE), ("0.03", NONE), ("1.6", NONE),
    ],
    # 1/32 at the heel, 1/32 at the toe
    ("03", "trim"): [("0", "errors-cancel"), ("1/32", "larger-error-only"), ("0.79 mm", "larger-error-only"), ("0.8 mm", NONE), ("1/16", RIGHT), ("1.6 mm", RIGHT), ("5/64", NONE), ("3/64", NONE)],
    ("03", "trim-of-one-sense"): [("0.000", "errors-cancel"), ("1/16", "errors-added"), ("1/32", RIGHT), ("0.034", RIGHT), ("3/64", NONE)],
    ("03", "last-step"): [("0", "errors-cancel"), ("1/32", "larger-error-only"), ("2/32", RIGHT), ("1/64", NONE)],
    ("03", "lines-part"): [("1/32", "error-as-gap"), ("0", "flip-cancels"), ("1/8", "gap-doubled-twice"), ("0.0625", RIGHT), ("3/32", NONE)],
    # the lines 1/32 apart
    ("03", "error-of-the-square"): [("1/32", "gap-as-error"), (rule(2 * F(1, 32)), "gap-doubled"), ("1/64", RIGHT), ("0.016", RIGHT), ("0.02", NONE), ("3/64", NONE)],
    ("03", "two-readings"): [("1/16", "first-reading"), ("1/32", "second-reading"), (rule(F(1, 16) + F(1, 32)), "readings-not-halved"), ("3/64", RIGHT), ("0.04", NONE)],
    ("03", "datum"): [("1 1/4", "M16"), (rule(F(5, 4) + F(1, 32)), "dressing-wrong-way"), ("1 7/32", RIGHT), (mm(F(39, 32)), RIGHT), ("1 13/64", NONE)],
    ("04", "twisted"): [("0", "errors-cancel"), ("1/64", "larger-error-only"), ("1/32", RIGHT), ("1/16", NONE)],
    # eight steps, each 1/64 wide
    ("04", "off-by"): [
        ("1/64", "one-step-error"), (rule(7 * F(1, 64)), "first-step-missed"), (dec(sqrt(8) / 64), "errors-as-independent"), ("0", "errors-cancel"), ("1/8", RIGHT), ("8/64", RIGHT),
        ("9/64", NONE),
    ],
    ("04", "last-running"): [*_RUNNING, (rule(sum(_GAPS)), RIGHT), (mm(sum(_GAPS)), RIGHT), ("4 45/64", NONE)],
    ("04", "last-step"): [*_RUNNING, ("75/16", RIGHT), ("4.7", NONE)],
    # the rule shows 3 3/8
    ("04", "length-from-one"): [("3 3/8", "M07"), ("1.375", "M07"), ("2 5/16", "M08"), ("2 3/4", "M08"), ("2 3/8", RIGHT), ("60.3 mm", RIGHT), ("60.325", UNIT), ("2 25/64", NONE)],
    # wanted 2 11/64 on 6 3/4
    ("04", "set"): [
        ("1 11/64", "M07"), ("3 11/64", "M07"), ("2 7/64", "M08"), (rule(F(27, 4) - F(139, 64)), "M17"), (dec(F(139, 64) / F(254, 10), 4), "M27"), ("2 11/64", RIGHT), ("2 3/16", NONE),
        ("2.2", NONE),
    ],
    ("04", "from-one"): [("2 11/64", "M07"), ("4 11/64", "M07"), ("3 7/64", "M08"), ("3 11/64", RIGHT), ("3 13/64", NONE)],
    ("04", "misprint"): [("0", "misprint-trusted"), ("0.0125", "misprint-as-error"), ("1/8", "place-as-error"), ("0.1125", RIGHT), ("0.113", RIGHT), ("3/32", NONE)],
    ("04", "millimetres"): [
        (rule(F(41, 16)), "M27"), ("41", "M27"), (dec(F(41, 25), 2), "divided-by-25"), ("1 39/64", RIGHT), ("41 mm", RIGHT), ("1.614", RIGHT), ("1 5/8", RIGHT), ("1 37/64", NONE),
    ],
    # 3/8 from the heel, 1/8 thick, 1 1/4 wide
    ("04", "hooked-inside"): [("3/8", "M11"), (rule(F(3, 8) + F(1, 8)), "thickness-wrong-way"), (rule(F(5, 4) - F(3, 8)), "from-toe"), ("1/4", RIGHT), ("6.35 mm", RIGHT), ("6.35", UNIT), ("9/32", NONE)],
    # 4 1/4 from end 1, the line at 2 1/2
    ("04", "from-witness"): [("4 1/4", "M16"), (rule(F(17, 4) + F(5, 2)), "witness-added"), ("2.5", "witness-own"), ("1 3/4", RIGHT), ("44.45 mm", RIGHT), ("1 25/32", NONE)],
}  # fmt: skip
