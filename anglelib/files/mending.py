"""The rack beside its journal: which marks it has lost, and the rack with them again.

A mark is lost where the rack does not say of a stick that it was cut what the journal says. How long a stick is, what is noted of it
and which sticks there are besides is what the rack says, whoever has written it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from anglelib.errors import FileProblems, RackError
from anglelib.files.journal import Journal, Rows
from anglelib.files.rack_file import CUT_KINDS, parse_record
from anglelib.files.rack_text import rows_of, text_of
from anglelib.stock.record import Record

CUT, CHANGED, UNDONE, LENGTH, BOUGHT = "cut", "changed", "undone", "length", "bought"
"""What the rack does not know of a stick: that it was cut, into what, that its cut was taken back, how long it has been since, that it came."""
_KEPT = ("cut_into", "cut_for", "cut_job", "cut_plan")
"""What of a cut is compared: the day may have been rewritten by a spreadsheet."""


@dataclass(frozen=True)
class Lost:
    """What a rack has lost of one stick: what happened to it, and into what it was cut, as the journal has it."""

    id: str
    stick_id: str
    said: str = ""


def changed_rows(before: Record, after: Record) -> dict[str, Mapping[str, str] | None]:
    """The rows that a change makes, changes or takes away."""
    was, now = rows_of(before), rows_of(after)
    found: dict[str, Mapping[str, str] | None] = {name: None for name in was if name not in now}
    return found | {name: cells for name, cells in now.items() if _without_place(was.get(name)) != _without_place(cells)}


def record_rows(record: Record) -> dict[str, Mapping[str, str] | None]:
    """The rows of all that was cut and of what is left of it: with which a journal begins."""
    remnants = dict(record.origins)
    return {name: cells for name, cells in rows_of(record).items() if _is_cut(cells) or name in remnants}


def _without_place(cells: Mapping[str, str] | None) -> dict[str, str] | None:
    return None if cells is None else {key: cell for key, cell in cells.items() if key != "cut_after"}


def _is_cut(cells: Mapping[str, str] | None) -> bool:
    return cells is not None and CUT_KINDS.get(cells.get("kind", ""), (False, False))[1]


def lost(journal: Journal, record: Record) -> tuple[Lost, ...]:
    """What the rack has lost of the marks in its journal."""
    now, found, lengths = rows_of(record), [], journal.lengths()
    for name, cells in journal.rows().items():
        here = now.get(name)
        if _is_cut(cells) and not _is_cut(here):
            found.append(Lost(CUT, name, cells["cut_into"]))  # type: ignore[index]
        elif _is_cut(cells) and any(here.get(key, "") != cells.get(key, "") for key in _KEPT):  # type: ignore[union-attr]
            found.append(Lost(CHANGED, name, cells["cut_into"]))  # type: ignore[index]
        elif not _is_cut(cells) and _is_cut(here):
            found.append(Lost(UNDONE, name))
        elif cells is not None and here is not None and not _is_cut(cells) and here["length"] != cells["length"] and here["length"] in lengths[name]:
            found.append(Lost(LENGTH, name, cells["length"]))  # a length that somebody has measured is none that it had before
    return (*found, *_not_there(journal, now))


def _not_there(journal: Journal, now: Rows) -> list[Lost]:
    """The sticks that came by a purchase and are in no row any more; one that has another id since still says which line it came by."""
    rows, found = journal.rows(), []
    renamed = Counter(cells["bought_as"] for name, cells in now.items() if cells is not None and cells.get("bought_as") and name not in rows)
    for name, cells in rows.items():
        if cells is None or not cells.get("bought_as") or name in now or _is_cut(cells):
            continue
        if renamed[cells["bought_as"]]:
            renamed[cells["bought_as"]] -= 1
        else:
            found.append(Lost(BOUGHT, name, cells["length"]))
    return found


def mended(journal: Journal, record: Record) -> Record:
    """The rack with what it has lost; RackError where what was changed in it since does not go with it."""
    gone = {one.stick_id for one in lost(journal, record)}
    return with_rows(record, {name: cells for name, cells in journal.rows().items() if _wanted(name, cells, gone)})


def _wanted(name: str, cells: Mapping[str, str] | None, gone: set[str]) -> bool:
    """Whether the journal's row of a stick takes the place of the rack's: what lies on the rack is as the rack says, but for what is left of a lost cut."""
    return cells is None or _is_cut(cells) or name in gone or cells.get("cut_from") in gone


def with_rows(record: Record, rows: Rows) -> Record:
    """The record with some of its rows replaced, added or taken away."""
    was = rows_of(record)
    merged = {name: cells for name, cells in {**was, **rows}.items() if cells is not None}
    order = list(record.order)
    for name in [name for name in merged if name not in order]:
        parent = merged[name].get("cut_from")
        family = [n for n, other in enumerate(order) if parent and (other == parent or merged.get(other, {}).get("cut_from") == parent)]
        order.insert(family[-1] + 1 if family else len(order), name)
    here = [name for name in order if name in merged and not _is_cut(merged[name])]
    cut = [name for name in merged if _is_cut(merged[name]) and _is_cut(was.get(name))]
    cut += [name for name in (*rows, *merged) if _is_cut(merged.get(name)) and name not in cut]
    try:
        found = parse_record(text_of([merged[name] for name in (*here, *dict.fromkeys(cut))]))
    except FileProblems as error:
        raise RackError(f"The rack and its journal do not go together: {error.problems[0].message} Put that right in the rack first.") from None
    return Record(found.rack, found.cut, found.origins, tuple(order), found.bought)
