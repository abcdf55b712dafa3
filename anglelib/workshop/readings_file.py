"""The readings file: CSV, one row a reading, in which an instructor types what was read on the made parts.

Columns: ``format`` (2), ``code`` (a person's code such as K07, never a name), ``part`` (an id of the
job), ``id`` (the reading's, like toe.A), ``read`` (the value; empty: not read; a number without a unit is in the
part's unit). ``reading`` says the same as ``id`` in words, as the part's card does; ``wanted``, ``low`` and ``high`` are
there for whoever types; none of them is read back where there is an id. Without one the reading goes by its words, those of
format 1 too. The reading "check print" takes "inside" or "misses": a part that lies inside its print needs no caliper.

>>> parse_readings("format,code,part,reading,read\\n2,K01,A3,length along the heel,17.25\\n2,Ann,A3,shoe size,oops", _trial())
Traceback (most recent call last):
    ...
anglelib.errors.FileProblems: readings.csv, row 3, code: "Ann" may be a name: write a code with a digit in it, like K07.
readings.csv, row 3, reading: part A3 has no reading "shoe size": write one of check print; toe A, end to end; toe B, end to end; length along the heel; leg A width, end 1; leg B width, end 1; leg A, inside width; leg B, inside width.
readings.csv, row 3, read: the shoe size "oops" is not a length: write it like 1 5/8, 1.625, 5' 3 1/4" or 41.3 mm.
>>> parse_readings("code;part;id;read\\nK01;A3;heel;17,25 mm", _trial())
Traceback (most recent call last):
    ...
anglelib.errors.FileProblems: readings.csv, row 2, read: the length along the heel "17,25 mm" has a comma: write the decimal with a point, 17.25 mm.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from os import PathLike

from anglelib.contents_words import READINGS
from anglelib.errors import BenchError
from anglelib.files.cells import guarded, unguarded
from anglelib.files.csv_text import plain, read_table
from anglelib.files.dates import date_said
from anglelib.files.report import Report, quoted, read_source, sentence
from anglelib.inspection.likelihood import Reading
from anglelib.inspection.old_names import CHECK_PRINT, from_witness, old_id
from anglelib.inspection.reading_ids import WEIGHT, chosen
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.wanted import all_wanted, wanted_readings
from anglelib.job import Job, Shop
from anglelib.lengths import MM, decimal, exact, fine, read, typed, writing
from anglelib.names import check_id
from anglelib.near import did_you_mean
from anglelib.part import Part
from anglelib.storage import shown
from anglelib.tolerances import Limits

COLUMNS = ("format", "code", "part", "id", "reading", "wanted", "low", "high", "read")
OLD_COLUMNS = ("limit",)
NEEDED = ("code", "part", "read")
READINGS_FORMAT, FORMATS = 2, ("1", "2")
ON_PRINT, PRINT = "check print", "print"
"""The check print's row: its words, its id."""
INSIDE, MISSES = "inside", "misses"
MOST_ROWS = 5000
SLIPPED = 0.03
"""A reading within this share of ten times, a tenth, or 25.4 times what is wanted is taken for a slip of the pen."""
EMPTY = "make an empty one with: python -m anglelib check --form readings.csv."


@dataclass(frozen=True)
class Measured:
    """One made part: whose (a code), which part, its readings as the diagnosis takes them, what its check print said."""

    code: str
    part: Part
    readings: tuple[Reading, ...] = ()
    on_print: str = ""

    @property
    def taken(self) -> bool:
        """Whether anything was read on it."""
        return bool(self.readings or self.on_print)


def read_readings(path: str | PathLike, job: Job) -> tuple[Measured, ...]:
    """The made parts in a file; raises FileProblems with everything that is wrong in it, or StorageError."""
    source = read_source(path, READINGS)
    return parse_readings(source.text, job, shown(path))


def parse_readings(text: str, job: Job, file: str = "readings.csv") -> tuple[Measured, ...]:
    """The made parts in a CSV text, in the order in which they are first named."""
    report = Report(file)
    report.check_limits(text, EMPTY)
    table = read_table(text, report, (*COLUMNS, *OLD_COLUMNS))
    columns, filled = _columns(table.head, report), table.rows
    if len(filled) > MOST_ROWS:
        report.stop("", f"the file has {len(filled):,} rows: at most {MOST_ROWS:,}; split it.")
    typed = [(f"row {n}", dict(zip(columns, map(_cell, cells), strict=False)), cells[len(columns) :]) for n, cells in filled]
    return _collect(typed, job, report)


def from_entries(entries: Sequence[tuple[str, Mapping[str, str]]], job: Job) -> tuple[Measured, ...]:
    """The made parts that were typed on a page: (place, cells) for each reading; raises FileProblems with all sentences."""
    return _collect([(place, cells, []) for place, cells in entries], job, Report(""))


# --- rows ----------------------------------------------------------------------------------------------
def _cell(text: str) -> str:
    return unguarded(text.strip()).strip()


def _columns(header: list[str], report: Report) -> list[str]:
    columns = [plain(unguarded(cell)) for cell in header]
    if not set(columns) & set(COLUMNS):
        report.stop("row 1", f"this row must name the columns ({', '.join(COLUMNS)}): {EMPTY}")
    meant = report.unknown(dict.fromkeys(c for c in columns if c and c not in OLD_COLUMNS), COLUMNS, "row 1", "column")
    needed = (*NEEDED, "reading") if "id" not in (*columns, *meant) else NEEDED
    for column in needed:
        if column not in columns and column not in meant:
            report.add("row 1", f"there is no column {column}: add it.")
    for column in dict.fromkeys(c for c in columns if c):
        if columns.count(column) > 1:
            report.add("row 1", f"the column {column} stands here {columns.count(column)} times: keep one.")
    report.close()
    return columns


@dataclass
class _Gathered:
    """The rows of one made part so far."""

    part: Part
    readings: dict[str, tuple[str, Reading]] = field(default_factory=dict)
    on_print: str = ""


def _collect(typed: Sequence[tuple[str, Mapping[str, str], Sequence[str]]], job: Job, report: Report) -> tuple[Measured, ...]:
    parts = {part.id.lower(): part for part in job.parts}
    found: dict[tuple[str, str], _Gathered] = {}
    for place, cells, beyond in typed:
        if extra := next((cell for cell in beyond if cell.strip()), ""):
            report.add(place, f"{quoted(extra.strip())} stands beyond the last column: write decimals with a point, and quotes round a comma.")
            continue
        if (said := cells.get("format", "")) not in ("", *FORMATS):
            report.stop(f"{place}, format", f"it is {quoted(said)}, and this library reads format {' and '.join(FORMATS)}: write {READINGS_FORMAT} in this column.")
        code = _code(cells.get("code", ""), place, report)
        part = _part(cells.get("part", ""), parts, place, report)
        id_, name, value = cells.get("id", ""), cells.get("reading", ""), cells.get("read", "")
        on_print = id_.lower() == PRINT or (not id_ and name.lower() in (ON_PRINT, CHECK_PRINT))
        if part is None:
            if value and not on_print:  # a number that cannot be read is said now, not after the part is put right
                _length(value, name or id_ or "reading", place, report)
            continue
        gathered = found.setdefault((code, part.id), _Gathered(part)) if code else _Gathered(part)
        if on_print:
            _print(gathered, value, place, report)
        elif id_ or name or value:
            _reading(gathered, id_, name, value, place, report, job)
    report.close()
    if not found:
        report.stop("", f"no part is named in it: {EMPTY}")
    return tuple(
        Measured(code, gathered.part, tuple(reading for _, reading in gathered.readings.values()), gathered.on_print)
        for (code, _), gathered in found.items()
    )


def _code(text: str, place: str, report: Report) -> str:
    where = f"{place}, code"
    if not text:
        report.add(where, "there is no code: write whose part it is by a code, like K07, not by a name.")
        return ""
    try:
        check_id(text, "code")
    except BenchError as error:
        report.add(where, sentence(error))
        return ""
    if not any(letter.isdigit() for letter in text):
        report.add(where, f"{quoted(text)} may be a name: write a code with a digit in it, like K07.")
        return ""
    return text


def _part(text: str, parts: Mapping[str, Part], place: str, report: Report) -> Part | None:
    if text.lower() in parts:
        return parts[text.lower()]
    known = [part.id for part in parts.values()]
    listed = ", ".join(known[:12]) + (" and others" if len(known) > 12 else "")
    if not text:
        report.add(f"{place}, part", f"there is no part: write its id; the job has {listed}.")
    else:
        report.add(f"{place}, part", f"the job has no part {quoted(text)}: {did_you_mean(text, known) or f'it has {listed}.'}")
    return None


def _print(gathered: _Gathered, value: str, place: str, report: Report) -> None:
    word = value.lower()
    if word not in ("", INSIDE, MISSES):
        report.add(f"{place}, read", f"{quoted(value)} is neither: write {INSIDE} or {MISSES}, or leave it empty.")
    elif word and gathered.on_print and word != gathered.on_print:
        report.add(f"{place}, read", f"the check print of part {gathered.part.id} is told twice and not alike: keep one row.")
    elif word:
        gathered.on_print = word


def _reading(gathered: _Gathered, id_: str, name: str, value: str, place: str, report: Report, job: Job) -> None:
    part = gathered.part
    every = all_wanted(part, job.limits)  # type: ignore[arg-type]
    with writing(part.unit):
        called = {key: reading_words(key, part) for key in every}
    key = _meant(id_, name, part, called)
    if not key:
        listed = "; ".join([ON_PRINT, *(called[one] for one in chosen(part))])
        said = id_ or name
        if not id_ and from_witness(name):
            what = f"{quoted(name)} was read from the witness line, which is only ink: make a new form, which reads from an edge that is there."
        elif said:
            what = f"part {part.id} has no reading {quoted(said)}: {did_you_mean(said, called if id_ else called.values()) or f'write one of {listed}.'}"
        else:
            what = f"there is no reading's name: write one of {listed}."
        report.add(f"{place}, {'id' if id_ else 'reading'}", what)
        if value:
            _length(value, name or id_ or "reading", place, report, part.unit)
        return
    if not value:
        return
    if key == WEIGHT:
        report.add(f"{place}, reading", "a weight is not read here: weigh on the page of lesson 10, or leave the row out.")
        return
    number = _length(value, called[key], place, report, part.unit)
    if number is None:
        return
    with writing(part.unit):
        slip = _slipped(number, every[key].value, value, part.unit)
    if slip:
        report.add(f"{place}, read", slip)
        return
    if key in gathered.readings:
        report.add(
            f"{place}, reading",
            f"the {called[key]} of part {part.id} is also in {gathered.readings[key][0]}: keep one, or give the second piece a code of its own, like K07b.",
        )
        return
    gathered.readings[key] = (place, Reading(key, float(number)))


def _meant(id_: str, name: str, part: Part, called: Mapping[str, str]) -> str:
    """Which reading a row means: by its id, else by its words, those of the first format too; "" for none."""
    if id_:
        return next((key for key in called if key.lower() == id_.lower()), "")
    plain = " ".join(name.lower().split())
    words = next((key for key, said in called.items() if said.lower() == plain), "")
    return words or next((key for key in called if key.lower() == plain), "") or old_id(name, part)


def _length(text: str, what: str, place: str, report: Report, unit: str = "in") -> Fraction | None:
    """A length as it was typed; also as a dimension is printed, with a decimal in brackets that says the same."""
    if said := date_said(text):
        report.add(f"{place}, read", said)
        return None
    twice = _TWICE.fullmatch(text)
    try:
        if twice is None:
            return typed(text, unit, what=what)
        behind = f" {twice['unit']}" if twice["unit"] else ""
        first, second = (read(f"{said}{behind}", what=what, unit=unit) for said in (twice["first"], twice["second"] + (twice["other"] or "")))
        if abs(first - second) <= Fraction(1, 128):
            return second
        report.add(f"{place}, read", f"the {what} {quoted(text)} says two lengths: write one.")
    except BenchError as error:
        report.add(f"{place}, read", sentence(error))
    return None


_TWICE = re.compile(r"(?P<first>[^()]+?) ?\((?P<second>[0-9.]+)(?P<other> in| mm)?\) ?(?P<unit>in|mm)?")


def _slipped(number: Fraction, wanted: float, text: str, unit: str) -> str:
    """The sentence about a value in another unit or with its point in another place; "" where it is neither."""
    if wanted < 0.1 or not number:
        return ""

    def near(value: float) -> bool:
        return abs(value - wanted) <= SLIPPED * wanted

    if unit == "mm":
        if "in" not in text.lower() and near(float(number / MM)):
            return f"{quoted(text)} mm, and {fine(wanted)} is wanted: is it inches? Write in behind it."
    elif "mm" in text.lower():
        inches = float(number / MM)
        if near(inches):
            return f"{quoted(text)} is {decimal(number)} in., and {decimal(Fraction(wanted))} is wanted: is it inches? Take mm out."
        return ""
    elif near(float(number * MM)):
        return f"{quoted(text)} inches, and {decimal(Fraction(wanted))} is wanted: is it millimetres? Write {exact(number)} mm."
    for factor, word in ((10, "a tenth"), (Fraction(1, 10), "ten times")):
        if near(float(number * factor)):
            return f"{quoted(text)} is {word} of what is wanted, {fine(wanted)}: look where the decimal point stands."
    return ""


# --- the empty form -------------------------------------------------------------------------------------
def form(job: Job, codes: Sequence[str], part_ids: Sequence[str] = ()) -> str:
    """An empty readings file for each code: the parts named, or all of the job; one row a reading, ready to be typed into."""
    return form_for(made_by(job, codes, part_ids), job.limits)  # type: ignore[arg-type]


def form_for(made: Sequence[tuple[str, Part]], limits: Limits) -> str:
    """An empty readings file for these codes, each with its part."""
    rows = [",".join(COLUMNS)]
    head = str(READINGS_FORMAT)
    for code, part in made:
        rows.append(_line([head, code, part.id, PRINT, ON_PRINT, f"{INSIDE} or {MISSES}", "", "", ""]))
        with writing(part.unit):
            for want in wanted_readings(part, limits):
                numbers = [_cell_length(value) for value in (want.value, want.low, want.high)]
                rows.append(_line([head, code, part.id, want.id, reading_words(want.id, part), *numbers, ""]))
    return "\n".join(rows) + "\n"


def _cell_length(value: float) -> str:
    """A length with its unit, so that a spreadsheet keeps it as text."""
    text = fine(value)
    return text if " " in text else f"{text} in"


def made_by(job: Job, codes: Sequence[str], part_ids: Sequence[str] = (), each: bool = False) -> list[tuple[str, Part]]:
    """Who makes what: every code all of the parts; with ``each``, the first code the first part, the second the second."""
    for code in codes:
        check_id(code, "code")
        if not any(letter.isdigit() for letter in code):
            raise BenchError(f'"{code}" may be a name: a code has a digit in it, like K07.')
    parts = [job.part(id_) for id_ in part_ids] or list(job.parts)
    if each and len(codes) > len(parts):
        raise BenchError(f"{len(codes)} people and {len(parts)} parts: with one part each there must be a part for everybody.")
    return list(zip(codes, parts, strict=False)) if each else [(code, part) for code in codes for part in parts]


def _line(cells: Sequence[str]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="").writerow([guarded(cell) for cell in cells])
    return out.getvalue()


def _trial() -> Job:
    """A job of one bar, for the examples above."""
    from anglelib.section import Section

    return Job("Trial", Shop(), [Part("A3", "Floor bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "17 1/4")])
