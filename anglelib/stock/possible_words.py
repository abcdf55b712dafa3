"""What could still be made beside a plan, in words; the answers are data in :mod:`anglelib.stock.possible`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from anglelib.stock.wording import and_

if TYPE_CHECKING:
    from anglelib.stock.possible import Possible


def sentence(found: Possible) -> str:
    """Of which parts one more could be made, and how; of which none."""
    after = [f.part.id for f in found.further if f.after]
    again = [f.part.id for f in found.further if not f.after and f.replanned]
    never = [f.part.id for f in found.further if not f.replanned and f.proven]
    open_ = [f.part.id for f in found.further if not f.replanned and not f.proven]
    said = []
    if after:
        said.append(f"From what is left one more could be made of {and_(after)}.")
    if again:
        said.append(f"Only if planned again before cutting, of {and_(again)}.")
    if never:
        said.append(f"No plan makes one more of {and_(never)}; proven.")
    if open_:
        said.append(f"Of {and_(open_)} no plan with one more was found; that there is none is not proven.")
    return " ".join(said)
