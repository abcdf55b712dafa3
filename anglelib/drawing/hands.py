"""Left, right, neither: a part turned in space beside its mirror image, or beside what was made as its other hand.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Door hinge bracket", stock, "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8")])
>>> lies_alike(bracket, bracket.mirrored().turned()), fits_at(bracket)
(False, '')
>>> print(turning_sheet(bracket, 180).sentence)
A door hinge bracket before a mirror, turned 180 degrees end for end. Leg A is tapered at end 1. Behind the mirror is the image of the part as it lay at first, end 1 at the right. Turned, the legs have changed places, and so have the ends. However it is turned it never lies like the image: it is handed.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache

from anglelib.drawing.pictorial import in_view
from anglelib.drawing.pose import END_FOR_END, TURNS, Pose, reach
from anglelib.drawing.sheet import Group, Item, Label, Line, Polyline, Sheet, move, polygon
from anglelib.drawing.solid_lines import Hider, Place, faces_of
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.lengths import exact
from anglelib.part import Part

WIDTH, HEIGHT = 234.0, 122.0
LETTER = 3.5
_MIRROR = WIDTH / 2
_LEFT, _RIGHT = (60.0, 62.0), (174.0, 62.0)
"""Where the middles of the part and of its image lie."""
_ROOM = 43.0
"""How far a part may reach from its middle [mm]."""


# --- computed -----------------------------------------------------------------------------------------
def lies_alike(one: Part, two: Part) -> bool:
    """Whether two descriptions have the same features on the same legs and ends, nothing turned."""
    return all(
        sorted(map(repr, getattr(one, kind))) == sorted(map(repr, getattr(two, kind))) for kind in ("tapers", "holes", "corners", "copes")
    )


def image_of(part: Part) -> Part:
    """What stands in a mirror across the heel, described from its own left end: the ends have changed places."""
    image = part.mirrored()
    return image.turned() if part.section.equal_legs else image


def fits_at(part: Part) -> str:
    """At which turn the part lies like its mirror image: "0" as it is, "180" turned end for end, "" never (it is handed)."""
    image = image_of(part)
    if lies_alike(part, image):
        return "0"
    if part.section.equal_legs and lies_alike(part.turned(), image):
        return "180"
    return ""


# --- a part and its letters -------------------------------------------------------------------------------
def unit_for(parts: Iterable[Part], room: float) -> float:
    """Millimetres an inch at which every part stays within ``room`` [mm] of its middle, however it is turned."""
    return room / max(reach(part) for part in parts)


def posed(pose: Pose, letters: str = "AB12") -> Group:
    """A part in space with its tapers' edges in the accent, and the names of its legs and ends."""
    return (*move(_drawn(pose), *pose.middle), *_letters(pose, letters))


@lru_cache(maxsize=128)  # a slider turns one part; the image beside it stays
def _drawn(pose: Pose) -> Group:
    """The lines of a part that can be seen, about its own middle."""
    return (*in_view(pose.part, pose, hidden=False), *_tapers(pose))


def ghost(pose: Pose) -> Group:
    """The same as a dotted outline: what ought to be there."""
    lines: list[Item] = []
    for item in move(_drawn(pose), *pose.middle):
        if isinstance(item, Line) and item.kind == "outline":
            lines.append(Line(item.x1, item.y1, item.x2, item.y2, "ghost"))
        elif isinstance(item, Polyline) and item.kind == "outline":
            lines.append(Polyline(item.points, "ghost", item.closed))
    return tuple(lines)


def _tapers(pose: Pose) -> Group:
    """The sawn edges of the tapers that can be seen."""
    faces = [[pose.turned(p) for p in (face[::-1] if pose.mirrored else face)] for face in faces_of(pose.part)]
    hider = Hider(faces, pose.camera)
    items: list[Item] = []
    for line in taper_lines(pose.part):
        for depth in (0.0, float(pose.part.section.thickness(line.leg))):
            one, two = (_on(pose.part, line, far, depth) for far in (False, True))
            pieces = hider.pieces(pose.turned(one), pose.turned(two))
            items += [Line(*p, *q, "mark", True) for p, q, seen in pieces if seen]
    return tuple(items)


def _on(part: Part, line: TaperLine, far: bool, depth: float) -> Place:
    """Where a taper's edge begins (at the end of the part) or ends (at the toe)."""
    x, h = (float(line.run), float(line.width)) if far else (0.0, float(line.width_left))
    x = x if line.end == 1 else float(part.length) - x
    return (x, h, depth) if line.leg == "A" else (x, depth, h)


def _letters(pose: Pose, letters: str) -> Group:
    """The names of legs and ends, floating just off them; of two that would meet the nearer one stays."""
    part = pose.part
    a, b, long = (float(v) for v in (part.section.leg_a, part.section.leg_b, part.length))
    ta, tb = float(part.section.thickness_a), float(part.section.thickness("B"))
    off = 4.6 / pose.unit
    places = {
        "A": (_full(part, "A"), a + off, ta / 2),
        "B": (_full(part, "B"), tb / 2, b + off),
        "1": (-off, 0.3 * a, 0.3 * b),
        "2": (long + off, 0.3 * a, 0.3 * b),
    }
    found: list[tuple[float, float, str]] = []
    for name, (x, y, _) in sorted(((n, pose.paper(places[n])) for n in letters), key=lambda row: -row[1][2]):
        if all(math.hypot(x - u, y - v) > 2.2 * LETTER for u, v, _ in found):
            found.append((x, y, name))
    return tuple(Label(x, y, name, LETTER, "middle", "middle", halo=True) for x, y, name in found)


def _full(part: Part, leg: str) -> float:
    """A place along the heel where a leg has its full width [in]."""
    low, high = 0.0, float(part.length)
    for line in taper_lines(part):
        if line.leg == leg:
            low, high = (max(low, float(line.run)), high) if line.end == 1 else (low, min(high, high - float(line.run)))
    return (low + high) / 2


def mirror_plane(x: float, y: float) -> Group:
    """The mirror, across the heel's direction, seen at the camera's slant; its middle at x, y."""
    up, deep, slant = 44.0, 11.0, 8.5
    corners = [(x - deep, y - up + slant), (x + deep, y - up - slant), (x + deep, y + up - slant), (x - deep, y + up + slant)]
    items: list[Item] = [polygon(corners, "narrow", "paper")]
    for low, high in ((60.0, 70.0), (58.0, 64.0)):  # the glint of a mirror, drawn on its plane
        left, right = x - 6.0, x + 6.0 - (2.5 if low < 60 else 0.0)
        items.append(Line(left, y - up + low + 4.6, right, y - up + high - 4.6 + 10, "narrow"))
    return tuple(items)


# --- turning ------------------------------------------------------------------------------------------
def turning_sheet(part: Part, turn: float = 0.0, about: str = END_FOR_END, *, revealed: bool = True, few: bool = False) -> Sheet:
    """The part turned so far, the mirror, and the image of the part as it lay at first."""
    unit = unit_for((part,), _ROOM)
    letters = "AB1" if few else "AB12"
    items: list[Item] = [*mirror_plane(_MIRROR, _LEFT[1])]
    items += posed(Pose(part, unit, turn=turn, about=about, middle=_LEFT), letters)
    items += posed(Pose(part, unit, mirrored=True, middle=_RIGHT), letters)
    said = _verdict(part, turn, about)
    if not few:
        items.append(Label(_LEFT[0], HEIGHT - 5, f"the part, turned {turn:g}°", LETTER, "middle", "top"))
        items.append(Label(_RIGHT[0], HEIGHT - 5, "its mirror image", LETTER, "middle", "top"))
    if revealed and said:
        items.append(Label(WIDTH / 2, 5, said, LETTER, accent=True))
    return Sheet(WIDTH, HEIGHT, tuple(items), "A part and its mirror image", turning_sentence(part, turn, about, revealed))


def _verdict(part: Part, turn: float, about: str) -> str:
    """What can be said about the part as it now lies, beside the image."""
    fits = fits_at(part)
    if turn == 0 or turn == 180 and about == END_FOR_END and part.section.equal_legs:
        return "LIES LIKE ITS IMAGE: neither hand" if fits == f"{turn:g}" else "NOT LIKE ITS IMAGE"
    return "on the way: not to be compared" if about == END_FOR_END and part.section.equal_legs else "lies in another corner"


def turning_sentence(part: Part, turn: float, about: str, revealed: bool) -> str:
    """What the picture shows, in words."""
    words = f"{named(part)} before a mirror" + (f", turned {turn:g} degrees {TURNS[about]}. " if turn else ". ")
    words += f"{features(part)} Behind the mirror is the image of the part as it lay at first, end 1 at the right."
    if turn == 180 and about == END_FOR_END:
        words += " Turned, the legs have changed places, and so have the ends."
    if not revealed:
        return words
    fits = fits_at(part)
    if not fits:
        return f"{words} However it is turned it never lies like the image: it is handed."
    how = "as it is" if fits == "0" else "turned end for end"
    return f"{words} {how.capitalize()} it lies like its image: it is neither left nor right."


def named(part: Part) -> str:
    """The part's name with its article, without its hand."""
    name = part.name.partition(",")[0]
    return f"{'An' if name[0].lower() in 'aeiou' else 'A'} {name[0].lower()}{name[1:]}"


def features(part: Part) -> str:
    """The part's tapers in words: on which leg, at which end.

    >>> from anglelib.part import Taper
    >>> from anglelib.section import Section
    >>> features(Part("P", "Foot", Section(1, 1, "1/8"), "6061-T6", 4, [Taper("A", 1, run=1), Taper("A", 2, run=1)]))
    'Leg A is tapered at end 1 and at end 2, alike.'
    """
    if not part.tapers:
        return "No leg is tapered."
    by_leg = {leg: sorted((t for t in part.tapers if t.leg == leg), key=lambda t: t.end) for leg in "AB"}
    alike = len({(t.width_left, t.run, t.angle) for t in part.tapers}) == 1
    words = []
    for leg, tapers in by_leg.items():
        if tapers:
            ends = " and ".join(f"at end {t.end}" + ("" if alike else f" (run {exact(t.run)})" if t.run else "") for t in tapers)
            words.append(f"leg {leg} is tapered {ends}")
    sentence = ", ".join(words) + (", alike" if alike and len(part.tapers) > 1 else "")
    return sentence[0].upper() + sentence[1:] + "."
