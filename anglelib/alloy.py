"""Alloys: the name that is stamped on a stick, and what a cubic inch of it weighs.

A name is compared as it is written ("6061-T6"): the temper is part of it. Density depends on the
four digits only, so weight can never tell one temper from another, nor 6061 from 6063 (1 %).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from anglelib.errors import SectionError


@dataclass(frozen=True)
class Alloy:
    """A wrought aluminium alloy: its four digits, density [lb/in3], and where the density was read."""

    digits: str
    density: float
    source: str


_TABLES = "Aluminum Association standard tables of densities"
ALLOYS = {
    alloy.digits: alloy
    for alloy in (
        Alloy("6061", 0.0975, _TABLES),
        Alloy("6063", 0.097, _TABLES),
        Alloy("2024", 0.100, _TABLES),
        Alloy("7075", 0.101, "tables of densities, 2.81 g/cm3, which some print as 0.102; check the mill's certificate"),
    )
}
_LOOSELY = re.compile(r"(?:AW|AA|EN|EN AW)?[\s-]*([0-9]{4})[\s_/.-]*([A-Za-z][0-9]{0,5})", re.ASCII | re.IGNORECASE)
_NAME = re.compile(r"[0-9]{4}(-[A-Z][0-9]{0,5})?", re.ASCII)


def density(alloy: str) -> float:
    """What a cubic inch of the alloy weighs [lb/in3].

    >>> density("6061-T6")
    0.0975
    >>> density("8090-T8")
    Traceback (most recent call last):
        ...
    anglelib.errors.SectionError: The density of 8090-T8 is not in the table (6061, 6063, 2024, 7075): weigh a measured length instead.
    """
    known = ALLOYS.get(alloy[:4])
    if known is None:
        raise SectionError(
            f"The density of {alloy or 'an unknown alloy'} is not in the table ({', '.join(ALLOYS)}): "
            "weigh a measured length instead."
        )
    return known.density


def alloy_meant(text: str) -> str:
    """The alloy that a text means when it is written otherwise; "" where it is none.

    >>> alloy_meant("6061-t6"), alloy_meant("6061 T6"), alloy_meant("6061T6"), alloy_meant("alu")
    ('6061-T6', '6061-T6', '6061-T6', '')
    """
    found = _LOOSELY.fullmatch(text.strip())
    meant = f"{found[1]}-{found[2].upper()}" if found else ""
    return meant if meant != text and is_alloy_name(meant) else ""


def is_alloy_name(text: str) -> bool:
    """Whether the text has the form of an alloy and temper.

    >>> is_alloy_name("6061-T6"), is_alloy_name("2024-T3511"), is_alloy_name("alu")
    (True, True, False)
    """
    return _NAME.fullmatch(text) is not None
