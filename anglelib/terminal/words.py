"""A plan as lines of plain text: what is proven, each stick's cuts in order, what is short, what is done.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A3", "Floor bar", stock, "6061-T6", "17 1/4", quantity=2)])
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 40, trim_1="1/16")])
>>> for line in stick_lines(plan(job, rack).stick("S-1")): print(line)
S-1, 40 long
  1  trim 1/16, square      0
  2  A3 (1 of 2) Floor bar  17 5/16 (17.313)
  3  A3 (2 of 2) Floor bar  34 11/16 (34.688)
     Back on the rack: S-1-R1, 5 3/16 long; write its id and 6061-T6 on it.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence

from anglelib.geometry.hole_words import rules_words
from anglelib.job import Job
from anglelib.lengths import about, both, exact, in_unit, unit_word
from anglelib.paper.pack import made_words
from anglelib.paper.plan_holes import TITLE, part_lines, warned
from anglelib.paper.plan_pages import back_on_the_rack, line_words, unused_at, what_is_cut
from anglelib.stock.cut_words import lies, made_first
from anglelib.stock.plan import Cut, GroupPlan, Shortage, StickPlan
from anglelib.stock.record import Record
from anglelib.stock.standing import Standing
from anglelib.terminal.lines import wrapped

STOPPED = "Stopped before it was finished: this is the best plan so far, and another run may end elsewhere."


def plan_lines(now: Standing, record: Record) -> list[str]:
    """The whole plan, section by section, after what is done already."""
    made, job, rack = now.printed, now.job, now.rack
    unused = unused_at(made, job, rack)
    lines = [*wrapped(f"{job.name}: {made_words(job, made)}")]
    if made.interrupted:
        lines += wrapped(STOPPED)
    lines += done_lines(record, job.name)
    if now.changed:
        lines += wrapped(f"Not as it was planned at first: {', '.join(now.changed)}. A pack that was printed before says otherwise: print it again.")
    lines += ["", *wrapped(f"Trim and square the datum end of a stick, mark every line from there, then cut in this order. {unit_word().capitalize()}.")]
    for group in made.groups:
        lines += ["", *_group(group, job, [(name, reasons) for name, reasons, home in unused if home is group])]
    elsewhere = [" ".join(reasons) for _, reasons, home in unused if home is None]
    if elsewhere:
        lines += ["", "Sticks that serve no part of this job", *_listed(elsewhere)]
    return lines + hole_lines(job)


def hole_lines(job: Job) -> list[str]:
    """The edge distance of every hole of a job, what is warned of first; nothing where it has no holes."""
    said = [line for part in job.parts for line in part_lines(part, job.limits)]
    if not said:
        return []
    rules = rules_words(job.parts, job.limits)
    return ["", TITLE, *_listed(f"LOOK: {words}" for words in warned(job.parts, job.limits)), *_listed([rules] if rules else []), *_listed(said)]


def _group(group: GroupPlan, job: Job, unused: Sequence[tuple[str, Sequence[str]]]) -> list[str]:
    lines = [group.title, "-" * len(group.title)]
    for proof in group.proofs:
        lines += wrapped(proof.sentence, "  ")
    said = {reason for _, reasons in unused for reason in reasons}
    for shortage in group.shortages:
        lines += wrapped(shortage_words(shortage, job, said), "  ", "    ")
    for planned in group.sticks:
        if planned.touched or planned.held:
            lines += ["", *stick_lines(planned)]
    idle = [s.stick for s in group.sticks if not (s.touched or s.held)]
    if idle:
        lines += ["", *wrapped("Left as they are: " + ", ".join(f"{s.id} ({exact(s.length)})" for s in idle) + ".")]
    if unused:
        lines += ["", "Not to be used for these parts", *_listed(" ".join(reasons) for _, reasons in unused)]
    return lines


def shortage_words(shortage: Shortage, job: Job, said: Container[str] = ()) -> str:
    """A part of which not all can be made, by how much, and why, without the reasons that are ``said`` elsewhere."""
    part = job.part(shortage.part_id)
    short = f", {both(shortage.short_by, 64, 'up')} short" if shortage.short_by else ""
    proven = "" if shortage.proven else " (not proven)"
    why = " ".join(reason for reason in shortage.reasons if reason not in said)
    return f"SHORT: {shortage.missing} of {part.quantity} x {part.name} ({part.id}), blank {in_unit(shortage.blank, part.unit, both)}{short}{proven}. {why}".rstrip()


def stick_lines(planned: StickPlan) -> list[str]:
    """One stick: its cuts in order, each line from the datum end, what to mind, what goes back."""
    stick = planned.stick
    lines = [f"{stick.id}, {exact(stick.length)} long{', remnant' if stick.remnant else ''}"]
    rows = [(_freed(cut, planned), line_words(cut), "; ".join(_mind(cut))) for cut in planned.cuts]
    for placed in planned.placed:
        if not placed.sawn:
            rows.append((f"{placed.blank} {placed.blank.part.name}", "not sawn", "it ends where the stick does"))
    first = min(max((len(row[0]) for row in rows), default=0), 46)
    second = max((len(row[1]) for row in rows), default=0)
    for number, (what, line, mind) in enumerate(rows, 1):
        lines.append(f"{number:3}  {what:{first}}  {line:{second}}  {mind}".rstrip())
    for words in back_on_the_rack(planned):
        lines += wrapped(words, "     ")
    return lines


def _freed(cut: Cut, planned: StickPlan) -> str:
    return f"{cut.blank} {cut.blank.part.name}" if cut.blank is not None else what_is_cut(cut, planned.datum)


def _mind(cut: Cut) -> list[str]:
    """What to mind at a cut."""
    found = []
    found += [words for words in (lies(cut), made_first(cut)) if words]
    if cut.clamp:
        blank = cut.blank
        short = in_unit(blank.length, blank.part.unit) if blank is not None and blank.length <= cut.in_hand else about(cut.in_hand)
        found.append(f"CLAMP: a piece of {short}")
    return found


def done_lines(record: Record, job: str) -> list[str]:
    """What of a job is cut already, stick by stick."""
    done = [old for old in record.cut if old.job == job]
    return ["", "Cut already", *_listed(f"{old}." for old in done)] if done else []


def _listed(sentences: Iterable[str]) -> list[str]:
    return [line for sentence in sentences for line in wrapped(sentence, "  ", "    ")]
