"""Wrong answers to questions about a taper's marks: each mistake's number, and the sentence that names it.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> line = TaperLine.of(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), Taper("A", 1, run="2 1/8"))
>>> [(wrong.slip, round(float(wrong.answer), 3)) for wrong in vertex_projection_mistakes(line)][:2]
[('M12', 0.0), ('own-thickness', 0.212)]
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import Number, TaperLine
from anglelib.inspection.taper_mistakes import (
    own_thickness,
    straight_over_fillet,
    with_run_along_slope,
    with_run_and_height_exchanged,
    with_width_left_forgotten,
)
from anglelib.lengths import exact, show
from anglelib.questions.question import WrongAnswer

CORNER, ALONG, EXCHANGED = "M12", "M19", "M20"


def vertex_projection_mistakes(line: TaperLine) -> tuple[WrongAnswer, ...]:
    """Wrong answers to "how far from the end is the mark on the other leg's inner face?"."""
    a, b = f"leg {line.leg}", f"leg {line.other}"
    t = line.other_thickness
    found: list[tuple[str, Number | None, str]] = [
        (
            CORNER,
            Fraction(0) if line.to_vertex else None,
            f"0 aims the line at the inside corner. The vertex is {exact(t)} behind it, inside the metal of {b}: "
            f"a line aimed at the corner leaves {exact(t)} of {a} standing at the end.",
        ),
        (
            "own-thickness",
            own_thickness(line),
            f"This comes out with the thickness of {a}. What hides the vertex is {b}: its thickness counts.",
        ),
        (
            "straight-over-fillet",
            straight_over_fillet(line),
            f"This comes out when the straight line on {a} is carried on over the rounded fillet. In the fillet the "
            f"line bends: on {b} it is further from the end.",
        ),
        (
            "first-flat-as-vertex",
            line.first_flat,
            f"That is the mark on {a}, where its flat begins beside the fillet. The mark on {b} is nearer to the end.",
        ),
        (
            "offset-as-thickness",
            t,
            f"{exact(t)} is the thickness of {b}. The mark lies a thickness from the end at 45 degrees only; "
            f"this taper has {line.angle:.1f}.",
        ),
    ]
    slopes = [(slip, changed.vertex_projection, sentence) for slip, changed, sentence in _slope_mistakes(line)]
    return _wrong_answers(found + slopes)


def first_flat_mistakes(line: TaperLine) -> tuple[WrongAnswer, ...]:
    """Wrong answers to "how far from the end is the first mark on the inner flat, beside the fillet?"."""
    f = formulas()
    a, b = f"leg {line.leg}", f"leg {line.other}"
    t, r = line.other_thickness, line.section.fillet
    own = line.section.thickness(line.leg)
    found: list[tuple[str, Number | None, str]] = [
        (
            "no-fillet",
            f.vertex_projection(t=t, s=line.width_left, c=line.slope),
            f"This comes out without the fillet. The flat of {a} begins only {exact(r)} out from the inner face "
            f"of {b}, so {exact(t + r)} from the heel.",
        ),
        (
            "from-inside-corner",
            f.vertex_projection(t=r, s=line.width_left, c=line.slope),
            f"This comes out when heights are measured from the inside corner. The heel is {exact(t)} further: "
            "measure from the heel.",
        ),
        (
            "own-thickness",
            f.first_flat_mark(t=own, r=r, s=line.width_left, c=line.slope),
            f"This comes out with the thickness of {a}. The flat begins beside {b}: its thickness counts.",
        ),
        (
            "offset-as-thickness",
            t + r,
            f"{exact(t + r)} is how far the flat begins from the heel. Along the heel it is that much at "
            "45 degrees only.",
        ),
    ]
    slopes = []
    for slip, changed, sentence in _slope_mistakes(line):
        mark = f.first_flat_mark(t=t, r=r, s=changed.width_left, c=changed.slope)
        slopes.append((slip, mark, sentence))
    return _wrong_answers(found + slopes)


def _slope_mistakes(line: TaperLine) -> list[tuple[str, TaperLine, str]]:
    rise = show(line.width - line.width_left)
    forgotten = with_width_left_forgotten(line)
    half = replace(line, width_left=Fraction(0)) if forgotten else None
    left = (
        f"This comes out when the {exact(line.width_left)} left at the end is forgotten: the line does not run "
        "to the vertex here."
    )
    found = [
        (
            ALONG,
            with_run_along_slope(line),
            "This comes out when the run is measured along the sloping edge. It is measured along the toe.",
        ),
        (
            EXCHANGED,
            with_run_and_height_exchanged(line),
            f"This comes out when run and height change places: it is {show(line.run)} of run to {rise} of height, "
            "and the angle is from the heel.",
        ),
        ("no-width-left", forgotten, left),
        ("no-width-left", half, left),
    ]
    return [(slip, changed, sentence) for slip, changed, sentence in found if changed is not None]


def _wrong_answers(found: list[tuple[str, Number | None, str]]) -> tuple[WrongAnswer, ...]:
    return tuple(
        WrongAnswer(slip, number, sentence, nothing=slip == CORNER) for slip, number, sentence in found if number is not None and number >= 0
    )
