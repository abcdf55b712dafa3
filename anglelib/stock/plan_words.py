"""What a plan proves, what it makes and what is short, in words a builder would use.

>>> from anglelib.stock.plan import MADE, STICKS
>>> print(proof(Proof(1, MADE, True, made=3, of=3)), proof(Proof(3, STICKS, True, sticks=2, new=1)))
All 3 pieces can be made. 2 sticks are cut into, 1 of them new: proven the fewest.
>>> print(proof(Proof(3, STICKS, True, sticks=3, new=1, held=1)))
2 sticks are cut into, 1 more only holds lengths for later, and 1 of the 3 is new: proven the fewest.
"""

from __future__ import annotations

from collections.abc import Collection

from anglelib.job import Job
from anglelib.lengths import about, both, exact, in_unit, own, unit_written
from anglelib.stock.plan import CUTS, LEFT, MADE, SET_UPS, STICKS, TOGETHER, Plan, Proof, Shortage
from anglelib.stock.reason_words import sentences
from anglelib.stock.reasons import Reason
from anglelib.stock.several_jobs import own_parts
from anglelib.stock.wording import counted, runs


# --- what is proven -----------------------------------------------------------------------------------------
def proof(proof: Proof) -> str:
    """What is proven of a level, as a sentence or two."""
    return _PROOFS[proof.id](proof)


def _made(proof: Proof) -> str:
    made, wanted = proof.made, proof.of
    if made == wanted:
        return f"All {wanted} pieces can be made." if wanted > 1 else "The piece can be made."
    if proof.proven:
        return f"{made} of {wanted} pieces can be made; it is proven that the others cannot, by their order of claim."
    return f"{made} of {wanted} pieces are placed; it is not proven that the others cannot be."


def _left(proof: Proof) -> str:
    """ "143, 96, 55 proven; the next is 3 and cannot exceed 7"."""
    unit = f" in steps of {own(proof.grain)}" if proof.grain != 1 or unit_written() != "in" else ""
    found = proof.left
    proven = next((n for n, (have, limit) in enumerate(found) if have != limit), len(found))
    sure = [exact(have) for have, _ in found[:proven] if have]
    if not found:
        return "No stick may be used."
    if proof.picked:
        return f"What remains{unit}, longest first: {runs([exact(have) for have, _ in found if have])}." if found[0][0] else "Nothing remains that is worth keeping."
    if proven == len(found):
        if not sure:
            return "Nothing remains that is worth keeping; proven."
        return f"What remains{unit}, longest first: {runs(sure)}; proven the longest there can be."
    have, limit = (exact(n) for n in found[proven])
    start = f"{runs(sure)} proven; the next is" if sure else "the first is"
    return f"What remains{unit}, longest first: {start} {have} and cannot exceed {limit}."


def _sticks(proof: Proof) -> str:
    if not proof.sticks:
        return "No stick is used."
    sawn, held, new = proof.sticks - proof.held, proof.held, proof.new or "none"
    said, later = f"{counted(sawn, 'stick')} {'is' if sawn == 1 else 'are'} cut into", f"only {'holds' if held == 1 else 'hold'} lengths for later"
    if not held:
        said += f", {new} of them new"
    elif sawn:
        said += f", {held} more {later}, and {new} of the {proof.sticks} {'is' if proof.new == 1 else 'are'} new"
    else:
        said = f"{counted(held, 'stick')} {later}, {new} of them new"
    if proof.picked:
        return f"{said}."
    if proof.least_change:
        return f"{said}: {_among(proof)}."
    return f"{said}: proven the fewest." if proof.proven else f"{said}; fewer are not ruled out."


def _cuts(proof: Proof) -> str:
    if not proof.cuts:
        return "Nothing is sawn."
    said, few = counted(proof.cuts, "saw cut"), ": "
    if proof.turns:
        said, few = f"{said}, {proof.turns} of them at the other end of a turned stick", ", the rest "
    if proof.picked:
        return f"{said}. The blade and ends too short to keep take {about(proof.lost)}."
    if proof.least_change:
        return f"{said}{few}{_among(proof)}."
    fewest = f"{few}proven the fewest" if proof.fewest or proof.proven else "; fewer are not ruled out"
    least = ": proven the least" if proof.proven else "; less is not ruled out"
    return f"{said}{fewest}. The blade and ends too short to keep take {about(proof.lost)}{least}."


def _together(proof: Proof) -> str:
    moves = "Equal parts come from one stick each" if not proof.moves else f"Equal parts go on to another stick {'once' if proof.moves == 1 else f'{proof.moves} times'}"
    if proof.pairs:
        pairs = f"{proof.whole} of {proof.pairs} left and right pairs come whole from one stick" if proof.pairs > 1 else (
            f"The left and right pair {'comes' if proof.whole else 'does not come'} from one stick")
        moves = f"{pairs}; {moves[0].lower()}{moves[1:]}"
    if proof.least_change or proof.picked:
        return f"{moves}."
    if not proof.moves and proof.whole == proof.pairs:
        return f"{moves}."
    return f"{moves}: proven the best that costs nothing else." if proof.proven else f"{moves}; better is not ruled out."


def _set_ups(proof: Proof) -> str:
    said = f"{counted(proof.set_ups, 'set-up')} of the saw"
    if proof.least_change or proof.picked:
        return f"{said}."
    return f"{said}: proven the fewest." if proof.proven else f"{said}; fewer are not ruled out."


def _among(proof: Proof) -> str:
    return "proven the fewest of the plans that change least" if proof.proven else "to change least comes first"


_PROOFS = {MADE: _made, LEFT: _left, STICKS: _sticks, CUTS: _cuts, TOGETHER: _together, SET_UPS: _set_ups}


# --- what is made, what is short --------------------------------------------------------------------------------
def made_words(job: Job, made: Plan) -> str:
    """How many pieces are planned, from how many sticks, how many are held."""
    job = own_parts(job)  # what is held for other jobs is said apart
    ours = {part.id for part in job.parts}
    held = sum(placed.blank.part.id in ours for stick in made.sticks for placed in stick.held)
    sticks = sum(stick.touched for stick in made.sticks)
    what = "The piece is" if job.pieces == 1 and made.made == 1 else f"{made.made} of {job.pieces} pieces are"
    words = f"{what} planned, from {counted(sticks, 'stick') if sticks else '0 sticks'}"
    if held:
        words += f"; {held} more {'has its' if held == 1 else 'have their'} length held for later"
    return words + "."


def held_words(job: Job, made: Plan) -> list[str]:
    """For each other job whose parts are held, how many of its pieces that are not made yet have their metal."""
    found = []
    for member in job.members:
        if member.held:
            wanted = sum(part.quantity for part in job.parts if job.held_for(part.id) == member)
            have = sum(job.held_for(placed.blank.part.id) == member for stick in made.sticks for placed in stick.held)
            what = "nothing of it is left to cut" if not wanted else f"{have} of its {counted(wanted, 'piece')} still to be cut have their metal" if wanted > 1 else (
                "its one piece still to be cut has its metal" if have else "its one piece still to be cut has no metal"
            )
            found.append(f"Held for {member.label} ({member.name}): {what}.")
    first = {placed.blank.part.id for stick in made.sticks for placed in stick.held if placed.blank.part.claim > 0}
    if found and first and any(job.held_for(shortage.part_id) is None for shortage in made.shortages):
        found.append("Parts of theirs that may not be spliced have the first claim: what is short here may lack the metal that is held for them.")
    return found


def jobs_words(job: Job) -> str:
    """Which job the parts of each label are of; "" for a job of one file."""
    named = [f"{member.label} is {member.name}" for member in job.members if member.label and not member.held]
    return f"Before the point stands the job of each piece: {'; '.join(named)}." if named else ""


def short_words(job: Job, made: Plan) -> str:
    """What is short and by how much; empty where nothing is."""
    lines = []
    for shortage in made.shortages:
        part = job.part(shortage.part_id)
        short = f" by {both(shortage.short_by, 64, 'up')}" if shortage.short_by else ""
        lines.append(f"{shortage.missing} of {shortage.of} x {part.name} ({part.id}){short}")
    return f"Short: {'; '.join(lines)}." if lines else ""


def shortage_words(shortage: Shortage, job: Job, said: Collection[Reason] = ()) -> str:
    """A part of which not all can be made, by how much, and why, without the reasons that are ``said`` elsewhere."""
    part = job.part(shortage.part_id)
    short = f", {both(shortage.short_by, 64, 'up')} short" if shortage.short_by else ""
    proven = "" if shortage.proven else " (not proven)"
    why = sentences(reason for reason in shortage.reasons if reason not in said)
    return f"SHORT: {shortage.missing} of {shortage.of} x {part.name} ({part.id}), blank {in_unit(shortage.blank, part.unit, both)}{short}{proven}. {why}".rstrip()
