"""The plan: which stick each blank comes from, in what order it is sawn, and what is proven of it.

A plan is data, frozen; the planner makes it, the checker doubts it, the drawings and the shop pack
show it. x runs along a stick from its end 1; a cut's ``line`` is measured from the squared datum
end, as a rule lies at the bench: every line of a stick is marked from there before the first cut.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.job import Shop
from anglelib.section import Section
from anglelib.stock.blank import Blank
from anglelib.stock.rack import Stick
from anglelib.stock.reasons import Reason

TRIM, CLEAR, PART_OFF = "trim", "clear", "part-off"
"""What a cut is for: to trim an end square, to clear a dent, to part a blank off."""
MADE, LEFT, STICKS, CUTS, TOGETHER, SET_UPS = "made", "left", "sticks", "cuts", "together", "set-ups"
"""What is proven of a plan, level by level: how much is made, how long what remains is, how few sticks and cuts it takes, how far equal parts lie together, how
few set-ups of the saw it takes."""


@dataclass(frozen=True)
class Cut:
    """One saw cut of a stick; all [in].

    ``line`` is the line to follow, from the datum end, and ``x`` the same from end 1. The blade turns
    ``kerf`` to dust, beyond the line when a blank is parted off, and before it when an end is trimmed or a
    dent cleared (:attr:`dust`). ``comes_off`` and ``stays`` are the two pieces that the cut leaves: ``clamp`` is set
    where both are below the shop's hand minimum, or the part that comes off is. ``made_first``:
    ``leading_end`` of the part, which faces the datum end, is tapered or coped before this cut, while its
    blank is still on ``still_on`` of stick. ``turned``: the stick is turned end for end, and its datum end is end 2.
    ``rough``: neither piece goes into the saw's throat, and the cut is a rough one by hacksaw. ``back`` [in] is how far before
    ``line`` the line is struck that is followed (:attr:`mark`): what lies between is room for the hacksaw.
    """

    kind: str
    line: Fraction
    x: Fraction
    kerf: Fraction
    comes_off: Fraction
    stays: Fraction
    clamp: bool
    blank: Blank | None = None
    leading_end: int = 1
    made_first: bool = False
    still_on: Fraction = Fraction(0)
    turned: bool = False
    rough: bool = False
    back: Fraction = Fraction(0)

    @property
    def mark(self) -> Fraction:
        """The line that is struck and followed, from the datum end [in]."""
        return self.line - self.back

    @property
    def in_hand(self) -> Fraction:
        """The longer of the two pieces that the cut leaves, by which it is held [in]."""
        return max(self.comes_off, self.stays)

    @property
    def dust(self) -> tuple[Fraction, Fraction]:
        """What the blade takes, from and to along the stick from end 1 [in]."""
        return (self.x, self.x + self.kerf) if (self.blank is not None) != self.turned else (self.x - self.kerf, self.x)


@dataclass(frozen=True)
class Placed:
    """Where a blank lies in its stick, from ``start`` to ``end`` along it from end 1 [in].

    ``sawn``: whether a cut parts it off (else it ends where the stick does, ``surplus`` longer than the
    blank needs to be). ``turned``: its first end faces end 2 of the stick, from which it is sawn. ``back`` [in]: how much shorter
    the piece that is parted off is than its place, as in :class:`Cut`; ``before`` how much longer, because a rough cut has left its near end.
    """

    blank: Blank
    start: Fraction
    end: Fraction
    sawn: bool
    surplus: Fraction = Fraction(0)
    turned: bool = False
    back: Fraction = Fraction(0)
    before: Fraction = Fraction(0)

    @property
    def piece(self) -> Fraction:
        """The length of the piece that is parted off [in]."""
        return self.end - self.start - self.back + self.before


@dataclass(frozen=True)
class Remnant:
    """A piece of a stick that goes back on the rack, from ``start`` to ``end`` along the old stick [in].

    ``stick`` is it as the rack will list it; ``holds`` the blanks whose length is reserved in it.
    """

    stick: Stick
    start: Fraction
    end: Fraction
    holds: tuple[Blank, ...] = ()


@dataclass(frozen=True)
class StickPlan:
    """One stick: its cuts in order, its blanks, what is held, and what goes back on the rack.

    ``datum`` is where its datum end lies, from end 1 [in], and ``turned_datum`` the same once it is turned end for end
    (None: it is not); ``left`` the usable lengths that remain, longest first, without what is held.
    """

    stick: Stick
    datum: Fraction
    cuts: tuple[Cut, ...]
    placed: tuple[Placed, ...]
    held: tuple[Placed, ...]
    remnants: tuple[Remnant, ...]
    left: tuple[Fraction, ...]
    turned_datum: Fraction | None = None

    @property
    def touched(self) -> bool:
        """Whether anything is sawn from it now."""
        return bool(self.cuts) or bool(self.placed)


@dataclass(frozen=True)
class Shortage:
    """A part of which not all can be made: how many are missing of how many in all, and why.

    ``short_by`` is what the longest piece lacks for one more blank, once the parts with an earlier
    claim are sawn as planned [in]; None where no stick may be used at all. ``proven``: no plan makes more of it without giving up a part with an earlier claim.
    ``reasons`` are said in the unit of the sheet that says them.
    """

    part_id: str
    missing: int
    of: int
    blank: Fraction
    short_by: Fraction | None
    proven: bool
    reasons: tuple[Reason, ...]


@dataclass(frozen=True)
class Proof:
    """What is proven of one level of a plan; what the ``id`` needs is set, and what it says is in :mod:`~anglelib.stock.plan_words`.

    ``left`` has for each piece that remains its length and the most that it could be [in], in steps of ``grain``.
    ``sticks`` give metal, ``new`` of them no remnants; of them ``held`` are not cut into, only lengths are held in them; ``cuts`` are made, ``turns`` of them to free the other end of a stick
    that is turned; ``lost`` [in] goes to the blade and in ends too short to keep; ``fewest``: fewer cuts are ruled out.
    ``least_change``: it is said of the plans that change least. Of ``pairs`` of a left and a right part so many come ``whole`` from one
    stick; equal parts go on to another stick ``moves`` times. ``set_ups`` of the saw are made. ``picked``: it is said of a runner-up.
    """

    level: int
    id: str
    proven: bool
    made: int = 0
    of: int = 0
    left: tuple[tuple[Fraction, Fraction], ...] = ()
    grain: Fraction = Fraction(1)
    sticks: int = 0
    new: int = 0
    held: int = 0
    cuts: int = 0
    turns: int = 0
    lost: Fraction = Fraction(0)
    fewest: bool = False
    least_change: bool = False
    pairs: int = 0
    whole: int = 0
    moves: int = 0
    set_ups: int = 0
    picked: bool = False

    @property
    def sentence(self) -> str:
        """What it says."""
        from anglelib.stock.plan_words import proof

        return proof(self)


@dataclass(frozen=True)
class Trade:
    """What the runner-up gives and takes against the plan by the rule; all lengths [in].

    ``cuts_into`` are the sticks that only it cuts into and ``leaves`` those that only the plan by the rule does: (stick, length, what is left of it in
    whole grains, whether it is new).
    ``more`` and ``less`` are the sticks of which it leaves a longer or a shorter piece: (stick, by the rule, by the runner-up), in whole grains.
    ``cuts`` is how many saw cuts it takes more. ``proven``: no plan that gains anything is better by the rule.
    """

    cuts_into: tuple[tuple[str, Fraction, Fraction, bool], ...]
    leaves: tuple[tuple[str, Fraction, Fraction, bool], ...]
    more: tuple[tuple[str, Fraction, Fraction], ...]
    less: tuple[tuple[str, Fraction, Fraction], ...]
    cuts: int
    proven: bool

    @property
    def sentence(self) -> str:
        """What it trades."""
        from anglelib.stock.runner_up_words import trade

        return trade(self)


@dataclass(frozen=True)
class GroupPlan:
    """The plan for one section and alloy; such groups share no metal.

    ``sticks`` are all usable sticks, those sawn first. ``left`` is what remains in whole grains,
    longest first, one number for each usable length that there was. ``picked`` is what was traded where the runner-up was
    picked, None where the plan is the one by the rule.
    """

    section: Section
    alloy: str
    sticks: tuple[StickPlan, ...]
    shortages: tuple[Shortage, ...]
    left: tuple[int, ...]
    proofs: tuple[Proof, ...]
    picked: Trade | None = None

    @property
    def title(self) -> str:
        """The section and alloy, in words."""
        return f"{self.section.size}, {self.alloy}"

    @property
    def sentence(self) -> str:
        """What is proven, in words; first that it is the runner-up, where that was picked."""
        return " ".join([*self.said_of_pick, *(proof.sentence for proof in self.proofs)])

    @property
    def said_of_pick(self) -> tuple[str, ...]:
        """That the runner-up was picked, and what it trades; nothing where it was not."""
        from anglelib.stock.runner_up_words import picked

        return (picked(self.picked),) if self.picked is not None else ()


@dataclass(frozen=True)
class Plan:
    """A plan for a job: one group for each section and alloy.

    ``interrupted``: the clock or the user ended it, so that another run may end elsewhere; else the
    same job and rack give the same plan, in whatever order their rows stand. ``work`` is the
    deterministic work that it took.
    """

    job_name: str
    shop: Shop
    groups: tuple[GroupPlan, ...]
    interrupted: bool
    work: float

    @property
    def sticks(self) -> tuple[StickPlan, ...]:
        """The sticks that are sawn or held, group by group."""
        return tuple(s for group in self.groups for s in group.sticks if s.touched or s.held)

    @property
    def shortages(self) -> tuple[Shortage, ...]:
        """What cannot be made."""
        return tuple(s for group in self.groups for s in group.shortages)

    @property
    def made(self) -> int:
        """How many blanks are sawn."""
        return sum(len(s.placed) for s in self.sticks)

    def stick(self, stick_id: str) -> StickPlan | None:
        """The plan of one stick; None where the plan does not use its group."""
        return next((s for group in self.groups for s in group.sticks if s.stick.id == stick_id), None)
