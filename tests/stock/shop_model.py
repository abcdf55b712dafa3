"""A shop of its own for the tests: bars of metal, saw, bench and scrap box, in whole 64ths of an inch, by hand and not by the library.

It reads a sheet as a person does (its rows: what is cut, from which part, how long) and saws. Whatever the record says afterwards is held
against what lies about here.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

UNIT = 64
USABLE = 3 * UNIT
"""What is shorter goes into the scrap box."""


def whole(length) -> int:
    """A length in 64ths, exactly."""
    found = length * UNIT
    assert found == int(found), length
    return int(found)


@dataclass
class Bar:
    """A bar on the rack: its length, what is to be trimmed at its ends."""

    length: int
    near: int = 0
    far: int = 0


@dataclass
class Made:
    """A piece that was sawn: its part, the part's finished length then, how long it was sawn, what has become of it."""

    part: str
    finished: int
    length: int
    good: bool = True
    left: int = 0
    

@dataclass
class Sawn:
    """A bar that was cut: as it was, the pieces, the tags of what is left, what went to the blade and into the scrap box; the row reached."""

    bar: Bar
    pieces: list[Made] = field(default_factory=list)
    left: list[str] = field(default_factory=list)
    dust: int = 0
    scrap: int = 0
    rest: Bar | None = None
    rest_tag: str = ""


class ShopModel:
    """All metal of a shop, and where it is."""

    def __init__(self) -> None:
        self.rack: dict[str, Bar] = {}
        self.sawn: dict[str, Sawn] = {}
        self.roots: list[str] = []
        self.bought = 0

    def buy(self, tag: str, bar: Bar) -> None:
        self.rack[tag] = bar
        self.roots.append(tag)
        self.bought += bar.length

    # --- sawing -------------------------------------------------------------------------------------------
    def saw(self, tag: str, rows: list[tuple], done: bool) -> Bar | None:
        """Rows, each (kind, part, finished, sawn, kerf); ``done``: the bar leaves the saw. What of it is worth keeping."""
        old = self.sawn.get(tag)
        if old is None:
            bar = self.rack.pop(tag)
            old = self.sawn[tag] = Sawn(bar, rest=Bar(bar.length, bar.near, bar.far))
        elif old.rest_tag:
            self.rack.pop(old.rest_tag)
            old.left.remove(old.rest_tag)
            old.rest_tag = ""
        rest = old.rest
        for kind, part, finished, sawn, kerf in rows:
            if kind == "trim":
                old.scrap += rest.near
                rest.length, rest.near = rest.length - rest.near, 0
                continue
            assert rest.length - rest.far >= sawn, (tag, part)
            dust = min(kerf, rest.length - sawn)
            old.pieces.append(Made(part, finished, sawn))
            old.dust += dust
            rest.length -= sawn + dust
        if done:
            old.rest = None
            if rest.length - rest.near - rest.far < USABLE:
                old.scrap += rest.length
                return None
        return Bar(rest.length, rest.near, rest.far)

    def tagged(self, parent: str, tag: str, bar: Bar, begun: bool) -> None:
        """What is left of a bar gets its tag and is on the rack."""
        self.rack[tag] = bar
        self.sawn[parent].left.append(tag)
        if begun:
            self.sawn[parent].rest_tag = tag

    def used(self, tag: str) -> None:
        """A bar goes into something else as it is."""
        bar = self.rack.pop(tag)
        self.sawn[tag] = Sawn(bar, [Made("other", 0, bar.length)])

    def undo(self, tag: str) -> None:
        """What was said of a bar is not so: it lies there."""
        old = self.sawn.pop(tag)
        for name in old.left:
            del self.rack[name]
        self.rack[tag] = old.bar

    def spoil(self, tag: str, part: str, finished: int, left: int) -> Bar | None:
        """A good piece is spoiled; so much of it goes back onto the rack."""
        piece = next(p for p in self.sawn[tag].pieces if p.part == part and p.good and p.finished == finished)
        piece.good, piece.left = False, left
        return Bar(left) if left else None

    # --- counted ------------------------------------------------------------------------------------------
    def made(self, parts: dict[str, int]) -> Counter:
        """How many good pieces there are of each part as it is now."""
        return Counter(
            piece.part for old in self.sawn.values() for piece in old.pieces
            if piece.good and piece.part in parts and piece.finished == parts[piece.part]
        )  # fmt: skip

    def check_metal(self) -> None:
        """Metal in equals metal out: what was bought is on the rack, in pieces, in the scrap box, or dust."""
        there = sum(bar.length for bar in self.rack.values())
        for old in self.sawn.values():
            there += sum(piece.length - piece.left for piece in old.pieces) + old.dust + old.scrap
        assert there == self.bought, (there, self.bought)
