"""Everything in which the sheets of one job differ, part by part, as sentences: what is read from the PDF, the form, lesson 10, the table.

Each comparison takes two sheets as a person would lay them side by side; none asks the library which of them is right.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass

from read_back import (
    ALLOWANCE,
    BOTH,
    HAND,
    MM,
    Card,
    Fold,
    Pack,
    flat,
    inches,
    labels,
    length,
    of_card,
    of_checks,
    of_folds,
    of_plan,
    of_tags,
    sorted_pages,
    whole_card,
)

from anglelib.inspection.likelihood import Reading
from anglelib.inspection.verdict import REWORK, SCRAP, judge
from anglelib.inspection.wanted import wanted_readings
from anglelib.job import Job

NEAR = {"in": 0.00051, "mm": 0.0051 / MM}
"""Half of the last place of a printed number [in]."""
READ = {"in": 0.00101, "mm": 0.0101 / MM}
"""A step of a caliper's last place [in]."""
ROUGH = 0.06 / MM
"""A blank as it is sawn is tagged to a tenth of a millimetre [in]."""
ALONG = ("run", "first flat mark", "vertex-projection mark", "mark on the other leg", "cope, back from the end", "round, start of the arc")
ACROSS = ("width left", "cope, width left")
OUTSIDE = ("run", "cope, back from the end", *ACROSS)
INSIDE = ("run", "cope, back from the end", "vertex-projection mark", "mark on the other leg")
CENTRE = "cope, centre of its corner"


@dataclass
class Said:
    """What a job's papers say: its pages, the form's rows and the coordinate table's by part, lesson 10's entries."""

    job: Job
    pack: Pack
    form: dict[str, list[dict[str, str]]]
    table: dict[str, list[dict[str, str]]]
    entries: dict[str, list[tuple[str, str]]]

    @classmethod
    def of(cls, job: Job, content: bytes, form: str, tables: dict[str, str], entries: dict[str, list[tuple[str, str]]]) -> Said:
        """What stands in a PDF and the files beside it; the job is the one that check judges by."""
        rows: dict[str, list[dict[str, str]]] = {}
        for row in csv.DictReader(io.StringIO(form)):
            if row["id"] != "print":
                rows.setdefault(row["part"], []).append(row)
        table = {id_: list(csv.DictReader(io.StringIO(text))) for id_, text in tables.items()}
        return cls(job, sorted_pages(labels(content)), rows, table, entries)


def disagreements(said: Said) -> list[str]:
    """Everything in which the papers differ."""
    found = [f"versions: {versions}" for versions in [{*re.findall(r"version (\w{4}-\w{4})", " ".join(map(flat, said.pack.pages)))}] if len(versions) > 1]
    missing = [str(n) for n, page in enumerate(said.pack.pages, 1) if "version" not in flat(page)]
    found += [f"no version on page {', '.join(missing)}"] if missing else []
    cards = {id_: whole_card(page) for id_, page in said.pack.cards.items()}
    for id_, card in cards.items():
        found += [f"{id_}: {words}" for words in _of_part(said, id_, card)]
        if card.partner:
            found += [f"{id_} and {card.partner}: {words}" for words in _mirrored(card, cards[card.partner])]
    if said.pack.cover:
        rule = re.search(r"limits (.+?), the plans first", said.pack.cover)[1]
        unit = "mm" if re.search(r"uncertain by [\d.]+ mm", said.pack.cover) else "in"
        found += [f"{id_}: the cover has the limits {rule}, the card {card.limits}" for id_, card in cards.items() if card.unit == unit and card.limits != rule]
    return found


def _of_part(said: Said, id_: str, card: Card) -> Iterator[str]:
    yield from _order(said, id_, card)
    if id_ in said.pack.folds:
        fold = of_folds(said.pack.folds[id_])
        yield from _whose("fold sheet", card, fold.unit, fold.length, fold.hand)
        yield from _marks_on_fold(card, fold)
    if id_ in said.pack.checks:
        check = of_checks(said.pack.checks[id_])
        yield from _whose("check print", card, check.unit, check.length, check.hand)
        text = flat(said.pack.cards[id_])
        if check.limits != card.limits:
            yield f"limits {card.limits} on the card, {check.limits} on the check print"
        if check.handed == ("neither hand" in text):
            yield "the check print and the card do not agree on whether there is another hand"
        shorter = re.findall(r"(?:up to|,) (?:[\d /]+ \()?(\d[\d.]*(?: mm)?)(?: \([\d.]+ in\)|\))? shorter", text)
        if set(shorter) != check.shorter:
            yield f"an edge is {shorter} shorter on the card, {set(check.shorter)} on the check print"
        heel = [row for row in card.readings if row[0] == "length along the heel"]
        if heel and abs(_read(heel[0][3], card.unit) - _read(heel[0][1], card.unit) - check.off) > READ[card.unit]:
            yield f"the check print lets the length be {check.off} off, the card {heel}"
    yield from _readings(said, id_, card)
    if id_ in said.table:
        yield from _table(said.table[id_], card, flat(said.pack.cards[id_]))


def _whose(what: str, card: Card, unit: str, long: float, hand: str) -> Iterator[str]:
    """Unit, length, hand on two sheets."""
    if unit != card.unit:
        yield f"the card is in {card.unit}, the {what} in {unit}"
    if abs(long - card.length) > NEAR["mm"]:
        yield f"{card.length} long on the card, {long} on the {what}"
    if hand != card.hand:
        yield f'hand "{card.hand}" on the card, "{hand}" on the {what}'


# --- ends and order ------------------------------------------------------------------------------------------------
def _order(said: Said, id_: str, card: Card) -> Iterator[str]:
    """Which end comes first and what is done on the stick: plan, card, tag; the lines of plan and card; the datum, which is one."""
    mine, far = of_card(flat(said.pack.cards[id_]))
    for page in said.pack.plans:
        for name, blank, told in of_plan(flat(page)):
            if name == id_ and told != mine:
                yield f"the plan says {told}, the card {mine}"
            if name == id_ and abs(blank - ALLOWANCE - far) > 0.0021:
                yield f"the plan's line is {blank} from the blank's end as sawn, the card's {far} from the squared one"
    if mine.clamp != (card.length < HAND):
        yield "the card clamps a piece that is long enough, or leaves a short one in the hand"
    tags = of_tags(said.pack.tags)
    if said.pack.tags and id_ not in tags:
        yield "no tag says its length, its blank and which end is squared"
    for tag in tags.get(id_, []):
        if tag.end != mine.first:
            yield f"the tag says that end {tag.end} is squared, the card squares end {mine.first} first"
        for what, (value, unit), wanted, near in (("length", tag.length, card.length, NEAR["mm"]), ("blank", tag.blank, card.length + 2 * ALLOWANCE, ROUGH)):
            if unit != card.unit or abs(value - wanted) > near:
                yield f"the tag's {what} is {value} in {unit}, by the card {wanted} in {card.unit}"
        if (tag.hand if tag.hand != "neither" else "", tag.partner) != (card.hand, card.partner):
            yield f"the tag says {tag.hand} with {tag.partner}, the card {card.hand} with {card.partner}"
    if len(card.datums) != 1 and not (card.datums == () and _witness(card) is None):
        yield f"the card names {card.datums} as its datum"


def _witness(card: Card) -> float | None:
    """Where the witness line is from end 1, by the card's marks [in]."""
    for mark in card.marks:
        if mark.name == "witness line":
            at = inches(mark.wanted, card.unit)
            return at if mark.origin == "end 1" else card.length - at
    return None


# --- marks ---------------------------------------------------------------------------------------------------------
def _at_ends(card: Card) -> Iterator[tuple[int, str, str, str, str]]:
    """The marks of the cuts, each at the end that it is measured from: end, name, face, finished and saw line."""
    for mark in card.marks:
        if mark.name == "witness line" or mark.name.startswith("length"):
            continue
        ends = (1, 2) if mark.origin in ("end 1, end 2", "heel, at both ends") else (int(mark.origin[-1]),)
        for end in ends:
            yield end, mark.name, mark.face, mark.wanted, mark.saw


def _marks_on_fold(card: Card, fold: Fold) -> Iterator[str]:
    """The figures on the paper that lies on the metal are those that the card has laid off."""
    marks = list(_at_ends(card))
    for inner, needed in ((False, OUTSIDE), (True, INSIDE)):
        side = "inside" if inner else "outside"
        for end in (BOTH,) if (inner, BOTH) in fold.figures else (1, 2):
            here = [(name, figure) for at, name, _, figure, _ in marks if end in (at, BOTH)]
            shown = fold.figures.get((inner, end), set())
            wanted = {figure for name, figure in here if name in needed}
            may = {figure for name, figure in here if inner and name == "first flat mark"}
            if wanted - shown or shown - wanted - may:
                yield f"{side} at end {end} the fold sheet has {sorted(shown)}, the card {sorted(wanted)} and {sorted(may)}"
    if any(end == 0 for _, end in fold.figures):
        yield f"figures between the ends: {fold.figures}"
    radii = {inches(figure, card.unit) for _, name, _, figure, _ in marks if name == "round, start of the arc"}
    if len(radii) < len(fold.radii):  # of a square end; on a taper the arc begins elsewhere
        yield f"the fold sheet has the radii {set(fold.radii)}, the card's arcs begin at {radii}"
    witness = _witness(card)
    if (fold.witness is None) != (witness is None) or (witness is not None and abs(fold.witness - witness) > 2 * NEAR["mm"]):
        yield f"the witness line is {witness} from end 1 by the card, {fold.witness} by the fold sheet"
    if fold.datum and card.datums != ("end 1",):
        yield f"end 1 is the datum on the fold sheet, on the card {card.datums}"


def _mirrored(one: Card, two: Card) -> Iterator[str]:
    """Two partners: each other's mirror image, mark by mark, and the other hand."""
    if {one.hand, two.hand} != {"left", "right"}:
        yield f"hands {one.hand} and {two.hand}"
    legs = {("leg A", "leg B"), ("leg B", "leg A")}

    def seen(card: Card, swap: bool) -> set[tuple[str, ...]]:
        found = set()
        for end, name, face, wanted, saw in _at_ends(card):
            other = next((face.replace(a, b) for a, b in legs if face.startswith(a)), face)
            found.add((name, other if swap == "legs" else face, str(3 - end if swap == "ends" else end), wanted, saw))
        return found

    if seen(two, "") not in (seen(one, "legs"), seen(one, "ends")):
        yield f"{seen(one, '')} and {seen(two, '')} are no mirror images"


def _table(rows: list[dict[str, str]], card: Card, text: str) -> Iterator[str]:
    """The coordinate table has the card's marks, their saw lines, the witness line and the holes, at x from end 1."""
    near = 2 * NEAR[card.unit]

    def has(what: str, face: str, x: float | None, height: float | None, off: float = near) -> dict[str, str] | None:
        for row in rows:
            same = row["what"] == what and row["face"].startswith(face)
            if same and all(v is None or (row[key] and abs(float(row[key]) - v) <= off) for key, v in (("x_decimal_in", x), ("height_decimal_in", height))):
                return row
        return None

    for end, name, face, wanted, saw in _at_ends(card):
        if name == CENTRE:
            along, high = (length(f"{re.sub(' bare| full| high', '', part)} {card.unit}")[0] for part in wanted.split(", "))
            row = has(name, face, along if end == 1 else card.length - along, high, 0.26 / MM)
        else:
            at = inches(wanted, card.unit)
            row = has(name, face, at if end == 1 else card.length - at, None) if name in ALONG else has(name, face, 0.0 if end == 1 else card.length, at)
            ruled = row and row["x" if name in ALONG else "height"]
            graduation, _, word = wanted.partition(" (")[0].replace(" bare", "|bare").replace(" full", "|full").partition("|")
            if row and (name in ACROSS or end == 1) and ruled != " ".join(filter(None, (graduation, card.unit, word))):
                yield f"the rule shows {ruled} in the table, {wanted} on the card"
        if row is None:
            yield f"the table has no {name} at {wanted} from end {end} on {face}"
        if saw != "-":
            at = inches(saw, card.unit)
            x, y = (at if end == 1 else card.length - at, None) if name in ALONG else (0.0 if end == 1 else card.length, at)
            if has(f"{name}, saw line", face, x, y) is None:
                yield f"the table has no saw line of the {name} at {saw} from end {end} on {face}"
    witness = _witness(card)
    if witness is not None and has("witness line", "", witness, None) is None:
        yield f"the table has no witness line at {witness}"
    numbers = [_read(number, card.unit) for number in re.findall(r"\d+(?:\.\d+)?", text.partition("Marks")[0])]
    for row in rows:
        if row["what"] == "hole centre":
            x, y = float(row["x_decimal_in"]), float(row["height_decimal_in"])
            for value in (abs(x - (witness or 0.0)), y):
                if all(abs(number - value) > NEAR[card.unit] + 0.00005 for number in numbers):
                    yield f"the card has no hole at {x}, {y}: {value} stands nowhere"


# --- readings ------------------------------------------------------------------------------------------------------
def _read(number: str, unit: str) -> float:
    return float(number) / (MM if unit == "mm" else 1)


def _readings(said: Said, id_: str, card: Card) -> Iterator[str]:
    """Wanted value, least and most of every reading: card, form, lesson 10, and what is wanted of the part."""
    form, off = said.form[id_], NEAR[card.unit] + 1e-9
    if any(not cell.endswith(f" {card.unit}") for row in form for cell in (row["wanted"], row["low"], row["high"])):
        yield f"the form is not in {card.unit}, as the card is"
    on_form = [(row["reading"], *(row[key].removesuffix(f" {card.unit}") for key in ("wanted", "low", "high"))) for row in form]
    if list(card.readings) != on_form:
        yield f"the card reads {card.readings}, the form {on_form}"
    if id_ in said.entries:
        behind = " mm" if card.unit == "mm" else ""
        asked = [(name, f"wanted {value}{behind}, {low}{behind} to {high}{behind}") for name, value, low, high in card.readings]
        if asked != said.entries[id_]:
            yield f"the card asks for {asked}, lesson 10 for {said.entries[id_]}"
    part, limits = said.job.part(id_), said.job.limits
    for (name, value, low, high), want, row in zip(card.readings, wanted_readings(part, limits), form, strict=True):
        if row["id"] != want.id or abs(_read(value, card.unit) - want.value) > off:
            yield f"{name}: {value} on the card, {want} is wanted"
        for number, limit in ((low, want.low), (high, want.high)):
            if abs(_read(number, card.unit) - limit) > off:
                yield f"{name}: {number} is a limit on the card, {want} is wanted"
        for number in (value, low, high):
            verdict = judge(part, [Reading(want.id, _read(number, card.unit))], limits)
            if verdict.outcome in (REWORK, SCRAP):
                yield f"{name}: {number} stands on the card and does not pass: {verdict.sentence}"
