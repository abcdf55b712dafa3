"""The rotation: who is at which station when, so that the cutting ends as early as can be proven.

Every learner goes the same way through the stations; neighbours share a piece, so the second begins
when the first has sawn off. No machine has two at once, no more machines run than competent people
have in sight, and nothing runs in the break. Solved exactly; what is not proven is said.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> made = rotation(ClassWanted(2))
>>> made.length, made.least, made.proven
(62, 62, True)
>>> [(visit.station, visit.start, visit.end) for visit in made.of(1)][:3]
[('disc', 0, 3), ('bench', 3, 13), ('saw', 13, 21)]
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from anglelib.errors import BenchError
from anglelib.workshop.class_plan import STATIONS, WATCHED, ClassWanted

WORK = 1.5
"""Deterministic work that a rotation may take, in the solver's own unit: a few seconds of one core."""
BREAK_AFTER, BREAK, LONG = 90, 15, 120
"""A rotation longer than LONG minutes has a break of BREAK minutes after BREAK_AFTER."""
MACHINES = ("saw", "disc", "wheel")


class Step(NamedTuple):
    """One visit of the way through the stations: where, and what is done there."""

    station: str
    words: str
    short: str


STEPS = (
    Step("disc", "square end 1 on the piece, and try the square on both legs", "square end 1"),
    Step("bench", "lay out from end 1, write leg, end and hand on the metal, cross the waste", "lay out"),
    Step("saw", "saw the taper, then to length; your neighbour stands by", "taper, length"),
    Step("disc", "sand the taper and end 2 to the line; cool; square again", "taper and end 2"),
    Step("bench", "punch and pilot the holes, clamped; break the edges", "holes, edges"),
    Step("wheel", "finish lengthwise, edge trailing", "finish"),
    Step("bench", "lay it on its check print; against your neighbour's", "check print"),
)
"""The way of every part; common practice. Saw and disc come before the bench that needs their end."""
_SHARES = {"disc": (3, 7), "bench": (10, 8, 2), "saw": (1,), "wheel": (1,)}
SAWN = 2
"""The step after which the neighbour may have the piece."""


@dataclass(frozen=True)
class Visit:
    """One learner at one place of a station, from minute to minute of the rotation; ``place`` is counted from 1."""

    learner: int
    step: int
    station: str
    place: int
    start: int
    end: int


@dataclass(frozen=True)
class Rotation:
    """All visits, in minutes from the rotation's start.

    ``length`` is when the last part is done, the break counted; ``least`` what is proven to be needed.
    ``pause`` is the break, from and to, or None.
    """

    visits: tuple[Visit, ...]
    length: int
    least: int
    pause: tuple[int, int] | None

    @property
    def proven(self) -> bool:
        """Whether no shorter rotation is possible, of this way through these stations."""
        return self.length == self.least

    def of(self, learner: int) -> tuple[Visit, ...]:
        """A learner's visits in order."""
        return tuple(visit for visit in self.visits if visit.learner == learner)

    def at(self, station: str, place: int) -> tuple[Visit, ...]:
        """The queue at one place of a station."""
        return tuple(visit for visit in self.visits if (visit.station, visit.place) == (station, place))


def step_minutes(wanted: ClassWanted) -> tuple[int, ...]:
    """Minutes of each step: a station's minutes shared out over its visits, each one or more."""
    left = {station: _shared(wanted.minutes[station], _SHARES[station]) for station in STATIONS}
    return tuple(left[step.station].pop(0) for step in STEPS)


def _shared(minutes: int, shares: Sequence[int]) -> list[int]:
    found, rest, whole = [], minutes, sum(shares)
    for n, share in enumerate(shares):
        last = n == len(shares) - 1
        part = rest if last else min(max(1, round(minutes * share / whole)), rest - (len(shares) - 1 - n))
        found.append(part)
        rest -= part
    return found


def rotation(wanted: ClassWanted) -> Rotation:
    """The shortest rotation that the solver finds, and what it proves."""
    minutes = step_minutes(wanted)
    pause = (BREAK_AFTER, BREAK_AFTER + BREAK) if _floor(wanted, minutes, None) > LONG else None
    starts, bound = _solved(wanted, minutes, pause)
    length = max(row[-1] + minutes[-1] for row in starts)
    return Rotation(_placed(wanted, minutes, starts), length, min(bound, length), pause)


def _floor(wanted: ClassWanted, minutes: Sequence[int], pause: tuple[int, int] | None) -> int:
    """Minutes that no rotation goes under: a station's whole load between the shortest way to it and from it.

    A station whose load reaches into the break stands still all through it.
    """
    found = sum(minutes) + (sum(minutes[: SAWN + 1]) if wanted.learners > 1 else 0)
    for station in STATIONS:
        at = [n for n, step in enumerate(STEPS) if step.station == station]
        load = -(-sum(minutes[n] for n in at) * wanted.learners // wanted.count(station))
        done = sum(minutes[: at[0]]) + load
        if pause is not None and done > pause[0]:
            done += pause[1] - pause[0]
        found = max(found, done + sum(minutes[at[-1] + 1 :]))
    running = sum(m for m, step in zip(minutes, STEPS, strict=True) if step.station in MACHINES) * wanted.learners
    return max(found, -(-running // (WATCHED * wanted.competent)))


def _solved(wanted: ClassWanted, minutes: Sequence[int], pause: tuple[int, int] | None) -> tuple[list[list[int]], int]:
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        raise BenchError("The solver (ortools) is not in this Python, and the timetable needs it: install the project's requirements.") from None
    first = _in_turn(wanted, minutes, pause)
    most = max(row[-1] for row in first) + minutes[-1]
    model = cp_model.CpModel()
    people = range(wanted.learners)
    starts = [[model.new_int_var(0, most, f"s{i}_{n}") for n in range(len(STEPS))] for i in people]
    spans = [[model.new_fixed_size_interval_var(starts[i][n], minutes[n], f"v{i}_{n}") for n in range(len(STEPS))] for i in people]
    rest = [model.new_fixed_size_interval_var(pause[0], pause[1] - pause[0], "break")] if pause else []
    for i in people:
        for n in range(len(STEPS) - 1):
            model.add(starts[i][n + 1] >= starts[i][n] + minutes[n])
        for n in range(len(STEPS)):
            model.add_no_overlap([spans[i][n], *rest])
        if i % 2:  # the piece is shared
            model.add(starts[i][0] >= starts[i - 1][SAWN] + minutes[SAWN])
        elif i >= 2:  # pairs are alike in minutes: their order is free
            model.add(starts[i][0] >= starts[i - 2][0])
    for station in STATIONS:
        here = [spans[i][n] for i in people for n, step in enumerate(STEPS) if step.station == station]
        if wanted.count(station) == 1:
            model.add_no_overlap(here)
        elif wanted.count(station) < len(here):
            model.add_cumulative(here, [1] * len(here), wanted.count(station))
    running = [spans[i][n] for i in people for n, step in enumerate(STEPS) if step.station in MACHINES]
    if sum(wanted.count(station) for station in MACHINES) > WATCHED * wanted.competent:
        model.add_cumulative(running, [1] * len(running), WATCHED * wanted.competent)
    end = model.new_int_var(_floor(wanted, minutes, pause), most, "end")
    for i in people:
        model.add(end >= starts[i][-1] + minutes[-1])
        for n in range(len(STEPS)):
            model.add_hint(starts[i][n], first[i][n])
    model.minimize(end)
    solver = cp_model.CpSolver()
    solver.parameters.catch_sigint_signal = False  # else the solver leaves a process that the next Ctrl-C kills
    solver.parameters.num_workers = 1
    solver.parameters.interleave_search = True  # one worker takes turns at several ways of searching: the same on every machine
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = WORK
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return first, _floor(wanted, minutes, pause)
    return [[solver.value(var) for var in row] for row in starts], round(solver.best_objective_bound)


def _in_turn(wanted: ClassWanted, minutes: Sequence[int], pause: tuple[int, int] | None) -> list[list[int]]:
    """A rotation by a plain rule: of all next steps the one that can begin first, the farthest on its way before the others."""
    busy: dict[str, list[tuple[int, int]]] = {station: [] for station in STATIONS}
    running: list[tuple[int, int]] = []
    starts: list[list[int]] = [[] for _ in range(wanted.learners)]

    def free(i: int, n: int) -> int | None:
        """When a learner's next step can begin; None while the neighbour has the piece."""
        ready = starts[i][-1] + minutes[n - 1] if n else 0
        if not n and i % 2:
            if len(starts[i - 1]) <= SAWN:
                return None
            ready = starts[i - 1][SAWN] + minutes[SAWN]
        station = STEPS[n].station
        at = ready
        while True:
            end = at + minutes[n]
            clash = pause is not None and at < pause[1] and end > pause[0]
            full = _most(busy[station], at, end) >= wanted.count(station)
            many = station in MACHINES and _most(running, at, end) >= WATCHED * wanted.competent
            if not (clash or full or many):
                return at
            at += 1

    while any(len(row) < len(STEPS) for row in starts):
        ways = []
        for i, row in enumerate(starts):
            if len(row) < len(STEPS):
                at = free(i, len(row))
                if at is not None:
                    ways.append((at, -len(row), i))
        at, n, i = min(ways)
        n = -n
        starts[i].append(at)
        busy[STEPS[n].station].append((at, at + minutes[n]))
        if STEPS[n].station in MACHINES:
            running.append((at, at + minutes[n]))
    return starts


def _most(spans: Sequence[tuple[int, int]], start: int, end: int) -> int:
    """The most spans that overlap one another somewhere between start and end."""
    near = [(a, b) for a, b in spans if a < end and b > start]
    return max((sum(a <= at < b for a, b in near) for at in {start, *(max(a, start) for a, _ in near)}), default=0)


def _placed(wanted: ClassWanted, minutes: Sequence[int], starts: Sequence[Sequence[int]]) -> tuple[Visit, ...]:
    """Each visit at the first place of its station that is free."""
    found = []
    for station in STATIONS:
        free = [0] * wanted.count(station)
        here = [(row[n], i, n) for i, row in enumerate(starts) for n, step in enumerate(STEPS) if step.station == station]
        for at, i, n in sorted(here):
            place = next(p for p, until in enumerate(free) if until <= at)
            free[place] = at + minutes[n]
            found.append(Visit(i + 1, n, station, place + 1, at, at + minutes[n]))
    return tuple(sorted(found, key=lambda visit: (visit.start, visit.learner, visit.step)))
