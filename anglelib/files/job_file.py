"""The job file: TOML in which a person states the parts to make and how the shop cuts.

    format = 1
    name = "Tail repair"
    id = "7KQ4M2TX"              # the job's own for ever, whatever its name becomes; may be left out
    unit = "in"                  # or "mm": what a number without a unit means, and what the sheets are written in
    limits = "inch"              # or "ISO 2768-1 m", "ISO 2768-1 f", or one length like "1/32"; left out: inch, for mm ISO 2768-1 m

    [shop]
    kerf = "1/16"
    allowance = "1/32"
    throat = "9"                 # of the band saw, from the blade to the column: with it the plan says which cuts are rough cuts by hacksaw; may be left out

    [section."3/4 x 3/4 x 1/8"]
    leg_a = "3/4"
    leg_b = "3/4"
    thickness_a = "1/8"
    fillet = "1/8"

    [[part]]
    id = "T1L"
    name = "Tail cleat, left"
    section = "3/4 x 3/4 x 1/8"
    alloy = "6061-T6"
    length = "2 1/4"
    hand = "left"
    tapers = [{leg = "A", end = 1, run = "1 1/4", width_left = "3/8"}]
    holes = [{leg = "A", x = "1 1/2", y = "7/16", diameter = "1/8"}]
    quantity = 4
    pinned = [{stick = "S-03", quantity = 2}]    # 2 of the 4 come from S-03, the others from any stick
    not_from = ["S-05"]                          # none comes from S-05, nor from what is left of it

>>> parse_job('format = 1\\nname = "Tail repair"')
Traceback (most recent call last):
    ...
anglelib.errors.FileProblems: job.toml, part: the job has no parts: add at least one.
"""

from __future__ import annotations

from dataclasses import replace
from os import PathLike

from anglelib.alloy import alloy_meant, is_alloy_name
from anglelib.contents_words import JOB
from anglelib.errors import BenchError, JobError, LengthError, PartError, SectionError
from anglelib.files.report import FORMAT, MOST_PIECES, Opened, Report, quoted, read_source, sentence
from anglelib.files.syntax import parse
from anglelib.files.tables import Table
from anglelib.geometry.hole_refusals import broken_words
from anglelib.geometry.rounding import rounded_corners
from anglelib.geometry.taper import TaperLine
from anglelib.geometry.whole_holes import broken_holes
from anglelib.job import Job, Shop, contradictions
from anglelib.lengths import UNITS, exact, writing
from anglelib.names import MOST_NAME_CHARACTERS, MOST_NOTE_CHARACTERS
from anglelib.near import did_you_mean
from anglelib.part import ENDS, HANDS, Cope, Corner, Hole, Part, Pinned, Taper
from anglelib.saw import WORDS, Saw
from anglelib.section import LEGS, Section
from anglelib.section_sizes import section_given
from anglelib.stock.pin_words import contradiction
from anglelib.stock.pins import contradictions as contradictory_sticks
from anglelib.storage import shown
from anglelib.tolerances import Limits

EMPTY = "copy the demo's job.toml and change it."
SHOP_KEYS = {
    "kerf": ("kerf", "1/16", True),
    "allowance": ("sanding allowance", "1/32", True),
    "grain": ("grain of the comparison", "1", False),
    "usable_minimum": ("usable minimum", "3", True),
    "hand_minimum": ("hand minimum", "6", True),
}
"""Keys of [shop]: what each is called, an example, whether it may be 0."""

SAW_KEYS = {
    "throat": (WORDS["throat"], "9", False),
    "column": (WORDS["column"], "2", True),
    "table": (WORDS["table"], "8", True),
    "table_front": (WORDS["table_front"], "6", True),
    "fence": (WORDS["fence"], "6", True),
    "hacksaw_allowance": (WORDS["hacksaw_allowance"], "1/16", True),
    "hacksaw_kerf": (WORDS["hacksaw_kerf"], "1/16", True),
}
"""Keys of [shop] that say which cuts the saw can make; none of them means anything without the throat."""

SECTION_KEYS = ("leg_a", "leg_b", "thickness_a", "thickness_b", "fillet", "toe_radius", "heel_radius")
PART_KEYS = (
    "id", "name", "section", "alloy", "unit", "length", "quantity", "hand", "mirror_of", "tapers", "holes", "corners", "copes",
    "one_piece", "later", "priority", "only_stick", "pinned", "not_from", "note",
)  # fmt: skip
FEATURE_KEYS = {
    "tapers": ("leg", "end", "run", "angle", "width_left", "blunt"),
    "holes": ("leg", "x", "y", "diameter", "flush"),
    "corners": ("leg", "end", "radius"),
    "copes": ("leg", "end", "length", "width_left", "radius"),
}
ENTRY_KEYS = FEATURE_KEYS | {"pinned": ("stick", "quantity")}
"""The keys of each entry of a part's lists."""
_EXAMPLES = {
    "pinned": '{stick = "S-03", quantity = 2}',
    "tapers": '{leg = "A", end = 1, run = "1 1/4", width_left = "3/8"}',
    "holes": '{leg = "A", x = "1 1/2", y = "7/16", diameter = "1/8"}',
    "corners": '{leg = "A", end = 1, radius = "1/4"}',
    "copes": '{leg = "A", end = 1, length = "1", width_left = "1/4", radius = "1/8"}',
}


def read_job(path: str | PathLike) -> Job:
    """The job in a file. Raises FileProblems with everything that is wrong in it, or StorageError."""
    return open_job(path).value


def open_job(path: str | PathLike) -> Opened[Job]:
    """The job in a file, with the text that a later save of it keeps its comments from."""
    source = read_source(path, JOB)
    return Opened(parse_job(source.text, shown(path)), source)


def parse_job(text: str, file: str = "job.toml") -> Job:
    """The job in a TOML text; ``file`` is the name that its problems carry."""
    report = Report(file)
    top = Table(report, parse(text, report, EMPTY), "")
    _check_format(top)
    top.known("format", "name", "id", "unit", "limits", "shop", "section", "part")
    name = top.text("name", "name of the job", MOST_NAME_CHARACTERS, "Tail repair")
    own = top.id("id", "id of the job", "T7") if "id" in top.values else ""
    top.unit = top.choice("unit", "unit", UNITS, "in") or "in"
    limits = _limits(top)
    with writing(top.unit):  # what is wrong is said in the unit of what is wrong
        shop = _shop(top)
        sections = _sections(top)
        parts = _parts(top, sections)
    report.close()
    return Job(name, shop, tuple(parts), top.unit, limits, own or "")  # type: ignore[arg-type]


def _limits(top: Table) -> Limits | None:
    """How far off the job lets a dimension be; None: what is usual for its unit."""
    if "limits" not in top.values:
        return None
    said = top.text("limits", "limits", MOST_NAME_CHARACTERS, "inch")
    try:
        return Limits.named(said, top.unit) if said is not None else None
    except LengthError as error:
        return top.problem("limits", sentence(error))


def _check_format(top: Table) -> None:
    if "format" not in top.values:
        top.problem("format", f"it is missing: write format = {FORMAT} as the first line.")
    elif top.values["format"] != FORMAT or isinstance(top.values["format"], bool):
        found = quoted(top.values["format"])
        # Another format has other keys: what they say here would only mislead.
        top.report.stop("format", f"it is {found}, and this library reads format {FORMAT}: write format = {FORMAT}.")


def _shop(top: Table) -> Shop:
    values = top.values.get("shop", {})
    if not isinstance(values, dict):
        top.problem("shop", f"it is {quoted(values)}: write a heading [shop] and its lines below it.")
        return Shop()
    table = Table(top.report, values, "shop", top.unit)
    table.known(*SHOP_KEYS, *SAW_KEYS)
    given, of_saw = (
        {key: table.length(key, what, example, zero=zero) for key, (what, example, zero) in keys.items() if key in values}
        for keys in (SHOP_KEYS, SAW_KEYS)
    )
    given = {key: value for key, value in given.items() if value is not None}
    if of_saw and "throat" not in of_saw and "throat" not in table.meant:
        table.problem("throat", f'it is missing, and {next(iter(of_saw))} says nothing without it: write it, from the blade to the column, for example throat = "9".')
    try:
        saw = Saw(**of_saw) if of_saw and None not in of_saw.values() and "throat" in of_saw else None  # type: ignore[arg-type]
        return Shop(**given, saw=saw)
    except JobError as error:
        table.report.add("shop", sentence(error))
        return Shop()


def _sections(top: Table) -> dict[str, Section | None] | None:
    """The sections by name. None stands for what is wrong and reported: one section, or all of them."""
    values = top.values.get("section", {})
    heading = 'write a heading for each section with its name, [section."3/4 x 3/4 x 1/8"], and its sizes below it'
    if not isinstance(values, dict):
        return top.problem("section", f"it is {quoted(values)}: {heading}.")
    loose = next((key for key, value in values.items() if not isinstance(value, dict)), None)
    if loose is not None:
        return top.problem("section", f"{quoted(loose)} belongs to no section: {heading}.")
    if not values and top.values.get("part"):
        return top.problem("section", f"no section is described: {heading}.")
    return {name: _section(top.report, name, table, top.unit) for name, table in values.items()}


def _section(report: Report, name: str, values: dict, unit: str) -> Section | None:
    label = Table(report, {"name": name}, f"section {quoted(name)}")
    label.text("name", "name of the section", MOST_NAME_CHARACTERS, "3/4 x 3/4 x 1/8")
    table = Table(report, values, label.place, unit)
    table.known(*SECTION_KEYS)
    sizes = {
        "leg_a": table.length("leg_a", "width of leg A", "3/4", zero=False),
        "leg_b": table.length("leg_b", "width of leg B", "3/4", zero=False),
        "thickness_a": table.length("thickness_a", "thickness of leg A", "1/8", zero=False),
        # A square inside corner is a fact that somebody looked at, so it is written, not assumed.
        "fillet": table.length("fillet", "fillet radius", "1/8", hint=', or "0" for a square inside corner'),
    }
    if "thickness_b" in values:
        sizes["thickness_b"] = table.length("thickness_b", "thickness of leg B", "1/8", zero=False)
    for key, what in (("toe_radius", "toe radius"), ("heel_radius", "heel radius")):
        if key in values:
            sizes[key] = table.length(key, what, "1/8")
    if not (table.ok and label.ok):
        return None
    try:
        return section_given(**sizes)  # type: ignore[arg-type]
    except SectionError as error:
        table.problem(error.size, sentence(error))
        return None


# --- parts ----------------------------------------------------------------------------------------------
def _parts(top: Table, sections: dict[str, Section | None] | None) -> list[Part]:
    values = top.values.get("part", [])
    if not isinstance(values, list) or not all(isinstance(item, dict) for item in values):
        top.problem("part", "write the heading of each part with two brackets on either side: [[part]].")
        return []
    if len(values) > MOST_PIECES:
        top.problem("part", f"the job has {len(values)} parts: at most {MOST_PIECES}; split it.")
        return []
    found = [_part(top.report, number, item, sections, top.unit) for number, item in enumerate(values, 1)]
    good = [part for part in found if part is not None]
    broken = {str(item.get("id")) for item, part in zip(values, found, strict=True) if part is None}
    if good or not broken:
        # A partner that could not be read is missing for another reason, which is reported.
        alone = [replace(part, mirror_of="") if part.mirror_of in broken else part for part in good]
        for part_id, key, message in contradictions(tuple(alone)):
            place = ", ".join(text for text in (f"part {part_id}" if part_id else "", key) if text)
            top.report.add(place, sentence(BenchError(message)))
    for part_id in sorted(broken & {part.id for part in good}):
        top.report.add(f"part {part_id}, id", f"the id {part_id} is not its own: another part has it too. Rename one.")
    return good


def _part(report: Report, number: int, values: dict, sections: dict[str, Section | None] | None, unit: str) -> Part | None:
    given = values.get("id")
    table = Table(report, values, f"part {given}"[:45] if isinstance(given, str) and given else f"part number {number}")
    table.known(*PART_KEYS)
    table.unit = table.choice("unit", "unit", UNITS, unit) or unit
    with writing(table.unit):
        return _part_of(table, sections)


def _part_of(table: Table, sections: dict[str, Section | None] | None) -> Part | None:
    fields = {
        "id": table.id("id", "part id", "T1L"),
        "name": table.text("name", "name of the part", MOST_NAME_CHARACTERS, "Tail cleat, left"),
        "section": _named_section(table, sections),
        "alloy": _alloy(table),
        "length": table.length("length", "length of the part", "26 1/2", zero=False),
        "quantity": table.whole("quantity", "quantity", 1, 1, MOST_PIECES),
        "mirror_of": table.id("mirror_of", "id of the mirror image"),
        "one_piece": table.flag("one_piece", "one_piece"),
        "later": table.flag("later", "later"),
        "priority": table.whole("priority", "priority", 0, -1000, 1000),
        "only_stick": table.id("only_stick", "id of the stick"),
        "pinned": _pinned(table),
        "not_from": table.ids("not_from", "id of the stick", '"S-05"'),
        "note": table.text("note", "note", MOST_NOTE_CHARACTERS),
        "unit": table.unit,
    }
    hand = table.choice("hand", "hand", HANDS) if "hand" in table.values else None
    features = {kind: _features(table, kind) for kind in FEATURE_KEYS}
    if any(fields[key] is None for key in fields):
        return None
    part = _with_features(table, Part(**fields), features)  # type: ignore[arg-type]
    for one in contradictory_sticks(part):
        table.problem(one.key, contradiction(one, part))
    if not table.ok:
        return None
    try:
        return replace(part, hand=hand)
    except PartError as error:
        table.problem("hand", sentence(error))
        return None


def _pinned(table: Table) -> tuple[Pinned, ...] | None:
    """The sticks of which each is to give so many of a part's pieces."""
    found: list[Pinned] = []
    for entry in table.tables("pinned", _EXAMPLES["pinned"]):
        entry.known(*ENTRY_KEYS["pinned"])
        stick = entry.id("stick", "id of the stick", "S-03")
        quantity = entry.whole("quantity", "number of pieces from it", 1, 1, MOST_PIECES)
        if entry.ok:
            found.append(Pinned(stick, quantity))  # type: ignore[arg-type]
        else:
            table.ok = False
    return tuple(found) if table.ok or len(found) == len(table.values.get("pinned", [])) else None


def _named_section(table: Table, sections: dict[str, Section | None] | None) -> Section | None:
    name = table.text("section", "section", MOST_NAME_CHARACTERS, "3/4 x 3/4 x 1/8")
    if name is None:
        return None
    if sections is None:
        table.ok = False
        return None
    if name not in sections:
        known = ", ".join(quoted(known) for known in sections) or "none"
        remedy = did_you_mean(name, sections, '"') or f"there is {known}; add it or correct it."
        table.problem("section", f"the section {quoted(name)} is not described in this file: {remedy}")
        return None
    if sections[name] is None:
        table.ok = False  # reported where the section is described
    return sections[name]


def _alloy(table: Table) -> str | None:
    alloy = table.text("alloy", "alloy", MOST_NAME_CHARACTERS, "6061-T6")
    if alloy is not None and not is_alloy_name(alloy):
        remedy = f"did you mean {meant}?" if (meant := alloy_meant(alloy)) else "write it like 6061-T6."
        table.problem("alloy", f"the alloy {quoted(alloy)} is no alloy with its temper: {remedy}")
        return None
    return alloy


def _features(table: Table, kind: str) -> list[tuple[str, object]]:
    """The features of one kind that can be read, each with its place in the part."""
    made = []
    for number, entry in enumerate(table.tables(kind, _EXAMPLES[kind]), 1):
        entry.known(*FEATURE_KEYS[kind])
        feature = None
        try:
            feature = _FEATURES[kind](entry)
        except PartError as error:
            table.report.add(entry.place, sentence(error))
        if feature is None or not entry.ok:
            table.ok = False
        else:
            made.append((f"{kind} {number}", feature))
    return made


def _taper(entry: Table) -> Taper | None:
    leg = entry.choice("leg", "leg", LEGS)
    end = entry.choice("end", "end", ENDS)
    left = entry.length("width_left", "width left", "3/8", hint=', or "0" for a cut to the vertex')
    run = entry.length("run", "run", "1 1/4", zero=False) if "run" in entry.values else None
    blunt = entry.length("blunt", "thickness of the blunted edge", "1/32", zero=False) if "blunt" in entry.values else None
    return Taper(leg, end, left, run, entry.values.get("angle"), blunt) if entry.ok else None  # type: ignore[arg-type]


def _hole(entry: Table) -> Hole | None:
    leg = entry.choice("leg", "leg", LEGS)
    x = entry.length("x", "distance of the hole from end 1", "1 1/2")
    y = entry.length("y", "distance of the hole from the heel", "7/16")
    diameter = entry.length("diameter", "diameter of the hole", "1/8", zero=False)
    flush = entry.flag("flush", "flush")
    return Hole(leg, x, y, diameter, flush) if entry.ok else None  # type: ignore[arg-type]


def _corner(entry: Table) -> Corner | None:
    leg, end = entry.choice("leg", "leg", LEGS), entry.choice("end", "end", ENDS)
    radius = entry.length("radius", "radius of the corner", "1/4", zero=False)
    return Corner(leg, end, radius) if entry.ok else None  # type: ignore[arg-type]


def _cope(entry: Table) -> Cope | None:
    leg, end = entry.choice("leg", "leg", LEGS), entry.choice("end", "end", ENDS)
    length = entry.length("length", "length of the cope", "1", zero=False)
    left = entry.length("width_left", "width left beside the cope", "1/4")
    radius = entry.length("radius", "inside radius of the cope", "1/8", zero=False)
    return Cope(leg, end, length, left, radius) if entry.ok else None  # type: ignore[arg-type]


_FEATURES = {"tapers": _taper, "holes": _hole, "corners": _corner, "copes": _cope}


def _with_features(table: Table, part: Part, features: dict[str, list[tuple[str, object]]]) -> Part:
    """The part with its features; where they do not fit, each is tried alone, so that none hides the next."""
    try:
        part = replace(part, **{kind: tuple(feature for _, feature in listed) for kind, listed in features.items()})
    except PartError:
        part = _with_what_fits(table, part, features)
    for place, taper in features["tapers"]:
        if taper in part.tapers:
            _check_run(table, place, part, taper)  # type: ignore[arg-type]
    _check_holes(table, part, features["holes"])
    return part


def _check_holes(table: Table, part: Part, listed: list[tuple[str, object]]) -> None:
    """Every hole is whole in the metal: reported by its place in the part. What is short of edge is said where it is planned."""
    try:
        rounded_corners(part)
    except PartError as error:
        return table.problem("corners", sentence(error))
    for broken in broken_holes(part):
        hole = part.holes[broken.number - 1]
        place = next(place for place, feature in listed if feature is hole)
        with writing(part.unit):
            table.problem(place, sentence(BenchError(broken_words(part, broken))))
    return None


def _with_what_fits(table: Table, part: Part, features: dict[str, list[tuple[str, object]]]) -> Part:
    for kind, listed in features.items():
        fitting = []
        for place, feature in listed:
            try:
                replace(part, **{kind: (feature,)})
            except PartError as error:
                table.problem(place, sentence(error))
            else:
                fitting.append(feature)
        try:
            part = replace(part, **{kind: tuple(fitting)})
        except PartError as error:
            table.problem(kind, sentence(error))
    return part


def _check_run(table: Table, place: str, part: Part, taper: Taper) -> None:
    run = TaperLine.of(part.section, taper).run
    if run > part.length:
        how = exact(run) if isinstance(run, int | type(part.length)) else f"{run:.3f}"
        table.problem(
            place,
            f"the taper runs {how} along leg {taper.leg}, longer than the part, {exact(part.length)}: "
            "check its run or angle, and the length of the part.",
        )
