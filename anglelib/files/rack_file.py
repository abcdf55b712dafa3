"""The rack file: CSV in which a person lists the sticks on hand, one row a stick.

A spreadsheet opens it, and a spreadsheet turns a bare 3/4 into the third of April: lengths are
therefore written with their unit, "3/4 in". They are read with or without it. A cell that a
spreadsheet would compute (=, +, -, @ in front) is written with an apostrophe before it.

A stick that was cut stays in the file as its record, with the kind "cut" (or "cut remnant") and a few
more columns: on which day it was cut, for which job, into which pieces, by which plan, and after which stick
it lay; a remnant names the stick that it is left of. Such a row is no stick of the rack any more, but its id
stays taken. Equal sticks may stand in one row with their quantity (:mod:`anglelib.stock.equal_sticks`): six in the row S-04 are
S-04.1 to S-04.6, and one that is cut has its own row, which names the other in ``one_of``. A stick that came by a purchase says so
in two columns more. Rows that cannot be together are told by row (:mod:`anglelib.files.rack_checks`).

>>> parse_rack("format,stick_id,leg_a,leg_b\\n1,S-01,3/4 in,3/4 in")
Traceback (most recent call last):
    ...
anglelib.errors.FileProblems: rack.csv, row 1: there is no column thickness_a: add it.
rack.csv, row 1: there is no column fillet: add it.
rack.csv, row 1: there is no column alloy: add it.
rack.csv, row 1: there is no column length: add it.
rack.csv, row 1: there is no column trim_1: add it.
rack.csv, row 1: there is no column trim_2: add it.
rack.csv, row 1: there is no column kind: add it.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from os import PathLike

from anglelib.contents_words import RACK
from anglelib.errors import BenchError, RackError
from anglelib.files.cells import Row, unguarded
from anglelib.files.csv_text import plain, read_table
from anglelib.files.dates import date_said
from anglelib.files.rack_checks import check_rows
from anglelib.files.report import MOST_PIECES, Opened, Report, quoted, read_source, sentence
from anglelib.files.stock_rows import check_format, columns_of, section_of
from anglelib.lengths import read
from anglelib.names import MOST_NOTE_CHARACTERS
from anglelib.stock.equal_sticks import MARK, names
from anglelib.stock.rack import MOST_LOT_CHARACTERS, Rack, Stick
from anglelib.stock.record import MOST_DAY_CHARACTERS, Bought, CutStick, Piece, Record, pieces_from
from anglelib.stock.versions import as_typed
from anglelib.storage import shown

EMPTY = "copy the demo's rack.csv and change it."
REQUIRED = ("format", "stick_id", "leg_a", "leg_b", "thickness_a", "fillet", "alloy", "length", "trim_1", "trim_2", "kind")
COLUMNS = (
    "format", "stick_id", "leg_a", "leg_b", "thickness_a", "thickness_b", "fillet", "toe_radius", "heel_radius", "alloy",
    "length", "quantity", "kind", "trim_1", "trim_2", "far_end_good", "hands_off", "dents", "lot", "note",
)  # fmt: skip
"""The columns as they are written; read in any order, and those that are not REQUIRED may be absent."""

WHERE_USED = ("quantity", "lot", "one_of")
"""Columns that are written where a stick has something to say in them."""

RECORD_COLUMNS = ("cut_from", "cut_on", "cut_for", "cut_into", "cut_job", "cut_plan", "cut_after", "one_of")
"""Further columns, written once a stick was cut: the stick that a remnant is left of; day, job and pieces of a cut; the job's own id, the
number of the plan that was followed (and to which row, where the stick is cut part-way), the stick after which it lay; the row of equal sticks that it was listed in."""

BOUGHT_COLUMNS = ("bought_on", "bought_as")
"""Further columns, written once sticks have come by a purchase: the day, and the number of the purchase with the line that they came by."""

FIRST = "-"
"""What stands in cut_after for a stick that lay before all others."""
MOST_LINE = 4000
"""A stick that was cut into many different parts has a long row."""

KINDS = {(False, False): "new", (True, False): "remnant", (False, True): "cut"}
KINDS[True, True] = f"{KINDS[False, True]} {KINDS[True, False]}"
"""The word of the column kind, by whether the stick is a remnant and whether it was cut."""
CUT_KINDS = {word: kind for kind, word in KINDS.items()}
_TOML = re.compile(r"\s*format\s*=")
TRIMMED = "trimmed"
"""What stands in cut_into for a stick of which no piece is cut yet."""
_PLAN = re.compile(r"([^\s:]{4,12})(?::(\d{1,4}))?")
_DENT = re.compile(r"\s+to\s+", re.IGNORECASE)


def read_rack(path: str | PathLike) -> Rack:
    """The rack in a file. Raises FileProblems with everything that is wrong in it, or StorageError."""
    return open_rack(path).value


def read_record(path: str | PathLike) -> Record:
    """The rack in a file with the sticks that were cut; raises as :func:`read_rack` does."""
    return open_record(path).value


def open_record(path: str | PathLike) -> Opened[Record]:
    """The same with what a later save of it needs."""
    source = read_source(path, RACK)
    return Opened(parse_record(source.text, shown(path)), source)


def open_rack(path: str | PathLike) -> Opened[Rack]:
    """The rack in a file, with what a later save of it needs."""
    source = read_source(path, RACK)
    return Opened(parse_rack(source.text, shown(path)), source)


def row_of(path: str | PathLike, stick_id: str) -> int:
    """The row of a stick in a rack file that is without fault, as a spreadsheet counts it; 0 where it is not there any more."""
    report = Report(shown(path))
    table = read_table(read_source(path, RACK).text, report, COLUMNS)
    columns = [plain(unguarded(cell)) for cell in table.head]
    rows = {Row(report, number, columns, cells).cell("stick_id"): number for number, cells in reversed(table.rows)}
    return rows.get(stick_id, rows.get(stick_id.rpartition(MARK)[0], 0))


def parse_rack(text: str, file: str = "rack.csv") -> Rack:
    """The rack in a CSV text; ``file`` is the name that its problems carry."""
    return parse_record(text, file).rack


def parse_record(text: str, file: str = "rack.csv") -> Record:
    """The rack in a CSV text with the sticks that were cut."""
    report = Report(file)
    lines = report.check_limits(text, EMPTY, MOST_LINE)
    if any(_TOML.match(line) for line in lines):
        report.stop("row 1", "this looks like a job (TOML), not a rack: name the job file first, then the rack.")
    table = read_table(text, report, COLUMNS)
    columns, filled = columns_of(table.head, report, COLUMNS, REQUIRED, (*RECORD_COLUMNS, *BOUGHT_COLUMNS), EMPTY), table.rows
    sticks, cut, origins, bought, after = [], [], [], [], {}
    rows = [Row(report, number, columns, cells) for number, cells in filled]
    seen = _seen(rows)
    named = {row.cell("one_of").lower() for row in rows} - {""}
    if len(filled) > MOST_PIECES:
        report.stop("", f"the rack has {len(filled)} sticks: at most {MOST_PIECES}; split it.")
    for row in rows:
        check_format(row, first=row is rows[0])
        stick, done = _stick(row), None
        if CUT_KINDS.get(row.cell("kind").lower(), (False, False))[1]:
            done = _cut(row, stick)
        else:
            equal = _equal(row, stick, seen, named)
            sticks += equal
            origins += [(one.id, row.cell("cut_from")) for one in equal if one is not stick and row.cell("cut_from")]
            if row.cell("bought_as"):
                bought += [came for one in equal if one is not stick for came in _bought(row, one.id)]
            stick = next((one for one in equal if one is stick), None)
        cut += [done] if done is not None else []
        if done is not None and row.cell("cut_after"):
            after[done.stick.id] = row.cell("cut_after")
        if stick is not None and row.cell("cut_from"):
            origins.append((stick.id, row.cell("cut_from")))
        if stick is not None and row.cell("bought_as"):
            bought += _bought(row, stick.id)
        name = row.cell("stick_id").lower()
        if name and seen[name] != row.number:
            row.problem("stick_id", f"{quoted(row.cell('stick_id'))} is also in row {seen[name]}: rename one.")
    if len(sticks) > MOST_PIECES:
        report.stop("", f"the rack has {len(sticks)} sticks: at most {MOST_PIECES}; split it.")
    report.close()
    check_rows(report, {name: seen[name.lower()] for name in (s.id for s in (*sticks, *(old.stick for old in cut)))}, sticks, cut, origins)
    report.close()
    try:
        return Record(Rack(tuple(sticks)), tuple(cut), tuple(origins), _lay([s.id for s in sticks], after), tuple(bought))
    except RackError as error:
        report.stop("", sentence(error))


def _seen(rows: list[Row]) -> dict[str, int]:
    """The row in which each name stands first, in small letters."""
    found: dict[str, int] = {}
    for row in rows:
        found.setdefault(row.cell("stick_id").lower(), row.number)
    return found


def _equal(row: Row, stick: Stick | None, seen: dict[str, int], named: set[str]) -> list[Stick]:
    """The sticks that a row lists: one, or as many equal ones as its quantity says. Their names are ``seen`` from now on."""
    number = row.whole("quantity", "quantity of equal sticks", 1, 1, MOST_PIECES)
    if stick is None or number is None or number == 1 and stick.id.lower() not in named:
        return [stick] if stick is not None else []
    if stick.one_of:
        row.problem("one_of", f"{stick.id} is one of the row {stick.one_of}, and lists {number} sticks itself: leave one_of empty, or the quantity.")
        return []
    taken = {name for name in seen if name != stick.id.lower()}
    try:
        found = [replace(stick, id=name, one_of=stick.id) for name in names(stick.id, number, taken)]
    except RackError:
        row.problem("stick_id", f"{quoted(stick.id)} leaves no room for the numbers of {number} sticks ({stick.id}.1 ...): shorten it.")
        return []
    seen.update({one.id.lower(): row.number for one in found})
    return found


def _lay(order: list[str], after: dict[str, str]) -> tuple[str, ...]:
    """All sticks as they lay: each that is cut after the one that its row names, as far as it is there."""
    waiting = dict(after)
    while waiting:
        at = {name: 0 if other == FIRST else order.index(other) + 1 for name, other in waiting.items() if other == FIRST or other in order}
        if not at:
            break
        name = next(iter(at))
        order.insert(at[name], name)
        del waiting[name]
    return tuple(order)


# --- one stick ------------------------------------------------------------------------------------------
def _stick(row: Row) -> Stick | None:
    if not row.fits():
        return None  # its cells have moved from their columns
    section = section_of(row)
    name = row.id("stick_id", "stick id")
    one_of = row.id("one_of", "row of equal sticks") if row.cell("one_of") else ""
    alloy = row.alloy()
    length = row.length("length", "length of the stick", zero=False)
    kind = row.choice("kind", "kind", CUT_KINDS)
    remnant = kind[0] if kind is not None else None
    trims = {key: row.length(key, "trim", hint="; 0 for an end that is square and sound") for key in ("trim_1", "trim_2")}
    far_end, hands_off = row.flag("far_end_good"), row.flag("hands_off")
    dents = _dents(row)
    lot = row.text("lot", MOST_LOT_CHARACTERS)
    note = row.text("note", MOST_NOTE_CHARACTERS)
    if not row.ok or section is None:
        return None
    try:
        plain = Stick(
            name, section, alloy, length, Fraction(0), Fraction(0),
            far_end_good=far_end, remnant=remnant, hands_off=hands_off, note=note, lot=lot, one_of=one_of,
        )  # fmt: skip
    except RackError as error:
        row.problem("", sentence(error))
        return None
    try:
        plain = replace(plain, **trims)
    except RackError as error:
        row.problem("trim_1", sentence(error))
        return None
    try:
        return replace(plain, dents=dents)
    except RackError as error:
        row.problem("dents", sentence(error))
        return None


def _cut(row: Row, stick: Stick | None) -> CutStick | None:
    """When, for which job and into what a stick was cut."""
    pieces: tuple[Piece, ...] = ()
    try:
        if row.cell("cut_into").lower() != TRIMMED:
            pieces = pieces_from(row.cell("cut_into"))
    except BenchError as error:
        row.problem("cut_into", sentence(error))
    if any(piece.length is None for piece in pieces):
        row.problem("cut_into", "how long each piece was sawn must stand there: write it like 2 x A3 at 17 5/16 in.")
    day, job = row.text("cut_on", MOST_DAY_CHARACTERS), row.text("cut_for", MOST_NOTE_CHARACTERS)
    own = row.id("cut_job", "id of the job") if row.cell("cut_job") else ""
    plan, rows = "", 0
    if row.whole("quantity", "quantity of equal sticks", 1, 1, MOST_PIECES) not in (None, 1):
        row.problem("quantity", "a stick that was cut has a row of its own: leave the quantity empty here.")
    if row.cell("cut_plan"):
        found = _PLAN.fullmatch(row.cell("cut_plan"))
        if found is None:
            row.problem("cut_plan", f"{quoted(row.cell('cut_plan'))} is no number of a plan: write it as it stands on its sheets, or leave the cell empty.")
        else:
            plan, rows = as_typed(found[1]), int(found[2] or 0)
    if row.ok and stick is not None:
        return CutStick(stick, day, job, pieces, own, plan, rows)
    return None


def _bought(row: Row, stick_id: str) -> list[Bought]:
    """By which line of which purchase a stick came."""
    day, found = row.text("bought_on", MOST_DAY_CHARACTERS), _PLAN.fullmatch(row.cell("bought_as"))
    if found is None or not found[2]:
        row.problem("bought_as", f"{quoted(row.cell('bought_as'))} is no line of a purchase: write its number and the line, like K7M2PX:1, or leave the cell empty.")
        return []
    return [Bought(stick_id, day or "", as_typed(found[1]), int(found[2]))]


def _dents(row: Row) -> tuple[tuple[Fraction, Fraction], ...]:
    """The dents in one cell, "29 1/2 to 31; 50 to 51", each from and to [in] along the stick."""
    dents = []
    for dent in filter(None, (text.strip() for text in row.cell("dents").split(";"))):
        ends = _DENT.split(dent)
        if said := next(filter(None, map(date_said, ends)), ""):
            row.problem("dents", said)
            continue
        if len(ends) != 2:
            row.problem("dents", f'the dent {quoted(dent)} has no "to": write where it begins and ends, 29 1/2 to 31.')
            continue
        try:
            begin, end = (read(text, what=what) for text, what in zip(ends, ("start of the dent", "end of the dent"), strict=True))
        except BenchError as error:
            row.problem("dents", sentence(error))
        else:
            dents.append((begin, end))
    return tuple(dents)
