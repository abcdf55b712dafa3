"""Lesson 02: which leg, which end, which hand: a part turned end for end, and its mirror image.

What is computed, what is drawn and how they are wired are three separate things; each function below
the last heading is one cell of the notebook.

>>> draw_turning({"part": demo_part("C1L"), "turn": 180, "about": END_FOR_END}, View()).title
'A part and its mirror image'
>>> [made_as(demo_part("C1L"), way).same_metal_as(demo_part("C1R")) for way in MADE_AS]
[True, False, False, False]
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from anglelib.drawing.caliper import Caliper, Held, caliper_sheet
from anglelib.drawing.hand_sheets import bare, four_sheet, one_sheet, pair_sheet, two_sheet
from anglelib.drawing.hands import features, image_of, turning_sheet
from anglelib.drawing.pose import END_FOR_END, TURNS
from anglelib.drawing.sheet import Sheet
from anglelib.lessons.ask import Ask, Predict, Questions
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.controls import ChoiceControl, NumberControl, by_id
from anglelib.lessons.demo import demo_part
from anglelib.lessons.learned import Learned, learned_in
from anglelib.lessons.live import LivePicture, Preset, View
from anglelib.lessons.openings import opening
from anglelib.lessons.table import Table
from anglelib.lessons.words import Worked
from anglelib.part import Part, Taper
from anglelib.questions import read_part as ask
from anglelib.questions import recall as earlier
from anglelib.questions.answers import AnswerBook
from anglelib.questions.named import name_of
from anglelib.section import other_leg

LESSON = "02_read_part"
MADE_AS = {"pair": "a true pair", "M26": name_of("M26"), "M09": "taper on the wrong leg", "M10": name_of("M10")}
"""What the second piece is, by id, in words."""
PAIR, COPY, LEG, END = MADE_AS
LEGS = {True: "equal", False: "unequal"}


# --- computed -----------------------------------------------------------------------------------------
def corner_clip() -> Part:
    """A practice part whose both legs are tapered at end 1, alike: it is its own mirror image only when it is turned."""
    return replace(
        demo_part("C1L"), id="P2", name="Corner clip", hand=None, mirror_of="", holes=(), length=Fraction(4),
        tapers=(Taper("A", 1, "3/8", run="1 3/4"), Taper("B", 1, "3/8", run="1 3/4")),
    )  # fmt: skip


def crossed() -> Part:
    """A practice part with one taper at each end, on different legs: turned it is itself, and still it is handed."""
    clip = corner_clip()
    return replace(clip, id="P3", name="Crossed clip", tapers=(clip.tapers[0], replace(clip.tapers[1], end=2)))


def jobs() -> dict[str, Preset]:
    """The parts that are turned, by id: handed, then neither as it lies, then neither when turned."""
    parts = (demo_part("C1L"), demo_part("E1"), corner_clip(), crossed(), demo_part("A1L"))
    return {part.id: Preset(part.name.removesuffix(", left"), {"part": part}) for part in parts}


def made_as(part: Part, way: str) -> Part:
    """What was made as a part's other hand, described from its own left end as it lies behind the mirror."""
    wanted = image_of(part)
    taper = wanted.tapers[0]
    return {
        PAIR: wanted,
        COPY: bare(part),
        LEG: replace(wanted, tapers=(replace(taper, leg=other_leg(taper.leg)),)),
        END: replace(wanted, tapers=(replace(taper, end=3 - taper.end),)),
    }[way]


# --- drawn ------------------------------------------------------------------------------------------
def draw_turning(values: Mapping[str, Any], view: View) -> Sheet:
    """The part turned so far, beside its mirror image."""
    return turning_sheet(values["part"], values["turn"], values["about"], revealed=view.revealed, few=view.few)


def draw_four(values: Mapping[str, Any], view: View) -> Sheet:
    """Four descriptions of one taper, those of leg B turned so far."""
    return four_sheet(ask.sample(values["equal"]), values["turn"], revealed=view.revealed, few=view.few)


def draw_pair(values: Mapping[str, Any], view: View) -> Sheet:
    """A part and what was made as its other hand."""
    part = values["part"]
    return pair_sheet(part, made_as(part, values["made"]), values["turn"], revealed=view.revealed, few=view.few)


def figures() -> dict[str, Sheet]:
    """The lesson's ordinary pictures by file name: what lies on the bench, and a part that is neither hand."""
    return {
        f"{LESSON}.png": opening(LESSON),
        f"{LESSON}_neither.png": turning_sheet(demo_part("E1")),
    }


# --- wired: a function a cell -------------------------------------------------------------------------
def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def recall() -> Questions:
    """Three questions of earlier lessons."""
    book, caliper = _book(), Caliper("0.127", "decimal")
    return Questions(
        Ask(lambda n: earlier.datum_end(), book),
        Ask(lambda n: ask.QUESTIONS["which-of-two"](), book),
        AskPicture(
            lambda n: ask.QUESTIONS["caliper-again"](),
            lambda n: caliper_sheet(caliper, Held.thickness(ask.BRACKET.section, "A")),
            book,
        ),
    )


def turning() -> LivePicture:
    """Predict what a handed part is when it is turned; then turn it, and others, beside the mirror image."""
    return LivePicture(
        draw_turning,
        {
            "turn": NumberControl("Turned (degrees)", 0, 180, 0, 5),
            "about": ChoiceControl("Way of turning", by_id(TURNS), END_FOR_END),
        },
        presets=jobs(),
        ask=Predict(lambda n: ask.end_for_end(ask.BRACKET), _book()),
    )


def four() -> LivePicture:
    """Predict how many parts four descriptions are; then turn two of them."""
    return LivePicture(
        draw_four,
        {"turn": NumberControl("Leg B's turned (deg.)", 0, 180, 0, 5), "equal": ChoiceControl("Legs", by_id(LEGS), True)},
        ask=Predict(lambda n: ask.how_many(), _book()),
    )


def pair() -> LivePicture:
    """Predict what a part and its copy are together; then see what three slips make, and try to turn them right."""
    return LivePicture(
        draw_pair,
        {"made": ChoiceControl("The second is", by_id(MADE_AS), COPY), "turn": NumberControl("Turned (degrees)", 0, 180, 0, 5)},
        presets={"bracket": Preset("Door hinge bracket, not drilled", {"part": ask.BRACKET}), "cleat": Preset("Floor cleat", {"part": demo_part("A1L")})},
        ask=Predict(lambda n: ask.is_it_a_pair(), _book()),
        waits=("made",),
    )


def rules() -> Table:
    """What turning and mirroring do to a description, for equal and unequal legs."""
    rows = []
    for name, part in (("equal legs", ask.sample(True)), ("unequal legs", ask.sample(False))):
        turned = _where(part.turned()) if part.section.equal_legs else "no other description"
        mirrored = _where(part.mirrored())
        also = f", or turned: {_where(part.mirrored().turned())}" if part.section.equal_legs else ""
        rows.append((name, _where(part), turned, mirrored + also))
    return Table(("section", "the taper", "the same part, turned end for end", "the other hand"), rows, after=("how-many-parts",))


def _where(part: Part) -> str:
    taper = part.tapers[0]
    return f"leg {taper.leg}, end {taper.end}"


def worked() -> Worked:
    """The worked part, every step shown."""
    part = ask.FOOT
    steps = (
        f"Write down every feature with its leg and its end, from the drawing: {_small(features(part))}",
        ask.mirror_step(part),
        ask.turn_step(part),
        ask.verdict_step(part),
    )
    holes = demo_part("E1").holes
    check = (
        f"Check the holes the same way. It has {len(holes)}: one in the middle of leg A, two in leg B as far from one end as from the other. They change nothing "
        "here; one hole out of place would make it handed."
    )
    return Worked(f"Worked part: {part.name}, angle {part.section.size}", steps, check)


def _small(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def last_step() -> Ask:
    """Another part with the last step left out."""
    return Ask(lambda n: ask.last_step(ask.STIFFENER), _book())


def all_steps() -> Questions:
    """Two parts with every step left out."""
    book = _book()
    return Questions(
        Ask(lambda n: ask.other_hand(ask.BRACKET, "other-hand-equal-legs"), book),
        Ask(lambda n: ask.other_hand(ask.RAIL, "other-hand-unequal-legs"), book),
    )


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1, 2 or 3."""
    name, series = list(ask.EXERCISES.items())[which - 1]
    draw = {
        "handed": one_sheet,
        "compare": lambda two: two_sheet(two.p, two.q),
        "slip": lambda thing: one_sheet(thing.made),
    }[name]
    return AskPicture(series.__getitem__, lambda n: draw(series.thing(n)), _book(), fresh=True, title=f"Exercise {which}")


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
