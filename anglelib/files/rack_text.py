"""A rack as CSV text, and its saving."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from os import PathLike

from anglelib.errors import FileProblems, RackError
from anglelib.files.cells import UNKNOWN, guarded
from anglelib.files.csv_text import separator
from anglelib.files.rack_file import BOUGHT_COLUMNS, COLUMNS, FIRST, KINDS, RECORD_COLUMNS, TRIMMED, WHERE_USED, parse_record
from anglelib.files.report import FORMAT, Opened
from anglelib.lengths import exact
from anglelib.stock.equal_sticks import names, row_of_equals
from anglelib.stock.pieces import AS, FOR, JOB, LEAVES
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Bought, CutStick, Piece, Record
from anglelib.storage import write_text


def save_rack(rack: Rack, path: str | PathLike, opened: Opened[Rack] | None = None) -> Opened[Rack]:
    """Save a rack; ``opened`` is the file as it was read (or last saved), None where there is none yet.

    The sticks that were cut, which the file records, stay in it. The previous version is kept, and a file that somebody else has changed since is not
    overwritten. Raises StorageError, or RackError for a rack that cannot be written exactly; in
    either case nothing is written.
    """
    record = Record(rack)
    if opened is not None:
        before = parse_record(opened.source.text.lstrip("\ufeff"))
        here = {stick.id for stick in (*rack.sticks, *(old.stick for old in before.cut))}
        record = Record(rack, before.cut, tuple(pair for pair in before.origins if pair[0] in here), before.order, tuple(one for one in before.bought if one.stick_id in here))
    saved = save_record(record, path, Opened(record, opened.source) if opened else None)
    return Opened(rack, saved.source)


def save_record(record: Record, path: str | PathLike, opened: Opened[Record] | None = None) -> Opened[Record]:
    """Save a rack with the sticks that were cut, as :func:`save_rack` saves a rack."""
    return Opened(record, write_text(path, saved_text(record, opened), opened.source if opened else None))


def saved_text(record: Record, opened: Opened[Record] | None = None) -> str:
    """The text that is saved: in the way of the file as it was read. RackError where it cannot be written exactly."""
    sign, noted = separator(opened.source.text, COLUMNS) if opened else (",", False)
    text = render_record(record, sign)
    if noted:
        text = f"sep={sign}\n{text}"  # without it the spreadsheet of whoever wrote it may not find the cells
    return text if text.isascii() else "\ufeff" + text  # without it a spreadsheet takes the text for an old code page


def render_rack(rack: Rack, sign: str = ",") -> str:
    """The rack as CSV text. Raises RackError where the text would not be read back as the same rack."""
    return render_record(Record(rack), sign)


def render_record(record: Record, sign: str = ",") -> str:
    """The rack as CSV text, the sticks on hand first, then those that were cut; RackError as for a rack."""
    columns = (*COLUMNS, *RECORD_COLUMNS) if record.cut or record.origins else (*COLUMNS, RECORD_COLUMNS[-1])
    columns = (*columns, *BOUGHT_COLUMNS) if record.bought else columns
    rows = listed_rows(record)
    used = {column for cells in rows for column in WHERE_USED if cells.get(column)}
    text = text_of(rows, [column for column in columns if column not in WHERE_USED or column in used], sign)
    try:
        same = parse_record(text) == record
    except FileProblems as error:
        raise RackError(f"The rack cannot be saved: {error.problems[0]}") from None
    if not same:
        raise RackError("The rack cannot be saved: one of its lengths has no exact text; give it as a shop fraction or decimal.")
    return text


def rows_of(record: Record) -> dict[str, dict[str, str]]:
    """The row of each stick, by its id: what stands in its columns. Those on hand first, then those that were cut."""
    origins, after = dict(record.origins), _after(record)
    done: dict[str, CutStick] = {old.stick.id: old for old in record.cut}
    sticks = (*record.rack.sticks, *(old.stick for old in record.cut))
    came = {one.stick_id: one for one in record.bought}
    return {
        stick.id: {**_cells(stick), **_record_cells(stick, done.get(stick.id), origins, after), **_bought_cells(came.get(stick.id))} for stick in sticks
    }


def listed_rows(record: Record) -> list[dict[str, str]]:
    """The rows as the file has them: those of equal sticks on hand as one, where their numbers are those that it will be read with."""
    rows, origins = rows_of(record), dict(record.origins)
    came = {one.stick_id: (one.on, one.purchase, one.line) for one in record.bought}
    equal: dict[tuple, list[Stick]] = {}
    for stick in record.rack.sticks:
        if (row := row_of_equals(stick, origins.get(stick.id, ""), came.get(stick.id))) is not None:
            equal.setdefault(row, []).append(stick)
    taken = {name.lower() for name in rows}
    for same in sorted(equal.values(), key=len, reverse=True):
        base, ids = same[0].one_of, [stick.id for stick in same]
        others = [stick for stick in (*record.rack.sticks, *(old.stick for old in record.cut)) if stick.one_of.lower() == base.lower() and stick.id not in ids]
        if base.lower() in taken or (len(same) == 1 and not others) or names(base, len(same), taken - {name.lower() for name in ids}) != ids:
            continue  # each in a row of its own
        taken.add(base.lower())
        rows[ids[0]] |= {"stick_id": base, "quantity": str(len(same)), "one_of": ""}
        for name in ids[1:]:
            del rows[name]
    return list(rows.values())


def text_of(rows: Iterable[Mapping[str, str]], columns: Sequence[str] = (*COLUMNS, *RECORD_COLUMNS, *BOUGHT_COLUMNS), sign: str = ",") -> str:
    """Rows as CSV text; a column that a row does not have is empty in it."""
    written = io.StringIO()
    writer = csv.writer(written, delimiter=sign, lineterminator="\n")
    writer.writerow(columns)
    for cells in rows:
        writer.writerow([guarded(cells.get(column, "")) for column in columns])
    return written.getvalue()


def _length(value: Fraction) -> str:
    """The length with its unit, so that a spreadsheet keeps it as text."""
    text = exact(value, "in")
    return text if text.endswith("mm") else f"{text} in"


def _after(record: Record) -> dict[str, str]:
    """For each stick the one after which it lies."""
    return dict(zip(record.order, (FIRST, *record.order), strict=False))


def _record_cells(stick: Stick, done: CutStick | None, origins: dict[str, str], after: dict[str, str]) -> dict[str, str]:
    cells = dict.fromkeys(RECORD_COLUMNS, "") | {"cut_from": origins.get(stick.id, ""), "one_of": stick.one_of}
    if done is not None:
        pieces = "; ".join(_piece(piece) for piece in done.pieces)
        plan = f"{done.plan}:{done.rows}" if done.rows else done.plan
        cells |= {"kind": KINDS[stick.remnant, True], "cut_on": done.on, "cut_for": done.job, "cut_into": pieces or TRIMMED}
        cells |= {"cut_job": done.job_id, "cut_plan": plan, "cut_after": after[stick.id]}
    return cells


def _bought_cells(came: Bought | None) -> dict[str, str]:
    return {"bought_on": came.on, "bought_as": f"{came.purchase}:{came.line}"} if came is not None else dict.fromkeys(BOUGHT_COLUMNS, "")


def _piece(piece: Piece) -> str:
    """A piece with its length's unit; the number is always there, so that no id is taken for one."""
    at = _length(piece.length)  # type: ignore[arg-type]
    spoiled = " spoiled" if piece.spoiled else ""
    left = f" {LEAVES} {_length(piece.left)}" if piece.left else ""
    version = f" {AS} {piece.version}" if piece.version else ""
    serves = f" {FOR} {piece.serves}" if piece.serves else ""
    job = f" {JOB} {piece.job}" if piece.job else ""
    return f"{piece.number} x {piece.part_id} at {at}{spoiled}{left}{job}{version}{serves}"


def _cells(stick: Stick) -> dict[str, str]:
    section = stick.section
    return {
        "format": str(FORMAT),
        "stick_id": stick.id,
        "leg_a": _length(section.leg_a),
        "leg_b": _length(section.leg_b),
        "thickness_a": _length(section.thickness_a),
        "thickness_b": "" if section.thickness_b == section.thickness_a else _length(section.thickness_b),
        "fillet": _length(section.fillet),
        "toe_radius": _length(section.toe_radius) if section.toe_radius else "",
        "heel_radius": _length(section.heel_radius) if section.heel_radius else "",
        "alloy": stick.alloy or UNKNOWN,
        "length": _length(stick.length),
        "kind": KINDS[stick.remnant, False],
        "trim_1": _length(stick.trim_1),
        "trim_2": _length(stick.trim_2),
        "far_end_good": "yes" if stick.far_end_good else "no",
        "hands_off": "yes" if stick.hands_off else "no",
        "dents": "; ".join(f"{_length(begin)} to {_length(end)}" for begin, end in stick.dents),
        "lot": stick.lot,
        "note": stick.note,
    }
