"""The builder's bench: a part of his own, changed by controls, with everything that follows from it; two variants side by side.

The bench is one thing in several boxes, a box a cell: where the part comes from, what if, the two
variants, what is saved, what is printed.

>>> bench = Bench()
>>> bench.part.id, bench.variant.value
('C1L', 'A')
>>> bench.own.controls["run"].value = Fraction(3)
>>> bench.saving.told
'Nothing is saved yet.'
"""

from __future__ import annotations

import os
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import ipywidgets as widgets

from anglelib.drawing.edges_view import edges_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.svg import image, svg
from anglelib.errors import BenchError
from anglelib.files import open_job, read_rack
from anglelib.geometry.rough_words import saw_words
from anglelib.geometry.taper import taper_lines
from anglelib.geometry.work_words import hand_words
from anglelib.job import Job, Shop
from anglelib.lengths import MM, own, writing
from anglelib.lessons.bench_facts import differences, facts
from anglelib.lessons.bench_out import Packing, Saving
from anglelib.lessons.bench_views import HEAVY, HEAVY_WORDS, VIEW_WORDS, draw
from anglelib.lessons.controls import ChoiceControl, FractionControl, Groups, PressButton, by_id, fractions, in_turn
from anglelib.lessons.demo import JOB, demo_job, demo_part, demo_rack
from anglelib.lessons.look import BELOW, BOX, DO, PICTURE, SWITCH, as_, page_style, projector_switch
from anglelib.lessons.not_here import NotHere
from anglelib.lessons.own_part import OwnPart
from anglelib.lessons.piece import Piece
from anglelib.lessons.room import ROOM
from anglelib.lessons.table import Table
from anglelib.lessons.words import paragraph, said
from anglelib.part import Part
from anglelib.questions.answers import home
from anglelib.saw import LEAST_THROAT, Saw
from anglelib.stock.rack import Rack
from anglelib.storage import path_typed
from anglelib.tolerances import Limits
from anglelib.visiting import visiting

LESSON = "builders_bench"
START = "C1L"
LONGER = {"in": Fraction(1, 2), "mm": 10 * MM}
"""By how much the taper of variant B is longer at first, by the unit of the part [in]."""
THROATS = (Fraction(0), *fractions("2", "24", "1/2"))
"""From the blade to the column; 0: nobody said, and nothing is said of it."""
KERFS, ALLOWANCES = fractions("0", "1/4", "1/64"), fractions("0", "1/8", "1/64")
GROUPS = {
    "taper": ("tapers", "taper_leg", "slope", "run", "angle", "left"),
    "holes": ("hole_leg", "holes", "hole_count", "first", "pitch", "height", "diameter"),
    "stock": ("leg_a", "leg_b", "thickness", "fillet", "alloy"),
    "part": ("unit", "id", "name", "length", "quantity"),
}
GROUP_WORDS = {"taper": "Taper", "holes": "Holes", "stock": "Stock", "part": "Part", "saw": "Saw"}


# --- computed -------------------------------------------------------------------------------------------
def longer(part: Part) -> Part:
    """The same part with its first taper longer, if it is given by its run and the part bears it; else as it was."""
    first, by = part.tapers[0] if part.tapers else None, LONGER[part.unit]
    if first is None or first.run is None or first.run + by > part.length:
        return part
    return replace(part, tapers=(replace(first, run=first.run + by), *part.tapers[1:]), hand=None, mirror_of="")


def figures() -> dict[str, Sheet]:
    """The page's ordinary pictures by file name: the edges as they are, and with the longer taper."""
    part = demo_part(START)
    return {f"{LESSON}.png": edges_sheet(part), f"{LESSON}_longer.png": edges_sheet(longer(part))}


# --- wired ------------------------------------------------------------------------------------------------
class Bench:
    """All boxes of the bench: ``source``, ``what_if``, ``compare``, ``saving``, ``packing``."""

    def __init__(self) -> None:
        self.rack: Rack = demo_rack()
        self.own = OwnPart(demo_part(START))
        self.kept: dict[str, Part] = {"A": demo_part(START), "B": longer(demo_part(START))}
        self.job: Job = demo_job()
        self.of_file = False
        self._quiet = False
        self._controls()
        self.source = self._source()
        self.what_if = self._what_if()
        self.compare = self._compare()
        self.saving = NotHere() if visiting() else Saving(self)
        self.packing = NotHere() if visiting() else Packing(self)
        self._wire()
        self.redraw()

    @property
    def part(self) -> Part:
        """The variant at hand: the last that could be described."""
        return self.kept[self.variant.value]

    @property
    def shop(self) -> Shop:
        """How this shop cuts, by the three controls; the rest of its saw is the job's."""
        throat, saw = self.throat.value, self.job.shop.saw
        if throat < LEAST_THROAT:
            saw = None
        else:
            saw = replace(saw, throat=throat) if saw is not None else Saw(throat)
        return replace(self.job.shop, kerf=self.kerf.value, allowance=self.allowance.value, saw=saw)

    @property
    def limits(self) -> Limits:
        """The limits of the job file that is open; of the demo kit's parts, those usual for the unit of the part at hand."""
        return self.job.limits if self.of_file else Limits.usual(self.part.unit)  # type: ignore[return-value]

    # --- made ---------------------------------------------------------------------------------------------
    def _controls(self) -> None:
        self.variant = ChoiceControl("Variant", ("A", "B"), "A")
        self.view = ChoiceControl("Show", by_id(VIEW_WORDS), "edges")
        self.kerf = FractionControl("Kerf (in.)", KERFS, self.job.shop.kerf)
        self.allowance = FractionControl("Allowance (in.)", ALLOWANCES, self.job.shop.allowance)
        saw = self.job.shop.saw
        self.throat = FractionControl("Throat (in.)", THROATS, saw.throat if saw is not None else Fraction(0))
        self.heavy = {name: as_(SWITCH, widgets.ToggleButton(False, description=HEAVY_WORDS[name], layout=widgets.Layout(width="auto"))) for name in HEAVY}
        self.projector = projector_switch()
        self.picture, self.caption = as_(PICTURE, widgets.HTML()), widgets.HTML()
        self.table, self.preview = (as_(BELOW, widgets.HTML()) for _ in range(2))
        self.both, self.pictures = widgets.HTML(), (widgets.HTML(), widgets.HTML())

    def _source(self) -> Piece:
        wide = {"style": {"description_width": "10rem"}, "layout": widgets.Layout(width="36rem", max_width="100%"), "continuous_update": False}
        self.parts = widgets.Select(options=_listed(self.job), value=START, rows=8, description="Parts", **{k: wide[k] for k in ("style", "layout")})
        self.opened = widgets.HTML(said(self._opened_words(), lines=2))
        files = [] if visiting() else self._files(wide)
        box = [*files, self.opened, self.parts]
        return Piece(box, lambda: paragraph(self._opened_words()), self._opened_words)

    def _files(self, wide: dict) -> list[widgets.Widget]:
        """What is typed to open files of one's own; a visitor's page has none of it."""
        self.job_file = widgets.Text("", description="Job file", placeholder="my-parts.toml; empty: the demo kit", **wide)
        self.rack_file = widgets.Text("", description="Rack file", placeholder="my-rack.csv; empty: the demo rack", **wide)
        self.open = PressButton(DO, description="Open", layout=widgets.Layout(width="auto"))
        self.open.on_press(self.read)
        return [self.job_file, self.rack_file, self.open]

    def _opened_words(self) -> str:
        return f"{self.job.name}: {_many(len(self.job.parts), 'part')}; {_many(len(self.rack.sticks), 'stick')} on the rack. Choose a part by its name. {shop_words(self.job)}"

    def _what_if(self) -> Piece:
        inside = {id_: [self.own.controls[name] for name in names] for id_, names in GROUPS.items()}
        groups = Groups("Change", {**inside, "saw": [self.kerf, self.allowance, self.throat]}, GROUP_WORDS, height="14rem")
        tools = as_(BELOW, widgets.HBox([*self.heavy.values(), self.projector, page_style()], layout=widgets.Layout(flex_flow="row wrap")))
        box = [self.variant, self.view, self.picture, self.caption, groups, self.own.told, self.own.kept, self.table, tools, self.preview]

        def still() -> str:
            return image(edges_sheet(self.kept["A"])) + Table(("what", "variant A"), _rows(self.kept["A"], self.shop, self.rack, self.limits))._repr_html_()

        return as_(BOX, Piece(box, still, lambda: edges_sheet(self.kept["A"]).sentence))

    def _compare(self) -> Piece:
        self.copy = PressButton(description="Make the other variant the same as this", layout=widgets.Layout(width="auto"))
        half = widgets.Layout(width="50%")
        for picture in self.pictures:
            picture.layout = half
        box = [widgets.HBox(list(self.pictures)), self.both, self.copy]

        def still() -> str:
            return "".join(image(edges_sheet(self.kept[name], few=True)) for name in "AB") + self._differences()._repr_html_()

        return Piece(box, still, lambda: repr(self._differences()))

    def _wire(self) -> None:
        self.parts.observe(self._choose, "value")
        self.own.observe(self._changed, "value")
        self.variant.observe(self._switch, "value")
        for control in (self.view, self.kerf, self.allowance, self.throat):
            control.observe(self._moved, "value")
        for name, toggle in self.heavy.items():
            toggle.observe(lambda change, name=name: self._preview(name, change["new"]), "value")
        self.copy.on_press(self._same)
        ROOM.observe(self._room_changed, "theme")

    # --- shown ----------------------------------------------------------------------------------------------
    @property
    def sheet(self) -> Sheet:
        """The picture as it stands."""
        return draw(self.view.value, self.part, self.shop, self.rack, few=ROOM.theme == "projector", limits=self.limits)

    @in_turn
    def redraw(self) -> None:
        """The picture, the rows and the comparison afresh; what takes long is folded away."""
        sheet = self.sheet
        self.picture.value = svg(sheet, ROOM.theme)
        self.caption.value = said(sheet.sentence)
        self.table.value = Table(("what", f"variant {self.variant.value}"), _rows(self.part, self.shop, self.rack, self.limits))._repr_html_()
        for toggle in self.heavy.values():
            toggle.value = False
        number = "AB".index(self.variant.value)
        for name, picture in zip("AB", self.pictures):
            if "AB".index(name) == number or not picture.value:
                picture.value = svg(edges_sheet(self.kept[name], few=True), ROOM.theme)
        self.both.value = self._differences()._repr_html_()

    def _differences(self) -> Table:
        return Table(("what", "variant A", "variant B", "B less A"), differences(self.kept["A"], self.kept["B"], self.shop, self.rack, self.limits))

    # --- what happens ---------------------------------------------------------------------------------------
    @in_turn
    def _changed(self, change: dict) -> None:
        if self.own.value is not None and not self._quiet:
            self.kept[self.variant.value] = self.own.value
            self._speak(self.own.value.unit)
            self.redraw()

    def _speak(self, unit: str) -> None:
        """Saw and both variants in the unit of the part at hand."""
        for control in (self.kerf, self.allowance, self.throat):
            control.speak(unit)
        for name, part in self.kept.items():
            if part.unit != unit:
                self.kept[name] = replace(part, unit=unit)
                self.pictures["AB".index(name)].value = ""

    @in_turn
    def _moved(self, change: dict) -> None:
        if not self._quiet:
            self.redraw()

    def _take(self, part: Part) -> None:
        self._quiet = True
        try:
            self.own.take(part)
            self._speak(part.unit)
        finally:
            self._quiet = False
        self.redraw()

    @in_turn
    def _switch(self, change: dict) -> None:
        self._take(self.part)

    @in_turn
    def _same(self) -> None:
        other = "B" if self.variant.value == "A" else "A"
        self.kept[other] = self.part
        self.pictures["AB".index(other)].value = ""
        self.redraw()

    @in_turn
    def _choose(self, change: dict) -> None:
        if change["new"] is not None and not self._quiet:
            self.begin(self.job.part(change["new"]))

    def begin(self, part: Part) -> None:
        """A part of the list on the bench: variant A as it is, variant B with a longer taper where it bears one."""
        self.kept = {"A": part, "B": longer(part)}
        for picture in self.pictures:
            picture.value = ""
        self._quiet = True
        try:
            self.variant.value = "A"
        finally:
            self._quiet = False
        self._take(part)

    @in_turn
    def read(self) -> None:
        """Opens what is typed; where a file cannot be read everything stays as it was, and the sentence says why."""
        try:
            job = open_job(placed(self.job_file.value)).value if self.job_file.value.strip() else demo_job()
            rack = read_rack(placed(self.rack_file.value)) if self.rack_file.value.strip() else demo_rack()
        except BenchError as error:
            self.opened.value = said(str(error), "unreadable", lines=2)
            return
        self.job, self.rack, self.of_file = job, rack, bool(self.job_file.value.strip())
        self._quiet = True
        try:
            self.kerf.take(job.shop.kerf)
            self.allowance.take(job.shop.allowance)
            self.throat.take(job.shop.saw.throat if job.shop.saw is not None else Fraction(0))
            self.parts.options, self.parts.value = _listed(job), job.parts[0].id
        finally:
            self._quiet = False
        self.opened.value = said(self._opened_words(), "right", lines=2)
        self.begin(job.parts[0])

    @in_turn
    def _preview(self, name: str, wanted: bool) -> None:
        if not wanted:
            if not any(toggle.value for toggle in self.heavy.values()):
                self.preview.value = ""
            return
        for other, toggle in self.heavy.items():
            if other != name:
                toggle.value = False
        try:
            self.preview.value = "".join(svg(sheet, ROOM.theme) for sheet in HEAVY[name](self.part, self.shop, self.limits))
        except BenchError as error:
            self.preview.value = said(str(error))

    @in_turn
    def _room_changed(self, change: dict) -> None:
        for picture in self.pictures:
            picture.value = ""
        self.redraw()


def placed(typed: str) -> Path:
    """Where a typed file is that is to be read: as it stands, or in the learner's own folder, or one of the demo kit's beside the lessons."""
    path = path_typed(typed)
    if path.is_absolute() or os.path.exists(path):
        return path
    own, demo = home() / path, JOB.parents[1] / path
    return demo if demo.parent == JOB.parent and os.path.exists(demo) and not os.path.exists(own) else own


def shop_words(job: Job) -> str:
    """What a job says of its shop that has no control, in words."""
    shop = job.shop
    with writing(job.unit):
        return (
            f"As the job says: a remnant counts from {own(shop.usable_minimum)} on, remnants are compared in steps of {own(shop.grain)}, "
            f"and under {own(shop.hand_minimum) if shop.hand_minimum else hand_words(shop)} in the hand is clamped."
            + (f" {saw_words(shop)}" if shop.saw is not None else "")
        )


def _rows(part: Part, shop: Shop, rack: Rack, limits: Limits) -> list[tuple[str, str]]:
    return [fact.row for fact in facts(part, shop, rack, limits)]


def _listed(job: Job) -> list[tuple[str, str]]:
    return [(f"{part.name} ({part.id})" + ("" if taper_lines(part) else ", no taper"), part.id) for part in job.parts]


def _many(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"
