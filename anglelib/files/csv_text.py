"""A CSV text as spreadsheets write it: which sign separates its cells, its rows, the names of its columns.

A first line ``sep=;`` is a spreadsheet's note of that sign: it is read, and no row, because the spreadsheet does not show it either.

>>> report = Report("rack.csv")
>>> table = read_table("sep=;\\nStick ID;Leg A\\nS-01;3/4 in", report, ("stick_id", "leg_a"))
>>> table.sign, table.noted, table.head, table.rows
(';', True, ['Stick ID', 'Leg A'], [(2, ['S-01', '3/4 in'])])
>>> plain("Leg A")
'leg_a'
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from anglelib.contents import with_line_ends
from anglelib.files.report import Report

SEPARATORS = (",", ";", "\t", "|")
_NOTE = re.compile(r"\s*\"?sep=([^\w\s\"']|\t)\"?[,;\t|]*\s*", re.IGNORECASE)


@dataclass(frozen=True)
class CsvTable:
    """The head and the rows that are not empty, each with its number as a spreadsheet counts it; ``noted``: sep= stood in the first line."""

    sign: str
    noted: bool
    head: list[str]
    rows: list[tuple[int, list[str]]]


def plain(name: str) -> str:
    """A column's name however a person types it: "Leg A" is leg_a."""
    return re.sub(r"[\s_-]+", "_", name.strip().strip('"').strip().lower())


def separator(text: str, columns: Collection[str]) -> tuple[str, bool]:
    """What separates the cells, and whether the first line says so; else the sign that finds most of the columns in the first line."""
    lines = [line for line in with_line_ends(text).lstrip("\ufeff").splitlines() if line.strip()]
    if not lines:
        return SEPARATORS[0], False
    if (note := _NOTE.fullmatch(lines[0])) is not None:
        return note[1], True

    def found(sign: str) -> int:
        return sum(plain(cell) in columns for cell in lines[0].split(sign))

    return max(SEPARATORS, key=found), False


def read_table(text: str, report: Report, columns: Iterable[str]) -> CsvTable:
    """The table in a CSV text that is not empty; what is no CSV is a problem of the ``report``'s, after which nothing is read."""
    text = with_line_ends(text).lstrip("\r\n")
    sign, noted = separator(text, tuple(columns))
    if noted:
        text = text.partition("\n")[2].lstrip("\r\n")
    rows: list[list[str]] = []
    try:
        rows.extend(csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True))
    except csv.Error:
        report.stop(
            f"row {len(rows) + 1}",
            'a cell that begins with a quote is not closed, or goes on after it: write "" for a quote inside a cell.',
        )
    head = rows[0] if rows else []
    return CsvTable(sign, noted, head, [(number, cells) for number, cells in enumerate(rows[1:], 2) if any(cell.strip() for cell in cells)])
