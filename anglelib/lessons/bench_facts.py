"""What a builder asks of a part, in rows of words: marks, edges, rows of rivets, weight, section, saw, allowance, stick.

Everything is computed from the part, the shop and the rack; what a moving taper does not change is kept from the last time.

>>> from anglelib.lessons.demo import demo_part, demo_rack
>>> rows = {fact.id: fact.words for fact in facts(demo_part("C1L"), Shop(), demo_rack())}
>>> rows["edges"]
'4 holes, all keep their edge; worst: leg B, x = 5/8, to the bevel of the inner face at end 1: edge kept, 2.20 diameters; at the limits hole B at 5/8: 2.11 D to the bevel of the inner face at end 1'
>>> rows["longest-run"]
'leg A, end 1: 2 1/2 (2.500), now 2 1/8'
>>> rows["same-run-or-angle"]
'leg A, end 1: same run: no hole limits it, same angle: no hole limits it'
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from math import floor
from typing import NamedTuple

from anglelib.alloy import ALLOYS, density
from anglelib.drawing.area_along import least_words
from anglelib.drawing.edges_view import rivet_of, short, worst_hole_words, worst_words
from anglelib.errors import BenchError
from anglelib.geometry.hole_words import limits_words, rules_words, warning_lines, worst_line
from anglelib.geometry.holes import largest_run, row_band
from anglelib.geometry.layout import taper_marks, witness_line
from anglelib.geometry.mark_words import face_words, name, saw_written, written
from anglelib.geometry.setup import taper_cut
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.geometry.taper_limits import largest_angle, largest_run_at_angle
from anglelib.geometry.teeth import teeth_of
from anglelib.geometry.throat_words import part_at_saw
from anglelib.geometry.volume import volume
from anglelib.geometry.weighing import POUND
from anglelib.job import Shop
from anglelib.lengths import about, both, exact, fine, own, show, to_mm, unit_written
from anglelib.paper.risk import once_in, square_risk, taper_risk
from anglelib.part import Part, in_its_unit
from anglelib.section import Section
from anglelib.stock.one import OneNow, one_now
from anglelib.stock.rack import Rack
from anglelib.tolerances import Limits

KEPT = 64
OUNCE = float(POUND) / 16
"""Grams in an ounce."""


class Fact(NamedTuple):
    """One row: its id, what it is about, what it is."""

    id: str
    what: str
    words: str

    @property
    def row(self) -> tuple[str, str]:
        """As a table shows it."""
        return self.what, self.words


@in_its_unit
def facts(part: Part, shop: Shop, rack: Rack, limits: Limits | None = None) -> tuple[Fact, ...]:
    """Every row but the section along x, which takes longer; ``limits`` are the job's (else those usual for the part's unit)."""
    lines, limits = taper_lines(part), limits or Limits.usual(part.unit)
    rows = [Fact("part", "part", f"{part.name} ({part.id}): angle {part.section.size}, {part.alloy}, {exact(part.length)} long, {part.quantity} off, {_hand(part)}")]
    rows += [Fact(f"marks-{line.leg}{line.end}", f"marks, leg {line.leg}, end {line.end}", _marks(line, shop, limits)) for line in lines]
    line = witness_line(part)
    if line is not None:
        rows.append(Fact("witness", "witness line", f"{both(line)} from end 1"))
    rows += [Fact("edges", "edges", _edges(part, limits)), *_to_look_at(part, limits), Fact("rivets", "rows of rivets", _bands(part))]
    if lines and part.holes:
        rows.append(Fact("longest-run", "longest run, edges kept", "; ".join(_longest(part, line) for line in lines)))
        rows.append(Fact("same-run-or-angle", "the same, run or angle kept", "; ".join(_either_kept(part, line) for line in lines)))
    rows += [Fact("weight", "weight", weight_words(part))]
    rows += [Fact(f"saw-{line.leg}{line.end}", f"saw, leg {line.leg}, end {line.end}", _saw(line)) for line in lines]
    rows += [Fact(f"column-{id_}", f"at the column, {what}", words) for id_, what, words in part_at_saw(part, shop)]
    rows.append(Fact("allowance", "allowance", allowance_words(part, shop)))
    rows.append(Fact("stick", "stick", stick_for(part, shop, rack).sentence))
    return tuple(rows)


def _hand(part: Part) -> str:
    return "handed: its mirror image is another part" if part.handed else "neither hand: it is its own mirror image"


def _marks(line: TaperLine, shop: Shop, limits: Limits) -> str:
    found = [f"{name(mark)} {written(mark, limits)} (saw line {saw_written(mark, limits)}), {face_words(mark.face)}" for mark in taper_marks(line, shop)]
    return "; ".join(found)


def _edges(part: Part, limits: Limits) -> str:
    if not part.holes:
        return "no holes"
    many = f"{len(part.holes)} hole{'s' if len(part.holes) > 1 else ''}"
    kept = f"{short(part)} EDGE SHORT" if short(part) else "all keep their edge"
    return f"{many}, {kept}; {worst_words(part)}; {limits_words(part, limits)}"


def _to_look_at(part: Part, limits: Limits) -> list[Fact]:
    """What is warned of the holes, a row each, and whose rules those are."""
    rows = [Fact(f"look-at-{n}", "look at", words) for n, words in enumerate(warning_lines(part, limits), 1)]
    return [*rows, Fact("rules", "these rules", rules_words([part], limits))] if rows else []


def _bands(part: Part) -> str:
    rivet = rivet_of(part)
    said = []
    for leg in "AB":
        low, high = row_band(part.section, leg, rivet)
        said.append(f"leg {leg}: {show(low, 64, 'up')} to {show(high, 64, 'down')} from the heel" if low <= high else f"leg {leg}: NO LEGAL ROW")
    return f"{own(rivet)} rivets, away from cuts: {'; '.join(said)}"


def _longest(part: Part, line: TaperLine) -> str:
    place = f"leg {line.leg}, end {line.end}"
    try:
        run = largest_run(part, line)
    except BenchError as error:
        return f"{place}: {error}"
    now = f"now {about(line.run) if unit_written() == 'mm' else show(line.run, 64, 'down')}"
    free = run is None or run >= part.length  # no taper is longer than its part
    return f"{place}: no hole limits it, {now}" if free else f"{place}: {both(run, 64, 'down')}, {now}"


def _either_kept(part: Part, line: TaperLine) -> str:
    """How steep the taper may get on its run, and how long at its angle; less width is left either way."""
    said = []
    for kept, ask in (("same run", largest_angle), ("same angle", largest_run_at_angle)):
        try:
            most = ask(part, line)
        except BenchError as error:
            said.append(f"{kept}: {error}")
            continue
        if most is None or (ask is largest_run_at_angle and most >= part.length):
            said.append(f"{kept}: no hole limits it")
        else:
            said.append(f"{kept}: {floor(most * 10) / 10:.1f}° from the heel" if ask is largest_angle else f"{kept}: run {both(most, 64, 'down')}")
    return f"leg {line.leg}, end {line.end}: {', '.join(said)}"


def _saw(line: TaperLine) -> str:
    setup = taper_cut(line)
    block = f", block at least {show(setup.block.height, 64, 'up')} high" if setup.block else ""
    return (
        f"{line.angle:.1f}° from the heel, {line.from_square:.1f}° from square; {setup.words}{block}; "
        f"the guide clears {show(setup.height, 64, 'up')}; teeth to the inch: {teeth_of(setup).words}"
    )


def allowance_words(part: Part, shop: Shop) -> str:
    """The allowance and the kerf, and how often a cut crosses its line all the same."""
    risks = [f"1 square cut in {once_in(square_risk(part, shop))}"]
    if part.tapers:
        risks.insert(0, f"1 taper in {once_in(taper_risk(part, shop))}")
    return f"{own(shop.allowance)} an end, kerf {own(shop.kerf)}: about {', '.join(risks)} crosses its line (a guess: measure test cuts)"


# --- weight -----------------------------------------------------------------------------------------------
@lru_cache(maxsize=KEPT)
def weights(part: Part) -> tuple[float, float] | None:
    """The finished part and the same length uncut [oz]; None where the alloy's density is not in the table."""
    if part.alloy[:4] not in ALLOYS:
        return None
    ounces = 16 * density(part.alloy)
    return volume(part) * ounces, part.section.area * float(part.length) * ounces


def weight_words(part: Part) -> str:
    """The weight, and what the cuts save."""
    found = weights(part)
    if found is None:
        return f"the density of {part.alloy} is not in the table"
    done, uncut = found
    return f"{_weight(done)}; uncut {_weight(uncut)}, so the cuts save {_weight(uncut - done)}"


def _weight(ounces: float) -> str:
    """Ounces beside inches, grams beside millimetres."""
    return f"{ounces * OUNCE:.1f} g" if unit_written() == "mm" else f"{ounces:.2f} oz"


# --- stock ------------------------------------------------------------------------------------------------
@lru_cache(maxsize=KEPT)
def _now(section: Section, alloy: str, length: Fraction, shop: Shop, rack: Rack, only_stick: str) -> OneNow:
    return one_now(section, alloy, length, rack, shop=shop, only_stick=only_stick)


def stick_for(part: Part, shop: Shop, rack: Rack) -> OneNow:
    """Which stick to cut the part from, if it were the only one."""
    return _now(part.section, part.alloy, part.length, shop, rack, part.only_stick)


# --- two variants -------------------------------------------------------------------------------------------
@in_its_unit
def differences(one: Part, two: Part, shop: Shop, rack: Rack, limits: Limits | None = None) -> tuple[tuple[str, str, str, str], ...]:
    """(what, variant A, variant B, difference B less A or a sign) for everything that a builder compares; ``limits`` as in :func:`facts`."""
    rows: list[tuple[str, str, str, str]] = []

    def add(what: str, texts: Sequence[str], difference: str = "") -> None:
        a, b = texts
        rows.append((what, a, b, difference if difference and a != b else "same" if a == b else "differs"))

    def length(what: str, a: Fraction | float | None, b: Fraction | float | None) -> None:
        texts = ["none" if v is None else fine(v) for v in (a, b)]
        add(what, texts, _longer(b - a) if a is not None and b is not None else "")

    length("length", one.length, two.length)
    add("section", [p.section.size for p in (one, two)])
    add("alloy", [p.alloy for p in (one, two)])
    for leg in "AB":
        for end in (1, 2):
            lines = [next((m for m in taper_lines(p) if (m.leg, m.end) == (leg, end)), None) for p in (one, two)]
            if any(lines):
                _taper_rows(f"leg {leg}, end {end}", lines, add, length)
    add("holes", [str(len(p.holes)) for p in (one, two)])
    add("holes EDGE SHORT", [str(short(p)) for p in (one, two)], f"{short(two) - short(one):+d}")
    add("worst hole", [worst_hole_words(p) for p in (one, two)])
    add("at the worst of the limits", [_at_limits(p, limits or Limits.usual(p.unit)) for p in (one, two)])
    found = [weights(p) for p in (one, two)]
    if found[0] and found[1]:
        heavier = found[1][0] - found[0][0]
        add("weight", [_weight(w[0]) for w in found if w], f"{'+' if heavier >= 0 else ''}{_weight(heavier)}")
    add("section along x", [least_words(p) for p in (one, two)])
    add("1 taper crosses in", [str(once_in(taper_risk(p, shop))) if p.tapers else "none" for p in (one, two)])
    add("stick", [stick_in_short(p, shop, rack) for p in (one, two)])
    return tuple(rows)


@lru_cache(maxsize=KEPT)
@in_its_unit
def _at_limits(part: Part, limits: Limits) -> str:
    return worst_line(part, limits) or "no holes"


def _taper_rows(place: str, lines, add, length) -> None:
    length(f"run, {place}", *(line and line.run for line in lines))
    length(f"width left, {place}", *(line and line.width_left for line in lines))
    angles = [line and line.angle for line in lines]
    difference = f"{angles[1] - angles[0]:+.2f}°" if None not in angles else ""
    add(f"from the heel, {place}", ["none" if a is None else f"{a:.2f}°" for a in angles], difference)
    length(f"mark on the other leg, {place}", *(line and line.vertex_projection for line in lines))


def stick_in_short(part: Part, shop: Shop, rack: Rack) -> str:
    """The stick with what it leaves, without the reason."""
    now = stick_for(part, shop, rack)
    return "none serves" if now.stick is None else f"{now.stick.id}, {about(now.left or 0)} left"


def _longer(value: Fraction | float) -> str:
    return f"{to_mm(value):+.2f} mm" if unit_written() == "mm" else f"{float(value):+.3f} in."
