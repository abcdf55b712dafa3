"""The tags of what is left of a stick that is cut by its sheet: each is given once, and stays on the metal that has it.

A piece that goes back on the rack has the tag that the sheet gives it. What is still to be sawn on has that of the piece that its last cut
leaves, so that it is written once; where there is none, or where that cut leaves two, it has a tag of its own that names the row: S-05-P2 is
left of S-05 after row 2. A sheet reaches a row once, so that no such tag comes again when its metal is sawn up.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import count

from anglelib.stock.cutting import remnant_name
from anglelib.stock.plan import StickPlan
from anglelib.stock.progress import Span
from anglelib.stock.versions import short

MOST_SIGNS = 32
"""Of an id (:mod:`anglelib.names`)."""


def tags_for(planned: StickPlan, rows: int, left: Sequence[Span], was: Sequence[tuple[Span, str]], taken: Collection[str]) -> list[str]:
    """A tag for each piece that is left now; ``was`` are the pieces they were sawn from, with their tags, ``taken`` all tags that are given."""
    taken = {name.lower() for name in taken}
    own = [next((tag for old, tag in was if old.begin <= piece.begin and piece.end <= old.end), "") for piece in left]
    wanted = [_coming(planned, rows, piece) if piece.waits else piece.stick.id for piece in left]
    found = [want if want and (want == mine or want.lower() not in taken) else "" for want, mine in zip(wanted, own)]
    taken |= {name.lower() for name in found}
    for at, piece in enumerate(left):
        if not found[at] and piece.waits and own[at] and own[at] not in found:
            found[at] = own[at]
        found[at] = found[at] or (_of_row(planned.stick.id, rows, taken) if piece.waits else remnant_name(planned.stick.id, taken))  # type: ignore[arg-type]
        taken.add(found[at].lower())
    return found


def _coming(planned: StickPlan, rows: int, piece: Span) -> str:
    """The tag, on the sheet, of the one piece that is left by the last cut of a piece; "" where there is none, or more."""
    last = [cut.dust for cut in planned.cuts[rows:] if piece.begin <= cut.dust[0] and cut.dust[1] <= piece.end][-1]
    found = [r.stick.id for r in planned.remnants if piece.begin <= r.start and r.end <= piece.end and (r.end == last[0] or r.start == last[1])]
    return found[0] if len(found) == 1 else ""


def _of_row(stick_id: str, rows: int, taken: Collection[str]) -> str:
    """A tag that names the row after which a piece was left.

    >>> _of_row("S-05", 2, ()), _of_row("S-05", 2, {"s-05-p2"}), _of_row("A-long-name-of-a-stick-here-00001", 12, ())
    ('S-05-P2', 'S-05-P2-2', 'A-long-name-of-a-stic.HF6HJT-P12')
    """
    for n in count(1):
        tail = f"-P{rows}" + (f"-{n}" if n > 1 else "")
        whole = len(stick_id) + len(tail) <= MOST_SIGNS
        name = stick_id + tail if whole else f"{stick_id[: MOST_SIGNS - len(tail) - 7]}.{short(stick_id)}{tail}"
        if name.lower() not in taken:
            return name
    raise AssertionError(stick_id)
