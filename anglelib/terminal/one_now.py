"""``python -m anglelib plan --one``: one part now, which stick, why, what remains, what another choice costs.

Exit codes: 0, there is a stick; 3, no stick serves; 2, the input has to be put right.
"""

from __future__ import annotations

import argparse

from anglelib.alloy import alloy_meant, is_alloy_name
from anglelib.errors import BenchError
from anglelib.files.pairing import read_both
from anglelib.files.rack_file import read_record
from anglelib.geometry.rough_words import rough_cut, sentence_of
from anglelib.job import Job, Shop
from anglelib.lengths import both, exact, named_unit, typed, unit_written, writing
from anglelib.lines import say, wrapped
from anglelib.names import visible
from anglelib.paper.commands import SHORT, other_jobs
from anglelib.section import Section
from anglelib.stock.fit import alike
from anglelib.stock.one import OneNow, one_now
from anglelib.stock.rack import UNKNOWN, Rack
from anglelib.stock.reason_words import grouped
from anglelib.stock.reasons import OTHER_STICK, TOO_SHORT
from anglelib.stock.wording import and_more
from anglelib.terminal import asked as read_as


def one_part(asked: argparse.Namespace) -> int:
    """Which stick one part comes from, in words."""
    job, rack, thought, unit = _files(asked)
    with writing(unit or ("mm" if named_unit(asked.one[2]) in ("mm", "cm", "m") else "in")):
        return _one_part(asked, job, rack, thought)


def _one_part(asked: argparse.Namespace, job: Job | None, rack: Rack, thought: str) -> int:
    """Lengths are typed and said in the job's unit; without one in inches, or in millimetres where the part's length is."""
    text, alloy, length = asked.one
    part_id, unit = asked.part, unit_written()
    if part_id and job is None:
        raise BenchError("--part says which listed part it is: name the job file and the rack file too.")
    if alloy not in UNKNOWN and not is_alloy_name(alloy):
        remedy = f"did you mean {meant}?" if (meant := alloy_meant(alloy)) else "write it like 6061-T6."
        raise BenchError(f'The alloy "{visible(alloy)[:20]}" is no alloy with its temper: {remedy}')
    section = read_as.section(text, alloy, rack, job)
    finished = typed(length, unit, what="length of the part", zero=False)
    extra = typed(asked.left_long, unit, what="length left on", zero=False) if asked.left_long else 0
    if part_id and job is not None:
        _refuse_another(job, part_id, section, alloy, finished)
    now = one_now(section, alloy, finished, rack, job, part_id=part_id, extra=extra)
    say("\n".join([*_lines(now, _against(section, now, rack), job.shop if job is not None else Shop()), *wrapped(thought)]))
    return 0 if now.stick is not None else SHORT


def _files(asked: argparse.Namespace) -> tuple[Job | None, Rack, str, str]:
    """The list, the rack, which of them is thought of, in words, and the list's unit ("" without one)."""
    if asked.rack_only is not None:
        if asked.job is not None:
            raise BenchError("--rack takes the place of JOB RACK: give one or the other.")
        return None, read_record(asked.rack_only).rack, "No list of parts was thought of.", ""
    if asked.job is None and asked.rack is None:
        return None, read_record(read_as.demo_files()[1]).rack, "The rack is the demo kit's; no list of parts was thought of.", ""
    job, record = read_both(*read_as.files(asked.job, asked.rack, asked.together), *other_jobs(asked))
    wanted = record.still_wanted(job)
    if asked.part and job.part(asked.part).id not in {part.id for part in (wanted.parts if wanted is not None else ())}:
        raise BenchError(f"Every {asked.part} is marked as made: leave --part out, or take back what was marked by mistake.")
    if wanted is None:
        return None, record.rack, f"Everything of {job.name} is marked as made.", job.unit
    return wanted, record.rack, f"Thought of: what is still wanted of {', '.join(member.name for member in job.members) or job.name}.", job.unit


def _refuse_another(job: Job, part_id: str, section, alloy: str, length) -> None:
    """The part that is listed is another than the one that is asked for."""
    part = job.part(part_id)
    if not alike(part.section, section) or part.alloy != alloy or part.length != length:
        raise BenchError(
            f"{part_id} is listed as {part.section.size}, {part.alloy}, {exact(part.length)} long: ask for that, or leave --part out."
        )


def _lines(now: OneNow, against: list[str], shop: Shop) -> list[str]:
    lines = wrapped(now.sentence)
    if now.stick is not None and now.interval is not None:
        trim = f"Square the datum end, {exact(now.interval.start)} from end 1. " if now.interval.freed else ""
        cut = both(now.line)  # type: ignore[arg-type]
        lines += wrapped(f"{trim}The blank is {cut} long: part it off at {cut} from the datum end, the saw on the far side of the line.")
        if now.rough:
            lines += wrapped(sentence_of(rough_cut(shop)))
    if now.others:
        lines += ["", "Other sticks", *[line for other in now.others for line in wrapped(other.sentence, "  ", "    ")]]
    if against:
        lines += ["", "Not to be used for it", *[line for reason in against for line in wrapped(reason, "  ", "    ")]]
    return [*lines, ""]


def _against(section: Section, now: OneNow, rack: Rack) -> list[str]:
    """Why the sticks that look alike may not be used, one sentence or more each; those that are only too short together."""
    legs = {section.leg_a, section.leg_b}
    found, short = [], []
    for stick in rack.sticks:
        if {stick.section.leg_a, stick.section.leg_b} != legs:
            continue
        reasons = [reason for reason in now.refused if reason.stick == stick.id]
        other = [reason for reason in reasons if reason.id not in (TOO_SHORT, OTHER_STICK)]
        if other:
            found.append((stick.id, other))
        elif any(reason.id == TOO_SHORT for reason in reasons):
            short.append(stick.id)
    return [*(said for _, said in grouped(found)), *([f"Too short: {and_more(short)}."] if short else [])]
