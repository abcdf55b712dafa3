"""A plan as lines of plain text: what is proven, each stick's cuts in order, what is short, what is done.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A3", "Floor bar", stock, "6061-T6", "17 1/4", quantity=2)])
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 40, trim_1="1/16")])
>>> for line in stick_lines(plan(job, rack).stick("S-1"), job.shop, job.limits): print(line)
S-1, 40 long
  1  trim 1/16, square      0
  2  A3 (1 of 2) Floor bar  17 5/16 (17.313)
     its card: 17 9/32 from end 1, squared
  3  A3 (2 of 2) Floor bar  34 11/16 (34.688)
     Back on the rack: S-1-R1, 5 3/16 long; write its tag and 6061-T6 on it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from anglelib.geometry.hole_lines import TITLE, part_lines, warned
from anglelib.geometry.hole_words import rules_words
from anglelib.geometry.rough_words import how_rough
from anglelib.job import Job, Shop
from anglelib.lengths import exact, unit_word, unit_written, writing
from anglelib.lines import columns, in_lines, wrapped
from anglelib.stock.cut_list import back_on_the_rack, laid_words, listed
from anglelib.stock.cut_words import stand_words
from anglelib.stock.pin_words import sticks_words
from anglelib.stock.plan import GroupPlan, StickPlan
from anglelib.stock.plan_words import held_words, jobs_words, made_words, shortage_words
from anglelib.stock.rack import Rack
from anglelib.stock.reason_words import grouped
from anglelib.stock.reasons import Reason
from anglelib.stock.record import Record
from anglelib.stock.set_ups import SetUp, set_ups
from anglelib.stock.several_jobs import own_parts
from anglelib.stock.standing import Standing
from anglelib.stock.unused import unused_at
from anglelib.stock.versions import part_version
from anglelib.stock.wording import MOST, and_more
from anglelib.tolerances import Limits

STOPPED = "Stopped before it was finished: this is the best plan so far, and another run may end elsewhere."
HOW = (
    "Trim and square the datum end of a stick, mark every line from there, then cut in this order. Each line has two numbers: the "
    "plan's from the datum end, and below it its card's, the same line from the near end of its own blank once that is squared, or from the "
    "witness line."
)


def plan_lines(now: Standing, record: Record, head: Sequence[str] = (), news: Collection[str] = ()) -> list[str]:
    """The whole plan, section by section, after what is done already, each section in its parts' unit and the rest in the job's.

    ``head`` are lines for behind the first sentence, ``news`` sticks that the plan knows nothing of.
    """
    with writing(now.job.unit):
        return _plan_lines(now, record, head, news)


def _plan_lines(now: Standing, record: Record, head: Sequence[str], news: Collection[str]) -> list[str]:
    made, job = now.printed, now.job
    unused = unused_at(made, job, Rack(tuple(stick for stick in now.rack.sticks if stick.id not in news)))
    lines = [*wrapped(f"{job.name}: {made_words(job, made)}")]
    for said in (*held_words(job, made), jobs_words(job)):
        lines += wrapped(said)
    lines += head
    if made.interrupted:
        lines += wrapped(STOPPED)
    lines += wrapped(sticks_words(own_parts(job).parts))
    lines += done_lines(record, job)
    if now.changed:
        lines += wrapped(f"Not as it was planned at first: {and_more(now.changed)}. A pack that was printed before says otherwise: print it again.")
    lines += ["", *wrapped(f"{HOW} {unit_word().capitalize()}.")]
    lines += wrapped(how_rough(job.shop))
    for group in made.groups:
        with writing(job.unit_for(group.section, group.alloy)):
            lines += ["", *_group(group, job, [(name, reasons) for name, reasons, home in unused if home is group])]
    elsewhere = [said for _, said in grouped([(name, reasons) for name, reasons, home in unused if home is None])]
    if elsewhere:
        lines += ["", "Sticks that serve no part of this job", *_listed(elsewhere)]
    return lines + hole_lines(job)


def hole_lines(job: Job) -> list[str]:
    """The edge distance of every hole of a job, what is warned of first; nothing where it has no holes."""
    job = own_parts(job)
    said = [line for part in job.parts for line in part_lines(part, job.limits)]
    if not said:
        return []
    rules = rules_words(job.parts, job.limits)
    return ["", TITLE, *_listed(f"LOOK: {words}" for words in warned(job.parts, job.limits)), *_listed([rules] if rules else []), *_listed(said)]


def _group(group: GroupPlan, job: Job, unused: Sequence[tuple[str, Sequence[Reason]]]) -> list[str]:
    lines = wrapped(group.title) if columns() else [group.title]
    lines.append("-" * max(map(len, lines)))
    if unit_written() != job.unit:
        lines.append(f"  {unit_word().capitalize()} in this section.")
    for sentence in (*group.said_of_pick, *(proof.sentence for proof in group.proofs)):
        lines += wrapped(sentence, "  ")
    said: Collection[Reason] = {reason for _, reasons in unused for reason in reasons}
    for shortage in group.shortages:
        lines += wrapped(shortage_words(shortage, job, said), "  ", "    ")
    made = set_ups(group.sticks)
    for planned in group.sticks:
        if planned.touched or planned.held:
            lines += ["", *stick_lines(planned, job.shop, job.limits, made=made)]
    idle = [s.stick for s in group.sticks if not (s.touched or s.held)]
    if idle:
        lines += ["", *wrapped(f"Left as they are: {and_more([f'{s.id} ({exact(s.length)})' for s in idle])}.")]
    if unused:
        lines += ["", "Not to be used for these parts", *_listed(said for _, said in grouped(unused))]
    return lines


def stick_lines(planned: StickPlan, shop: Shop, limits: Limits, done: int = 0, made: Sequence[SetUp] = (), rest: str = "") -> list[str]:
    """One stick: its cuts in order, each line from the datum end, below it what to mind (once for rows that are alike), what goes back.

    The first ``done`` rows are done: those after them keep their numbers. ``made`` are the set-ups of the saw for its section, ``rest`` says what is
    left of it then.
    """
    stick = planned.stick
    lines = [f"{stick.id}, {exact(stick.length)} long{', remnant' if stick.remnant else ''}{f', lot {stick.lot}' if stick.lot else ''}"]
    if laid := laid_words(planned):
        lines += wrapped(f"Laid {laid}: the datum end is then at the left.", "     ")
    lines += wrapped(stand_words(planned, shop), "     ")
    rows = [(row, f"{row.what} {row.name}".rstrip()) for row in listed(planned, shop, limits, made)]
    first = min(max((len(what) for _, what in rows), default=0), 46)
    before = None
    if done:
        lines += wrapped(f"Rows 1 to {done} are done{rest}." if done > 1 else f"Row 1 is done{rest}.", "     ")
    for number, (row, what) in list(enumerate(rows, 1))[done:]:
        lines += wrapped(row.head, "     ")
        lines += _row(number, what, f"{row.line}{'  CLAMP' if row.clamp else ''}", first)
        if before is None or (row.name, row.minded, row.clamp) != before:  # like rows are said once
            lines += wrapped("; ".join([*row.minded, *filter(None, [row.clamp])]), "     ")
        lines += wrapped(row.set_up, "     ")
        before = row.name, row.minded, row.clamp
    for words in back_on_the_rack(planned, shop, limits):
        lines += wrapped(words, "     ")
    return lines


def _row(number: int, what: str, line: str, first: int) -> list[str]:
    """A cut: what it is and where its line lies, on two lines where the terminal is too narrow for one."""
    row, room = f"{number:3}  {what:{first}}  {line}", columns()
    if room is None or len(row) <= room:
        return [row]
    return [*in_lines(what, room, f"{number:3}  ", "     "), f"     {line:>{min(first, room - 5)}}"]


def made_otherwise(record: Record, job: Job) -> list[str]:
    """What was made to another version of a part than the job has now: it counts for nothing until somebody says that it serves."""
    job = own_parts(job)
    lines: list[str] = []
    found = record.otherwise(job)
    for part_id in dict.fromkeys(one.part_id for one in found):
        ours = [one for one in found if one.part_id == part_id]
        pieces = " and ".join(f"{one.number} from {one.stick_id}{f' on {one.on}' if one.on else ''} to version {one.version}" for one in ours[:MOST])
        lines += wrapped(
            f"{part_id} is version {part_version(job.part(part_id))} in this job, and {pieces} {'was' if sum(o.number for o in ours) == 1 else 'were'} made: "
            f"{'it is' if sum(o.number for o in ours) == 1 else 'they are'} not counted, and the part is planned again. "
            f"{'Does it' if sum(o.number for o in ours) == 1 else 'Do they'} serve as the part is now? "
            f"Then say --serves {part_id}."
        )
    return lines


def done_lines(record: Record, job: Job) -> list[str]:
    """What of a job is cut already, stick by stick."""
    job = own_parts(job)
    done = []
    for old in record.cut:
        if old.belongs(job):
            with writing(job.unit_for(old.stick.section, old.stick.alloy)):
                done.append(f"{old}.")
    return ["", "Cut already", *_listed(done)] if done else []


def _listed(sentences: Iterable[str]) -> list[str]:
    return [line for sentence in sentences for line in wrapped(sentence, "  ", "    ")]
