"""What would free a part that cannot be made, in words; the ways are data in :mod:`anglelib.stock.shortage`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from anglelib.lengths import about, exact
from anglelib.stock import shortage

if TYPE_CHECKING:
    from anglelib.stock.shortage import WayOut


def sentence(way: WayOut) -> str:
    """A way out, by the plans' leave only."""
    could = f"{way.short} could be made" if way.part.quantity == 1 else f"All of {way.short} could be made"
    return f"{could} if {_CHANGES[way.id](way, way.changed.quantity == 1)}, by the plans' leave."


def _shorter(way: WayOut, single: bool) -> str:
    return f"{'' if single else 'each piece of '}{way.part_id} were {exact(way.by)} shorter"


def _spliced(way: WayOut, single: bool) -> str:
    one, two = map(about, way.pieces)
    return f"{'' if single else 'one piece of '}{way.part_id} were spliced from pieces of {one} and {two}"


_CHANGES = {shortage.SHORTER: _shorter, shortage.SPLICED: _spliced}
