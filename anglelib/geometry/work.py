"""The order of work for one part: from the squared end of a stick to the tagged part.

Harder end first, then the length, then what is left: a spoiled taper then costs a re-cut end, not
the part. A taper is sawn while its part is still on a long piece. All common practice; where the
kit's plans give an order, they come first.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [operation.title for operation in operations(bracket, Shop())][:4]
['Square end 1', 'Strike the witness line', 'Mark the taper of leg A at end 1', 'Saw the taper of leg A at end 1']
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.geometry.layout import BLUNT, Mark, datum_lost, taper_marks, witness_line
from anglelib.geometry.setup import OUTSIDE_UP, Setup, square_cut, taper_cut
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.part import Part, other_end

_HARD = {"flat": 1, "fillet": 2, "other leg": 3, "vertex": 4}


@dataclass(frozen=True)
class Operation:
    """One step at the bench: what to do, the marks it needs, how the angle sits, what can hurt.

    ``brief`` and ``watch`` say the same as title and ``text``, and as ``cautions``, in one line of a
    card; what the card shows as a number or a picture they leave out.
    """

    title: str
    text: str
    marks: tuple[Mark, ...] = ()
    setup: Setup | None = None
    line: TaperLine | None = None
    cautions: tuple[str, ...] = ()
    brief: str = ""
    watch: str = ""


def hardness(part: Part, end: int) -> int:
    """How hard an end is to make: 0 for a square end, 4 for a taper to the vertex, more for more cuts."""
    cuts = [_HARD[line.ends_in] for line in taper_lines(part) if line.end == end]
    return sum(cuts) + sum(2 for cope in part.copes if cope.end == end)


def first_end(part: Part) -> int:
    """The end that is made first: the harder one; end 1 where both are alike."""
    return 2 if hardness(part, 2) > hardness(part, 1) else 1


def reading_from_datum(part: Part, x: Fraction) -> tuple[str, str]:
    """Where a place along the heel is read from, and the reading: (datum, text).

    From end 1 as long as it stands; from the witness line where a cut has taken it.
    """
    witness = witness_line(part)
    if witness is None:
        return "end 1", both(x)
    side = "towards end 2" if x > witness else "towards end 1"
    return "witness line", f"{both(abs(x - witness))} {side}" if x != witness else both(Fraction(0))


def operations(part: Part, shop: Shop) -> tuple[Operation, ...]:
    """The steps for one part, in order."""
    first = first_end(part)
    second = other_end(first)
    steps = [_square(part, first, shop, on_stick=True)]
    if witness_line(part) is not None:
        steps.append(_witness(part, first))
    for line in taper_lines(part):
        if line.end == first:
            steps += _taper(part, line, shop, on_stick=True)
    steps.append(_to_length(part, second, shop))
    steps.append(_square(part, second, shop, on_stick=False))
    for line in taper_lines(part):
        if line.end == second:
            steps += _taper(part, line, shop, on_stick=False)
    for cope in part.copes:
        steps.append(
            Operation(
                f"Cope leg {cope.leg} at end {cope.end}",
                f"Drill the inside corner to radius {exact(cope.radius)}, then cut back {both(cope.length)} along the heel, "
                f"down to {both(cope.width_left)}.",
                cautions=("Never saw into the corner: a saw-cut corner is where a crack starts.",),
                brief=f"Cope leg {cope.leg}, end {cope.end}: {both(cope.length)} back, {both(cope.width_left)} left, radius {exact(cope.radius)}.",
                watch="Drill the corner: a sawn one cracks.",
            )
        )
    if part.corners:
        places = "; ".join(f"leg {c.leg} at end {c.end}: radius {exact(c.radius)}" for c in part.corners)
        steps.append(Operation("Round the corners", f"File or sand to the arc: {places}.", brief=f"Round {places}."))
    if part.holes:
        steps.append(
            Operation(
                "Mark and drill the holes",
                "Centre punch, drill a pilot, then open to size on assembly where the plans say so. "
                "The diameter on this card is the fastener's.",
                cautions=("Clamp the part: a drill that grabs spins it. Eyes covered; no gloves at the drill.",),
                brief="Mark, punch, pilot the holes; drill sizes per the plans.",
                watch="Clamp it: a grabbing drill spins it.",
            )
        )
    steps.append(
        Operation(
            "Break the edges and finish",
            "Break every edge about 1/64, take out sanding marks lengthwise, deburr the holes on both sides, "
            "take ink and dye off before primer.",
            cautions=(
                "A burr cuts like a knife: gloves only with the machine stopped.",
                "A soft finishing wheel: work where it runs away from the part, the edge trailing.",
            ),
            brief="Break edges 1/64, deburr holes, finish lengthwise, ink off.",
            watch="A burr cuts. Soft wheel: edge trailing.",
        )
    )
    pair = f"lay it against {part.mirror_of}: they must be a mirror pair" if part.mirror_of else ""
    steps.append(
        Operation(
            "Inspect, mark, tag",
            "Take the readings below, write the alloy back on the part, tag it" + (f", {pair}." if pair else "."),
            brief="Take the readings; alloy on the part; tag" + (f"; lay it against {part.mirror_of}." if pair else "."),
        )
    )
    return tuple(steps)


def _square(part: Part, end: int, shop: Shop, on_stick: bool) -> Operation:
    held = "Held on the stick" if on_stick else "In a holder or a clamp"
    fixed = end == 1 and not datum_lost(part, 1)
    datum = " It is the datum: every x is measured from it." if end == 1 else ""
    cautions = ["Eyes and ears covered. Sand on the half of the disc that runs down on to the table."]
    if not on_stick and part.length < shop.hand_minimum:
        cautions.append(f"Under {exact(shop.hand_minimum)} in. in the hand: hold it in a clamp or holder, not in the fingers.")
    return Operation(
        f"Square end {end}",
        f"{held}, sand the end to a line struck square across both outer faces; try the square on leg A and on leg B, "
        f"from outside and inside.{datum}",
        setup=square_cut(part.section) if on_stick else None,
        cautions=tuple(cautions),
        brief=f"Square end {end}" + (" on the stick" if on_stick else "") + f"; both legs, {'in, out: now the datum' if fixed else 'in and out'}.",
        watch="Sand where the disc runs down."
        if on_stick or part.length >= shop.hand_minimum
        else "Short: hold it in a clamp.",
    )


def _witness(part: Part, end: int) -> Operation:
    x = witness_line(part)
    assert x is not None
    away = x if end == 1 else part.length - x
    lost = " and ".join(f"end {e}" for e in (1, 2) if datum_lost(part, e))
    return Operation(
        "Strike the witness line",
        f"Square across both legs, {both(away)} from the squared end {end}. The taper at {lost} takes the square end away: "
        "from then on this line is the datum, and the readings on this card are given from it.",
        brief=f"Witness line {both(away)} from end {end}: now the datum.",
    )


def _taper(part: Part, line: TaperLine, shop: Shop, on_stick: bool) -> list[Operation]:
    where = f"leg {line.leg} at end {line.end}"
    setup = taper_cut(line)
    text = (
        f"From end {line.end}. Draw the line through the marks, the square on the part side: the edge of the ink next to "
        "the part is the dimension."
    )
    if line.ends_in != "flat" and line.section.fillet:
        text += " In the fillet the line bends towards the toe: join the two marks beside it with a strip pressed into the fillet."
    cautions = ["Eyes and ears covered; guide just clear of the work; fingers never in line with the blade."]
    cautions += setup.cautions
    if not on_stick and part.length < shop.hand_minimum:
        cautions.append(f"Under {exact(shop.hand_minimum)} in. in the hand: clamp it, do not hand-hold.")
    stay = (
        "The part is still on the stick: hold it there, the far end on a stand at table height."
        if on_stick
        else "The part is cut to length now: clamp it to a longer carrier."
    )
    steps = [
        Operation(
            f"Mark the taper of {where}",
            text,
            marks=taper_marks(line, shop),
            line=line,
            brief=f"Mark the taper of {where}"
            + ("; a paper strip carries it." if line.ends_in != "flat" and line.section.fillet else "."),
            watch="Marker, no scriber, on metal that stays.",
        ),
        Operation(
            f"Saw the taper of {where}",
            f"{stay} The blade goes in {setup.enters} and comes out {setup.leaves}, {_outside(shop)}.",
            setup=setup,
            line=line,
            cautions=tuple(cautions),
            brief=f"Saw it {_outside(shop)}, "
            + ("on the stick, far end on a stand." if on_stick else "clamped to a longer carrier."),
            watch=_short_watch(part, shop, setup, on_stick),
        ),
        Operation(
            f"Sand the taper of {where} to the line",
            f"Take off {f'the {exact(shop.allowance)}' if shop.allowance else 'what the saw'} left outside the line; look at the line, not at the metal.",
            line=line,
            cautions=(
                "A part that is too hot to hold is cooled in water and dried. Keep aluminium fines away from sparks and steel dust, "
                "wet ones out of closed bins and vacuums.",
            ),
            brief="Sand to the line; look at the line, not at the metal.",
            watch="Hot: dip, dry. Wet fines: no closed bin.",
        ),
    ]
    if line.to_vertex:
        steps.append(
            Operation(
                f"Blunt the feather edge at end {line.end}",
                f"The taper leaves leg {line.other} a feather edge over its whole height. Blunt it to {exact(BLUNT)}: the part "
                f"gets {both(line.blunting(BLUNT))} shorter at the heel, so measure nothing from this end again.",
                line=line,
                cautions=("A feather edge cuts hands: handle it last, and blunt it before anything else.",),
                brief=f"Blunt the edge of leg {line.other} to {exact(BLUNT)}: {both(line.blunting(BLUNT))} shorter there.",
                watch="A feather edge cuts: blunt it now.",
            )
        )
    return steps


def _to_length(part: Part, end: int, shop: Shop) -> Operation:
    witness = witness_line(part)
    if witness is None:
        reading, origin = part.length, f"end {other_end(end)}"
    else:
        reading = part.length - witness if end == 2 else witness
        origin = "the witness line"
    saw = reading + shop.allowance
    mark = Mark("length", "leg A and leg B, outer faces", end, reading, None, saw, "up", f"from {origin}, square across both outer faces")
    cautions = ["Support both sides of the cut: a part that drops or flies is spoiled and can hurt."]
    if part.length < shop.hand_minimum:
        cautions.append("The part comes off short: never reach for it while the blade runs.")
    return Operation(
        "Cut to length",
        f"Mark end {end} from {origin} and saw {_outside(shop)}; the kerf {exact(shop.kerf)} lies "
        f"beyond it, on the waste side. Before that write {part.alloy} on both sides of the line: the print stays on one piece only.",
        marks=(mark,),
        setup=square_cut(part.section),
        cautions=tuple(cautions),
        brief=f"Cut end {end} to length, {f'{exact(shop.allowance)} outside' if shop.allowance else 'on the waste side'}; alloy on both pieces.",
        watch=_clamp_it(shop) if part.length < shop.hand_minimum else "Support both sides of the cut.",
    )


def _short_watch(part: Part, shop: Shop, setup: Setup, on_stick: bool) -> str:
    if not on_stick and part.length < shop.hand_minimum:
        return _clamp_it(shop)
    if setup.stance == OUTSIDE_UP:
        return "Clamp it to the block, sawn too."
    return "Guide just clear; no fingers in line."


def _outside(shop: Shop) -> str:
    """Where the saw runs, seen from the line."""
    return f"{exact(shop.allowance)} outside the line" if shop.allowance else "on the line's waste side"


def _clamp_it(shop: Shop) -> str:
    return f"Under {exact(shop.hand_minimum)} in.: clamp it, do not hand-hold."
