"""What is printed and written out: cards, tags, rows of cuts, fold sheets, check prints, tables of coordinates, whole packs, exports."""

from __future__ import annotations

import datetime
from typing import Any

from tests.outcomes.facts import facts, figures
from tests.outcomes.kit import JOB, RACK

DAY = datetime.date(2024, 5, 1)


def cards() -> list[Any]:
    """The rows of every card: marks, steps as they are grouped, how the angle sits, boxes to check by, holes."""
    from anglelib.geometry.hole_check import hole_edges, hole_warnings
    from anglelib.geometry.work import operations
    from anglelib.paper.card_check import boxes
    from anglelib.paper.card_marks import mark_rows
    from anglelib.paper.card_saw import _tapers
    from anglelib.paper.card_steps import grouped, step_lines

    found = []
    for part in JOB.parts:
        steps = operations(part, JOB.shop)
        found.append([part.id, "marks", facts(mark_rows(steps))])
        for brief in (False, True):
            found.append([part.id, "steps", [[what, [step.id for step in of]] for what, of in grouped(steps, brief)]])
            found.append([part.id, "lines", [[figures(words), bool(caution)] for words, caution in step_lines(part, JOB.shop, steps, brief)]])
        found.append([part.id, "saw", facts(_tapers(part))])
        found.append([part.id, "check", facts(boxes(part, JOB.limits))])
        found.append([part.id, "holes", facts((hole_edges(part, JOB.limits), hole_warnings(part, JOB.limits)))])
    return found


def cuts() -> list[Any]:
    """The rows of cuts of every stick, what is minded at each, and the tags."""
    from anglelib.paper.tags import tags
    from anglelib.stock.cut_list import laid_words, listed
    from anglelib.stock.planner import plan
    from anglelib.stock.record import Record
    from anglelib.stock.standing import standing
    from anglelib.terminal.words import hole_lines, plan_lines, stick_lines

    made = plan(JOB, RACK)
    found = [facts(tags(made, JOB))]
    for planned in made.sticks:
        rows = listed(planned, JOB.shop, JOB.limits)
        found.append([planned.stick.id, facts(laid_words(planned)), facts(rows)])
        found.append([planned.stick.id, figures(" ".join(stick_lines(planned, JOB.shop, JOB.limits)))])  # wrapped lines
    now = standing(JOB, Record(RACK))
    return [*found, figures(" ".join(plan_lines(now, Record(RACK)))), figures(" ".join(hole_lines(JOB)))]


def fold_sheets() -> list[Any]:
    """Which faces of the fold sheets have which lines, by kind: those struck, holes, joints; each tile's stretch."""
    from anglelib.paper.fold_strip import FoldStrip
    from anglelib.paper.page import A4
    from anglelib.paper.tiles import tiles
    from anglelib.paper.true_size import room
    from anglelib.paper.unrolled import Unrolled

    found = []
    for part in JOB.parts:
        for tile in tiles(part, room(A4)):
            for inner in (False, True):
                strip = FoldStrip(part, JOB.shop, inner, tile, 0.0)
                found.append([part.id, "inside" if inner else "outside", facts(tile), facts(strip.witness()), [facts(item) for item in strip.drawn]])
        for inner in (False, True):
            sheet = Unrolled(part, inner)
            found.append([part.id, facts([[end, sheet.cuts(end)] for end in (1, 2)])])
    return found


def check_prints() -> list[Any]:
    """What a check print draws of every part: the largest and the least that pass, rings, bars, breaks."""
    from anglelib.paper.check_print import View, _stop, _stretches

    found = []
    for part in JOB.parts:
        for low, high in _stretches(part, 6.0):
            view = View(part, JOB.limits, low, high, _stop(part, low, high), 0.0)
            found.append([part.id, view.stop, [[leg, most, facts(view.edge(most, leg))] for leg in "AB" for most in (True, False)], [facts(item) for item in view.drawn()], figures(view.caption())])
    return found


def coordinates() -> list[Any]:
    """The tables of coordinates as they are written, row by row."""
    import csv

    from anglelib.paper.coordinates import coordinates_csv

    found = []
    for part in JOB.parts:
        columns, *rows = csv.reader(coordinates_csv(part, JOB.shop, JOB.limits).splitlines())
        found += [columns, *(facts(row) for row in rows)]
    return found


def exports() -> list[Any]:
    """Every file that is written of a part: its name, and of a view its layers and shapes; of a mesh its size."""
    from anglelib.paper.export import Wanted, exported
    from anglelib.paper.flat import Circle, Linear, Ordinate, Outline
    from anglelib.paper.flat_views import flat_views

    found = []
    for part in JOB.parts[:8]:
        wanted = Wanted(what=("csv", "mesh", "svg", "saddle"), error=0.005, wall=3.0, clearance=0.5, length=None, unit="")
        found.append([part.id, [[name, len(data) if name.endswith(".stl") else 0] for name, data in exported(JOB, part, wanted).items()]])
        for view in flat_views(part, JOB.shop):
            shapes = [item for item in view.items if isinstance(item, Outline | Circle | Ordinate | Linear)]
            found.append([part.id, view.name, facts(shapes)])
    return found


# --- laid out: to be compared with words as wide as they were -----------------------------------------------------
def pack(paper: str = "a4") -> list[Any]:
    """Every page of the pack of the kit, laid out."""
    from anglelib.paper.pack import make_pack
    from anglelib.paper.page import paper as named

    return [facts(sheet) for sheet in make_pack(JOB, RACK, named(paper), date=DAY).sheets]


def pack_on_letter() -> list[Any]:
    """The same on the other paper."""
    return pack("letter")


def demo_pack() -> list[Any]:
    """Every page of the demo kit's pack, laid out."""
    from anglelib.lessons.demo import demo_job, demo_rack
    from anglelib.paper.pack import make_pack
    from anglelib.paper.page import LETTER

    made = make_pack(demo_job(), demo_rack(), LETTER, date=DAY)
    return [facts(sheet) for sheet in made.sheets] + [facts((made.made, made.short, made.holes, made.after))]


def safety() -> list[Any]:
    """The safety sheet of the kit, laid out: the blades and the hours stand at their steps."""
    from anglelib.paper.page import A4
    from anglelib.paper.safety_sheet import safety_pages

    return [facts(page.sheet(A4, "Trial", "2024-05-01", n, 2)) for n, page in enumerate(safety_pages(JOB, A4), 1)]


def part_sheets() -> list[Any]:
    """All that is needed to make a part, on one sheet, finished and laid out."""
    from anglelib.drawing.part_sheet import part_sheet

    return [[part.id, facts(part_sheet(part, stage=stage, shop=JOB.shop))] for part in JOB.parts[:4] for stage in ("finished", "layout")]
