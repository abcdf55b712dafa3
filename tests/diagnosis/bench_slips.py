"""The bench: what each mistake does to the work, how sound work scatters, how readings err.

Written from the table of mistakes in the trade's words, not from the library. Each mistake is a list
of ways; a way has a weight and makes the work from a number between 0 and 1, its free amount.
Amounts, scatter and spread of reading are this bench's own; a builder would measure his.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import sqrt
from random import Random

from sawn_metal import AXIS, Arc, Dot, Line, Notch, Work, as_drawn, measure

GOOD = "good"
SCATTER = {"length": 0.008, "run": 0.010, "left": 0.010, "lean": 0.005, "hole": 0.008, "square": 0.006, "toe": 0.003, "edge": 0.0045, "radius": 0.012}
"""Standard deviations of sound work [in]; squareness as a slope; lean as inside against outside edge."""
CALIPER, RULE = 0.004, 0.010
"""Standard uncertainty of a reading up to 6 in. and of a longer one [in]."""
Share = float | tuple[int, float]
"""What an amount is made of: a number between 0 and 1, or the sign and the share of the range, below 0 or above 1 too."""


@dataclass(frozen=True)
class Way:
    """One way in which a mistake goes: its weight and words, the work it makes, whether its amount is free."""

    weight: float
    words: str
    make: Callable[[Share], Work | None]
    free: bool = False


def between(u: Share, low: float, high: float) -> float:
    return low + (u[1] if isinstance(u, tuple) else u) * (high - low)


def either_sign(u: Share, low: float, high: float) -> float:
    """An amount of either sign, its size between low and high."""
    if isinstance(u, tuple):
        return u[0] * between(u, low, high)
    size = between(2 * u if u < 0.5 else 2 * u - 1, low, high)
    return -size if u < 0.5 else size


def _nth(work: Work, kind: str, i: int, **change) -> Work:
    return replace(work, **{kind: tuple(replace(v, **change) if j == i else v for j, v in enumerate(getattr(work, kind)))})


def _line(work: Work, i: int, **change) -> Work:
    return _nth(work, "lines", i, **change)


def _dots(work: Work, change: dict[int, Dot]) -> Work:
    return replace(work, dots=tuple(change.get(j, v) for j, v in enumerate(work.dots)))


def _ended(work: Work, lost: float) -> list[Work]:
    """End 2 so much short: the lines of that end laid out from it afterwards, or before, from the mark."""
    after = replace(work, last=work.last - lost, base_2=work.base_2 - lost)
    if any(cut.end == 2 for cut in (*work.lines, *work.notches)):
        return [after, replace(work, last=work.last - lost)]
    return [after]


def _ends(weight: float, words: str, work: Work, lost: float) -> list[Way]:
    made = _ended(work, lost)
    return [Way(weight / len(made), words, lambda u, w=w: w) for w in made]


def _changes_of(work: Work, change: Callable[[float], list[tuple[float, float]]]) -> list[Way]:
    """A change of one number of the drawing: the length, a run, a width left, a hole's x or y."""
    ways: list[Way] = []

    def one(value: float, make: Callable[[float], list[Work]]) -> None:
        changed = change(value)
        total = sum(w for _, w in changed)
        for new, weight in changed:
            made = make(new)
            ways.extend(Way(weight / total / len(made), f"{value} as {new}", lambda u, w=w: w) for w in made)

    one(work.last, lambda v: _ended(work, work.last - v))
    for i, line in enumerate(work.lines):
        one(line.run, lambda v, i=i: [_line(work, i, run=v)])
        if line.left:
            one(line.left, lambda v, i=i: [_line(work, i, left=v)])
    for i, dot in enumerate(work.dots):
        one(dot.x, lambda v, i=i, d=dot: [_dots(work, {i: replace(d, x=v)})])
        one(dot.y, lambda v, i=i, d=dot: [_dots(work, {i: replace(d, y=v)})])
    return ways


def _misread(value: float) -> list[tuple[float, float]]:
    found = [(value + sign * n / 16, 1 / n) for n in (1, 2, 3, 4) for sign in (1, -1)]
    rest = value % 1
    if rest:
        found.append((value - rest / 2, 0.7))
        if rest < 0.5:
            found.append((value + rest, 0.7))
    return found


def _turned_over(work: Work, legs: bool, ends: bool) -> tuple[tuple[Line, ...], tuple[Dot, ...]]:
    def leg(name: str) -> str:
        return {"A": "B", "B": "A"}[name] if legs else name

    lines = tuple(replace(v, leg=leg(v.leg), end=3 - v.end if ends else v.end) for v in work.lines)
    return lines, tuple(replace(d, leg=leg(d.leg), x=work.last - d.x if ends else d.x) for d in work.dots)


def slips(part, kerf: float, allowance: float) -> dict[str, list[Way]]:
    """Every mistake that one part can show, with its ways; those without any are left out."""
    work = as_drawn(part)
    t = dict(zip("AB", work.thick))
    other = {"A": "B", "B": "A"}
    fillet = float(part.section.fillet)
    equal = work.width[0] == work.width[1] and work.thick[0] == work.thick[1]
    ways: dict[str, list[Way]] = {GOOD: [Way(1.0, "", lambda u: work)]}
    # The saw and the end.
    ways["M01"] = _ends(1, "a kerf", work, kerf)
    ways["M02"] = _ends(1, "half a kerf", work, kerf / 2)
    ways["M03"] = [Way(1, f"{k}", lambda u, w=replace(w, first=k): w) for k in (kerf, kerf / 2) for w in _ended(work, k)]
    ways["M04"] = _ends(1, "one end", work, allowance) + _ends(1, "both ends", work, 2 * allowance)
    ways["M05"] = _ends(1, "one end", work, -allowance) + _ends(1, "twice", work, -2 * allowance)
    inches = [(1.0, lambda v: v - 1), (0.5, lambda v: v + 1)]
    ways["M07"] = []
    for weight, moved in inches:
        ways["M07"] += _ends(weight, "length", work, work.last - moved(work.last))
        ways["M07"] += [Way(weight, "run", lambda u, i=i, m=moved: _line(work, i, run=m(work.lines[i].run))) for i in range(len(work.lines))]
        every = {i: replace(d, x=moved(d.x)) for i, d in enumerate(work.dots)}
        ways["M07"] += [Way(weight, "all holes", lambda u, e=every: _dots(work, e))] if every else []
    ways["M08"] = _changes_of(work, _misread)
    # Legs and ends.
    if work.lines:
        swapped, _ = _turned_over(work, True, False)
        ways["M09"] = [Way(1, "taper on the other leg", lambda u: replace(work, lines=swapped))]
        if len(work.lines) == 1:
            turned, _ = _turned_over(work, False, True)
            ways["M10"] = [Way(1, "", lambda u: replace(work, lines=turned))]
    if equal and part.handed:
        lines, dots = _turned_over(work, True, False)
        ways.setdefault("M09", []).append(Way(1, "other hand", lambda u: replace(work, lines=lines, dots=dots)))
    # Marks.
    ways["M11"], ways["M12"] = [], []
    for leg in "AB":
        up = {i: d for i, d in enumerate(work.dots) if d.leg == leg}
        for weight, by in ((1.0, t[other[leg]]), (0.5, t[other[leg]] + fillet)):
            if up and fillet or by == t[other[leg]] and up:
                raised = {i: replace(d, y=d.y + by) for i, d in up.items()}
                ways["M11"].append(Way(weight, f"holes of leg {leg}", lambda u, r=raised: _dots(work, r)))
    for i, line in enumerate(work.lines):
        ways["M11"].append(Way(1, "width left", lambda u, i=i, v=line: _line(work, i, left=v.left + t[other[v.leg]])))
        if line.left < t[other[line.leg]]:
            ways["M12"].append(Way(1, "", lambda u, i=i, v=line: _line(work, i, left=t[other[v.leg]])))
    each = range(len(work.lines))
    ways["M13"] = [Way(1, "", lambda u, i=i: _line(work, i, aside=kerf)) for i in each]
    ways["M14"] = [
        Way(1, "toe" if toe else "end", lambda u, i=i, toe=toe: _line(work, i, turned=either_sign(u, 1.5, 6), about_toe=toe), True)
        for i in each
        for toe in (True, False)
    ]
    ways["M15"] = [Way(1, "", lambda u, i=i: _line(work, i, leaning=either_sign(u, 4, 15)), True) for i in each]
    ways["M16"] = [Way(1, "", lambda u: replace(work, first=between(u, 1 / 32, 3 / 16)), True)]
    far = {i: replace(d, x=work.last - d.x) for i, d in enumerate(work.dots) if abs(work.last - 2 * d.x) > 0.01}
    ways["M17"] = [Way(1, "one hole", lambda u, i=i, d=d: _dots(work, {i: d})) for i, d in far.items()]
    if len(far) > 1:
        ways["M17"].append(Way(1, "all holes", lambda u: _dots(work, far)))
    ways["M18"] = []
    for group in [work.dots, *([d for d in work.dots if d.leg == leg] for leg in "AB")]:
        order = sorted(group, key=lambda d: d.x)
        if len(order) < 2 or (group is not work.dots and len(order) == len(work.dots)):
            continue
        for begin in (0, 1):

            def stepped(u: float, order=order, begin=begin) -> Work:
                step = either_sign(u, 1 / 64, 1 / 16)
                return _dots(work, {work.dots.index(d): replace(d, x=d.x + (n + begin) * step) for n, d in enumerate(order)})

            ways["M18"].append(Way(1, "", stepped, True))
    ways["M19"], ways["M20"] = [], []
    for i, line in enumerate(work.lines):
        rise = work.width[AXIS[line.leg] - 1] - line.left
        if line.run > rise:
            ways["M19"].append(Way(1, "", lambda u, i=i, x=sqrt(line.run**2 - rise**2): _line(work, i, run=x)))
        if abs(line.run - rise) > 0.01:
            ways["M20"].append(Way(1, "", lambda u, i=i, x=rise**2 / line.run: _line(work, i, run=x)))
    # Metal.
    ways["M21"] = []
    for end in ("out_1", "out_2"):
        for legs in ((1, 0), (0, 1), (1, 1), (1, -1)):

            def crooked(u: float, end=end, legs=legs) -> Work:
                tilt = either_sign(u, 1.5, 4)
                return replace(work, **{end: (legs[0] * tilt, legs[1] * tilt)})

            ways["M21"].append(Way(1, f"{end} {legs}", crooked, True))
    ways["M22"] = [
        Way(1, "AB"[side], lambda u, side=side: replace(work, filed=tuple(between(u, 1 / 32, 1 / 8) if j == side else 0.0 for j in (0, 1))), True)
        for side in (0, 1)
    ]
    ways["M23"] = [
        Way(1, f"{kind} {by:+}", lambda u, kind=kind, by=by: replace(work, **{kind: tuple(v + by for v in getattr(work, kind))}))
        for kind, size in (("thick", 1 / 16), ("width", 1 / 4))
        for by in (size, -size)
    ]
    ways["M24"] = [Way(1, name, lambda u, name=name: replace(work, alloy=name)) for name in ("2024", "7075", "6063") if name != part.alloy[:4]]
    ways["M25"] = [Way(1, "", lambda u: replace(work, shrunk=23.6e-6 * between(u, 20, 60)), True)]
    ratio = 16 / 25.4
    ways["M27"] = _ends(1, "length", work, work.last * (1 - ratio))
    ways["M27"] += [Way(1, "run", lambda u, i=i: _line(work, i, run=work.lines[i].run * ratio)) for i in each]
    if work.dots:
        ways["M27"].append(Way(1, "holes", lambda u: _dots(work, {i: replace(d, x=d.x * ratio) for i, d in enumerate(work.dots)})))
    return {id_: kept for id_, of in ways.items() if (kept := [way for way in of if _can_be(work, way)])}


def _can_be(wanted: Work, way: Way) -> bool:
    return all(sound(way.make(u)) for u in (0.0, 0.25, 0.75, 1.0))


def sound(work: Work) -> bool:
    """Whether this metal can be made at all: room on the bar for every line and hole."""
    if work.last - work.first < 0.5 or min(work.thick) < 0.03:
        return False
    for line in work.lines:
        width = work.width[AXIS[line.leg] - 1]
        if not (0.05 < line.run < work.last and 0 <= line.left < width - 0.02 and work.thick[0] < width):
            return False
    for notch in work.notches:
        if not (0.02 < notch.length < work.last - work.first and 0.02 < notch.left < work.width[AXIS[notch.leg] - 1] - 0.02):
            return False
    if any(arc.radius < 0.02 for arc in work.arcs):
        return False
    return all(work.first < d.x < work.last and 0 < d.y < work.width[AXIS[d.leg] - 1] for d in work.dots)


# --- sound work scatters -----------------------------------------------------------------------------------
def strays(work: Work) -> list[tuple[str, Callable[[Work, float], Work]]]:
    """Every way in which sound work strays: which scatter it has, and what it does."""
    found: list[tuple[str, Callable[[Work, float], Work]]] = [
        ("length", lambda w, v: replace(w, last=w.last + v, base_2=w.base_2 + v)),
    ]
    for i, line in enumerate(work.lines):
        depth = work.thick[AXIS[line.leg] - 1]
        found += [
            ("run", lambda w, v, i=i: _line(w, i, run=w.lines[i].run + v)),
            ("left", lambda w, v, i=i: _line(w, i, left=w.lines[i].left + v)),
            ("lean", lambda w, v, i=i, k=57.29578 / depth: _line(w, i, leaning=w.lines[i].leaning + v * k)),
        ]
    for i in range(len(work.notches)):
        found += [
            (kind, lambda w, v, i=i, n=name: _nth(w, "notches", i, **{n: getattr(w.notches[i], n) + v}))
            for kind, name in (("run", "length"), ("left", "left"))
        ]
    for i in range(len(work.arcs)):
        found.append(("radius", lambda w, v, i=i: _nth(w, "arcs", i, radius=w.arcs[i].radius + v)))
    for i in range(len(work.dots)):
        found += [
            ("hole", lambda w, v, i=i: _dots(w, {i: replace(w.dots[i], x=w.dots[i].x + v)})),
            ("hole", lambda w, v, i=i: _dots(w, {i: replace(w.dots[i], y=w.dots[i].y + v)})),
        ]
    for end in ("out_1", "out_2"):
        for side in (0, 1):
            found.append(
                ("square", lambda w, v, e=end, s=side: replace(w, **{e: tuple(x + 57.29578 * v * (j == s) for j, x in enumerate(getattr(w, e)))}))
            )
    for side in (0, 1):
        if work.edges[side]:
            found.append(("edge", lambda w, v, s=side: replace(w, edges=tuple(min(1 / 64, max(0.0, x + v)) if j == s else x for j, x in enumerate(w.edges)))))
    for side in (0, 1):
        found.append(("toe", lambda w, v, s=side: replace(w, filed=tuple(x + v * (j == s) for j, x in enumerate(w.filed)))))
    return found


def scattered(work: Work, rng: Random, times: float = 1.0) -> Work:
    """The same work done by hand."""
    for kind, stray in strays(work):
        work = stray(work, rng.gauss(0, times * SCATTER[kind]))
    return work


def spreads(true: list[float]) -> list[float]:
    """The standard uncertainty of each reading."""
    return [CALIPER if value <= 6 else RULE for value in true]


def noise(rng: Random, tails: str) -> float:
    """An error of reading in units of its spread: normal, or Student's t with three degrees of freedom."""
    if tails == "normal":
        return rng.gauss(0, 1)
    chi = sum(rng.gauss(0, 1) ** 2 for _ in range(3))
    return rng.gauss(0, 1) / sqrt(chi / 3)


# --- parts and their slips -----------------------------------------------------------------------------------
@dataclass(frozen=True)
class Habit:
    """How a bench differs from what the library supposes.

    A free amount is drawn as u to this power (above 1: small amounts prevail); the ways of a mistake
    are all alike if ``even``; sound work scatters so many times more than the builder says.
    """

    power: float = 1.0
    even: bool = False
    times: float = 1.0

    def weights(self, ways: list[Way]) -> list[float]:
        return [1.0 if self.even else way.weight for way in ways]


USUAL, OTHER = Habit(), Habit(2.0, True, 1.5)


@dataclass(frozen=True)
class Trial:
    """One part that came off this bench: what befell it, its metal before scatter, and what was read."""

    part: object
    names: tuple[str, ...]
    ids: tuple[str, ...]
    works: tuple[Work, ...]
    values: tuple[float, ...]
    spreads: tuple[float, ...]


def drawn(rng: Random, ways: list[Way], habit: Habit = USUAL) -> Work:
    """One of a mistake's ways, with its amount."""
    return rng.choices(ways, habit.weights(ways))[0].make(rng.random() ** habit.power)


def both(wanted: Work, one: Work, two: Work) -> Work:
    """The work with two changes: each number of the second that is not as wanted, on the first's."""

    def merged(want, a, b):
        if isinstance(want, tuple) and want and isinstance(want[0], (Line, Dot, Notch, Arc)):
            return tuple(merged_item(*items) for items in zip(want, a, b))
        if isinstance(want, tuple):
            return tuple(merged(*v) for v in zip(want, a, b))
        if isinstance(want, float):
            return a + b - want
        return b if b != want else a

    def merged_item(want, a, b):
        names = type(want).__dataclass_fields__
        return replace(want, **{n: merged(getattr(want, n), getattr(a, n), getattr(b, n)) for n in names})

    fields = [n for n in Work.__dataclass_fields__ if n != "planes"]
    return replace(wanted, **{n: merged(getattr(wanted, n), getattr(one, n), getattr(two, n)) for n in fields})


def trial(rng: Random, part, names: tuple[str, ...], ways: dict[str, list[Way]], tails: str, two: float = 0.1, habit: Habit = USUAL) -> Trial:
    """One part: a mistake drawn evenly among those it can show and a good part; two of them in a tenth."""
    wanted = as_drawn(part)
    while True:
        id_ = rng.choice(sorted(ways))
        works, ids = (drawn(rng, ways[id_], habit),), (id_,)
        if id_ != GOOD and rng.random() < two:
            second = rng.choice(sorted(set(ways) - {id_, GOOD}))
            ids, works = (id_, second), (*works, drawn(rng, ways[second], habit))
        work = works[0] if len(works) == 1 else both(wanted, *works)
        if not sound(work):
            continue
        true = measure(scattered(work, rng, habit.times), names)
        if not all(-1e6 < value < 1e6 for value in true):
            continue
        spread = spreads(measure(wanted, names))
        values = tuple(value + s * noise(rng, tails) for value, s in zip(true, spread))
        return Trial(part, names, ids, works, values, tuple(spread))
