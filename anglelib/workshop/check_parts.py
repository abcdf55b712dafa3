"""Made parts checked: each one's verdict, what to rework, what its readings point to; and the class's mistakes, without names.

A part that lies inside its check print passes, unless a reading says otherwise; of one that is longer than the paper, whose
check print shows its ends, a length is read too. Of the others the readings are judged, and only those
that miss are diagnosed: what they fit is never put as "somebody did it".

>>> from anglelib.workshop.readings_file import _trial, parse_readings
>>> job = _trial()
>>> text = "code,part,id,read\\nK01,A3,print,inside\\nK01,A3,heel,17.251\\nK02,A3,heel,17.32\\nK03,A3,toe.A,17.19\\nK03,A3,toe.B,17.188"
>>> found = check_parts(parse_readings(text, job), job)
>>> for one in found.parts:
...     print(one.measured.code, one.outcome, "|", one.sentence)
K01 pass | Pass: it lies inside its check print.
K02 rework | Rework: length along the heel, take off 1/16 (0.070).
K03 scrap | Scrap as A3: toe A, end to end is short by 1/16 (0.060); toe B, end to end is short by 1/16 (0.062), and metal cannot be put back.
>>> found.sentence
'3 parts: 1 pass, 1 to rework, 1 scrap.'
>>> found.mistakes[0].ids[0], found.mistakes[0].count
('M01', 1)
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from anglelib.errors import BenchError
from anglelib.geometry.hole_refusals import refuse_broken
from anglelib.inspection import verdict as verdicts
from anglelib.inspection.diagnosis import GOOD, Cause, Diagnosis, diagnose
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.reading_ids import HEEL, TOE, ReadingId, chosen
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.together import made_alike
from anglelib.inspection.verdict import Verdict, judge
from anglelib.job import Job
from anglelib.paper.check_print import shows_whole
from anglelib.paper.page import PAPERS
from anglelib.workshop.readings_file import INSIDE, MISSES, Measured

PASS, AGAIN, REWORK, SCRAP, NOT_READ = "pass", "again", "rework", "scrap", "not-read"
OUTCOMES = {PASS: "pass", AGAIN: "to be read again", REWORK: "to rework", SCRAP: "scrap", NOT_READ: "not read"}
_OF_VERDICT = {verdicts.ACCEPT: PASS, verdicts.DOUBTFUL: AGAIN, verdicts.REWORK: REWORK, verdicts.SCRAP: SCRAP}
MOST_NAMED = 3
ALIKE = 1 / 32
"""Two parts that should mirror are made alike where all that both have agrees to this [in]."""
PAIR = "M26"


@dataclass(frozen=True)
class CheckedPart:
    """One made part with its verdict and, where it misses, the causes; ``pair`` where it is of the same hand as its partner."""

    measured: Measured
    verdict: Verdict | None = None
    found: Diagnosis | None = None
    pair: str = ""

    @property
    def contradicted(self) -> bool:
        """Whether it is said to lie inside its check print, and a reading misses its limits."""
        missed = self.verdict is not None and self.verdict.outcome in (verdicts.REWORK, verdicts.SCRAP)
        return missed and self.measured.on_print == INSIDE

    @property
    def length_known(self) -> bool:
        """Whether its check print holds its length, or a length was read: of a part longer than the paper both ends are drawn, and no length."""
        read = {ReadingId.of(one.id).kind for one in self.measured.readings}
        return bool(read & {TOE, HEEL}) or any(shows_whole(self.measured.part, paper) for paper in PAPERS.values())

    @property
    def outcome(self) -> str:
        """One of the words of OUTCOMES."""
        if self.measured.on_print == INSIDE and not self.contradicted:
            return PASS if self.length_known else NOT_READ
        if self.contradicted:
            return AGAIN
        return _OF_VERDICT[self.verdict.outcome] if self.verdict is not None else NOT_READ

    @property
    def sentence(self) -> str:
        """What to do with the part."""
        if self.contradicted:
            assert self.verdict is not None
            return f"Read again: it is said to lie inside its check print, and its readings say otherwise. {self.verdict.sentence}"
        if self.outcome == PASS and self.measured.on_print == INSIDE:
            return "Pass: it lies inside its check print."
        if self.measured.on_print == INSIDE:
            part = self.measured.part
            lengths = [id_ for id_ in chosen(part) if ReadingId.of(id_).kind in (TOE, HEEL)]
            which = f": read the {reading_words(lengths[0], part)} too." if lengths else ": measure that too."
            return f"It lies inside its check print, which shows its ends and not its length{which}"
        if self.verdict is None:
            missed = self.measured.on_print == MISSES
            return "It misses its check print: take its readings." if missed else "Nothing was read on it yet."
        words = self.verdict.sentence
        if self.measured.on_print == MISSES and self.outcome == PASS:
            return f"{words} It misses its check print all the same: measure the print's bar, and lay it on again."
        return words

    @property
    def causes(self) -> tuple[Cause, ...]:
        """The causes to name: those that readings leave as likely, at most three; none for a part that passes or whose readings fit nothing."""
        if self.found is None or self.found.misfit:
            return ()
        leaders = [cause for cause in self.found.leaders if cause.probability >= 0.1] or list(self.found.leaders[:1])
        # Two slips of which one explains it alone say nothing that would help.
        alone = {cause.ids[0] for cause in leaders if not cause.second}
        told = [cause for cause in leaders if not (cause.second and {cause.ids[0], cause.second[0]} & alone)]
        return tuple(told[:MOST_NAMED])

    @property
    def to_say(self) -> tuple[str, ...]:
        """What to say to whoever made it: what the readings fit, and what helps next time."""
        lines = [self.pair] if self.pair else []
        if self.found is not None and self.found.misfit:
            lines.append(self.found.doubt)
        for cause in self.causes:
            lines.append(cause.sentence + _remedy(cause))
        if self.found is not None and self.found.cannot_tell and len(self.causes) > 1:
            more = f" read the {reading_words(self.found.next_reading, self.measured.part)} too." if self.found.next_reading else " ask how it was made."
            lines.append(f"These readings do not decide between the first two:{more}")
        return tuple(lines)


@dataclass(frozen=True)
class ClassMistake:
    """A class of mistakes that readings cannot part, on how many parts it is the likeliest, and what to say to everybody."""

    ids: tuple[str, ...]
    count: int

    @property
    def name(self) -> str:
        """The likeliest in words, what cannot be told from it by number."""
        others = [id_ for id_ in self.ids[1:] if id_ != GOOD]
        first = f"{self.ids[0]} {MISTAKES[self.ids[0]].name}" if self.ids[0] != GOOD else "no slip that is known"
        listed = ", ".join(others[:MOST_NAMED]) + (" and others" if len(others) > MOST_NAMED else "")
        return first + (f" (or {listed})" if others else "")

    @property
    def to_say(self) -> str:
        """The sentence for the class: of the likeliest, and of the next where the readings leave two."""
        told = [f"{MISTAKES[id_].sentence} {MISTAKES[id_].remedy}" for id_ in self.ids if id_ != GOOD]
        return " Or: ".join(told[:2]) or "Measure these parts again, then ask how they were made."


@dataclass(frozen=True)
class ClassCheck:
    """All parts of a class, checked."""

    parts: tuple[CheckedPart, ...]

    def count(self, outcome: str) -> int:
        """How many parts came out so."""
        return sum(part.outcome == outcome for part in self.parts)

    @property
    def sentence(self) -> str:
        """How many parts of each outcome; nobody is named."""
        told = [f"{self.count(outcome)} {words}" for outcome, words in OUTCOMES.items() if self.count(outcome)]
        return f"{len(self.parts)} part{'' if len(self.parts) == 1 else 's'}: {', '.join(told)}."

    @property
    def mistakes(self) -> tuple[ClassMistake, ...]:
        """Which mistakes the readings point to, the most frequent first; nobody is named.

        Two parts whose likeliest mistake is the same count together, also where one left more causes open.
        """
        counted: Counter[str] = Counter()
        widest: dict[str, tuple[str, ...]] = {}
        for part in self.parts:
            if part.pair:
                ids: tuple[str, ...] = (PAIR,)
            elif part.causes:
                ids = part.causes[0].ids + part.causes[0].second
            else:
                continue
            if GOOD in ids:  # what a good part's readings may be too is no slip to name
                ids = (GOOD,)
            head = ids[0]
            counted[head] += 1
            widest[head] = (head, *dict.fromkeys([*widest.get(head, ())[1:], *ids[1:]]))
        ranked = sorted(counted, key=lambda head: (-counted[head], head))
        return tuple(ClassMistake(widest[head], counted[head]) for head in ranked)


def check_parts(measured: Sequence[Measured], job: Job, progress: Callable[[float, str], None] | None = None) -> ClassCheck:
    """Every made part judged, those that miss diagnosed, pairs held side by side; a drawing whose holes are not whole is refused."""
    refuse_broken(dict.fromkeys(one.part for one in measured))
    checked = []
    for number, one in enumerate(measured):
        if progress is not None:
            progress(number / len(measured), "checking parts")
        verdict = judge(one.part, one.readings, job.limits, job) if one.readings else None
        misses = verdict is not None and verdict.outcome in (verdicts.REWORK, verdicts.SCRAP) and one.on_print != INSIDE
        checked.append(CheckedPart(one, verdict, diagnose(one.part, job.shop, one.readings) if misses else None))
    return ClassCheck(tuple(_with_pairs(checked)))


def _with_pairs(checked: list[CheckedPart]) -> list[CheckedPart]:
    """The same, with a sentence where a part and its mirror image were made alike and one of them misses."""
    found = []
    for one in checked:
        partner = _partner(one, checked)
        if partner is not None and one.found is not None and "M09" in (i for c in one.causes for i in c.ids) and _alike(one, partner):
            words = f"{MISTAKES[PAIR].sentence} {MISTAKES[PAIR].remedy}"
            one = CheckedPart(one.measured, one.verdict, one.found, f"{PAIR}: beside {partner.measured.part.id}, {words[0].lower()}{words[1:]}")
        found.append(one)
    return found


def _partner(one: CheckedPart, checked: list[CheckedPart]) -> CheckedPart | None:
    """The made part that should be this one's mirror image: the same code's, or the only one there is."""
    part = one.measured.part
    others = [o for o in checked if o.measured.part.id == part.mirror_of or o.measured.part.mirror_of == part.id]
    mine = [o for o in others if o.measured.code == one.measured.code]
    return mine[0] if len(mine) == 1 else others[0] if len(others) == 1 else None


def _alike(one: CheckedPart, two: CheckedPart) -> bool:
    first, second = ({r.id: r.value for r in o.measured.readings} for o in (one, two))
    shared = [id_ for id_ in first.keys() & second.keys() if ReadingId.of(id_).kind == TOE]
    return len(shared) > 1 and made_alike({n: first[n] for n in shared}, second, ALIKE)


def _remedy(cause: Cause) -> str:
    ids = [id_ for id_ in (cause.ids[0], *cause.second[:1]) if id_ != GOOD]
    return "".join(f" {MISTAKES[id_].remedy}" for id_ in ids)


def refuse_empty(measured: Sequence[Measured]) -> None:
    """Nothing at all was read: say what to do."""
    if not any(one.taken for one in measured):
        raise BenchError("No reading is typed in yet: write inside or misses for each check print, and the readings of those that miss.")
