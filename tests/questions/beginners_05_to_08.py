"""What beginners type at the questions of lessons 05 to 08: each slip's arithmetic is written out here from the numbers in the question."""

from fractions import Fraction as F
from math import asin, atan, degrees, hypot, pi, radians, sqrt, tan

from tests.questions.beginner_forms import NONE, RIGHT, UNIT, Row, dec, mm, rule

# lesson 06: leg 1 1/2, run 2 7/8, width left 9/16, 3/16 thick
_RUN, _LEG, _LEFT = F(23, 8), F(3, 2), F(9, 16)
_HIGH = _LEG - _LEFT
_ANGLE = degrees(atan(_HIGH / _RUN))
_TOE = F(11, 16) / tan(radians(21))  # 1 1/4 less 9/16 high, at 21 degrees
_SHRINKS = 17.25 * 40 * 23.6e-6


def _inside(run: F, height: F, thick: F, fillet: F, left: F = F(0)) -> dict[str, float]:
    """The marks of an inside line, right and wrong: thickness or flat above the width left, times run over height."""
    slope = float(run / height)
    flat = slope * float(thick + fillet - left)
    return {
        "mark": slope * float(thick - left), "flat": flat, "arc": flat - slope * float(fillet) * pi / 2,
        "along": sqrt(run**2 - height**2) / float(height) * float(thick - left), "exchanged": float(height / run * (thick - left)),
    }  # fmt: skip


_HINGE = _inside(F(17, 8), F(5, 4), F(1, 8), F(1, 8))
_PROJECT = _inside(F(13, 8), F(5, 4), F(3, 16), F(3, 16))
_TWO = _inside(F(5, 2), F(3, 2) - F(1, 16), F(1, 4), F(3, 16), F(1, 16))  # leg B is 1/4 thick, leg A 1/8
_SLOPE = float(F(19, 8) / F(17, 16))  # run 2 3/8, leg 1 1/4, left 3/16; the flat begins 1/4 from the heel
_DEEP = float(F(7, 8) / F(23, 32))  # run 7/8, leg 1, left 9/32; the flat begins 5/16 from the heel

ROWS: dict[tuple[str, str], list[Row]] = {
    # the line at 4 3/4, the kerf 1/16
    ("05", "splits"): [("4 3/4", "saw-on-line"), (rule(F(19, 4) - F(1, 16)), "M01"), (rule(F(19, 4) + F(1, 32)), "kerf-added"), ("4 23/32", RIGHT), ("119.86 mm", RIGHT), ("4 21/32", NONE)],
    # back 0.035, set 0.012 each way
    ("05", "kerf_of_blade"): [
        ("0.035", "gauge-as-kerf"), ("35", "gauge-as-kerf"), ("47", "set-one-side"), ("0.047", "set-one-side"), ("83", "set-twice"), ("59", RIGHT), ("0.059", RIGHT), ("59 thou", RIGHT),
        ("1.5 mm", RIGHT), ("63", NONE), ("0.05", NONE), ("5", NONE), ("1/16", NONE),
    ],
    # 6.000 sawn into 2.972 and 2.962
    ("05", "test_cut"): [
        ("3.028", "no-second-piece"), ("3038", "no-second-piece"), ("33", "half-kerf"), ("132", "kerf-doubled"), ("0.132", "kerf-doubled"), ("10", "difference-of-pieces"), ("66", RIGHT),
        ("0.066", RIGHT), (" 66 thousandths ", RIGHT), ("1.68 mm", RIGHT), ("70", NONE), ("7", NONE), ("66 mm", NONE), ("0.1", NONE), ("0", NONE),
    ],
    # 4 3/4, both ends 1/16, kerf 3/64
    ("05", "blank"): [
        (rule(F(39, 8) + F(3, 64)), "M01"), (rule(F(19, 4) + F(3, 64)), "M01"), ("4 3/4", "M04"), (rule(F(19, 4) + F(1, 16)), "M04"), ("5", "M05"), (rule(F(19, 4) - F(1, 8)), "allowance-off"),
        ("4 7/8", RIGHT), ("123.8 mm", RIGHT), ("123.825", UNIT), ("4 57/64", NONE), ("4.9", NONE),
    ],
    # 4 3/4, one end 3/64, kerf 1/16
    ("05", "blank-one-end"): [
        (rule(F(307, 64) + F(1, 16)), "M01"), (rule(F(19, 4) + F(1, 16)), "M01"), ("4 3/4", "M04"), (rule(F(19, 4) + F(3, 32)), "M05"), (rule(F(19, 4) - F(3, 64)), "allowance-off"),
        ("4 51/64", RIGHT), ("4.8", RIGHT), ("4 25/32", NONE),
    ],
    ("05", "batch_mark"): [(rule(4 * F(63, 16)), "M06"), (rule(4 * F(4)), "kerf-too-many"), ("15 15/16", RIGHT), ("15 29/32", NONE), ("15.9", NONE)],
    ("05", "middle_piece"): [("3 15/16", "M06"), (rule(F(63, 16) - F(1, 32)), "M02"), (rule(F(63, 16) - F(1, 8)), "M03"), ("3 7/8", RIGHT), ("3 27/32", NONE)],
    ("05", "crossing_at_the_line"): [("0", "saw-on-line"), ("50", "one-place-of-cut"), ("5", "twice-the-scatter"), ("56", RIGHT), ("58 cuts", RIGHT), ("62", NONE), ("48", NONE)],
    ("05", "metal_heel_up"): [("1/8", "thickness-square"), ("0.25", "both-legs"), (dec(0.125 / sqrt(2)), "slant-shorter"), ("0.177", RIGHT), ("4.5 mm", RIGHT), ("0.15", NONE), ("0.2", NONE)],
    # 17 1/4, 40 degrees warmer
    ("05", "cold_length"): [
        ("17 1/4", "M25"), (dec(17.25 + _SHRINKS), "shrinking-as-growing"), (dec(17.25 - 10 * _SHRINKS), "M25"), (dec(17.25 - _SHRINKS), RIGHT), ("17.24", NONE), ("17.2", NONE), ("17", NONE),
    ],
    ("06", "height"): [("1 1/2", "no-width-left"), ("9/16", "width-left-as-height"), (rule(_HIGH - F(3, 16)), "M11"), ("15/16", RIGHT), ("23.8 mm", RIGHT), ("23.8125", UNIT), ("61/64", NONE)],
    ("06", "along_slope"): [
        ("2 7/8", "run-either-way"), (dec(hypot(_RUN, _HIGH), 2), "right-line-length"), (rule(hypot(_RUN, _HIGH)), "right-line-length"), (dec(_HIGH**2 / _RUN), "M20"),
        (dec(sqrt(_RUN**2 - _HIGH**2)), RIGHT), ("2 23/32", RIGHT), ("2 3/4", NONE),
    ],
    ("06", "angle"): [
        (dec(90 - _ANGLE, 1), "M20"), ("72", "M20"), (dec(degrees(asin(_HIGH / _RUN)), 1), "M19"), (dec(degrees(atan(_LEG / _RUN)), 2), "no-width-left"), (dec(_ANGLE, 1), RIGHT),
        ("18 deg", RIGHT), ("18.5", NONE), ("28", NONE), ("30", NONE),
    ],
    ("06", "from_square"): [
        (dec(_ANGLE, 1), "M20"), (dec(180 - _ANGLE, 1), "180-for-90"), (dec(90 + _ANGLE, 1), "added-to-square"), (dec(90 - _ANGLE, 1), RIGHT), ("71° 56'", RIGHT), ("70", NONE),
    ],
    ("06", "square_reading"): [
        (dec(_ANGLE, 1), "M20"), (dec(90 - degrees(asin(_HIGH / _RUN)), 2), "M19"), (dec(90 - degrees(atan(_LEG / _RUN)), 1), "no-width-left"), ("72", RIGHT), ("62", NONE), ("71.5", NONE),
    ],
    ("06", "toe_mark"): [
        (rule(sqrt(_TOE**2 - 0.6875**2)), "M19"), (rule(hypot(_TOE, 0.6875)), "M19"), (dec(0.6875**2 / _TOE), "M20"), (rule(1.25 / tan(radians(21))), "no-width-left"), (rule(_TOE), RIGHT),
        (mm(_TOE), RIGHT), ("1 53/64", NONE), ("1.7", NONE),
    ],
    ("06", "per_foot"): [
        (dec(2 * degrees(atan(3 / 12)), 2), "round-work-table"), (dec(degrees(atan(3 / 12)), 1), "half-round-work"), (dec(degrees(atan(2)), 1), "M20"), ("26.57", RIGHT), ("26.5", RIGHT),
        ("30", NONE), ("27", NONE),
    ],
    # the hinge bracket: 1 1/4, run 2 1/8, 1/8 thick, fillet 1/8
    ("07", "predict-the-mark"): [
        ("0", "M12"), ("0 mm", "M12"), (dec(_HINGE["arc"]), "straight-over-fillet"), ("3/32", "straight-over-fillet"), (dec(_HINGE["flat"]), "first-flat-as-vertex"),
        (rule(_HINGE["flat"]), "first-flat-as-vertex"), ("1/8", "offset-as-thickness"), (rule(_HINGE["along"]), "M19"), (dec(_HINGE["along"], 2), "M19"), (dec(_HINGE["exchanged"]), "M20"),
        ("7/32", RIGHT), ("0.2125", RIGHT), ("5.4 mm", RIGHT), ("1/4", NONE), ("3/16", NONE), ("1/16", NONE), ("0.1", NONE), ("1", NONE),
    ],
    ("07", "predict-what-is-left"): [("0", "corner-as-vertex"), (rule(F(1, 8) + F(1, 8)), "fillet-counted-in"), ("1/8", RIGHT), ("3.2 mm", RIGHT), ("5/32", NONE)],
    ("07", "last-step"): [
        ("0", "M12"), (dec(_HINGE["arc"]), "straight-over-fillet"), (rule(_HINGE["flat"]), "first-flat-as-vertex"), ("0.125", "offset-as-thickness"), (dec(_HINGE["along"]), "M19"),
        (dec(_HINGE["exchanged"], 4), "M20"), ("0.213", RIGHT), ("0.3", NONE),
    ],
    ("07", "first-flat-mark"): [
        ("1/4", "offset-as-thickness"), (dec(0.0625 / _SLOPE), "M20"), (rule(F(1, 4) * F(19, 8) / F(5, 4)), "no-width-left"), (dec(0.25 * _SLOPE), "no-width-left"), ("9/64", RIGHT), ("11/64", NONE),
    ],
    ("07", "project"): [
        ("0", "M12"), (dec(_PROJECT["arc"]), "straight-over-fillet"), (dec(_PROJECT["flat"]), "first-flat-as-vertex"), ("3/16", "offset-as-thickness"), (dec(_PROJECT["along"]), "M19"),
        (dec(_PROJECT["exchanged"]), "M20"), ("1/4", RIGHT), ("0.244", RIGHT), ("7/32", NONE),
    ],
    ("07", "two-thicknesses"): [
        (dec(float(F(5, 2) / F(23, 16)) / 16), "own-thickness"), ("7/64", "own-thickness|M20"), (dec(_TWO["arc"]), "straight-over-fillet"), (rule(_TWO["flat"]), "first-flat-as-vertex"),
        ("1/4", "offset-as-thickness"), (rule(_TWO["along"]), "M19"), (dec(_TWO["exchanged"], 4), "M20"), (rule(F(1, 4) * F(5, 3)), "no-width-left"), (dec(_TWO["mark"]), RIGHT), ("19/64", NONE),
    ],
    ("07", "in-the-fillet"): [
        ("5/16", "offset-as-thickness"), (dec(sqrt(0.875**2 - 0.71875**2) / 0.71875 / 32), "M19"), (rule(F(5, 16) * F(7, 8)), "no-width-left"), (dec(0.3125 * _DEEP), "no-width-left"), ("1/32", RIGHT),
        ("3/32", NONE),
    ],
    # 4 3/4 long, run 2 1/8, 1/32 an end, kerf 1/16
    ("08", "lost-when-cut-first"): [
        (rule(F(17, 8) + F(1, 16) + F(1, 32)), "only-cut-lost"), ("4 3/4", "no-allowance-no-kerf"), (rule(F(19, 4) + F(1, 16)), "no-kerf"), (rule(F(19, 4) + F(1, 8) + F(1, 16)), "M05"),
        ("2 1/8", "run-only"), ("4 7/8", RIGHT), ("4 29/32", NONE),
    ],
    ("08", "lost-on-the-stick"): [
        ("4 7/8", "length-first"), ("2 1/8", "run-only"), (rule(F(17, 8) + F(1, 32)), "no-kerf"), (rule(F(17, 8) + F(1, 16)), "no-squaring"), (rule(F(17, 8) + F(1, 8)), "M05"), ("2 7/32", RIGHT),
        ("56.36 mm", RIGHT), ("2 15/64", NONE),
    ],
    ("08", "done-again"): [("4", "only-failed-counted"), ("6", "cards-as-operations|length-first"), ("9", RIGHT), ("7", NONE)],
    # 4 1/4 on 4 3/4, dressed by 1/16
    ("08", "dressed-after"): [("4 1/4", "M16"), (rule(F(17, 4) + F(1, 16)), "dressing-added"), (rule(F(19, 4) - F(67, 16)), "M17"), ("4 3/16", RIGHT), ("106.36 mm", RIGHT), ("4 13/64", NONE)],
    ("08", "before-dressing"): [("4 1/4", "M16"), (rule(F(17, 4) + F(1, 8)), "M16"), (rule(F(19, 4) - F(17, 4)), "M17"), ("4 5/16", RIGHT), ("4 19/64", NONE)],
}  # fmt: skip
