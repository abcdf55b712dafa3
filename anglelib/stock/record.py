"""The rack's record: the sticks on hand, and every stick that was cut: when, for which job, into what.

A stick that is cut leaves the rack. What is left of it are sticks of their own, with tags made from
its id: S-01 leaves S-01-R1, and what is left of that is S-01-R2. A tag is given once: the record
keeps those of all sticks that were ever cut, so that no two pieces of metal ever had the same.

>>> from anglelib.section import Section
>>> from anglelib.stock.pieces import pieces_from
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A3", "Bar", stock, "6061-T6", "17 1/4", quantity=4)])
>>> record = Record(Rack([Stick("S-1", stock, "6061-T6", 56)]))
>>> record = record.marked(Mark("S-1", pieces_from("2 x A3")), job, on="2024-05-01")
>>> [(stick.id, exact(stick.length)) for stick in record.rack.sticks], dict(record.made("Demo"))
([('S-1-R1', '21 1/4')], {'A3': 2})
>>> print(record.cut[0])
S-1, 56: cut on 2024-05-01 for Demo: 2 x A3 at 17 5/16
>>> record.marked(Mark("S-1", pieces_from("A3")), job)
Traceback (most recent call last):
    ...
anglelib.errors.RackError: S-1 is cut already (on 2024-05-01 for Demo: 2 x A3 at 17 5/16); what is left of it is S-1-R1: mark the cuts on that, or undo the earlier ones first.
>>> record.undone("S-1").rack.sticks[0].id
'S-1'

What is made is known by its description. The bar of a revised drawing is another one, until somebody says that the old one serves:

>>> revised = replace(job, parts=(replace(job.parts[0], length="17 3/16"),))
>>> dict(record.made(revised)), [(other.part_id, other.number) for other in record.otherwise(revised)]
({}, [('A3', 2)])
>>> dict(record.taken_for("A3", revised).made(revised))
{'A3': 2}
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import count

from anglelib.errors import RackError
from anglelib.job import Job, Member, Shop
from anglelib.lengths import exact
from anglelib.names import MOST_NOTE_CHARACTERS, check_id, check_text
from anglelib.near import did_you_mean
from anglelib.part import Part
from anglelib.stock.cutting import remnant_name
from anglelib.stock.equal_sticks import runs
from anglelib.stock.part_way import finished, spans_after
from anglelib.stock.pieces import OTHER, Mark, Piece, mark_from, pieces_from, pieces_of
from anglelib.stock.pins import with_less
from anglelib.stock.plan import StickPlan
from anglelib.stock.progress import Span
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.sawn import refuse_another, refuse_changed, sawn, used_whole
from anglelib.stock.tags import tags_for
from anglelib.stock.versions import part_version
from anglelib.stock.wording import and_more

__all__ = ["MOST_DAY_CHARACTERS", "Bought", "CutStick", "Mark", "Otherwise", "Piece", "Record", "mark_from", "pieces_from", "pieces_of"]
MOST_DAY_CHARACTERS = 20


@dataclass(frozen=True)
class CutStick:
    """A stick that is no longer there: on which day, for which job and into which pieces it was cut.

    ``job_id`` is the job's own where it has one; ``plan`` the number of the plan that was followed, ``rows`` how far, where the stick is
    cut part-way (0: it is cut).
    """

    stick: Stick
    on: str
    job: str
    pieces: tuple[Piece, ...]
    job_id: str = ""
    plan: str = ""
    rows: int = 0

    def __post_init__(self) -> None:
        check_text(self.on, "day of the cut", RackError, MOST_DAY_CHARACTERS)
        check_text(self.job, "name of the job", RackError)
        if self.job_id:
            check_id(self.job_id, "id of the job", RackError)

    def belongs(self, job: Job | str) -> bool:
        """Whether it was cut for a job, or one of its pieces was."""
        if not self.pieces and isinstance(job, Job):
            return bool(job.id) and job.id == self.job_id
        return any(self.id_in(piece, job) is not None for piece in self.pieces)

    def id_in(self, piece: Piece, job: Job | str) -> str | None:
        """The id that one of its pieces has among the parts of a job; None where it was cut for another."""
        if isinstance(job, str):
            return piece.part_id if not piece.job and self._for(job, "") else None
        for member in job.members or (Member("", job.name, job.id),):
            if member.id == piece.job if piece.job else self._for(member.name, member.id):
                return member.part_id(piece.part_id)
        return None

    def _for(self, name: str, own: str) -> bool:
        """By the job's own id where both have one, else by its name."""
        return own == self.job_id if own and self.job_id else name == self.job

    @property
    def words(self) -> str:
        """When, for what, into what."""
        day, job = f"on {self.on}" if self.on else "", f"for {self.job}" if self.job else ""
        part = f", rows 1 to {self.rows} of plan {self.plan}" if self.rows else ""
        return f"{' '.join(filter(None, (day, job))) or 'earlier'}: {', '.join(map(str, self.pieces)) or 'trimmed'}{part}"

    def __str__(self) -> str:
        lot = f", lot {self.stick.lot}" if self.stick.lot else ""
        return f"{self.stick.id}, {exact(self.stick.length)}{lot}: cut {self.words}"


@dataclass(frozen=True)
class Bought:
    """Where a stick came from: on which day it came, by which line of which purchase (:mod:`anglelib.stock.to_buy`)."""

    stick_id: str
    on: str
    purchase: str
    line: int


@dataclass(frozen=True)
class Otherwise:
    """Good pieces of a job's part that were made to another version of it than the job has now."""

    stick_id: str
    part_id: str
    number: int
    version: str
    on: str = ""


@dataclass(frozen=True)
class Record:
    """The rack, the sticks that were cut, and for each remnant the stick that it is left of.

    ``order`` names all of them as they lay, those that are cut before what is left of them: so an undone stick finds its place.
    ``bought`` has the sticks that came by a purchase, cut or not.
    Raises :class:`~anglelib.errors.RackError` where two sticks, there or cut, have one id.
    """

    rack: Rack
    cut: tuple[CutStick, ...] = ()
    origins: tuple[tuple[str, str], ...] = ()
    order: tuple[str, ...] = field(default=(), compare=False)
    bought: tuple[Bought, ...] = ()

    def __post_init__(self) -> None:
        Rack((*self.rack.sticks, *(old.stick for old in self.cut)))
        object.__setattr__(self, "origins", tuple(sorted(self.origins)))
        object.__setattr__(self, "bought", tuple(sorted(self.bought, key=lambda one: one.stick_id)))
        object.__setattr__(self, "order", _order(self))

    def children(self, stick_id: str) -> tuple[str, ...]:
        """The ids of what is left of a stick, cut again or not."""
        return tuple(child for child, parent in self.origins if parent == stick_id)

    def left_of(self, stick_id: str) -> tuple[Stick, ...]:
        """What is on the rack of a stick that was cut, however often, longest first."""
        family = [stick_id]
        for name in family:  # it grows while it is walked
            family += [child for child in self.children(name) if child not in family]
        here = [stick for stick in self.rack.sticks if stick.id in family[1:]]
        return tuple(sorted(here, key=lambda stick: (-stick.length, stick.id)))

    # --- what is made -----------------------------------------------------------------------------------
    def made(self, job: Job | str) -> Counter[str]:
        """How many pieces of each part of a job are made, without the spoiled ones and those of another version of the part."""
        now = _versions(job)
        found: Counter[str] = Counter()
        for piece in self._good(job):
            if not piece.counts_for or now.get(piece.part_id, piece.counts_for) == piece.counts_for:
                found[piece.part_id] += piece.number
        return found

    def otherwise(self, job: Job) -> tuple[Otherwise, ...]:
        """What was made of the job's parts, but to another version: a revised drawing's, or another job's of the same name."""
        now = _versions(job)
        return tuple(
            Otherwise(old.stick.id, piece.part_id, piece.number, piece.counts_for, old.on)
            for old, piece in self.pieces(job)
            if not piece.spoiled and piece.counts_for and now.get(piece.part_id, piece.counts_for) != piece.counts_for
        )  # fmt: skip

    def taken_for(self, part_id: str, job: Job) -> Record:
        """The record where somebody has said that the pieces of another version serve as the part is now."""
        if not any(other.part_id == part_id for other in self.otherwise(job)):
            job.part(part_id)
            raise RackError(f"No {part_id} is marked that was made to another version of it: there is nothing to take for it.")
        version = part_version(job.part(part_id))

        def taken(old: CutStick, piece: Piece) -> Piece:
            other = old.id_in(piece, job) == part_id and not piece.spoiled and piece.version
            return replace(piece, serves="" if piece.version == version else version) if other else piece

        cut = [replace(old, pieces=tuple(taken(old, piece) for piece in old.pieces)) for old in self.cut]
        after = replace(self, cut=tuple(cut))
        made, part = after.made(job)[part_id], job.part(part_id)
        if made > part.quantity:
            raise RackError(f"Of {part_id} {part.quantity} are wanted, and {made} would be marked as made: mark those that do not serve as spoiled first.")
        return after

    def pieces(self, job: Job | str) -> list[tuple[CutStick, Piece]]:
        """Every piece that was cut for a job, the spoiled ones too, with its stick."""
        named = [(old, piece, old.id_in(piece, job)) for old in self.cut for piece in old.pieces]
        return [(old, replace(piece, part_id=own)) for old, piece, own in named if own is not None]

    def _good(self, job: Job | str) -> list[Piece]:
        return [piece for _, piece in self.pieces(job) if not piece.spoiled]

    def still_wanted(self, job: Job) -> Job | None:
        """The job without what is made; None where everything is.

        A part that the plans give to a stick comes from what is left of that stick.
        """
        made = self.made(job)
        rest = [self._less(part, part.quantity - made[part.id], job) for part in job.parts if part.quantity > made[part.id]]
        kept = {part.id for part in rest}
        rest = [replace(p, mirror_of=p.mirror_of if p.mirror_of in kept else "") for p in rest]
        return replace(job, parts=tuple(rest)) if rest else None

    def _less(self, part: Part, quantity: int, job: Job) -> Part:
        """A part of which so many are still wanted, and what is asked of its sticks: of one that is cut, of what is left of it."""
        if not (part.only_stick or part.pinned or part.not_from):
            return replace(part, quantity=quantity)
        given = {pin.stick: self._given(part, pin.stick, job) for pin in part.pinned}
        return with_less(part, quantity, given, self._follow, self._all_left_of)

    def _given(self, part: Part, stick_id: str, job: Job) -> int:
        """How many good pieces of a part a stick has given, and what was left of it."""
        family, version = self._family(stick_id), part_version(part)
        good = [piece for old, piece in self.pieces(job) if old.stick.id in family and piece.part_id == part.id and not piece.spoiled]
        return sum(piece.number for piece in good if piece.counts_for in ("", version))

    def _all_left_of(self, name: str) -> list[str]:
        """What is on the rack of a stick that was cut, or of those of a row of equal ones."""
        cut = [old.stick.id for old in self.cut if name in (old.stick.id, old.stick.one_of)]
        return sorted({stick.id for stick_id in cut for stick in self.left_of(stick_id)})

    def _follow(self, stick_id: str) -> str:
        if stick_id and any(old.stick.id == stick_id for old in self.cut):
            return next((stick.id for stick in self.left_of(stick_id)), stick_id)
        return stick_id

    # --- cuts done -----------------------------------------------------------------------------------
    def marked(self, mark: Mark, job: Job | None = None, on: str = "", shop: Shop | None = None) -> Record:
        """The record once a stick is cut: the stick gone, what is left of it in its place.

        A stick that is marked part-way is taken up where it was left, as long as its rest is as it was. Raises :class:`~anglelib.errors.BenchError`
        for a stick that is not there, for pieces that it cannot have given, for a piece that cannot be the part (another section or alloy,
        or sawn too short; a spoiled one may be), and for more pieces of a part than the job wants.
        """
        begun = self.begun(mark)
        stick = begun.stick if begun is not None else self.on_hand(mark.stick_id)
        if mark.planned is not None:
            refuse_changed(mark.planned.stick, stick)
        pieces = tuple(self._known(piece, job) for piece in (mark.pieces if begun is None else _new(mark, begun)))
        if job is not None:
            refuse_another(pieces, stick, job)
            self._refuse_too_many(pieces, job)
        shop = shop or (job.shop if job is not None else Shop())
        left, rest = self._by_sheet(mark, begun) if mark.planned is not None else (self._otherwise_left(stick, pieces, shop), ())
        rows = 0 if mark.planned is None or finished(mark.planned, mark.rows) else mark.rows
        listed = any(piece.part_id != OTHER for piece in pieces) or begun is not None
        if begun is not None:
            named = [(piece, begun.id_in(piece, job) if job is not None else "") for piece in begun.pieces]
            pieces = (*(replace(piece, part_id=own, job="") if own else piece for piece, own in named), *pieces)
        name, own, pieces = kept_for(pieces, job if listed else None)
        return self._replaced(stick, CutStick(stick, on, name, pieces, own, mark.plan, rows), left, rest)

    def begun(self, mark: Mark) -> CutStick | None:
        """The stick of a mark as it was cut part-way by the same plan; None where it was not."""
        found = next((old for old in self.cut if old.stick.id == mark.stick_id and old.rows), None)
        return found if found is not None and mark.planned is not None and mark.plan == found.plan else None

    def _otherwise_left(self, stick: Stick, pieces: tuple[Piece, ...], shop: Shop) -> list[Stick]:
        """What is left of a stick that no sheet was followed for, with tags."""
        taken, left = {name.lower() for name in self.order}, []
        for remnant in () if used_whole(stick, pieces) else sawn(stick, pieces, shop).remnants:
            new = remnant.stick.id.lower() not in taken
            left.append(remnant.stick if new else replace(remnant.stick, id=remnant_name(stick.id, taken)))
            taken.add(left[-1].id.lower())
        return left

    def _by_sheet(self, mark: Mark, begun: CutStick | None) -> tuple[list[Stick], tuple[str, ...]]:
        """What a mark from a sheet leaves, with tags, and the tags of what it was sawn from; what lay there before and is not sawn on stays."""
        planned, was = mark.planned, []
        assert planned is not None
        left = spans_after(planned, mark.rows)
        if begun is not None:
            was = self.waiting(planned, begun)
            before = {(there.begin, there.end) for there in spans_after(planned, begun.rows) if not there.waits}
            left = [there for there in left if (there.begin, there.end) not in before]
        tags = tags_for(planned, mark.rows, left, was, self.order)
        return [replace(there.stick, id=tag) for there, tag in zip(left, tags)], tuple(tag for _, tag in was)

    def waiting(self, planned: StickPlan, begun: CutStick) -> list[tuple[Span, str]]:
        """The pieces of a stick that is cut part-way in which cuts of its sheet are still to be made, with their tags on the rack.

        RackError where one of them is not any more as it was left.
        """
        children = self.children(begun.stick.id)
        here = [stick for stick in self.rack.sticks if stick.id in children]
        found: list[tuple[Span, str]] = []
        for there in spans_after(planned, begun.rows):
            same = next((s for s in here if _metal(s) == _metal(there.stick)), None) if there.waits else None
            if there.waits and same is None:
                rest = and_more(sorted(s.id for s in self.left_of(begun.stick.id))) or "nothing"
                raise RackError(
                    f"{begun.stick.id} is cut to row {begun.rows}, and what is left of it is not as it was left then (there is {rest}): "
                    f"mark what was cut since from that, by its own tag."
                )
            if same is not None:
                here.remove(same)
                found.append((there, same.id))
        return found

    def _replaced(self, stick: Stick, done: CutStick, named: Sequence[Stick], rest: Collection[str]) -> Record:
        """The record with a stick cut, its ``rest`` so far replaced by what is left now, which has its tags."""
        sticks = [s for s in self.rack.sticks if s.id not in rest]
        named = [replace(piece, lot=stick.lot, one_of="") for piece in named]
        order = [name for name in self.order if name not in rest]
        at = order.index(stick.id) + 1
        order[at:at] = [s.id for s in named]
        cut = [done if old.stick.id == stick.id else old for old in self.cut]
        cut += [done] if stick.id not in {old.stick.id for old in self.cut} else []
        here = {s.id: s for s in (*sticks, *named) if s.id != stick.id}
        origins = [pair for pair in self.origins if pair[0] not in rest]
        rack, origins = Rack([here[name] for name in order if name in here]), [*origins, *((s.id, stick.id) for s in named)]
        return replace(self, rack=rack, cut=tuple(cut), origins=tuple(origins), order=tuple(order))

    def undone(self, stick_id: str) -> Record:
        """The record without a cut that was marked by mistake: the stick is back in its place, what was left of it gone."""
        old = self.cut_stick(stick_id)
        children = self.children(old.stick.id)
        again = next((other for other in self.cut if other.stick.id in children), None)
        if again is not None:
            raise RackError(f"{again.stick.id}, which was left of {old.stick.id}, is cut too ({again.words}): undo that first.")
        order = tuple(name for name in self.order if name not in children)
        here = {stick.id: stick for stick in self.rack.sticks if stick.id not in children} | {old.stick.id: old.stick}
        origins = tuple(pair for pair in self.origins if pair[1] != old.stick.id)
        rack, cut = Rack([here[name] for name in order if name in here]), tuple(other for other in self.cut if other is not old)
        return replace(self, rack=rack, cut=cut, origins=origins, order=order)

    def spoiled(self, stick_id: str, part_id: str, left: Fraction = Fraction(0), job: Job | None = None) -> Record:
        """The record with one piece of a part, cut from a stick, found to be spoiled: it is wanted again.

        Of a stick that was cut for several jobs the part is one of ``job``. What is ``left`` of its metal [in] is back on the rack under a tag that no plan gives, S-01-S1; 0: it is scrap.
        """
        old = self.cut_stick(stick_id)
        able = [piece for piece in old.pieces if not piece.spoiled and part_id in (piece.part_id, old.id_in(piece, job) if job is not None else "")]
        ours = [piece for piece in able if job is not None and old.id_in(piece, job) == part_id]
        if not ours and len({piece.job for piece in able}) > 1:
            raise RackError(f"{stick_id} gave {part_id} for several jobs ({old.words}): name the job whose piece it is, or all of them and the part like wing.{part_id}.")
        good = next(iter(ours or able), None)
        if good is None:
            meant = did_you_mean(part_id, [piece.part_id for piece in old.pieces if not piece.spoiled and piece.part_id != part_id])
            raise RackError(f"No good piece of {part_id[:40]} is marked on {stick_id} ({old.words}): {meant or 'check the part and the stick.'}")
        if good.length is not None and left > good.length:
            raise RackError(f"{part_id} was sawn {exact(good.length)} long from {stick_id}: no {exact(left)} can be left of it. Measure it again.")
        less = [replace(good, number=good.number - 1)] if good.number > 1 else []
        spoil = replace(good, number=1, spoiled=True, left=Fraction(left))
        pieces = [new for piece in old.pieces for new in ([*less, spoil] if piece is good else [piece])]
        now = replace(old, pieces=tuple(pieces))
        cut = tuple(now if other is old else other for other in self.cut)
        if not left:
            return replace(self, cut=cut)
        taken = {name.lower() for name in self.order}
        tag = next(name for n in count(1) if (name := f"{old.stick.id[:28]}-S{n}").lower() not in taken)
        back = Stick(tag, old.stick.section, old.stick.alloy, Fraction(left), remnant=True, note=f"of a spoiled {good.part_id}", lot=old.stick.lot)
        order = list(self.order)
        family = [name for name in order if name == old.stick.id or name in self._family(old.stick.id)]
        order.insert(order.index(family[-1]) + 1, back.id)
        here = {stick.id: stick for stick in (*self.rack.sticks, back)}
        rack, origins = Rack([here[name] for name in order if name in here]), (*self.origins, (back.id, old.stick.id))
        return replace(self, rack=rack, cut=cut, origins=origins, order=tuple(order))

    # --- sticks bought ---------------------------------------------------------------------------------
    def with_bought(self, sticks: Sequence[Stick], on: str, purchase: str, line: int) -> Record:
        """The record once sticks have come: behind all others on the rack, each with the line of the purchase that it came by."""
        check_text(on, "day on which it came", RackError, MOST_DAY_CHARACTERS)
        new = tuple(Bought(stick.id, on, purchase, line) for stick in sticks)
        rack, order = Rack((*self.rack.sticks, *sticks)), (*self.order, *(stick.id for stick in sticks))
        return replace(self, rack=rack, order=order, bought=(*self.bought, *new))

    def without_bought(self, stick_ids: Collection[str]) -> Record:
        """The record without sticks that were said by mistake to have come. RackError for one that did not come by a purchase, or is cut."""
        for name in stick_ids:
            if name not in {one.stick_id for one in self.bought}:
                came = [one.stick_id for one in self.bought]
                rows = [stick.one_of for stick in (*self.rack.sticks, *(old.stick for old in self.cut)) if stick.one_of and stick.id in came]
                known, meant = and_more(runs(came)), did_you_mean(name, [*came, *rows])
                raise RackError(f'No stick "{name[:40]}" came by a purchase: {meant or (f"those that did are {known}." if known else "none did.")}')
            old = next((old for old in self.cut if old.stick.id == name), None)
            if old is not None:
                raise RackError(f"{name} is cut already ({old.words}): undo that first, with plan --undo {name}.")
        rack = Rack([stick for stick in self.rack.sticks if stick.id not in stick_ids])
        order = tuple(name for name in self.order if name not in stick_ids)
        return replace(self, rack=rack, order=order, bought=tuple(one for one in self.bought if one.stick_id not in stick_ids))

    def _family(self, stick_id: str) -> set[str]:
        found = [stick_id]
        for name in found:
            found += [child for child in self.children(name) if child not in found]
        return set(found)

    # --- what cannot be meant --------------------------------------------------------------------------
    def on_hand(self, stick_id: str) -> Stick:
        """The stick with this id, if it is not cut yet."""
        old = next((old for old in self.cut if old.stick.id.lower() == stick_id.lower()), None)
        if old is None:
            return self.rack.stick(stick_id)
        left = self.left_of(old.stick.id)
        rest = f"what is left of it is {and_more([s.id for s in left])}" if left else "nothing is left of it"
        do = "mark the cuts on that, or undo the earlier ones first" if left else "check the stick's tag, or undo those cuts first"
        raise RackError(f"{old.stick.id} is cut already ({old.words}); {rest}: {do}.")

    def cut_stick(self, stick_id: str) -> CutStick:
        """The cut of the stick with this id; RackError where none is marked."""
        old = next((old for old in self.cut if old.stick.id == stick_id), None)
        if old is None:
            known = and_more([old.stick.id for old in reversed(self.cut)])
            are = "those that are cut are" if len(self.cut) > 1 else "the one that is cut is"
            which = f"{are} {known}" if known else "no stick is marked as cut"
            meant = did_you_mean(stick_id, [old.stick.id for old in self.cut])
            raise RackError(f'No cut of a stick "{stick_id[:40]}" is marked: {meant or f"{which}."}')
        return old

    def _known(self, piece: Piece, job: Job | None) -> Piece:
        """A piece with its sawn length, and with the version of its part as it is now, where the mark does not say another."""
        part = next((part for part in job.parts if part.id == piece.part_id), None) if job is not None else None
        if piece.length is None:
            if job is None:
                raise RackError(f"How long {piece.part_id} was sawn is not said: write it like {piece.part_id} at 17 5/16.")
            piece = replace(piece, length=job.shop.takes(job.part(piece.part_id).length))
        return replace(piece, version=part_version(part)) if part is not None and not piece.version else piece

    def _refuse_too_many(self, pieces: Iterable[Piece], job: Job) -> None:
        made, now, versions = self.made(job), Counter(), _versions(job)
        for piece in pieces:
            if not piece.spoiled and piece.counts_for in ("", versions.get(piece.part_id)):
                now[piece.part_id] += piece.number
        for part in job.parts:
            if now[part.id] and made[part.id] + now[part.id] > part.quantity:
                raise RackError(
                    f"Of {part.id} {part.quantity} {'is' if part.quantity == 1 else 'are'} wanted, and {made[part.id]} marked as made: "
                    f"{now[part.id]} more is too many. Check the part; if one was spoiled, mark that first."
                )


def kept_for(pieces: Sequence[Piece], job: Job | None) -> tuple[str, str, tuple[Piece, ...]]:
    """How the pieces of a stick are recorded: for which job, its id, and each by its part's own id; of several jobs each piece has its own.

    Raises RackError where a piece is for a job without an id, beside another job's.
    """
    if job is None or not job.members:
        return (job.name, job.id, tuple(pieces)) if job is not None else ("", "", tuple(pieces))
    known = {part.id for part in job.parts}
    split = [(piece, *(job.member(piece.part_id) if piece.part_id in known else (None, piece.part_id))) for piece in pieces]
    used = list(dict.fromkeys(member for _, member, _ in split if member is not None))
    if len(used) < 2:
        one = used[0] if used else job.members[0]
        return one.name, one.id, tuple(replace(piece, part_id=own) for piece, _, own in split)
    if lacking := [member.name for member in used if not member.id]:
        raise RackError(f'A stick that is cut for several jobs needs the id of each: write an id in the job file of {lacking[0]}, like id = "wing-1".')
    kept = tuple(replace(piece, part_id=own, job=member.id if member is not None else "") for piece, member, own in split)
    return " + ".join(member.name for member in used)[:MOST_NOTE_CHARACTERS], "", kept


def _versions(job: Job | str) -> dict[str, str]:
    return {} if isinstance(job, str) else {part.id: part_version(part) for part in job.parts}


def _metal(stick: Stick) -> tuple:
    return stick.section, stick.alloy, stick.length, stick.trim_1, stick.trim_2, stick.dents


def _new(mark: Mark, begun: CutStick) -> tuple[Piece, ...]:
    """What the rows of a mark give beyond those that are marked already."""
    before = pieces_of(mark.planned, begun.rows)  # type: ignore[arg-type]
    had = {(piece.part_id, piece.length): piece.number for piece in before}
    new = [replace(piece, number=more) for piece in mark.pieces if (more := piece.number - had.get((piece.part_id, piece.length), 0)) > 0]
    if mark.rows and mark.rows <= begun.rows:
        raise RackError(f"{begun.stick.id} is marked to row {begun.rows} already ({begun.words}): check the row, or undo it first.")
    return tuple(new)


def _order(record: Record) -> tuple[str, ...]:
    """All sticks as they lie: those on hand as the rack has them, each that is cut where it lay, before what is left of it."""
    found = [stick.id for stick in record.rack.sticks]
    cut = [old.stick.id for old in record.cut]
    before: list[str] = []
    for name in record.order:
        if name in cut and name not in found:
            at = next((found.index(other) + 1 for other in reversed(before) if other in found), 0)
            found.insert(at, name)
        before.append(name)
    for name in reversed(cut):
        if name not in found:
            left = {child for child, parent in record.origins if parent == name}
            found.insert(next((n for n, other in enumerate(found) if other in left), len(found)), name)
    return tuple(found)
