"""What finished parts are found to be: readings wanted, verdicts, diagnoses, a class's parts, its readings files and those of the first format."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from typing import Any

from tests.outcomes.facts import facts
from tests.outcomes.kit import JOB

SLIPS = ("M01", "M03", "M04", "M05", "M09", "M10", "M11", "M13", "M14", "M15", "M16", "M18", "M19", "M21", "M22", "M23", "M24", "M25")
FORMAT_1 = """format,code,part,reading,read
1,K01,U1L,check print,misses
1,K01,U1L,length along the heel,3.95
1,K01,U1L,"taper start B, from end 1",1.25
1,K01,U1L,"near hole A, from heel",0.69
1,K02,U1L,toe A length,4
1,K02,U1L,"leg A width, at end 2",1.5
1,K02,U1L,hole 2 y,0.5
1,K03,P1,check print,inside
1,K04,U1R,thickness of leg A,0.125
"""
"""A readings file of the first format: readings by their names of that time."""


def _made(part, slip: str):
    from anglelib.errors import BenchError
    from anglelib.inspection.by_amount import by_amount, one_way
    from anglelib.inspection.made import Made

    if not slip:
        return Made.as_wanted(part)
    try:
        return by_amount(one_way(slip, part, JOB.shop), 1)
    except BenchError:
        return None


def diagnoses(parts: Sequence[str] = ("P1", "U1L", "K1"), slips: Sequence[str] = SLIPS[:12]) -> list[Any]:
    """Parts made with each slip that they can have: their readings, the verdict, what they point to, what to read next."""
    from anglelib.inspection.diagnosis import Reading, diagnose
    from anglelib.inspection.made import readings_of
    from anglelib.inspection.reading_ids import chosen
    from anglelib.inspection.verdict import judge

    found = []
    for part in map(JOB.part, parts):
        for slip in ("", *slips):
            made = _made(part, slip)
            if made is None:
                found.append([part.id, slip])
                continue
            read = readings_of(made)
            readings = [Reading(id_, read[id_]) for id_ in chosen(part) if id_ in read]
            verdict, causes = judge(part, readings, JOB.limits, JOB), diagnose(part, JOB.shop, readings[:3])
            found.append([part.id, slip, facts([[one.id, one.value] for one in readings]), verdict.outcome, facts(verdict.can_become)])
            found.append(facts(([one.outcome for one in verdict.judged], [[c.ids, c.second, c.probability] for c in causes.leaders], causes.next_reading, causes.cannot_tell, causes.misfit)))
            found.append(facts((verdict.sentence, causes.sentence)))
    return found


def every_diagnosis() -> list[Any]:
    """The same of every part and every slip."""
    return diagnoses([part.id for part in JOB.parts], SLIPS)


def typed_in() -> list[Any]:
    """A class's form, filled in, read back, checked and counted; a file of the first format; all by ids."""
    from anglelib.inspection.made import readings_of
    from anglelib.workshop.check_parts import check_parts
    from anglelib.workshop.readings_file import form, parse_readings

    blank = form(JOB, ["K01", "K02", "K03", "K04"], ["P1", "U1L", "U1R", "K1"])
    columns, *rows = csv.reader(io.StringIO(blank))
    slips = ("", "M01", "M09", "M21")
    for row in rows:
        row[columns.index("reading")] = "said otherwise when it was printed"
        cells = dict(zip(columns, row, strict=True))
        made = _made(JOB.part(cells["part"]), slips[int(cells["code"][1:]) - 1]) or _made(JOB.part(cells["part"]), "")
        value = readings_of(made).get(cells["id"])
        row[columns.index("read")] = "misses" if cells["id"] == "print" else f"{25.4 * value:.2f} mm" if value is not None else ""
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows([columns, *rows])
    found = check_parts(parse_readings(out.getvalue(), JOB), JOB)
    told = [[one.measured.code, one.measured.part.id, one.outcome, [[r.id, r.value] for r in one.measured.readings], [[c.ids, c.second] for c in one.causes]] for one in found.parts]
    counted = [[one.ids, one.count] for one in found.mistakes]
    keys = [[cells[0], cells[1], cells[2], cells[3], *cells[5:8]] for cells in rows]
    old = check_parts(parse_readings(FORMAT_1, JOB), JOB)
    return [facts(keys), facts(told), facts(counted), facts(found.sentence), *facts([[one.measured.code, one.outcome, one.measured.on_print, [[r.id, r.value] for r in one.measured.readings]] for one in old.parts])]
