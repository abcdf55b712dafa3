"""What leaves the builder's bench: a variant saved to a job file, and the shop pack of a variant.

Nothing is overwritten in silence: a file that is there gets the part added; a part of the same id is replaced only where that
is asked for, and the version before is kept beside it.

>>> from fractions import Fraction
>>> from tempfile import TemporaryDirectory
>>> from anglelib.lessons.demo import demo_part
>>> with TemporaryDirectory() as folder:
...     path = Path(folder, "mine.toml")
...     print(saved(demo_part("C1L"), Shop(), path)[1][:38])
...     print(saved(replace(demo_part("C1L"), length=Fraction(5)), Shop(), path)[1][:61])
Saved: Door hinge bracket, left (C1L),
Not saved: there is another part C1L in mine.toml. Tick Repla
"""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path
from typing import Protocol

import ipywidgets as widgets

from anglelib.errors import BenchError
from anglelib.files import open_job, save_job
from anglelib.job import Job, Shop
from anglelib.lessons.controls import ChoiceControl, PressButton, by_id, in_turn
from anglelib.lessons.look_style import DO
from anglelib.lessons.piece import Piece
from anglelib.lessons.words import paragraph, said
from anglelib.names import MOST_NAME_CHARACTERS, visible
from anglelib.part import Part
from anglelib.questions.answers import home
from anglelib.stock.rack import Rack
from anglelib.stock.versions import new_id
from anglelib.storage import path_typed, shown
from anglelib.tolerances import Limits

FILE, FOLDER = "my-parts.toml", "shop-pack"
NOT_SAVED, NOT_MADE = "Nothing is saved yet.", "No pack is made yet."
_TEXT = {"style": {"description_width": "10rem"}, "layout": widgets.Layout(width="36rem", max_width="100%")}


class _Bench(Protocol):
    rack: Rack
    own: widgets.Widget

    @property
    def part(self) -> Part: ...

    @property
    def shop(self) -> Shop: ...

    @property
    def limits(self) -> Limits: ...


# --- computed -------------------------------------------------------------------------------------------
def alone(part: Part) -> Part:
    """The part as it can stand by itself in a job: no partner named."""
    return replace(part, mirror_of="") if part.mirror_of else part


def saved(part: Part, shop: Shop, path: Path, replacing: bool = False, limits: Limits | None = None) -> tuple[bool, str]:
    """Saves a part to a job file, new or there already: whether it was written, and what was done, in a sentence.

    A new file has the ``limits`` of the page (else those usual for the part's unit). Raises BenchError with nothing written.
    """
    what = f"{part.name} ({part.id})"
    if not os.path.exists(path):
        save_job(Job(_name(path), shop, (alone(part),), part.unit, limits, new_id()), path)
        return True, f"Saved: {what}, in the new job file {path.resolve()}."
    opened = open_job(path)
    job = opened.value
    same = next((other for other in job.parts if other.id.lower() == part.id.lower()), None)
    if same is not None and alone(same) == alone(part):
        return False, f"{what} is in {shown(path)} as it is: nothing had to be saved."
    if same is not None and not replacing:
        return False, f"Not saved: there is another part {same.id} in {shown(path)}. Tick Replace, or give this one another id."
    if same is None:
        parts = (*job.parts, alone(part) if part.mirror_of not in {p.id for p in job.parts} else part)
    else:
        parts = tuple(_unpaired(p, same, part) for p in job.parts)
    save_job(replace(job, parts=parts), path, opened)
    kept = "" if same is None else "; the version before is kept beside it"
    return True, f"Saved: {what}, in {path.resolve()}{kept}. Kerf and allowance there stay as they were."


def _name(path: Path) -> str:
    """A new job's name: that of its file, so that no two are called alike."""
    return f"My parts, {visible(path.stem)}"[:MOST_NAME_CHARACTERS]


def _unpaired(part: Part, old: Part, new: Part) -> Part:
    """A part of the job when another is changed: a partner is no longer its mirror image."""
    if part is old:
        return alone(new)
    return alone(part) if part.mirror_of == old.id and not part.mirrors(new) else part


def packed(part: Part, shop: Shop, rack: Rack, folder: Path, on: str, progress, limits: Limits | None = None) -> str:
    """Plans, lays out and writes the shop pack of one part, by the ``limits`` of the page; where it lies, in a sentence."""
    from anglelib.paper.pack import PDF_NAME, RACK_NAME, make_pack, write_pack
    from anglelib.paper.page import paper

    if os.path.exists(folder) and not os.path.isdir(folder):
        raise BenchError(f"{shown(folder)} is a file: name a folder for the pack.")
    before = [name for name in (PDF_NAME, RACK_NAME) if os.path.exists(folder / name)]
    try:
        pack = make_pack(Job(part.name, shop, (alone(part),), part.unit, limits), rack, paper(on), progress=progress)
        folder.parent.mkdir(parents=True, exist_ok=True)
    except ImportError:
        raise BenchError("What the pack needs is not in this Python: start the course with the command line in README.md.") from None
    except OSError as error:
        raise BenchError(f"The folder {folder} cannot be made ({error.strerror}): name another.") from None
    printed, _ = write_pack(pack, folder, progress)
    kept = " The pack that lay there is kept as the previous version." if before else ""
    return f"{pack.made} {pack.short} {len(pack.sheets)} pages: {printed.resolve()}.{kept} {pack.unprinted}".strip().replace("  ", " ")


# --- wired ------------------------------------------------------------------------------------------------
class Saving(Piece):
    """Saves the variant at hand to a job file."""

    def __init__(self, bench: _Bench) -> None:
        self.bench, self.told = bench, NOT_SAVED
        self.file = widgets.Text(FILE, description="Save to", continuous_update=False, **_TEXT)
        self.replacing = widgets.Checkbox(False, description="Replace a part of the same id", indent=False)
        self.save = PressButton(DO, description="Save this variant", layout=widgets.Layout(width="auto"))
        self.words_html = widgets.HTML(said(self.told, lines=2))
        super().__init__([self.file, self.replacing, self.save, self.words_html], lambda: paragraph(NOT_SAVED), lambda: NOT_SAVED)
        self.save.on_press(self.do)

    @in_turn
    def do(self) -> None:
        """Saves; a refusal is a sentence."""
        name = self.file.value.strip()
        try:
            if not name:
                raise BenchError("Type a name for the file, for example my-parts.toml.")
            path = path_typed(name)
            if path.name in ("", "..") or os.path.isdir(path if path.is_absolute() else home() / path):
                raise BenchError(f"{name} is a folder: type a name for the file too, for example my-parts.toml.")
            path = path if path.suffix else path.with_suffix(".toml")
            path = path if path.is_absolute() else home() / path
            written, self.told = saved(self.bench.part, self.bench.shop, path, self.replacing.value, self.bench.limits)
            status = "right" if written else "unreadable"
        except BenchError as error:
            self.told, status = f"Not saved. {error}", "unreadable"
        self.replacing.value = False
        self.words_html.value = said(self.told, status, lines=2)


class Packing(Piece):
    """Makes the shop pack of the variant at hand."""

    def __init__(self, bench: _Bench) -> None:
        self.bench, self.told = bench, NOT_MADE
        self.folder = widgets.Text(FOLDER, description="Folder", continuous_update=False, **_TEXT)
        self.paper = ChoiceControl("Paper", by_id({"letter": "Letter", "a4": "A4"}), "letter")
        self.make = PressButton(DO, description="Make the shop pack", layout=widgets.Layout(width="auto"))
        self.bar = widgets.FloatProgress(value=0.0, min=0.0, max=1.0, layout=widgets.Layout(width="20rem"))
        self.words_html = widgets.HTML(said(self.told, lines=2))
        super().__init__([self.folder, self.paper, self.make, self.bar, self.words_html], lambda: paragraph(NOT_MADE), lambda: NOT_MADE)
        self.make.on_press(self.do)

    def _progress(self, share: float, words: str) -> None:
        self.bar.value = min(1.0, share)
        self.words_html.value = said(f"{words} ...", lines=2)

    @in_turn
    def do(self) -> None:
        """Makes the pack; a refusal is a sentence."""
        self.make.disabled = True
        try:
            name = path_typed(self.folder.value.strip() or FOLDER)
            folder = name if name.is_absolute() else home() / name
            self.told = packed(self.bench.part, self.bench.shop, self.bench.rack, folder, self.paper.value, self._progress, self.bench.limits)
            self.bar.value, status = 1.0, "right"
        except BenchError as error:
            self.told, status, self.bar.value = f"No pack was made. {error}", "unreadable", 0.0
        finally:
            self.make.disabled = False
        self.words_html.value = said(self.told, status, lines=2)
