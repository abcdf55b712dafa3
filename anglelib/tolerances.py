"""The limits of a job: how far off each dimension of a finished part may be where the plans give no limits of their own.

:class:`Limits` is the one place that says it; the card, the check print, the readings form, the verdict and the
lessons all ask it. Four rules: the trade's for a job in inches (common practice, no source), ISO 2768-1 m or f,
and one length for everything, this shop's own. The kit's plans outrank them all.

ISO 2768-1:1989, tables 1 (linear dimensions), 2 (radii) and 3 (angles), grades f (fine) and m (medium), read in
copies. The standard's millimetres are kept exactly, as inches.

>>> inch, metric = Limits(), Limits("iso-m")
>>> [str(inch.length(size)) for size in (2, 17, 60)], metric.length(2) / MM
(['1/64', '1/32', '1/16'], Fraction(3, 10))
>>> Limits.named("1/32").length(60), Limits.named("1/32").words
(Fraction(1, 32), "±1/32, this shop's own")
>>> Limits.named("about a bit")
Traceback (most recent call last):
    ...
anglelib.errors.LengthError: The limits "about a bit" are unknown: write inch, ISO 2768-1 m, ISO 2768-1 f, or one length like 1/32.

>>> linear("2 1/8", "m") == Fraction(3, 10) * MM
True
>>> linear("0.01", "m")
Traceback (most recent call last):
    ...
anglelib.errors.LengthError: The dimension 0.01 is below 0.5 mm, where ISO 2768-1 gives no general tolerance: write its limits beside it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from math import isfinite, radians, tan

from anglelib.errors import LengthError
from anglelib.hashed import hashed_once
from anglelib.lengths import MM, decimal, exact, inches, number, own
from anglelib.names import visible

SOURCE = "ISO 2768-1:1989, table 1"
RADIUS_SOURCE = "ISO 2768-1:1989, table 2"
ANGLE_SOURCE = "ISO 2768-1:1989, table 3"
GRADES = {"f": "fine", "m": "medium"}

_SMALLEST = Fraction(1, 2)  # mm
# Up to this size [mm], the deviation either way [hundredths of a mm] in grades f and m; None: no value.
_LINEAR = (
    (3, {"f": 5, "m": 10}),
    (6, {"f": 5, "m": 10}),
    (30, {"f": 10, "m": 20}),
    (120, {"f": 15, "m": 30}),
    (400, {"f": 20, "m": 50}),
    (1000, {"f": 30, "m": 80}),
    (2000, {"f": 50, "m": 120}),
    (4000, {"f": None, "m": 200}),
)
# Up to this radius [mm], the deviation either way [tenths of a mm]; f and m alike. None: however large.
_RADII = ((3, 2), (6, 5), (None, 10))
# Up to this length of the angle's shorter leg [mm], the deviation either way [minutes]; f and m alike.
_ANGULAR = ((10, 60), (50, 30), (120, 20), (400, 10), (None, 5))


def linear(nominal: Fraction | int | str | float, grade: str = "m") -> Fraction:
    """How far a length may be off, either way [in], exactly: ISO 2768-1 table 1.

    ``nominal`` [in] is what the drawing says; a float (a mark that comes from an angle) is taken as
    it is. Raises :class:`~anglelib.errors.LengthError` outside the table or for another grade.

    >>> linear(12, "f") / MM, linear("3 mm") / MM
    (Fraction(1, 5), Fraction(1, 10))
    """
    size, shown = _millimetres(nominal, "dimension", grade)
    if size < _SMALLEST:
        raise LengthError(
            f"The dimension {shown} is below 0.5 mm, where ISO 2768-1 gives no general tolerance: write its limits beside it."
        )
    for most, deviation in _LINEAR:
        if size <= most and deviation[grade] is not None:
            return Fraction(deviation[grade], 100) * MM
    longest = max(most for most, deviation in _LINEAR if deviation[grade] is not None)
    raise LengthError(
        f"The dimension {shown} is over {longest} mm, where ISO 2768-1 grade {grade} ends: write its limits beside it."
    )


def angular(shorter_leg: Fraction | int | str | float, grade: str = "m") -> Fraction:
    """How far an angle may be off, either way [deg], exactly, by the length of its shorter leg [in]: table 3.

    >>> angular("1 1/4"), angular(6)
    (Fraction(1, 2), Fraction(1, 6))
    """
    size, shown = _millimetres(shorter_leg, "shorter leg of the angle", grade)
    if size == 0:
        raise LengthError("The shorter leg of the angle is 0: give its length.")
    return Fraction(next(minutes for most, minutes in _ANGULAR if most is None or size <= most), 60)


def radial(nominal: Fraction | int | str | float, grade: str = "m") -> Fraction:
    """How far a rounding radius may be off, either way [in], exactly: ISO 2768-1 table 2.

    >>> radial("1/4") / MM, radial("1/16") / MM
    (Fraction(1, 1), Fraction(1, 5))
    """
    size, shown = _millimetres(nominal, "radius", grade)
    if size < _SMALLEST:
        raise LengthError(f"The radius {shown} is below 0.5 mm, where ISO 2768-1 gives no general tolerance: write its limits beside it.")
    return Fraction(next(tenths for most, tenths in _RADII if most is None or size <= most), 10) * MM


def _millimetres(value: Fraction | int | str | float, what: str, grade: str) -> tuple[Fraction, str]:
    """The size in millimetres, exactly, and as it is shown in a refusal."""
    if grade not in GRADES:
        raise LengthError(f'There is no grade "{grade}" here: choose f (fine) or m (medium).')
    if isinstance(value, float):
        if not (isfinite(value) and value >= 0):
            raise LengthError(f"The {what} is not a length of metal: give a length above 0.")
        return Fraction(value) / MM, decimal(value)
    value = inches(value, what)
    return value / MM, exact(value)


# --- the limits of a job ----------------------------------------------------------------------------------
INCH, ISO_M, ISO_F, OWN = "inch", "iso-m", "iso-f", "own"
RULES = {INCH: "inch", ISO_M: "ISO 2768-1 m", ISO_F: "ISO 2768-1 f"}
"""The rules that a job may name, with the name that a file writes."""
_GRADE = {ISO_M: "m", ISO_F: "f"}
# What begins so was meant as a length, and is refused as one.
_NUMERIC = re.compile(r"[-+−–—]? ?[.,½¼¾⅓⅔⅐-⅞⅑⅒]?[0-9½¼¾⅓⅔⅐-⅞⅑⅒]")
# Up to this length [in], either way [in]. Common practice: no source.
_BENCH = ((6, Fraction(1, 64)), (24, Fraction(1, 32)), (None, Fraction(1, 16)))
_BENCH_RADIUS = Fraction(1, 32)
_BENCH_ANGLE = Fraction(1, 2)
_BENCH_SQUARE = ((2, Fraction(1, 64)), (None, Fraction(1, 32)))


@hashed_once
@dataclass(frozen=True)
class Limits:
    """How far off the dimensions of a part may be, either way, by one rule for the whole job.

    ``rule`` is an id: "inch" (the trade's: lengths 1/64 in. up to 6 in., 1/32 up to 24, 1/16 above; common practice),
    "iso-m" or "iso-f" (ISO 2768-1), or "own" with ``own``, one length [in] for every dimension. A dimension beyond
    the standard's table is held to the table's nearest row. Raises :class:`~anglelib.errors.LengthError`.
    """

    rule: str = INCH
    own: Fraction | None = None

    def __post_init__(self) -> None:
        if self.rule not in (*RULES, OWN) or (self.rule == OWN) != (self.own is not None):
            raise LengthError(f'The limits "{self.rule}" are unknown: {_CHOICE}.')
        if self.own is not None:
            own = inches(self.own, "limit of a job", zero=False)
            if own > 1:
                raise LengthError(f"A limit of {exact(own)} either way is over 1 in.: check its unit.")
            object.__setattr__(self, "own", own)

    @classmethod
    def named(cls, text: str, unit: str = "in") -> Limits:
        """The limits that a person names: a rule, grade "m" or "f", or one length for everything.

        In a job in millimetres (``unit``) that length says its unit: half an inch for half a millimetre would pass anything.

        >>> Limits.named("iso 2768-1 m") == Limits.named("m") == Limits("iso-m")
        True
        >>> Limits.named("0.5", "mm")
        Traceback (most recent call last):
            ...
        anglelib.errors.LengthError: The limits "0.5" have no unit, in a job in millimetres: write mm or in behind the number.
        """
        plain = " ".join(str(text).lower().split())
        for rule, name in RULES.items():
            if plain in (rule, name.lower(), _GRADE.get(rule, rule)):
                return cls(rule)
        if unit == "mm" and number(plain) is not None:
            raise LengthError(f'The limits "{plain}" have no unit, in a job in millimetres: write mm or in behind the number.')
        try:
            own = inches(str(text), "limit", zero=False)
        except LengthError:
            if _NUMERIC.match(plain):
                raise
            raise LengthError(f'The limits "{visible(str(text))[:30]}" are unknown: {_CHOICE}.') from None
        return cls(OWN, own)

    @classmethod
    def usual(cls, unit: str) -> Limits:
        """What a job has that names none: the trade's rule in inches, ISO 2768-1 m in millimetres."""
        return cls(ISO_M if unit == "mm" else INCH)

    @property
    def name(self) -> str:
        """The limits as a file writes them: :meth:`named` reads them back."""
        return RULES[self.rule] if self.own is None else exact(self.own, unit="mm")

    @property
    def words(self) -> str:
        """The rule in words, for a title block."""
        if self.rule == INCH:
            return "±1/64 to 6 in., ±1/32 to 24, ±1/16 above"
        return RULES[self.rule] if self.own is None else f"±{own(self.own)}, this shop's own"

    # --- by dimension -------------------------------------------------------------------------------------
    def length(self, nominal: Fraction | int | str | float) -> Fraction:
        """Of a length, a run, a width left, a place of a hole [in]."""
        if self.own is not None:
            return self.own
        if self.rule == INCH:
            size = nominal if isinstance(nominal, float) else inches(nominal, "dimension")
            return _row(_BENCH, size)
        return linear(_within(nominal, self.rule), _GRADE[self.rule])

    def radius(self, nominal: Fraction | int | str | float) -> Fraction:
        """Of a rounding radius [in]; in inches 1/32 (common practice)."""
        if self.own is not None:
            return self.own
        return _BENCH_RADIUS if self.rule == INCH else radial(max(inches(nominal, "radius"), _SMALLEST * MM), _GRADE[self.rule])

    def angle(self, shorter_leg: Fraction | int | str | float) -> Fraction:
        """Of the angle of a taper that the plans give by its angle [deg]; by a shop's own rule and in inches half a degree (common practice)."""
        return angular(shorter_leg, _GRADE[self.rule]) if self.rule in _GRADE else _BENCH_ANGLE

    def square(self, leg: Fraction | int | str) -> Fraction:
        """How far an end may lean over the width of a leg [in], apart from the length's limits.

        In inches 1/64 across a leg up to 2 in. wide, 1/32 above (common practice); by ISO 2768-1 the angle of table 3.
        """
        width = inches(leg, "width of the leg", zero=False)
        if self.own is not None:
            return self.own
        if self.rule == INCH:
            return _row(_BENCH_SQUARE, width)
        return Fraction(float(width) * tan(radians(float(angular(width, _GRADE[self.rule]))))).limit_denominator(10**6)


_CHOICE = f"write {', '.join(RULES.values())}, or one length like 1/32"


def _row(rows: tuple, size: Fraction | float) -> Fraction:
    return next(off for most, off in rows if most is None or size <= most)


def _within(nominal: Fraction | int | str | float, rule: str) -> Fraction | float:
    """The dimension, brought within the standard's table."""
    value = nominal if isinstance(nominal, float) else inches(nominal, "dimension")
    grade = _GRADE[rule]
    longest = max(most for most, deviation in _LINEAR if deviation[grade] is not None)
    return min(max(value, _SMALLEST * MM), longest * MM)
