"""The job: the parts to make, and how this shop cuts.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> bar = Part("A3", "Baggage floor bar", stock, "6061-T6", "17 1/4", quantity=4)
>>> job = Job("Demo", Shop(), [bar])
>>> job.pieces, job.shop.kerf
(4, Fraction(1, 16))
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import JobError, LengthError
from anglelib.hashed import hashed_once
from anglelib.lengths import UNITS, inches
from anglelib.names import MOST_NAME_CHARACTERS, check_id, check_text
from anglelib.near import did_you_mean
from anglelib.part import MOST_QUANTITY, Part
from anglelib.saw import Saw
from anglelib.section import Section
from anglelib.tolerances import Limits

MOST_KERF = Fraction(1)
"""No blade is thicker [in]."""
KERF, ALLOWANCE = Fraction(1, 16), Fraction(1, 32)
"""Kerf and sanding allowance where nobody gave one [in]; common practice, both to be measured in one's own shop. That metal is sawn a little over
size and worked to the line is taught so: NSW Department of Education, Stage 5 Metal, module 3, "Marking out from a datum edge" (seen); by how much is not."""
GRAIN, USABLE_MINIMUM, HAND_MINIMUM = Fraction(1), Fraction(3), Fraction(6)
"""The shop's other lengths where nobody gave one [in]; common practice."""


@hashed_once
@dataclass(frozen=True)
class Shop:
    """How this shop cuts; all [in].

    ``kerf`` is the width the blade turns to dust; ``allowance`` the sanding allowance left outside
    the line at each sawn end; ``grain`` the step in which remnants are compared; a remnant shorter
    than ``usable_minimum`` counts for nothing; a cut that leaves less than ``hand_minimum`` in the
    hand is clamped. ``saw`` says which cuts the band saw can make (None: nobody said, and every cut is planned for it).

    >>> round_the_column = Shop(saw=Saw("9", hacksaw_allowance="1/8"))
    >>> round_the_column.rough_room(Fraction(8)), round_the_column.rough_room(Fraction(28))
    (Fraction(0, 1), Fraction(3, 16))
    """

    kerf: Fraction = KERF
    allowance: Fraction = ALLOWANCE
    grain: Fraction = GRAIN
    usable_minimum: Fraction = USABLE_MINIMUM
    hand_minimum: Fraction = HAND_MINIMUM
    saw: Saw | None = None

    def __post_init__(self) -> None:
        rules = {
            "kerf": ("kerf", True),
            "allowance": ("sanding allowance", True),
            "grain": ("grain", False),
            "usable_minimum": ("usable minimum", True),
            "hand_minimum": ("hand minimum", True),
        }
        for field, (what, zero) in rules.items():
            try:
                object.__setattr__(self, field, inches(getattr(self, field), what, zero=zero))
            except LengthError as error:
                raise JobError(str(error)) from None
        if self.kerf > MOST_KERF:
            raise JobError("The kerf is over 1 in.: no blade is that thick; check the unit.")
        if self.allowance > 1:
            raise JobError("The sanding allowance is over 1 in.: check the unit.")

    # --- rough cuts by hacksaw -------------------------------------------------------------------------------
    @property
    def by_hacksaw(self) -> Shop:
        """The shop at a rough cut: the hacksaw's allowance and kerf in the place of the saw's; itself where no saw is known.

        A hacksaw wanders at least as much as the saw: it leaves no less than the sanding allowance.
        """
        if self.saw is None:
            return self
        return replace(self, allowance=max(self.saw.hacksaw_allowance, self.allowance), kerf=self.saw.hacksaw_kerf)

    @property
    def wander(self) -> Fraction:
        """How much more a rough cut leaves outside its line than the saw does [in]; 0 where no saw is known."""
        return max(self.saw.hacksaw_allowance - self.allowance, Fraction(0)) if self.saw is not None else Fraction(0)

    @property
    def rough_more(self) -> Fraction:
        """What a rough cut takes of a stick more than the saw does [in]: the hacksaw wanders on both sides of its kerf; 0 where no saw is known.

        With the sanding allowance of the blanks beside it it makes up the formula ``hacksaw_strip``; never less than the saw's own kerf.
        """
        if self.saw is None:
            return Fraction(0)
        return 2 * self.wander + max(self.saw.hacksaw_kerf - self.kerf, Fraction(0))

    def takes(self, length: Fraction) -> Fraction:
        """The length of stick that a blank for a finished length [in] takes, without the kerf beside it: its allowances, and :meth:`rough_room`.

        >>> Shop().takes(Fraction(28)), Shop(saw=Saw("9")).takes(Fraction(28))
        (Fraction(449, 16), Fraction(225, 8))
        """
        blank = length + 2 * self.allowance
        return blank + self.rough_room(blank)

    def rough_room(self, blank: Fraction) -> Fraction:
        """The room that a blank [in] needs in its stick besides its own length, for a hacksaw that may have to part it off.

        A blank that goes into the throat is always sawn, it can lie on the column's side; of a longer one that is known only when the
        cuts of its stick are laid out, so the room is kept for it in any case.
        """
        return Fraction(0) if self.saw is None or blank <= self.saw.throat else self.rough_more


@dataclass(frozen=True)
class Member:
    """One of several jobs that are cut from one rack, in the job that stands for all of them.

    Its parts have its ``label`` before their ids, ``wing.A3`` ("": they keep their own); ``name`` and ``id`` are those of its file.
    ``held``: nothing of it is cut by this plan, its metal is kept for later.
    """

    label: str
    name: str
    id: str = ""
    held: bool = False

    def part_id(self, own: str) -> str:
        """The id of one of its parts among all of them, from its own."""
        return f"{self.label}.{own}" if self.label else own


@hashed_once
@dataclass(frozen=True)
class Job:
    """Parts to make, with ids that are all different and partners that are mirror images.

    ``unit`` is the one that its parts are written in where they name no other, and its sticks (:meth:`unit_for`); ``limits`` are how far
    off a dimension may be where the plans give no limits of their own. ``id`` is the job's own for ever, whatever its name becomes
    ("": it has none, and its name stands for it). ``members`` are the jobs of which it was put together
    (:mod:`anglelib.stock.several_jobs`); a job of one file has none.
    """

    name: str
    shop: Shop
    parts: tuple[Part, ...]
    unit: str = "in"
    limits: Limits | None = None
    id: str = ""
    members: tuple[Member, ...] = ()

    def __post_init__(self) -> None:
        check_text(self.name, "name of the job", JobError, MOST_NAME_CHARACTERS)
        if self.id:
            check_id(self.id, "id of the job", JobError)
        object.__setattr__(self, "parts", tuple(self.parts))
        if self.unit not in UNITS:
            raise JobError(f'The unit "{self.unit}" is unknown: write in or mm.')
        if self.limits is None:
            object.__setattr__(self, "limits", Limits.usual(self.unit))
        problems = contradictions(self.parts)
        if problems:
            raise JobError(" ".join(sentence for _, _, sentence in problems))

    @property
    def pieces(self) -> int:
        """How many pieces of metal the job asks for."""
        return sum(part.quantity for part in self.parts)

    def unit_for(self, section: Section, alloy: str) -> str:
        """The unit in which the sticks of a section and alloy are planned: that of all its parts, where they share one; else the job's.

        >>> thirty = Section("30 mm", "30 mm", "3 mm")
        >>> clip = Part("P1", "Clip", thirty, "6061-T6", "85 mm", unit="mm")
        >>> Job("Trial", Shop(), [clip]).unit_for(thirty, "6061-T6"), Job("Trial", Shop(), [clip]).unit_for(thirty, "6063-T5")
        ('mm', 'in')
        """
        units = {part.unit for part in self.parts if part.alloy == alloy and section in (part.section, part.section.swapped())}
        return units.pop() if len(units) == 1 else self.unit

    def member(self, part_id: str) -> tuple[Member | None, str]:
        """Of which of several jobs a part is, and its own id there; None where this is a job of one file."""
        for member in self.members:
            if member.label and part_id.startswith(f"{member.label}."):
                return member, part_id[len(member.label) + 1 :]
        return next((member for member in self.members if not member.label), None), part_id

    def held_for(self, part_id: str) -> Member | None:
        """The other job for which a part is only held; None for a part that this plan is made for."""
        member = self.member(part_id)[0]
        return member if member is not None and member.held else None

    def part(self, part_id: str) -> Part:
        """The part with this id; raises :class:`~anglelib.errors.JobError` naming those there are."""
        for part in self.parts:
            if part.id == part_id:
                return part
        known = [part.id for part in self.parts]
        raise JobError(f'There is no part "{part_id[:32]}": {did_you_mean(part_id, known) or "the job has " + (", ".join(known) or "none") + "."}')


def contradictions(parts: tuple[Part, ...]) -> list[tuple[str, str, str]]:
    """Everything in which the parts contradict one another: (part id, key, sentence)."""
    found = []
    if not parts:
        found.append(("", "part", "The job has no parts: add at least one."))
    by_id: dict[str, Part] = {}
    folded: dict[str, str] = {}
    for part in parts:
        if part.id.lower() in folded:
            same = "another part has it too" if part.id in by_id else f"{folded[part.id.lower()]} differs only in capitals"
            found.append((part.id, "id", f"The id {part.id} is not its own: {same}. Rename one."))
        by_id.setdefault(part.id, part)
        folded.setdefault(part.id.lower(), part.id)
    for part in parts:
        if part.mirror_of:
            found += [(part.id, "mirror_of", s) for s in _partner_sentences(part, by_id.get(part.mirror_of), by_id)]
    total = sum(part.quantity for part in parts)
    if total > MOST_QUANTITY:
        found.append(("", "quantity", f"The job asks for {total} pieces in all: at most {MOST_QUANTITY}; split it."))
    return found


def _partner_sentences(part: Part, partner: Part | None, known: Iterable[str]) -> list[str]:
    if partner is None:
        return [f"Part {part.id} names {part.mirror_of} as its mirror image, which is not in the job: {did_you_mean(part.mirror_of, known) or 'check the id.'}"]
    if partner.id == part.id:
        return [f"Part {part.id} names itself as its mirror image: name the other hand, or leave it out."]
    sentences = []
    if not part.mirrors(partner):
        sentences.append(
            f"Part {partner.id} is not the mirror image of {part.id}: compare their length, tapers and holes "
            "on the plans (the same slope must be given the same way, by run or by angle)."
        )
    if part.hand is not None and part.hand == partner.hand and part.hand != "neither":
        sentences.append(f"Parts {part.id} and {partner.id} are partners but both say {part.hand}: one is the other hand.")
    return sentences
