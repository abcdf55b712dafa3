"""``python -m anglelib export``: a job's parts as DXF, SVG, coordinate tables, meshes and marking saddles.

Everything is made before anything is written. Exit codes: 0, written; 2, the input or the folder has
to be put right, and nothing was written.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from fractions import Fraction
from pathlib import Path

from anglelib.errors import BenchError
from anglelib.files import open_job
from anglelib.geometry.hole_refusals import refuse_broken
from anglelib.geometry.rounding import rounded_corners
from anglelib.job import Job
from anglelib.lengths import typed, writing
from anglelib.lines import Parser, say
from anglelib.names import visible
from anglelib.near import did_you_mean
from anglelib.paper.commands import DEMO
from anglelib.paper.coordinates import coordinates_csv
from anglelib.paper.flat_dxf import dxf
from anglelib.paper.flat_svg import flat_svg
from anglelib.paper.flat_views import UNITS, flat_views
from anglelib.paper.mesh import ERROR, check_error, part_mesh, stl
from anglelib.paper.saddle import CLEARANCE, WALL, saddles
from anglelib.part import Part
from anglelib.whole_sets import refuse_folder, write_set

WHAT = ("dxf", "svg", "csv", "mesh", "saddle")
Files = dict[str, bytes]


class Wanted(argparse.Namespace):
    """What the words of the command ask for."""

    job: str | None
    part: list[str]
    what: tuple[str, ...]
    unit: str = ""
    out: str
    error: float
    wall: float
    clearance: float
    length: Fraction | None


def main(arguments: Sequence[str]) -> int:
    """Export what the words after ``export`` ask for; raises BenchError for what a person can put right."""
    wanted = _read(arguments)
    refuse_folder(wanted.out)
    folder = Path(wanted.out)
    check_error(wanted.error)
    job = open_job(_job_file(wanted)).value
    wanted.length = typed(str(wanted.length), job.unit, what="length of the saddle", zero=False) if wanted.length else None
    parts = _parts(job, wanted.part)
    files = {f"{part.id}/{name}": content for part in parts for name, content in exported(job, part, wanted).items()}
    write_set(folder, files)  # older files of the same name are kept as the previous version
    say(f"{len(files)} files of {len(parts)} part{'' if len(parts) == 1 else 's'}: {folder}")
    return 0


def exported(job: Job, part: Part, wanted: Wanted) -> Files:
    """A part's files by their names, in the part's unit where no other is asked for."""
    with writing(part.unit):
        return _exported(job, part, wanted, wanted.unit or part.unit)


def _exported(job: Job, part: Part, wanted: Wanted, unit: str) -> Files:
    rounded_corners(part)  # refuses what does not fit
    refuse_broken((part,))
    made: dict[str, Callable[[], Files]] = {
        "dxf": lambda: {f"{part.id}-{view.name}.dxf": dxf(view, unit) for view in flat_views(part, job.shop, unit)},
        "svg": lambda: {
            f"{part.id}-{view.name}.svg": flat_svg(view, unit).encode("utf-8") for view in flat_views(part, job.shop, unit)
        },
        "csv": lambda: {f"{part.id}-coordinates.csv": _table(coordinates_csv(part, job.shop, job.limits))},
        "mesh": lambda: {f"{_named(part)}.stl": stl(part_mesh(part, wanted.error), _named(part))},
    }
    files: Files = {}
    for what, make in made.items():
        if what in wanted.what:
            files |= make()
    if "saddle" in wanted.what:
        made_for = saddles(part, wall=wanted.wall, clearance=wanted.clearance, length=wanted.length)
        files |= {f"{saddle.name}.stl": stl(saddle.printed(wanted.error), saddle.name) for saddle in made_for}
        if made_for:
            files[f"{part.id}-saddles.txt"] = "".join(f"{saddle.sentence}\n" for saddle in made_for).encode("utf-8")
    return files


def _named(part: Part) -> str:
    return f"{part.id}-part" + (f"-{part.hand}" if part.hand in ("left", "right") else "")


def _table(text: str) -> bytes:
    # A spreadsheet takes text without this mark for an old code page.
    return text.encode("utf-8" if text.isascii() else "utf-8-sig")


# --- what is asked for ------------------------------------------------------------------------------------
def _read(arguments: Sequence[str]) -> Wanted:
    parser = Parser(
        prog="python -m anglelib export",
        description="Write a job's parts for other tools: flat views and unrolled sheets at true size (DXF, SVG), a coordinate "
        "table (CSV), the finished part as a mesh and a saddle to mark each tapered end (STL, millimetres).",
        epilog="Exit code 0: written; 2: something has to be put right first, and nothing was written.",
    )
    parser.add_argument("job", nargs="?", help="the job file (TOML); without one the demo kit is exported")
    parser.add_argument("--part", action="append", default=[], metavar="ID", help="only this part; may be given more than once")
    parser.add_argument("--what", default=",".join(WHAT), metavar="KINDS", help=f"of {','.join(WHAT)} (default: all)")
    parser.add_argument("--out", default="export", metavar="DIR", help="the folder to write to, one folder in it for each part (default: export)")
    parser.add_argument("--unit", default="", choices=UNITS, help="unit of the DXF and SVG files (default: the part's)")
    parser.add_argument("--error", type=float, default=ERROR, metavar="MM", help=f"how far a mesh's flat faces may be off an arc (default: {ERROR} mm)")
    parser.add_argument("--wall", type=float, default=WALL, metavar="MM", help=f"thickness of a saddle's walls (default: {WALL:g} mm)")
    parser.add_argument("--clearance", type=float, default=CLEARANCE, metavar="MM", help=f"how far a saddle's corner stays clear of heel or fillet (default: {CLEARANCE:g} mm)")  # fmt: skip
    parser.add_argument("--length", default="", metavar="L", help='length of a saddle, like "3 1/2" or "90 mm"; a bare number is in the job\'s unit (default: half an inch past the run)')
    wanted = parser.parse_args(arguments, Wanted())
    wanted.what = _kinds(str(wanted.what))
    return wanted


def _kinds(text: str) -> tuple[str, ...]:
    found = tuple(dict.fromkeys(word.strip().lower() for word in text.split(",") if word.strip()))
    for word in found:
        if word not in WHAT:
            remedy = did_you_mean(word, WHAT) or f"after --what write one or more of {','.join(WHAT)}."
            raise BenchError(f'"{visible(word)[:20]}" cannot be exported: {remedy}')
    if not found:
        raise BenchError(f"Nothing is asked for: after --what write one or more of {','.join(WHAT)}.")
    return found


def _job_file(wanted: Wanted) -> str:
    if wanted.job is not None:
        return wanted.job
    if not (DEMO / "job.toml").is_file():
        raise BenchError("The demo kit is not beside the package: name a job file.")
    return str(DEMO / "job.toml")


def _parts(job: Job, ids: Sequence[str]) -> list[Part]:
    known = {part.id: part for part in job.parts}
    for name in ids:
        if name not in known:
            remedy = did_you_mean(name, known) or f"its parts are {', '.join(known)}."
            raise BenchError(f'There is no part "{visible(name)[:32]}" in {job.name}: {remedy}')
    return [known[name] for name in dict.fromkeys(ids)] if ids else list(job.parts)
