"""Who is stuck: learners' answer files, counted by question and by slip. No grades, and nobody is named.

A folder is a learner's own, or one that holds learners' folders (a share of a hub, say). Symbolic links
are not followed, files that are large or spoiled are told and left out: one learner's file never stops
the count of the others. What is counted are ids, of files of either format; words are looked up when a person reads
the count, so that a class sees the course's own words and no others.

>>> from tempfile import TemporaryDirectory
>>> from anglelib.questions.answers import Answer, AnswerBook
>>> with TemporaryDirectory() as share:
...     for name, typed in (("a", "1/8"), ("b", "1/8"), ("c", "13/64")):
...         right = typed == "13/64"
...         book = AnswerBook("07_taper_inside", Path(share, name, "answers"))
...         _ = book.add(Answer("07-project", 0, typed, "right" if right else "mistake", () if right else ("offset-as-thickness",)))
...     found = look([share])
>>> print(found.sentence)
3 learners have answered 1 question of 1 lesson.
>>> found.questions[0].stuck, found.questions[0].slips, found.questions[0].mistakes
(2, ((('offset-as-thickness',), 2),), (('offset taken to be the thickness', 2),))
"""

from __future__ import annotations

import errno
import os
import stat
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from anglelib.contents import TEXT, look_at
from anglelib.contents_words import LEARNERS, refusal
from anglelib.errors import AnswerError, BenchError
from anglelib.inspection.mistakes import MISTAKES
from anglelib.names import visible
from anglelib.questions.answer import PUT_BACK, Answer
from anglelib.questions.answer_file import Row, joined, parsed
from anglelib.questions.slips import NAMES, slip_names
from anglelib.storage import MOST_BYTES, path_typed
from anglelib.workshop.lesson_questions import find_question, lesson_names
from anglelib.workshop.question_ids import is_asked

__all__ = ["QuestionCount", "Stuck", "look"]

ANSWERS = "answers"
MOST_FILES = 5000
MOST_DEEP = 5
MOST_ANSWERS = 20_000
"""The most answers that are read of one file."""
OTHER_SLIP, ON_PAGE = "another slip", "A question on the lesson's page"
"""What is shown where a file has the id of a slip that the course does not: a learner's file puts nothing on the projector."""
Slips = tuple[str, ...]
"""The ids of the slips behind one number; none where a file names one that the course does not have."""


def slips_words(slips: Slips) -> str:
    """What the slips behind one number are called."""
    return slip_names(slips) if slips else OTHER_SLIP


@dataclass(frozen=True)
class QuestionCount:
    """One question: how many learners answered it, how many have it right by now, which slips how many made.

    ``stuck`` are those whose last answer is not right; ``tries`` how often it was answered in all. ``slips`` are ids
    with their numbers, ``mistakes`` the same in words.
    """

    lesson: str
    question: str
    variant: int
    learners: int
    right: int
    tries: int
    slips: tuple[tuple[Slips, int], ...]

    @property
    def mistakes(self) -> tuple[tuple[str, int], ...]:
        """The slips in words, each with how many made it."""
        return tuple((slips_words(slips), number) for slips, number in self.slips)

    @property
    def stuck(self) -> int:
        """How many have not got it right yet."""
        return self.learners - self.right

    @property
    def prompt(self) -> str:
        """What is asked; of a question that only a page has, what it is about."""
        found = find_question(self.lesson, self.question, self.variant)
        return found.prompt if found is not None else f"{ON_PAGE}: {self.question.replace('-', ' ')}."

    @property
    def to_say(self) -> str:
        """The sentence for the class about the most frequent mistake; "" where there is none."""
        return _sentence(self) if self.slips else ""


@dataclass(frozen=True)
class Stuck:
    """What was found: how many learners, the questions with most learners stuck first, what could not be read.

    ``strange`` is how many answers name a question that the course does not have: they are in no other count.
    """

    learners: int
    questions: tuple[QuestionCount, ...]
    trouble: tuple[str, ...] = ()
    strange: int = 0

    @property
    def strange_words(self) -> str:
        """The line about answers to questions that the course does not have; "" where there are none."""
        n = self.strange
        return f"{n:,} answer{'' if n == 1 else 's'} to questions that are not in the course." if n else ""

    @property
    def sentence(self) -> str:
        """How much was counted; nobody is named."""
        if not self.questions:
            return "No answers yet."
        lessons = len({q.lesson for q in self.questions})
        n, q = self.learners, len(self.questions)
        words = f"{n} learner{' has' if n == 1 else 's have'} answered {q} question{'' if q == 1 else 's'} of {lessons} lesson{'' if lessons == 1 else 's'}."
        if self.trouble:
            k = len(self.trouble)
            words += f" {k} file{' was' if k == 1 else 's were'} left out."
        return words

    @property
    def most_frequent(self) -> QuestionCount | None:
        """The question with the mistake that most learners made; None where no mistake is known."""
        made = [q for q in self.questions if q.slips]
        return max(made, key=lambda q: q.slips[0][1]) if made else None

    @property
    def to_say(self) -> str:
        """The sentence for the class about the most frequent mistake of all."""
        return self.most_frequent.to_say if self.most_frequent is not None else ""


def look(folders: Sequence[str | os.PathLike]) -> Stuck:
    """Counts the answers in folders; raises BenchError for a folder that is none, or where nothing is named."""
    if not folders:
        raise BenchError("Name the folder with the learners' folders: python -m anglelib stuck FOLDER.")
    files: dict[tuple[str, str], dict[str, tuple[Row, ...]]] = {}  # by learner's folder and lesson: the files by name
    trouble: list[str] = []
    seen: set[str] = set()
    for folder in folders:
        top = path_typed(os.fspath(folder))
        if os.path.islink(top):
            raise BenchError(f"{_shown(top)} is a symbolic link: name the folder itself.")
        if not os.path.isdir(top):
            raise BenchError(f"There is no folder {_shown(top)}: check the path.")
        for path in _files(top, trouble):
            if (real := os.path.realpath(path)) in seen:  # folders inside one another count once
                continue
            seen.add(real)
            try:
                lesson, read = read_answers(path)
            except BenchError as error:
                trouble.append(str(error))
                continue
            files.setdefault((os.path.realpath(path.parent), lesson), {})[path.name] = read
    return _counted({of: [row.answer for row in _joined(named)] for of, named in files.items()}, tuple(trouble))


def _joined(files: dict[str, tuple[Row, ...]]) -> tuple[Row, ...]:
    """The rows of a lesson's files, the first file first: its number makes the name of another longer."""
    return joined(files[name] for name in sorted(files, key=lambda name: (len(name), name)))


# --- files -----------------------------------------------------------------------------------------------
def _shown(path: Path) -> str:
    return visible(str(path))[-120:]


def _files(top: Path, trouble: list[str]) -> Iterator[Path]:
    """Answer files under a folder: those in folders called answers, or lying in the folder itself; no link is followed."""
    waiting, count = [(top, 0)], 0
    while waiting:
        folder, deep = waiting.pop()
        try:
            entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
        except OSError:
            trouble.append(f"{_shown(folder)} cannot be looked into: check its permissions.")
            continue
        for entry in entries:
            path = Path(entry.path)
            if entry.is_symlink():
                if path.suffix == ".json" and (folder == top or folder.name == ANSWERS):
                    trouble.append(f"{_shown(path)} is a symbolic link: it is not followed.")
            elif entry.is_dir(follow_symlinks=False):
                if deep < MOST_DEEP and not entry.name.startswith("."):
                    waiting.append((path, deep + 1))
            elif folder.name == ANSWERS or folder == top:
                if path.suffix == ".json" and not path.stem.endswith(".previous") and path.name[:2].isdigit():
                    count += 1
                    if count > MOST_FILES:
                        trouble.append(f"{_shown(top)} holds more than {MOST_FILES:,} files: the others are not counted. Name fewer folders.")
                        return
                    yield path


def read_answers(path: Path) -> tuple[str, tuple[Row, ...]]:
    """The lesson and the answers in one file, of either format; raises AnswerError with a sentence for whatever else it is."""
    name = _shown(path)
    try:
        # Neither a link nor a pipe is opened, also where it took the file's place just now.
        number = os.open(path, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0))
        with open(number, "rb") as file:
            found = os.fstat(number)
            if not stat.S_ISREG(found.st_mode):
                raise AnswerError(f"{name} is not an ordinary file: it is left out.")
            content = file.read(MOST_BYTES + 1)
    except OSError as error:
        why = "is a symbolic link: it is not followed" if error.errno == errno.ELOOP else "cannot be read: check its permissions"
        raise AnswerError(f"{name} {why}.") from None
    if len(content) > MOST_BYTES:
        raise AnswerError(f"{name} is larger than {MOST_BYTES // 1000:,} kB: no answers are; it is left out.")
    if (seen := look_at(content)).id != TEXT:
        raise AnswerError(refusal(name, seen, LEARNERS))
    try:
        lesson, rows = parsed(seen.text, MOST_ANSWERS)
        if lesson not in lesson_names():
            raise ValueError
    except ValueError:
        raise AnswerError(f"{name} does not hold answers to a lesson: it is left out.") from None
    return lesson, rows


# --- counts -----------------------------------------------------------------------------------------------
def _counted(answers: dict[tuple[str, str], list[Answer]], trouble: tuple[str, ...]) -> Stuck:
    learners: dict[tuple[str, str], dict[str, list[Answer]]] = {}  # by lesson and question: each learner's answers
    strange = 0
    for (learner, lesson), given in answers.items():
        for answer in given:
            if answer.status in ("blank", PUT_BACK):
                continue
            if not is_asked(lesson, answer.question, answer.variant):
                strange += 1
            else:
                learners.setdefault((lesson, answer.question), {}).setdefault(learner, []).append(answer)
    found = []
    for (lesson, question), of in learners.items():
        made: Counter[Slips] = Counter()
        variants: Counter[int] = Counter()
        for given in of.values():
            made.update({_known(a) for a in given if a.slips})
            variants.update(a.variant for a in given)
        right = sum(given[-1].status == "right" for given in of.values())
        ranked = tuple(sorted(made.items(), key=lambda row: (-row[1], row[0])))
        tries = sum(len(given) for given in of.values())
        # the numbers that most were asked, so that what is said to the class is about them
        variant = min(variants, key=lambda v: (-variants[v], v))
        found.append(QuestionCount(lesson, question, variant, len(of), right, tries, ranked))
    found.sort(key=lambda q: (-q.stuck, -sum(n for _, n in q.slips), q.lesson, q.question))
    return Stuck(len({learner for learner, _ in answers}), tuple(found), trouble, strange)


def _known(answer: Answer) -> Slips:
    """The slips behind an answer, where the course has them all."""
    return answer.slips if all(slip in NAMES for slip in answer.slips) else ()


def _sentence(count: QuestionCount) -> str:
    slips = count.slips[0][0]
    if not slips:
        return ""
    if len(slips) == 1:
        question = find_question(count.lesson, count.question, count.variant)
        own = next((w.sentence for w in getattr(question, "wrong", ()) if w.slip == slips[0]), "")
        if own:
            return own
        if slips[0] in MISTAKES:
            return f"{MISTAKES[slips[0]].sentence} {MISTAKES[slips[0]].remedy}"
    return f"A common slip here: {slips_words(slips)}."
