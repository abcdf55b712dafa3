"""Pieces that were sawn, as a person writes them and as the rack's record keeps them; and a mark, which says what was cut.

A piece knows the part that it is for by its description, not only by its id: ``version`` is that of the part as it was when the piece
was cut (:mod:`anglelib.stock.versions`). A revised part is another, until somebody says that the old piece serves.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import BenchError, RackError
from anglelib.lengths import exact, read
from anglelib.names import check_id
from anglelib.part import MOST_QUANTITY
from anglelib.stock.plan import StickPlan
from anglelib.stock.versions import LONG, SIGNS, as_typed

OTHER = "other"
"""The part id of what was used for something else than a listed part."""
AS, FOR, LEAVES, JOB = "as", "for", "leaves", "job"
"""Words of the rack file: before a piece's version, before the one for which it serves, before what is left of it, before the id of its job."""
_VERSION = rf"[{SIGNS}]{{{LONG}}}"
_PIECE = re.compile(
    r"(?:(?P<number>\d{1,4})\s*x\s+)?(?P<id>\S+)(?:\s+at\s+(?P<at>\S.*?))?"
    rf"(?P<spoiled>\s+(?:spoiled|scrap))?(?:\s+leaves\s+(?P<left>\S.*?))?(?:\s+job\s+(?P<job>\S+))?(?:\s+as\s+(?P<version>{_VERSION}))?(?:\s+for\s+(?P<serves>{_VERSION}))?",
    re.IGNORECASE,
)
_BETWEEN = re.compile(r"[;,]")
_ROW = re.compile(r"(?:to\s+)?(?:rows?\s+)?(?:1\s*(?:-|to)\s*)?(\d{1,4})", re.IGNORECASE)


@dataclass(frozen=True)
class Piece:
    """So many equal pieces that were sawn: the part they are for, their sawn length [in], and whether they are spoiled.

    A length of None stands for the blank of the part as the job has it. ``left`` [in] is what of a spoiled piece went back on the rack
    (0: it is scrap). ``job`` is the id of the job that it is for, where its stick was cut for several ("": the stick's). ``version`` is the part's when they were cut ("": nobody knows), ``serves`` the one for which they were taken since.
    """

    part_id: str
    number: int = 1
    length: Fraction | None = None
    spoiled: bool = False
    left: Fraction = Fraction(0)
    version: str = ""
    serves: str = ""
    job: str = ""

    def __post_init__(self) -> None:
        check_id(self.part_id, "part id", RackError)
        if not 1 <= self.number <= MOST_QUANTITY:
            raise RackError(f"{self.number} x {self.part_id} cannot be cut: write a number from 1 to {MOST_QUANTITY}.")

    @property
    def counts_for(self) -> str:
        """The version of the part that it counts for."""
        return self.serves or self.version

    def __str__(self) -> str:
        times = f"{self.number} x " if self.number > 1 else ""
        at = f" at {exact(self.length)}" if self.length is not None else ""
        left = f" leaves {exact(self.left)}" if self.left else ""
        job = f" {JOB} {self.job}" if self.job else ""
        return f"{times}{self.part_id}{at}{' spoiled' if self.spoiled else ''}{left}{job}"


@dataclass(frozen=True)
class Mark:
    """What a builder says was cut from a stick.

    ``planned`` is the stick as the plan of the number ``plan`` has it, where it was cut so; then the rows of its sheet up to ``rows`` are
    done (0: all of them), and ``pieces`` are what all those rows gave.
    """

    stick_id: str
    pieces: tuple[Piece, ...]
    planned: StickPlan | None = None
    plan: str = ""
    rows: int = 0


def pieces_from(text: str, unit: str = "in") -> tuple[Piece, ...]:
    """Pieces as a person writes them; ``unit`` is what a bare number means.

    >>> print(*pieces_from("A4, 2 x A3 at 17 5/16 in; A2L spoiled, A3 spoiled leaves 12"), sep=" | ")
    A4 | 2 x A3 at 17 5/16 | A2L spoiled | A3 spoiled leaves 12
    >>> pieces_from("2 of A3")
    Traceback (most recent call last):
        ...
    anglelib.errors.RackError: "2 of A3" says of no part how many were cut: write it like 2 x A3, or A3 spoiled.
    """
    found = [_piece(words, unit) for words in filter(None, (words.strip() for words in _BETWEEN.split(text)))]
    if not found:
        raise RackError("No part is named: write what was cut, for example 2 x A3.")
    return tuple(found)


def _piece(words: str, unit: str) -> Piece:
    said = _PIECE.fullmatch(words)
    if said is None:
        raise RackError(f'"{words[:40]}" says of no part how many were cut: write it like 2 x A3, or A3 spoiled.')
    part_id, at, left = said["id"], said["at"], said["left"]
    length = read(at, what=f"sawn length of {part_id[:40]}", zero=False, unit=unit) if at else None
    rest = read(left, what=f"what is left of {part_id[:40]}", unit=unit) if left else Fraction(0)
    spoiled = bool(said["spoiled"]) or bool(left)
    return Piece(part_id, int(said["number"] or 1), length, spoiled, rest, as_typed(said["version"] or ""), as_typed(said["serves"] or ""), said["job"] or "")


def mark_from(text: str, unit: str = "in") -> tuple[str, tuple[Piece, ...]]:
    """The stick and its pieces, "S-05: A4, 2 x A3"; no pieces where only the stick is named. ``unit`` is what a bare number means.

    >>> mark_from("S-05")
    ('S-05', ())
    """
    stick_id, rest = stick_from(text)
    return stick_id, pieces_from(rest, unit) if rest is not None else ()


def stick_from(text: str) -> tuple[str, str | None]:
    """The stick that is named, and what is said of it after a colon; None where there is none."""
    stick_id, colon, rest = text.partition(":")
    try:
        check_id(stick_id.strip(), "stick id", RackError)
    except BenchError:
        raise RackError(f'"{text[:40]}" does not begin with a stick: write it like "S-05: A4, 2 x A3".') from None
    return stick_id.strip(), rest if colon else None


def row_from(text: str) -> int | None:
    """The row of a sheet up to which a stick is cut, "3", "row 3", "1 to 3"; None where the words say something else.

    >>> row_from(" 3"), row_from("rows 1 to 4"), row_from("A3"), row_from("2 x A3")
    (3, 4, None, None)
    """
    found = _ROW.fullmatch(text.strip())
    return int(found[1]) if found else None


def pieces_of(planned: StickPlan, rows: int = 0) -> tuple[Piece, ...]:
    """What a planned stick gives, in the order of its cuts, as long as it is parted off there; of the first so many rows of its sheet where they are said."""
    rough = {(p.blank.part.id, p.blank.number): p.before - p.back for p in planned.placed}  # what a hacksaw leaves more, or its room less
    given = [cut.blank for cut in planned.cuts[: rows or None] if cut.blank is not None]
    if not rows or rows >= len(planned.cuts):
        given += [placed.blank for placed in planned.placed if not placed.sawn]
    found: dict[tuple[str, Fraction], int] = {}
    for blank in given:
        key = blank.part.id, blank.length + rough.get((blank.part.id, blank.number), 0)
        found[key] = found.get(key, 0) + 1
    return tuple(Piece(part_id, number, length) for (part_id, length), number in found.items())
