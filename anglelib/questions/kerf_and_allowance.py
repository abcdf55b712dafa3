"""The questions of lesson 05: where the saw runs, the blank, the batch, the slip; with :mod:`anglelib.questions.blade`.

>>> cut = Cut(Fraction(19, 4), Fraction(1, 16), Fraction(3, 64))
>>> blank(cut).answer_text
'4 27/32 (4.844)'
>>> splits(cut).answer_text
'4 23/32 (4.719)'
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.drawing.blade_view import Blade, Teeth
from anglelib.geometry.allowance import PLACE, TURN, Saw
from anglelib.geometry.chain import batch_marks, chained_pieces
from anglelib.geometry.lazy import formulas
from anglelib.inspection.mistakes import MISTAKES
from anglelib.lengths import both, exact
from anglelib.questions.blade import (
    LINE_IS_END,
    TestCut,
    coarsest_blade,
    cold_length,
    crossing_at_the_line,
    kerf_of_blade,
    metal_heel_up,
    test_cut,
)
from anglelib.questions.fresh import Numbers
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.questions.series import Series

KEEP, SPLIT, BOTH, NONE_LEFT, LEFT_ON, CHAIN = "M01", "M02", "M03", "M04", "M05", "M06"


# --- what is asked about --------------------------------------------------------------------------------
@dataclass(frozen=True)
class Cut:
    """A part's length, this shop's kerf and allowance, and how many ends are sawn; lengths in inches."""

    length: Fraction
    kerf: Fraction
    allowance: Fraction
    sawn: int = 2

    @property
    def blank(self) -> Fraction:
        """Length of its blank [in]."""
        return formulas().blank_length(L=self.length, n_e=self.sawn, e_s=self.allowance)


@dataclass(frozen=True)
class Batch:
    """Equal blanks from one stick, the kerf [in], and the number of the piece that is asked about."""

    blank: Fraction
    kerf: Fraction
    piece: int


@dataclass(frozen=True)
class Slip:
    """A mistake by its number, and by how much it makes a length or an edge too long (below 0: short) [in]."""

    cut: Cut
    id: str

    @property
    def off(self) -> Fraction:
        """Too long by so much [in]."""
        return _slips(self.cut)[self.id]


# --- earlier lessons ---------------------------------------------------------------------------------------
def square_to_one_leg(id: str = "square-to-one-leg") -> ChoiceQuestion:
    """Lesson 03: an end has to be square on both legs."""
    return ChoiceQuestion(
        id,
        "Lesson 03. The square, held on leg A, shows no light at end 1. Is the end square?",
        {"yes": "yes", "unknown": "not known yet", "no": "no"},
        "unknown",
        (
            WrongAnswer("one-leg-as-both", "yes", "It is square on leg A. On leg B it may still lean, and the square cannot see that from leg A."),
            WrongAnswer("no-light-as-error", "no", "No light is what one wants to see. But so far only leg A has been looked at."),
        ),
        hints=("An end has two edges, one on each leg.",),
        working="Hold the square on leg B too, then turn it over.",
    )


# --- the line -------------------------------------------------------------------------------------------
def splits(cut: Cut, id: str = "splits-the-line") -> LengthQuestion:
    """How long a piece comes off when the saw's middle runs on the line."""
    length, k = cut.length, cut.kerf
    return LengthQuestion(
        id,
        f"The line stands {exact(length)} from end 1, where the part is to end. Somebody guides the blade exactly along it, the middle of the "
        f"blade on the line. The kerf is {exact(k)}. How long does the piece come off the saw?",
        length - k / 2,
        tolerance=Fraction(1, 128),
        wrong=(
            WrongAnswer(LINE_IS_END, length, "That is where the line was. The line has no width to give; the blade has, and it takes half of it here."),
            WrongAnswer(KEEP, length - k, "That takes the whole kerf out of the part. Here half of the blade is on the waste side."),
            WrongAnswer("kerf-added", length + k / 2, "No saw leaves more metal than there was: half the kerf comes off the part."),
        ),
        hints=("How much of the blade's width lies on the part's side of the line?",),
        working=f"Half the kerf, {exact(k / 2)}, comes out of the part: {both(length - k / 2)}. The line itself is gone.",
    )


# --- the blank --------------------------------------------------------------------------------------------
def blank(cut: Cut, id: str = "blank") -> LengthQuestion:
    """The length of a blank."""
    length, e = cut.length, cut.allowance
    ends = "Both ends are sawn" if cut.sawn == 2 else "End 1 is the stick's own squared end; end 2 is sawn"
    wrong = [_plainly(w, cut) for w in by_mistakes(Asked(cut.blank, blank_of=length, allowance=e, kerf=cut.kerf), "M01", "M04", "M05")]
    if cut.sawn == 1:  # one end's allowance is right here, two are too many
        wrong = [w for w in wrong if w.answer not in (length + e, length + 4 * e)]
        wrong.append(WrongAnswer(LEFT_ON, length + 2 * e, "That counts the allowance twice. End 1 is square already and is not sawn."))
    wrong.append(WrongAnswer("allowance-off", length - cut.sawn * e, "The allowance is left on, outside the line; then sanding takes it off."))
    return LengthQuestion(
        id,
        f"A part is to be {exact(length)} long. {ends}, and each sawn end gets {exact(e)} to sand. The kerf is {exact(cut.kerf)}. How long is its blank?",
        cut.blank,
        tolerance=Fraction(1, 128),
        wrong=tuple(wrong),
        hints=("The blank is what lies on the bench after sawing and before sanding.", f"Sawn ends: {cut.sawn}. Each leaves {exact(e)}."),
        working=blank_step(cut),
    )


def _plainly(wrong: WrongAnswer, cut: Cut) -> WrongAnswer:
    """The mistake's sentence in the words of a blank."""
    said = {
        KEEP: "The kerf was counted into the blank. It lies beside it: the stick loses it.",
        NONE_LEFT: "Nothing is left to sand: the part comes out short." if wrong.answer == cut.length else "Metal was left at one end only. Both ends are sawn.",
        LEFT_ON: "That counts the allowance twice at each end: twice the sanding.",
    }
    return replace(wrong, sentence=said[wrong.slip])


def last_step(cut: Cut, id: str = "last-step") -> LengthQuestion:
    """A blank with the kerf and the allowance found already: a worked example whose last step is left out."""
    return replace(
        blank(cut, id),
        prompt=f"A part {exact(cut.length)} long, both ends to be sawn. First step, done: a test cut gave a kerf of {exact(cut.kerf)}. Second step, done: "
        f"your cuts want {exact(cut.allowance)} outside the line. Your step: how long is the blank?",
    )


def blank_step(cut: Cut) -> str:
    """How a blank's length comes about."""
    times = "twice " if cut.sawn == 2 else ""
    return f"{exact(cut.length)} and {times}{exact(cut.allowance)}: {both(cut.blank)}. The kerf lies beside it, in the stick."


# --- the batch --------------------------------------------------------------------------------------------
def batch_mark(batch: Batch, id: str = "batch-mark") -> LengthQuestion:
    """The running mark of a piece in a batch."""
    b, k, n = batch.blank, batch.kerf, batch.piece
    mark = batch_marks(b, n, k)[-1]
    return LengthQuestion(
        id,
        f"Equal blanks, each {exact(b)} long, are to come off one stick, all marked before the first cut, from the stick's squared end. The "
        f"kerf is {exact(k)}, and the saw runs on the far side of every mark. Where is mark {n}?",
        mark,
        tolerance=Fraction(1, 64),
        wrong=(
            *by_mistakes(Asked(mark, batch=(b, n), kerf=k), "M06"),
            WrongAnswer("kerf-too-many", n * (b + k), f"That counts {n} kerfs. Before mark {n} there are {n - 1} cuts: its own lies behind it."),
        ),
        hints=(f"How many cuts lie before mark {n}?",),
        working=f"{n} blanks and the {n - 1} kerfs between them: {both(mark)}.",
    )


def middle_piece(batch: Batch, id: str = "middle-piece") -> LengthQuestion:
    """What the pieces between the first and the last come out as where a batch is chained."""
    b, k = batch.blank, batch.kerf
    length = chained_pieces(b, 3, k)[1]
    return LengthQuestion(
        id,
        f"Blanks of {exact(b)} are marked end to end on a stick, no kerf between, and the saw splits every line. The kerf is {exact(k)}. "
        "How long do the pieces in the middle of the batch come out?",
        length,
        tolerance=Fraction(1, 128),
        wrong=(
            WrongAnswer(CHAIN, b, "That is what was marked. The saw has taken metal at both ends of such a piece."),
            WrongAnswer(SPLIT, b - k / 2, "That is the first piece, or the last: the saw split one line beside it. A piece in the middle has two."),
            WrongAnswer(BOTH, b - 2 * k, "That takes a whole kerf at both ends. Each cut is shared with the neighbour: half a kerf at each end."),
        ),
        hints=("How many cuts touch a piece in the middle, and how much of each falls to it?",),
        working=f"Half a kerf at each end: {exact(b)} less {exact(k)} is {both(length)}.",
    )


# --- which slip ---------------------------------------------------------------------------------------------
_SAID = {
    "M01": "cut on the keep side of the line",
    "M02": "the saw split the line",
    "M03": "the kerf lost at both ends",
    "M04": "no allowance left at one end, then sanded",
    "M05": "the allowance is still on at one end",
    "M13": "the taper cut on the wrong side of its line",
}


def _slips(cut: Cut) -> dict[str, Fraction]:
    k, e = cut.kerf, cut.allowance
    return {"M01": -k, "M02": -k / 2, "M03": -2 * k, "M04": -e, "M05": e, "M13": -k}


def which_slip(slip: Slip, id: str = "which-slip") -> ChoiceQuestion:
    """Which slip made a finished part what it is; every other choice says what it would have made."""
    cut, taper = slip.cut, slip.id == "M13"
    found = both(abs(slip.off))
    if taper:
        said = f"The length is right. The taper's angle is right too, but its edge lies {found} too low all along."
    else:
        said = f"Cold, and measured at the heel and at both toes, it is {found} too {'short' if slip.off < 0 else 'long'}."
    wrong = []
    for id_, off in _slips(cut).items():
        if id_ == slip.id:
            continue
        if id_ == "M13":
            sentence = f"That would leave the length right, and the taper's edge {exact(cut.kerf)} too low."
        else:
            sentence = f"That would make the part {exact(abs(off))} too {'short' if off < 0 else 'long'}" + (", not the taper's edge." if taper else ".")
        wrong.append(WrongAnswer(id_, id_, sentence))
    return ChoiceQuestion(
        id,
        f"A part was to be {exact(cut.length)} long. The kerf is {exact(cut.kerf)}, the allowance {exact(cut.allowance)}. {said} Which slip explains it?",
        _SAID,
        slip.id,
        tuple(wrong),
        hints=(f"Compare {found} with the kerf, with half of it, and with the allowance.",),
        working=MISTAKES[slip.id].remedy,
    )


# --- fresh numbers ------------------------------------------------------------------------------------------
def _of(text: str) -> Fraction:
    return sum((Fraction(word) for word in text.split()), Fraction(0))


SHOPS = tuple((_of(k), _of(e)) for k, e in (("1/16", "3/64"), ("3/64", "1/16"), ("1/32", "3/64"), ("5/64", "3/64")))
"""Kerfs and allowances that no slip of this lesson confuses with one another."""


def fresh_cut(seed: str) -> Cut:
    """A part's length, a kerf and an allowance."""
    numbers = Numbers(f"{seed}, cut")
    kerf, allowance = numbers.pick(SHOPS)
    return Cut(numbers.length(Fraction(4), Fraction(30), Fraction(1, 16)), kerf, allowance, numbers.pick((2, 2, 1)))


def fresh_batch(seed: str) -> Batch:
    """A batch of blanks, and one of its pieces."""
    numbers = Numbers(f"{seed}, batch")
    return Batch(numbers.length(Fraction(4), Fraction(9), Fraction(1, 32)), numbers.pick((Fraction(1, 16), Fraction(3, 64))), numbers.pick((3, 4, 5)))


def fresh_slip(seed: str) -> Slip:
    """A finished part with one slip in it."""
    numbers = Numbers(f"{seed}, slip")
    kerf, allowance = numbers.pick(SHOPS[:1] + SHOPS[3:])
    return Slip(Cut(numbers.length(Fraction(4), Fraction(24), Fraction(1, 16)), kerf, allowance), numbers.pick(tuple(_SAID)))


EXERCISES = {
    "blank": Series(blank, "05-blank", (NONE_LEFT,), fresh=fresh_cut),
    "batch": Series(batch_mark, "05-batch", (CHAIN, "kerf-too-many"), fresh=fresh_batch),
    "slip": Series(which_slip, "05-slip", fresh=fresh_slip),
}
"""The lesson's exercises by name, in order."""

_CUT = Cut(Fraction(19, 4), Fraction(1, 16), Fraction(3, 64))
BY_HAND = Cut(Fraction(19, 4), Fraction(3, 64), Fraction(1, 16))
"""A hacksaw's cut of the lesson's bracket: a narrow kerf and a wide allowance."""
_BATCH = Batch(Fraction(63, 16), Fraction(1, 16), 4)
SAW = Saw(position=PLACE, angle=TURN, edge=1.25)
"""The saw of the lesson: the scatter and the turn of the shop guesses, along a leg of 1 1/4."""
TEST = TestCut(Fraction(6), (Fraction("2.972"), Fraction("2.962")))
BLADE = Blade(Fraction(35, 1000), Fraction(12, 1000))

QUESTIONS = {
    "splits": lambda: splits(_CUT),
    "kerf_of_blade": lambda: kerf_of_blade(BLADE),
    "test_cut": lambda: test_cut(TEST),
    "blank": lambda: blank(BY_HAND),
    "blank-one-end": lambda: blank(Cut(Fraction(19, 4), Fraction(1, 16), Fraction(3, 64), 1)),
    "batch_mark": lambda: batch_mark(_BATCH),
    "middle_piece": lambda: middle_piece(_BATCH),
    "crossing_at_the_line": lambda: crossing_at_the_line(SAW),
    "metal_heel_up": lambda: metal_heel_up(Teeth(Fraction(1, 8), 14)),
    "coarsest_blade": lambda: coarsest_blade(Fraction(1, 8)),
    "cold_length": lambda: cold_length(Fraction(69, 4), 40),
    **{f"which_slip-{id_}": (lambda id_=id_: which_slip(Slip(_CUT, id_))) for id_ in _SAID},
}
"""Every question of the lesson with default things, for the table of mistakes."""
