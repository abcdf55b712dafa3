"""The lessons' live pictures and boxes: what every control offers by value, and each picture as it is drawn with each choice."""

from __future__ import annotations

import os
from collections.abc import Iterator
from importlib import import_module
from tempfile import TemporaryDirectory
from typing import Any

from tests.outcomes.facts import english, facts, figures

MOST = 3
"""How many places of a slider are tried."""


def pages() -> Iterator[tuple[str, str, Any]]:
    """(the page, the cell, what it shows), for every cell of every page."""
    with TemporaryDirectory() as folder:
        os.environ["ANGLELIB_HOME"] = folder
        for page in import_module("tests.lessons.lesson_checks").PAGES:
            for source, box in page.boxes():
                yield page.path.stem, source.splitlines()[-1], box


def live(box: Any) -> Iterator[Any]:
    """The live pictures in a box."""
    if type(box).__name__ == "LivePicture" or hasattr(box, "draw") and hasattr(box, "controls") and hasattr(box, "presets"):
        yield box
    for child in getattr(box, "children", ()):
        yield from live(child)


def places(control: Any) -> list[Any]:
    """Some places of a control: the ends and the middle of a slider, every choice."""
    if hasattr(control, "values"):
        return [control.values[0], control.values[len(control.values) // 2], control.values[-1]]
    if hasattr(control, "slider"):
        return [control.slider.min, control.slider.max]
    return list(control.offered) if hasattr(control, "offered") else []


def said_not_meant() -> list[Any]:
    """The values of controls that are no ids: there is to be none."""
    found = []
    for page, cell, box in pages():
        for picture in live(box):
            ways = [*picture.presets, *(value for control in picture.controls.values() for value in getattr(control, "offered", ()))]
            found += [[page, cell, way] for way in ways if isinstance(way, str) and english(way)]
    return found


def offered() -> list[Any]:
    """What every control of every picture offers, by value, and each job's values."""
    found = []
    for page, cell, box in pages():
        for picture in live(box):
            controls = [[name, facts(control.value), facts(getattr(control, "offered", ()))] for name, control in picture.controls.items()]
            found.append([page, cell, controls, list(facts(picture.values)), facts([[id_, preset.sets] for id_, preset in picture.presets.items()]), list(picture.waits)])
    return found


def drawn() -> list[Any]:
    """Every picture with its answer hidden and shown, with each choice of each control and each job, to be compared with words as wide as they were."""
    found = []
    for page, cell, box in pages():
        for picture in live(box):
            view = type(picture.view)
            ways = [dict(picture.values)]
            for name, control in picture.controls.items():
                ways += [{**picture.values, name: place} for place in places(control)]
            ways += [{**picture.values, **values} for _, values in picture.presets.values()]
            for values in ways:
                for theme in ("screen", "projector"):
                    for revealed in (False, True):
                        sheet = picture.draw(values, view(theme, revealed))
                        found.append([page, cell, theme, revealed, facts(sheet)])
    return found


# --- the builder's bench ------------------------------------------------------------------------------------------
def bench_facts() -> list[Any]:
    """What a builder asks of each part, by the ids of its rows and their numbers; two variants beside each other."""
    from anglelib.job import Shop
    from anglelib.lessons.bench_facts import differences
    from anglelib.lessons.bench_facts import facts as rows_of
    from anglelib.lessons.builders_bench import longer
    from anglelib.lessons.make_part import chain
    from tests.outcomes.kit import JOB, RACK

    found = []
    for part in JOB.parts:
        found.append([part.id, [[row.id, figures(row.words)] for row in rows_of(part, Shop(), RACK)], [[row.id, figures(row.words)] for row in chain(part, Shop(), RACK)]])
        found.append([[figures(cell) for cell in row] for row in differences(part, longer(part), Shop(), RACK)])
    return found


def bench() -> list[Any]:
    """The bench with each part of the kit on it: what its controls then are, which do nothing, every view and every paper."""
    from anglelib.errors import BenchError
    from anglelib.job import Shop
    from anglelib.lessons.bench_views import HEAVY, VIEWS, draw
    from anglelib.lessons.builders_bench import Bench
    from tests.outcomes.kit import JOB, RACK

    work, found = Bench(), []
    for part in JOB.parts:
        work.begin(part)
        controls = [[name, facts(control.value), bool(getattr(control, "reason", ""))] for name, control in work.own.controls.items()]
        found.append([part.id, controls, facts(work.own.rows), work.own.value == part, bool(work.own.trouble), figures(work.own.kept.value)])
        found += [[part.id, view, facts(draw(view, part, Shop(), RACK))] for view in VIEWS]
        for name, make in HEAVY.items():
            try:
                found.append([part.id, name, [facts(sheet) for sheet in make(part, Shop())]])
            except BenchError:
                found.append([part.id, name])
    return found


def boxes() -> list[Any]:
    """What other boxes of the pages come to: the table of lesson 11 played, readings of lesson 10 typed, the chain of lesson 12."""
    found = []
    for page, cell, box in pages():
        if hasattr(box, "table") and hasattr(box, "controls") and hasattr(box.table, "judged"):
            for stick in box.table.sticks:
                values = {name: stick if name in box.controls and name != "plan" else control.value for name, control in box.controls.items()}
                found.append([page, cell, stick, box.table.done(values), facts(box.table.given(values)), figures(box.table.judged(values))])
        for child in (box, *getattr(box, "children", ())):
            if hasattr(child, "fill") and hasattr(child, "judge") and hasattr(child, "asked"):
                child.fill([f"{asked.value + 0.07:.3f}" for asked in child.asked])
                child.judge()
                causes = [[cause.ids, cause.second] for cause in child.found.leaders]
                found.append([page, cell, facts(child.typed()), child.verdict.outcome, facts(causes)])
    return found
