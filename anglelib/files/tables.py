"""One table of a job file, read key by key: what is missing or wrong becomes a problem at its key."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from anglelib.errors import BenchError
from anglelib.files.dates import date_said
from anglelib.files.report import Report, quoted, sentence
from anglelib.files.syntax import Unquoted
from anglelib.lengths import millimetres, read, typed
from anglelib.names import check_id, check_text
from anglelib.near import did_you_mean

Values = Mapping[str, Any]
_ABSENT = object()


class Table:
    """The values of one table and its place ("part A1L"); ``ok`` turns false at its first problem.

    Every reading method returns None where it has reported a problem.
    """

    def __init__(self, report: Report, values: Values, place: str, unit: str = "in"):
        self.report, self.values, self.place = report, values, place
        self.unit = unit  # what a number without a unit means
        self.ok = True
        self.meant: set[str] = set()

    def at(self, key: str) -> str:
        """The place of a key in this table; "" is the table itself."""
        return ", ".join(text for text in (self.place, key) if text)

    def problem(self, key: str, message: object) -> None:
        """Report a problem at a key."""
        self.ok = False
        self.report.add(self.at(key), message)

    def known(self, *keys: str) -> None:
        """Report every key that does not belong here."""
        self.meant = self.report.unknown(self.values, keys, self.place, "key")
        self.ok = self.ok and all(key in keys for key in self.values)

    def _get(self, key: str, example: str, default: Any, hint: str = "") -> Any:
        """The value of a key; its absence is a problem where there is no default."""
        value = self.values.get(key, default)
        if value is _ABSENT:
            if key in self.meant:
                self.ok = False  # misspelt, which is reported
            else:
                self.problem(key, f"it is missing: write it, for example {key} = {example}{hint}.")
            return None
        return value

    def _checked(self, key: str, check: Callable[[], Any]) -> Any:
        try:
            return check()
        except BenchError as error:
            self.problem(key, sentence(error))
            return None

    # --- kinds of value -----------------------------------------------------------------------
    def length(self, key: str, what: str, example: str, *, zero: bool = True, hint: str = "") -> Fraction | None:
        """A length that must be given [in], text in the file; ``hint`` says what its absence may have meant.

        ``example`` is in inches; a table in millimetres shows it in whole ones.
        """
        example = example if self.unit == "in" else millimetres(read(example), 0)
        value = self._get(key, f'"{example}"', _ABSENT, hint)
        if value is None:
            return None
        if isinstance(value, (int, Unquoted)) and not isinstance(value, bool):
            return self.problem(key, f"the {what} {quoted(value)} is a bare number: write it in quotes, {key} = {quoted(value)}.")
        if said := date_said(str(value), cells=False) if isinstance(value, str | datetime.date) else "":
            return self.problem(key, said)
        if not isinstance(value, str):
            return self.problem(key, f'the {what} is {quoted(value)}: write a length in quotes, {key} = "{example}".')
        return self._checked(key, lambda: typed(value, self.unit, what=what, zero=zero))

    def text(self, key: str, what: str, most: int, example: str | None = None) -> str | None:
        """Text: names and notes. Without an example it may be left out, and is then empty."""
        value = self._get(key, f'"{example}"', _ABSENT if example else "")
        if value is None:
            return None
        if not isinstance(value, str) or isinstance(value, Unquoted):
            return self.problem(key, f"the {what} is {quoted(value)}: write it as text in quotes.")
        if example and not value.strip():
            return self.problem(key, f'the {what} is empty: write it, for example "{example}".')
        return self._checked(key, lambda: check_text(value, what, most=most))

    def id(self, key: str, what: str, example: str | None = None) -> str | None:
        """An id; without an example it may be left out, and is then empty."""
        value = self._get(key, f'"{example}"', _ABSENT if example else "")
        if value is None or (value == "" and not example):
            return value
        if not isinstance(value, str) or isinstance(value, Unquoted):
            return self.problem(key, f"the {what} is {quoted(value)}: write it as text in quotes.")
        return self._checked(key, lambda: check_id(value, what))

    def choice(self, key: str, what: str, choices: tuple, default: Any = _ABSENT) -> Any:
        """One of a few values."""
        listed = [f'"{c}"' if isinstance(c, str) else str(c) for c in choices]
        value = self._get(key, " or ".join(listed), default)
        if value is None or (value is default and default is not _ABSENT):
            return value
        if isinstance(value, bool) or value not in choices or type(value) not in {type(c) for c in choices}:
            meant = did_you_mean(value, [c for c in choices if isinstance(c, str)], '"') if isinstance(value, str) else ""
            remedy = meant or f"write {' or '.join(listed)}."
            return self.problem(key, f"the {what} {quoted(value)} is unknown: {remedy}")
        return value

    def flag(self, key: str, what: str) -> bool | None:
        """true or false, without quotes; false where it is left out."""
        value = self.values.get(key, False)
        if not isinstance(value, bool):
            return self.problem(key, f"{what} is {quoted(value)}: write true or false, without quotes.")
        return value

    def whole(self, key: str, what: str, default: int, least: int, most: int) -> int | None:
        """A whole number within limits."""
        value = self.values.get(key, default)
        if isinstance(value, bool) or not isinstance(value, int):
            return self.problem(key, f"the {what} {quoted(value)} is not a whole number: write {key} = {default}, without quotes.")
        if not least <= value <= most:
            return self.problem(key, f"the {what} {quoted(value)} is out of range: write a number from {least} to {most}.")
        return value

    def ids(self, key: str, what: str, example: str) -> tuple[str, ...] | None:
        """A list of ids; empty where it is left out."""
        value = self.values.get(key, [])
        if not isinstance(value, list) or not all(isinstance(item, str) and not isinstance(item, Unquoted) for item in value):
            return self.problem(key, f"{quoted(value)} is no list of ids: write {key} = [{example}].")
        return self._checked(key, lambda: tuple(check_id(item, what) for item in value))

    def tables(self, key: str, example: str) -> list[Table]:
        """The tables of a list, each with its number in its place; none where it is left out."""
        value = self.values.get(key, [])
        if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
            self.problem(key, f"{quoted(value)} is no list of entries: write {key} = [{example}].")
            return []
        return [Table(self.report, item, f"{self.at(key)} {n}", self.unit) for n, item in enumerate(value, 1)]


