"""The cells of a rack file: one row, read column by column; and what keeps a cell inert in a spreadsheet."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from anglelib.alloy import alloy_meant, is_alloy_name
from anglelib.errors import BenchError
from anglelib.files.dates import date_said
from anglelib.files.report import Report, quoted, sentence
from anglelib.lengths import named_unit, read
from anglelib.names import check_id, check_text
from anglelib.near import did_you_mean

UNKNOWN = "unknown"
"""What stands in the column alloy for a stick that carries no marking."""

_COMPUTED = re.compile(r"'*\s*[=+\-@\t\r]")
_GUARDED = re.compile(r"'+\s*[=+\-@\t\r]")
_FLAGS = {"": False, "no": False, "false": False, "yes": True, "true": True}


def guarded(text: str) -> str:
    """The text as a cell that no spreadsheet computes.

    >>> guarded("=1+1"), guarded("3/4 in"), unguarded(guarded("'=1+1"))
    ("'=1+1", '3/4 in', "'=1+1")
    """
    return f"'{text}" if _COMPUTED.match(text) else text


def unguarded(cell: str) -> str:
    """The text in a cell, without the apostrophe that :func:`guarded` put there."""
    return cell[1:] if _GUARDED.match(cell) else cell


class Row:
    """One row of a rack file and its number as a spreadsheet counts it; ``ok`` turns false at its first problem."""

    def __init__(self, report: Report, number: int, columns: list[str], cells: list[str]):
        self.report, self.number, self.ok = report, number, True
        self._extra = [cell.strip() for cell in cells[len(columns) :] if cell.strip()]
        self._cells = dict(zip(columns, map(unguarded, cells), strict=False))

    def at(self, column: str) -> str:
        """The place of a column in this row."""
        return f"row {self.number}, {column}" if column else f"row {self.number}"

    def problem(self, column: str, message: object) -> None:
        """Report a problem in a column."""
        self.ok = False
        self.report.add(self.at(column), message)

    def cell(self, column: str) -> str:
        """What stands in a column; empty where the row or the file has no such cell."""
        return self._cells.get(column, "").strip()

    def fits(self) -> bool:
        """Whether there is no cell beyond the last column; such a cell is reported."""
        if self._extra:
            self.problem(
                "",
                f"{quoted(self._extra[0])} stands beyond the last column: put quotes round a cell that holds a comma, "
                "and write decimals with a point.",
            )
        return self.ok

    def _checked(self, column: str, check: Callable[[], Any]) -> Any:
        try:
            return check()
        except BenchError as error:
            self.problem(column, sentence(error))
            return None

    # --- kinds of cell ------------------------------------------------------------------------
    def length(self, column: str, what: str, *, zero: bool = True, hint: str = "") -> Fraction | None:
        """A length that must be there [in]; ``hint`` says what an empty cell may have meant."""
        text = self.cell(column)
        if not text:
            return self.problem(column, f"there is no {what}: write it, for example 1 5/8 in{hint}.")
        if (said := date_said(text)) and not named_unit(text):  # 6 feet is none
            return self.problem(column, said)
        return self._checked(column, lambda: read(text, what=what, zero=zero))

    def id(self, column: str, what: str) -> str | None:
        """An id that must be there."""
        if not self.cell(column):
            return self.problem(column, f"there is no {what}: write what is marked on the stick, for example S-01.")
        return self._checked(column, lambda: check_id(self.cell(column), what))

    def text(self, column: str, most: int) -> str | None:
        """Text as it stands, spaces and all."""
        return self._checked(column, lambda: check_text(self._cells.get(column, ""), column, most=most))

    def alloy(self) -> str | None:
        """The alloy that is marked on the stick; empty for one that is not known."""
        found = self.cell("alloy")
        if found.lower() == UNKNOWN:
            return ""
        if not is_alloy_name(found):
            meant = alloy_meant(found)
            remedy = f"did you mean {meant}?" if meant else f"write what is printed on the stick, like 6061-T6, or {UNKNOWN}."
            return self.problem("alloy", f"{quoted(found)} is no alloy with its temper: {remedy}")
        return found

    def choice(self, column: str, what: str, choices: Mapping[str, Any]) -> Any:
        """One of a few words."""
        found = self.cell(column).lower()
        if found not in choices:
            remedy = did_you_mean(found, choices) or f"write {' or '.join(choices)}."
            return self.problem(column, f"the {what} {quoted(self.cell(column))} is unknown: {remedy}")
        return choices[found]

    def whole(self, column: str, what: str, default: int, low: int, high: int) -> int | None:
        """A whole number; an empty cell is the default."""
        found = self.cell(column)
        if not found:
            return default
        if not (found.isascii() and found.isdigit() and low <= int(found[:9]) <= high):
            return self.problem(column, f"the {what} {quoted(found)} is no whole number from {low} to {high}: write how many there are, or leave the cell empty for {default}.")
        return int(found)

    def flag(self, column: str) -> bool | None:
        """yes or no; an empty cell is no."""
        found = self.cell(column).lower()
        if found not in _FLAGS:
            return self.problem(column, f"{quoted(self.cell(column))} is neither: write yes or no.")
        return _FLAGS[found]
