"""The readings file: CSV, one row a reading, in which an instructor types what was read on the made parts.

Columns: ``format`` (1), ``code`` (a person's code such as K07, never a name), ``part`` (an id of the
job), ``reading`` (its name on the part's card, or the diagnosis's name for it), ``read`` (the value;
empty: not read). ``wanted`` and ``limit`` are there for whoever types, and are not read back. The
reading "check print" takes "inside" or "misses": a part that lies inside its print needs no caliper.

>>> parse_readings("format,code,part,reading,read\\n1,K01,A3,heel length,17.25\\n1,Ann,A3,shoe size,oops", _trial())
Traceback (most recent call last):
    ...
anglelib.errors.FileProblems: readings.csv, row 3, code: "Ann" may be a name: write a code with a digit in it, like K07.
readings.csv, row 3, reading: part A3 has no reading "shoe size": write one of check print, toe A length, toe B length, length along the heel, leg A width, at end 1, leg B width, at end 1, leg A, inside width, leg B, inside width.
readings.csv, row 3, read: the shoe size "oops" is not a length: write it like 1 5/8, 1.625, 5' 3 1/4" or 41.3 mm.
>>> parse_readings("code;part;reading;read\\nK01;A3;heel length;17,25 mm", _trial())
Traceback (most recent call last):
    ...
anglelib.errors.FileProblems: readings.csv, row 2, read: the heel length "17,25 mm" has a comma: write the decimal with a point, 17.25 mm.
"""

from __future__ import annotations

import csv
import difflib
import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from os import PathLike

from anglelib.errors import BenchError
from anglelib.files.cells import guarded, unguarded
from anglelib.files.report import FORMAT, Report, quoted, read_source, sentence
from anglelib.inspection.diagnosis import Reading
from anglelib.inspection.likelihood import CALIPER
from anglelib.inspection.made import Made, readings_of
from anglelib.job import Job, Shop
from anglelib.lengths import MM, decimal, exact, read
from anglelib.names import check_id
from anglelib.paper.card_readings import card_readings
from anglelib.part import Part
from anglelib.storage import shown

COLUMNS = ("format", "code", "part", "reading", "wanted", "limit", "read")
NEEDED = ("code", "part", "reading", "read")
ON_PRINT = "check print"
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
    source = read_source(path)
    return parse_readings(source.text, job, shown(path))


def parse_readings(text: str, job: Job, file: str = "readings.csv") -> tuple[Measured, ...]:
    """The made parts in a CSV text, in the order in which they are first named."""
    report = Report(file)
    lines = report.check_limits(text, EMPTY)
    first = next(line for line in lines if line.strip())
    sign = max(",;\t", key=lambda s: sum(_plain(cell) in COLUMNS for cell in first.split(s)))
    rows = _rows(text, sign, report)
    columns = _columns(rows[0], report)
    filled = [(n, cells) for n, cells in enumerate(rows[1:], 2) if any(cell.strip() for cell in cells)]
    if len(filled) > MOST_ROWS:
        report.stop("", f"the file has {len(filled):,} rows: at most {MOST_ROWS:,}; split it.")
    typed = [(f"row {n}", dict(zip(columns, map(_cell, cells), strict=False)), cells[len(columns) :]) for n, cells in filled]
    return _collect(typed, job, report)


def from_entries(entries: Sequence[tuple[str, Mapping[str, str]]], job: Job) -> tuple[Measured, ...]:
    """The made parts that were typed on a page: (place, cells) for each reading; raises FileProblems with all sentences."""
    return _collect([(place, cells, []) for place, cells in entries], job, Report(""))


# --- rows ----------------------------------------------------------------------------------------------
def _plain(name: str) -> str:
    return re.sub(r"[\s_-]+", "_", name.strip().strip('"').strip().lower())


def _cell(text: str) -> str:
    return unguarded(text.strip()).strip()


def _rows(text: str, sign: str, report: Report) -> list[list[str]]:
    rows: list[list[str]] = []
    try:
        rows.extend(csv.reader(io.StringIO(text.lstrip("\r\n"), newline=""), delimiter=sign, strict=True))
    except csv.Error:
        report.stop(f"row {len(rows) + 1}", 'a cell that begins with a quote is not closed: write "" for a quote inside a cell.')
    return rows


def _columns(header: list[str], report: Report) -> list[str]:
    columns = [_plain(unguarded(cell)) for cell in header]
    if not set(columns) & set(COLUMNS):
        report.stop("row 1", f"this row must name the columns ({', '.join(COLUMNS)}): {EMPTY}")
    meant = report.unknown(dict.fromkeys(c for c in columns if c), COLUMNS, "row 1", "column")
    for column in NEEDED:
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
        if (said := cells.get("format", "")) not in ("", str(FORMAT)):
            report.stop(f"{place}, format", f"it is {quoted(said)}, and this library reads format {FORMAT}: write {FORMAT} in this column.")
        code = _code(cells.get("code", ""), place, report)
        part = _part(cells.get("part", ""), parts, place, report)
        name, value = cells.get("reading", ""), cells.get("read", "")
        if part is None:
            if value and name.lower() != ON_PRINT:  # a number that cannot be read is said now, not after the part is put right
                _length(value, name or "reading", place, report)
            continue
        gathered = found.setdefault((code, part.id), _Gathered(part)) if code else _Gathered(part)
        if name.lower() == ON_PRINT:
            _print(gathered, value, place, report)
        elif name or value:
            _reading(gathered, name, value, place, report)
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
        near = difflib.get_close_matches(text, known, n=1, cutoff=0.6)
        report.add(f"{place}, part", f"the job has no part {quoted(text)}: " + (f"did you mean {near[0]}?" if near else f"it has {listed}."))
    return None


def _print(gathered: _Gathered, value: str, place: str, report: Report) -> None:
    word = value.lower()
    if word not in ("", INSIDE, MISSES):
        report.add(f"{place}, read", f"{quoted(value)} is neither: write {INSIDE} or {MISSES}, or leave it empty.")
    elif word and gathered.on_print and word != gathered.on_print:
        report.add(f"{place}, read", f"the check print of part {gathered.part.id} is told twice and not alike: keep one row.")
    elif word:
        gathered.on_print = word


def _reading(gathered: _Gathered, name: str, value: str, place: str, report: Report) -> None:
    part = gathered.part
    card = {reading.name.lower(): reading for reading in card_readings(part)}
    wanted = readings_of(Made.as_wanted(part))
    key = next((k for k in wanted if k.lower() == name.lower()), "")
    asked = card.get(name.lower())
    if asked is None and not key:
        listed = ", ".join([ON_PRINT, *(reading.name for reading in card.values())])
        what = f"part {part.id} has no reading {quoted(name)}: write one of {listed}." if name else f"there is no reading's name: write one of {listed}."
        report.add(f"{place}, reading", what)
        if value:
            _length(value, name or "reading", place, report)
        return
    if not value:
        return
    if key == "weight" and asked is None:
        report.add(f"{place}, reading", "a weight is not read here: weigh on the page of lesson 10, or leave the row out.")
        return
    number = _length(value, name, place, report)
    if number is None:
        return
    aim = asked.wanted if asked is not None else wanted[key]
    if slip := _slipped(number, aim, value):
        report.add(f"{place}, read", slip)
        return
    taken = asked.read(part, float(number), CALIPER) if asked is not None else Reading(key, float(number), CALIPER)
    if taken.name in gathered.readings:
        report.add(
            f"{place}, reading",
            f"the {name} of part {part.id} is also in {gathered.readings[taken.name][0]}: keep one, or give the second piece a code of its own, like K07b.",
        )
        return
    gathered.readings[taken.name] = (place, taken)


def _length(text: str, what: str, place: str, report: Report) -> Fraction | None:
    try:
        return read(text, what=what)
    except BenchError as error:
        report.add(f"{place}, read", sentence(error))
        return None


def _slipped(number: Fraction, wanted: float, typed: str) -> str:
    """The sentence about a value in another unit or with its point in another place; "" where it is neither."""
    if wanted < 0.1 or not number:
        return ""

    def near(value: float) -> bool:
        return abs(value - wanted) <= SLIPPED * wanted

    if "mm" in typed.lower():
        inches = float(number / MM)
        if near(inches):
            return f"{quoted(typed)} is {decimal(number)} in., and {decimal(Fraction(wanted))} is wanted: is it inches? Take mm out."
        return ""
    if near(float(number * MM)):
        return f"{quoted(typed)} inches, and {decimal(Fraction(wanted))} is wanted: is it millimetres? Write {exact(number)} mm."
    for factor, word in ((10, "a tenth"), (Fraction(1, 10), "ten times")):
        if near(float(number * factor)):
            return f"{quoted(typed)} is {word} of what is wanted, {decimal(Fraction(wanted))}: look where the decimal point stands."
    return ""


# --- the empty form -------------------------------------------------------------------------------------
def form(job: Job, codes: Sequence[str], part_ids: Sequence[str] = ()) -> str:
    """An empty readings file for each code: the parts named, or all of the job; one row a reading, ready to be typed into."""
    return form_for(made_by(job, codes, part_ids))


def form_for(made: Sequence[tuple[str, Part]]) -> str:
    """An empty readings file for these codes, each with its part."""
    rows = [",".join(COLUMNS)]
    for code, part in made:
        rows.append(_line([str(FORMAT), code, part.id, ON_PRINT, f"{INSIDE} or {MISSES}", "", ""]))
        rows += [
            _line([str(FORMAT), code, part.id, r.name, f"{r.text} in", f"{decimal(Fraction(r.limit))} in", ""]) for r in card_readings(part)
        ]
    return "\n".join(rows) + "\n"


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
