"""What the operations of :mod:`anglelib.geometry.work` say at the bench: the only place that puts them into words.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> from anglelib.geometry.work import operations
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [said(step, bracket, Shop()).title for step in operations(bracket, Shop())][:4]
['Square end 1', 'Strike the witness line', 'Mark the taper of leg A at end 1', 'Saw the taper of leg A at end 1']
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from anglelib.geometry import work
from anglelib.geometry.layout import datum_lost, plan_line, saw_line, witness_line
from anglelib.geometry.rough_words import ROUGH, WATCH, outside_by_hacksaw, past_the_column, rough_brief, sentence_of
from anglelib.geometry.setup import OUTSIDE_UP
from anglelib.geometry.throat import cope_at_saw, piece_length, taper_at_saw
from anglelib.geometry.work import Operation, fixes_datum
from anglelib.job import Shop
from anglelib.lengths import both, exact, fine, own, own_spoken, show, unit_written
from anglelib.part import BROKEN, ENDS, Part, other_end


class Said(NamedTuple):
    """An operation in words. ``brief`` and ``watch`` say the same as title and ``text``, and as ``cautions``, in one line
    of a card; what the card shows as a number or a picture they leave out.
    """

    title: str
    text: str
    brief: str
    cautions: tuple[str, ...] = ()
    watch: str = ""


def said(step: Operation, part: Part, shop: Shop) -> Said:
    """The operation of a part in words."""
    return _WORDS[step.kind](step, part, shop)


def title(step: Operation, part: Part, shop: Shop) -> str:
    """Its name."""
    return said(step, part, shop).title


def verb(step: Operation) -> str:
    """What is done, in a word or two.

    >>> verb(Operation(work.SAND, 1))
    'sand'
    """
    return "blunt" if step.by_plans else _VERBS[step.kind]


def hand_words(shop: Shop) -> str:
    """The length in the hand below which a piece is clamped; where the job sets none, what a hand covers.

    >>> hand_words(Shop()), hand_words(Shop(hand_minimum=0))
    ('6 in.', "a hand's breadth")
    """
    return own_spoken(shop.hand_minimum) if shop.hand_minimum else "a hand's breadth"


def _clamp_it(shop: Shop) -> str:
    return f"Under {hand_words(shop)}: clamp it, do not hand-hold."


def outside(shop: Shop, short: bool = False) -> str:
    """Where the saw runs, seen from the line."""
    if short:
        return f"{own(shop.allowance)} outside" if shop.allowance else "on the waste side"
    return f"{own(shop.allowance)} outside the line" if shop.allowance else "on the line's waste side"


def _where(step: Operation) -> str:
    return f"leg {step.leg} at end {step.end}"


def _alone(step: Operation, part: Part) -> bool:
    """Whether nothing else is sawn at the end, so that "it" is what was marked last."""
    return sum(cut.end == step.end for cut in (*part.tapers, *part.copes)) == 1


def long_blank(part: Part, shop: Shop) -> bool:
    """Whether the blank of a part is longer than the saw's throat, so that the plan may have a rough cut by hacksaw there."""
    return bool(shop.saw is not None and plan_line(part, shop) > shop.saw.throat)


def plan_rough(part: Part, shop: Shop) -> str:
    """Where the plan's cut of a part may be a rough one: how far outside it then is, in brackets behind the saw's; else nothing."""
    return f" ({ROUGH}: {own(shop.by_hacksaw.allowance)})" if long_blank(part, shop) else ""


# --- an operation each --------------------------------------------------------------------------------------
def _square(step: Operation, part: Part, shop: Shop) -> Said:
    held = "Held on the stick" if step.on_stick else "In a holder or a clamp"
    datum = " It is the datum: every x is measured from it." if fixes_datum(part, step) else ""
    cautions = ["Eyes and ears covered. Sand on the half of the disc that runs down on to the table."]
    if step.clamped:
        cautions.append(f"Under {hand_words(shop)} in the hand: hold it in a clamp or holder, not in the fingers.")
    legs = "in, out: now the datum" if fixes_datum(part, step) else "in and out"
    return Said(
        f"Square end {step.end}",
        f"{held}, sand the end to a line struck square across both outer faces; try the square on leg A and on leg B, "
        f"from outside and inside.{datum}",
        f"Square end {step.end}" + (" on the stick" if step.on_stick else "") + f"; both legs, {legs}.",
        tuple(cautions),
        "Short: hold it in a clamp." if step.clamped else "Sand where the disc runs down.",
    )


def _witness(step: Operation, part: Part, shop: Shop) -> Said:
    mark = step.marks[0]
    lost = " and ".join(f"end {e}" for e in ENDS if datum_lost(part, e))
    return Said(
        "Strike the witness line",
        f"Square across both legs, {both(mark.at)} from the squared end {mark.end}. The taper at {lost} takes the square end away: "
        "from then on this line is the datum, and what is marked after it is marked from it.",
        f"Witness line {both(mark.at)} from end {mark.end}: now the datum.",
    )


def _mark(step: Operation, part: Part, shop: Shop) -> Said:
    line, cope = step.line, step.cope
    if cope is not None:
        return Said(
            f"Mark the cope of {_where(step)}",
            f"From end {step.end}: a line square to the heel, a line along it, and the centre of the inside corner, on the outer face.",
            f"Mark the cope of {_where(step)}, its corner's centre too.",
            watch="Marker, no scriber, on metal that stays.",
        )
    assert line is not None
    bends = line.ends_in != "flat" and line.section.fillet
    text = (
        f"From end {line.end}. Draw the line through the marks, the square on the part side: the edge of the ink next to "
        "the part is the dimension."
    )
    if bends:
        text += " In the fillet the line bends towards the toe: join the two marks beside it with a strip pressed into the fillet."
    return Said(
        f"Mark the taper of {_where(step)}",
        text,
        f"Mark the taper of {_where(step)}" + ("; a paper strip carries it." if bends else "."),
        watch="Marker, no scriber, on metal that stays.",
    )


def _saw(step: Operation, part: Part, shop: Shop) -> Said:
    setup = step.setup
    assert setup is not None
    cautions = ["Eyes and ears covered; guide just clear of the work; fingers never in line with the blade."]
    cautions += setup.cautions
    if step.clamped:
        cautions.append(f"Under {hand_words(shop)} in the hand: clamp it, do not hand-hold.")
    stay = (
        "The part is still on the stick: hold it there, the far end on a stand at table height."
        if step.on_stick
        else "The part is cut to length now: clamp it to a longer carrier."
    )
    assert step.line is not None
    at_saw = taper_at_saw(step.line, shop, piece_length(part, step.on_stick))
    way_in, way_out, turned = setup.enters, setup.leaves, ""
    if at_saw is not None and at_saw.rough:
        return _by_hacksaw(step, part, shop, past_the_column(shop))
    if at_saw is not None and at_saw.turned:
        way_in, way_out, turned = f"at the toe of leg {step.leg}", "through the end", " Turned round, toe first: the other way it does not pass the column."
    watch = "Guide just clear; no fingers in line."
    if step.clamped:
        watch = _clamp_it(shop)
    elif setup.stance == OUTSIDE_UP:
        watch = "Clamp it to the block, sawn too."
    what = "it" if _alone(step, part) else f"leg {step.leg}'s taper"
    return Said(
        f"Saw the taper of {_where(step)}",
        f"{stay} The blade goes in {way_in} and comes out {way_out}, {outside(shop)}.{turned}",
        f"Saw {what} {outside(shop)}, {'toe first, ' if turned else ''}" + ("on the stick, far end on a stand." if step.on_stick else "clamped to a longer carrier."),
        tuple(cautions),
        watch,
    )


def _by_hacksaw(step: Operation, part: Part, shop: Shop, why: str) -> Said:
    what = "it" if _alone(step, part) else f"leg {step.leg}'s taper"
    held = "on the stick" if step.on_stick else "in the vise"
    return Said(
        f"Saw the taper of {_where(step)}",
        sentence_of(f"{ROUGH}, {outside_by_hacksaw(shop)}: {why}"),
        f"Saw {what} by hacksaw, {own(shop.by_hacksaw.allowance)} outside, {held}.",
        (WATCH,),
        WATCH,
    )


def _sand(step: Operation, part: Part, shop: Shop) -> Said:
    at_saw = taper_at_saw(step.line, shop, piece_length(part, step.on_stick)) if step.line is not None else None
    left = (shop.by_hacksaw if at_saw is not None and at_saw.rough else shop).allowance
    return Said(
        f"Sand the taper of {_where(step)} to the line",
        f"Take off {f'the {own(left)}' if left else 'what the saw'} left outside the line; look at the line, not at the metal.",
        "Sand to the line; look at the line, not at the metal.",
        (
            "A part that is too hot to hold is cooled in water and dried. Keep aluminium fines away from sparks and steel dust, "
            "wet ones out of closed bins and vacuums.",
        ),
        "Hot: dip, dry. Wet fines: no closed bin.",
    )


def _edge(step: Operation, part: Part, shop: Shop) -> Said:
    line = step.line
    assert line is not None and step.thick is not None
    blunted = line.blunting(step.thick)
    lost = both(blunted) if unit_written() == "mm" else fine(blunted)  # no rule shows it: to its nearest graduation it would not be "up to"
    thick = own(step.thick)
    cautions = ("A feather edge cuts hands: break it before anything else is done with the part.",)
    if not step.by_plans:
        return Said(
            f"Break the feather edge at end {step.end}",
            f"The taper leaves leg {line.other} a feather edge over its whole height. Break it, by {thick} at most, no more: the heel "
            f"gets up to {lost} shorter there, so measure nothing from this end again. To blunt it further is for the plans to say.",
            f"Break the edge of leg {line.other}, {thick}: up to {lost} shorter.",
            cautions,
            "A feather edge cuts: break it now.",
        )
    return Said(
        f"Blunt the feather edge at end {step.end}",
        f"The taper leaves leg {line.other} a feather edge over its whole height. As the plans say, blunt it to {thick}: the heel "
        f"gets {lost} shorter there, so measure nothing from this end again.",
        f"Plans: blunt leg {line.other}'s edge to {thick}, {lost} shorter.",
        cautions,
        "A feather edge cuts: blunt it now.",
    )


def _cope(step: Operation, part: Part, shop: Shop) -> Said:
    cope = step.cope
    assert cope is not None
    corner = "the corner" if _alone(step, part) else f"leg {cope.leg}'s corner"
    at_saw = cope_at_saw(cope, part, shop, piece_length(part, step.on_stick))
    rough = at_saw is not None and at_saw.rough
    fence = f" The fence stands {show(Fraction(at_saw.fence))} from the blade for the line along the heel." if at_saw is not None and at_saw.fence and not rough else ""
    sawn = f"{ROUGH} {outside(shop.by_hacksaw)} to the drilled corner" if rough else f"saw {outside(shop)} to the drilled corner"
    why = f" {sentence_of(past_the_column(shop, cope=True))}" if rough else fence
    return Said(
        f"Cope leg {cope.leg} at end {cope.end}",
        f"Drill the inside corner to radius {own(cope.radius)}, {sawn}, file to the lines: "
        f"{both(cope.length)} back along the heel, {both(cope.width_left)} left. " + ("Done on the stick." if step.on_stick else "Clamped.") + why,
        f"Drill {corner}, radius {own(cope.radius)}; " + (f"{rough_brief(shop)}; file to its lines." if rough else "saw the cope, file to its lines."),
        ("Never saw into the corner: a saw-cut corner is where a crack starts.",),
        "Drill the corner: a sawn one cracks.",
    )


def _length(step: Operation, part: Part, shop: Shop) -> Said:
    origin = "the witness line" if witness_line(part) is not None else f"end {other_end(step.end)}"
    cautions = ["Support both sides of the cut: a part that drops or flies is spoiled and can hurt."]
    if step.clamped:
        cautions.append("The part comes off short: never reach for it while the blade runs.")
    plan = (
        f" It is the line that the plan marks {both(plan_line(part, shop))} from the blank's near end as sawn: squaring that end took "
        f"{own(shop.allowance)}, so {both(saw_line(part, shop))} is left from it."
        if shop.allowance
        else ""
    )
    rough = long_blank(part, shop)
    if rough:
        plan += f" Where the plan has a {ROUGH} there: {outside_by_hacksaw(shop)}; {both(saw_line(part, shop.by_hacksaw))} is then left from it."
    return Said(
        "Cut to length",
        f"Mark end {step.end} from {origin} and saw {outside(shop)}; the kerf {own(shop.kerf)} lies "
        f"beyond it, on the waste side.{plan} Before that write {part.alloy} on both sides of the line: the print stays on one piece only.",
        f"Cut end {step.end} to length, {outside(shop, short=True)}{plan_rough(part, shop)}; alloy on both pieces.",
        tuple(cautions),
        _clamp_it(shop) if step.clamped else "Support both sides of the cut.",
    )


def _round(step: Operation, part: Part, shop: Shop) -> Said:
    places = "; ".join(f"leg {c.leg} at end {c.end}: radius {exact(c.radius)}" for c in part.corners)
    return Said("Round the corners", f"File or sand to the arc: {places}.", f"Round {places}.")


def _drill(step: Operation, part: Part, shop: Shop) -> Said:
    return Said(
        "Mark and drill the holes",
        "Centre punch, drill a pilot, then open to size on assembly where the plans say so. The diameter on this card is the fastener's.",
        "Mark, punch, pilot the holes; drill sizes per the plans.",
        ("Clamp the part: a drill that grabs spins it. Eyes covered; no gloves at the drill.",),
        "Clamp it: a grabbing drill spins it.",
    )


def _finish(step: Operation, part: Part, shop: Shop) -> Said:
    return Said(
        "Break the edges and finish",
        f"Break every edge about {own(BROKEN)}, take out sanding marks lengthwise, deburr the holes on both sides, take ink and dye off before primer.",
        f"Break edges {own(BROKEN)}, deburr holes, finish lengthwise, ink off.",
        (
            "A burr cuts like a knife: gloves only with the machine stopped.",
            "A soft finishing wheel: work where it runs away from the part, the edge trailing.",
        ),
        "A burr cuts. Soft wheel: edge trailing.",
    )


def _inspect(step: Operation, part: Part, shop: Shop) -> Said:
    pair = f"lay it against {part.mirror_of}: they must be a mirror pair" if part.mirror_of else ""
    return Said(
        "Inspect, mark, tag",
        "Take the readings below, write the alloy back on the part, tag it" + (f", {pair}." if pair else "."),
        "Take the readings; alloy on the part; tag" + (f"; lay it against {part.mirror_of}." if pair else "."),
    )


_VERBS = {
    work.SQUARE: "square", work.WITNESS: "strike", work.MARK: "mark", work.SAW: "saw", work.SAND: "sand", work.EDGE: "break the edge",
    work.COPE: "cope", work.LENGTH: "cut", work.ROUND: "round", work.DRILL: "drill", work.FINISH: "finish", work.INSPECT: "inspect",
}  # fmt: skip
_WORDS: dict[str, Callable[[Operation, Part, Shop], Said]] = {
    work.SQUARE: _square, work.WITNESS: _witness, work.MARK: _mark, work.SAW: _saw, work.SAND: _sand, work.EDGE: _edge,
    work.COPE: _cope, work.LENGTH: _length, work.ROUND: _round, work.DRILL: _drill, work.FINISH: _finish, work.INSPECT: _inspect,
}  # fmt: skip
