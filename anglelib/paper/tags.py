"""Tags to cut out: one for each blank and one for each remnant, in the order in which the saw frees them.

The ring takes a wire. A blank's tag says what becomes of it; a remnant's has the id under which the
rack lists it, and what the saw leaves no mark of: alloy and section.

>>> from anglelib.job import Job, Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 28, quantity=2)])
>>> made = plan(job, Rack([Stick("S-1", stock, "6061-T6", 96)]))
>>> [(tag.id, tag.number) for tag in tags(made, job)]
[('A1', '1 of 2'), ('A1', '2 of 2'), ('S-1-R1', '')]
>>> tag_pages(made, job, A4)[0].title
'Tags'
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, move
from anglelib.geometry.ends import first_end
from anglelib.geometry.rough_words import NEAR_END_ROUGH, ROUGH
from anglelib.job import Job
from anglelib.lengths import about, exact, in_unit, own, show, writing
from anglelib.paper.page import FIGURE, SMALL, TITLE, Page, Paper, fitting, shortened
from anglelib.stock.plan import Placed, Plan, Remnant, StickPlan
from anglelib.stock.rack import Stick

ACROSS = 3
"""Tags side by side."""
HIGH = 33.7
"""Height of a tag [mm]."""
RING, RING_AT = 2.5, 6.0
"""Radius of the ring, and how far its middle is from the tag's left edge [mm]."""
ROW = 3.52
"""From one line of small letters to the next, so that tails are clear of what stands under them [mm]."""
TOP = 1.4
"""White over a tag's id [mm]."""
LONG_ID = 6
"""An id that is longer, as that of another job's part, leaves no room for which of several pieces is held."""
HEAD = 14.0
"""Room for a page's title [mm]."""


@dataclass(frozen=True)
class Tag:
    """What a tag says: its id large, which of several, a word at the right, lines of 3.5 mm, phrases in small letters."""

    id: str
    number: str
    word: str
    lines: tuple[str, ...]
    small: tuple[str, ...]


def tags(plan: Plan, job: Job, partners: Mapping[str, str] | None = None) -> tuple[Tag, ...]:
    """The tags of a plan: stick by stick the blanks as they are sawn, then what goes back on the rack.

    ``partners`` name the mirror image of each part, also of one whose partner is made already (else the parts' own).
    """
    found: list[Tag] = []
    for planned in plan.sticks:
        unit = job.unit_for(planned.stick.section, planned.stick.alloy)  # as the plan has it
        with writing(job.unit):  # cut out, a tag goes alone: another unit than the job's is named on it
            found += [_blank(placed, planned, partners or {}, job) for placed in planned.placed]
            # of a stick that is only held nothing is sawn: its tag keeps the saw away from it
            found += [_remnant(remnant, planned, unit) for remnant in planned.remnants]
    return tuple(found)


def tag_pages(plan: Plan, job: Job, on: Paper, partners: Mapping[str, str] | None = None) -> list[Page]:
    """The tags on as many pages as they need."""
    every = tags(plan, job, partners)
    wide = on.room / ACROSS
    down = int((on.top - HEAD - on.bottom) / HIGH)
    count = math.ceil(len(every) / (ACROSS * down))
    pages = []
    for number in range(count):
        shown = every[number * ACROSS * down : (number + 1) * ACROSS * down]
        title = "Tags" if count == 1 else f"Tags, sheet {number + 1} of {count}"
        items: list[Item] = [Label(on.left, on.top, title, TITLE, "start", "top")]
        how = "in the order of cutting, row by row; cut them out, a wire goes through the ring"
        items.append(Label(on.left, on.top - 8.2, how, SMALL, "start", "top"))
        top = on.top - HEAD
        for place, tag in enumerate(shown):
            x, y = on.left + place % ACROSS * wide, top - place // ACROSS * HIGH
            items += move(_drawn(tag, wide), x, y)
        items += _cuts(len(shown), on.left, top, wide)
        sentence = f"Tags to cut out: {'; '.join(tag.id for tag in shown)}."
        pages.append(Page(title, sentence, tuple(items), "Tags" if not number else ""))
    return pages


# --- what they say ----------------------------------------------------------------------------------------
def _blank(placed: Placed, planned: StickPlan, partners: Mapping[str, str], job: Job) -> Tag:
    """A blank's tag has its part's lengths as the part's card has them, with the unit where it is not the job's, and says which end the stick held when it was squared."""
    part, blank = placed.blank.part, placed.blank
    whole = blank.whole or part.quantity  # as the plan counts it, some pieces made already
    of = f"{blank.number} of {whole}" if whole > 1 else ""
    how = show if part.unit == "mm" else about
    length = f"blank {in_unit(placed.piece, part.unit, how)}"
    small = [f"from {planned.stick.id}", *_lot(planned.stick), length, *_rough(placed, planned), f"end {first_end(part)} squared"]
    member = job.member(part.id)[0]
    small += [f"for {member.name}"] if member is not None and member.label else []
    if partner := partners.get(part.id, part.mirror_of):
        small.append(f"partner {partner}")
    lines = (part.name, part.section.size, f"{part.alloy}, {in_unit(part.length, part.unit, exact)}")
    return Tag(part.id, of, part.hand or "", lines, tuple(small))


def _rough(placed: Placed, planned: StickPlan) -> list[str]:
    """That a hacksaw has parted a blank off, or has left its near end."""
    cut = any(cut.rough for cut in planned.cuts if cut.blank == placed.blank)
    return [ROUGH] if cut else [NEAR_END_ROUGH] if placed.before else []


def _remnant(remnant: Remnant, planned: StickPlan, unit: str) -> Tag:
    stick = remnant.stick
    whole = stick.id == planned.stick.id
    word = "keep" if remnant.holds else "stick" if whole else "remnant"
    lines = (stick.section.size, f"{stick.alloy}, {in_unit(stick.length, unit, lambda length: show(length, 64, 'down'))}")
    small = [f"fillet {own(stick.section.fillet)}" if stick.section.fillet else "square inside"]
    small += _lot(stick)
    if not whole:
        small.append(f"left of {planned.stick.id}")
    small += [f"holds {in_unit(blank.length, unit)} for {blank.part.id if len(blank.part.id) > LONG_ID else blank}" for blank in remnant.holds]
    small += [f"dent {in_unit(a, unit, exact)} to {in_unit(b, unit, exact)}" for a, b in stick.dents]
    return Tag(stick.id, "", word, lines, tuple(small))


def _lot(stick: Stick) -> list[str]:
    """The lot or heat number, without which nobody can say later what the metal was."""
    return [f"lot {stick.lot}"] if stick.lot else []


# --- how they are drawn -------------------------------------------------------------------------------------
def _drawn(tag: Tag, wide: float) -> Group:
    """A tag whose top left corner is (0, 0)."""
    x = RING_AT + RING + 2.6
    room = wide - x - 2.4
    items: list[Item] = [Circle(RING_AT, -HIGH / 2, RING, "narrow")]
    small = FIGURE if len(tag.word) < 6 else SMALL  # "left" and "right" are large
    beside = text_width(tag.word, small) + 2.4
    more = text_width(tag.number, FIGURE) + 2.4 if tag.number else 0.0
    name, letter = fitting(tag.id, room - beside - more, (TITLE, FIGURE, SMALL))
    y = -TOP
    items.append(Label(x, y - TITLE, name, letter, "start"))
    if tag.number:
        items.append(Label(x + text_width(name, letter) + 2.4, y - TITLE, tag.number, FIGURE, "start"))
    items.append(Label(wide - 2.4, y - TITLE, tag.word, small, "end"))
    y -= TITLE + 1.8
    for line in tag.lines:
        text, letter = fitting(line, room, (FIGURE, SMALL))
        items.append(Label(x, y, text, letter, "start", "top"))
        y -= FIGURE + 1.4
    said = _laid(tag.small, room)
    fits = int((HIGH + y - 0.2) / ROW + 1e-9)
    if len(said) > fits > 0:
        said[fits - 1 :] = [", ".join(said[fits - 1 :])]
    for line in said:
        items.append(Label(x, y, shortened(line, room, SMALL), SMALL, "start", "top"))
        y -= ROW
    return tuple(items)


def _laid(phrases: tuple[str, ...], room: float) -> list[str]:
    """The phrases in as few lines as they fit into whole."""
    lines: list[str] = []
    for phrase in phrases:
        longer = f"{lines[-1]}, {phrase}" if lines else phrase
        if lines and text_width(longer, SMALL) <= room:
            lines[-1] = longer
        else:
            lines.append(phrase)
    return lines


def _cuts(count: int, left: float, top: float, wide: float) -> Group:
    """The lines along which the tags are cut out: once between two neighbours."""
    items: list[Item] = []
    rows = math.ceil(count / ACROSS)
    for row in range(rows + 1):
        above = min(count, row * ACROSS) - max(row - 1, 0) * ACROSS if row else min(count, ACROSS)
        items.append(Line(left, top - row * HIGH, left + above * wide, top - row * HIGH, "hidden"))
    for row in range(rows):
        here = min(count - row * ACROSS, ACROSS)
        for column in range(here + 1):
            x = left + column * wide
            items.append(Line(x, top - row * HIGH, x, top - (row + 1) * HIGH, "hidden"))
    return tuple(items)
