"""What is written on and beside an unrolled sheet: marks with their numbers, names of faces, the datum."""

from __future__ import annotations

from dataclasses import dataclass, replace

from anglelib.drawing.dimensions import leader, linear_dimension, upright_dimension
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label
from anglelib.drawing.symbols import datum_sign
from anglelib.geometry.layout import datum_lost
from anglelib.geometry.taper import TaperLine
from anglelib.lengths import both
from anglelib.paper.page import FIGURE, SMALL, clearest
from anglelib.paper.strip import INCH, Strip


@dataclass(frozen=True)
class WrittenStrip(Strip):
    """A sheet with its figures."""

    def figures(self, left: float, right: float) -> Group:
        """The marks with their numbers, the faces with their names; between ``left`` and ``right`` [mm]."""
        items: list[Item] = []
        for leg in ("A", "B"):
            items += self._measures(leg, left, right)
        items += self._names(left, right)
        drawn = self.draw()
        for line in self.lines:
            items += self._across(line)
            if self.inner:
                items += self._beside(line, (*drawn, *items))
        for line in self.lines:
            if (len(self.lines) == 1 or not self.inner) and (ways := self._waste(line)):
                items += clearest((*drawn, *items), ways)
        if not self.inner:
            for ways in self._datum(right):
                items += clearest((*drawn, *items), ways)
        return tuple(items)

    def measured(self, leg: str) -> list[tuple[float, str]]:
        """The marks on a leg's toe that this page shows: distance from the end [in] and figures, nearest first."""
        found: list[tuple[float, str]] = []
        for line in self.lines:
            if line.leg == leg:
                place = line.width - (self.part.section.toe_radius if self.inner else 0)
                if place > line.width_left:
                    found.append((float(line.at(place)), both(line.at(place), 64, "down")))
            elif self.inner and line.vertex_projection is not None:
                found.append((float(line.vertex_projection), both(line.vertex_projection, 64, "down")))
        return sorted((d, text) for d, text in found if d > 0 and self.shows(d))

    def depth(self, leg: str) -> float:
        """Room for a leg's figures beyond its toe [mm]."""
        count = len(self.measured(leg))
        witness = 4.5 if not self.inner and leg == self.lines[0].other and self.witness() is not None else 0.0
        return 4.0 + 7.0 * count + (2.5 if self.out(leg) < 0 and count else 0.0) + (witness if count else 0.0)

    def _measures(self, leg: str, left: float, right: float) -> Group:
        """Dimensions from the end beyond a leg's toe, in rows; a note where the end is on another page."""
        items: list[Item] = []
        found = self.measured(leg)
        named = not self.inner and leg == self.lines[0].other and self.witness() is not None
        for row, (d, text) in enumerate(found):
            x, y = self.at(d, self.edge(leg))
            at = y + self.out(leg) * ((6.0 if self.out(leg) > 0 else 8.5) + 7.0 * row)
            if self.low == 0:
                start = self.at(0, self.edge(leg))
                p, q = (start, (x, y)) if self.way > 0 else ((x, y), start)
                # a short one's figures go beyond the end where a longer one's line would strike them through
                outside = "end" if (self.way > 0) == (row == len(found) - 1 and not named) else "start"
                items += linear_dimension(p, q, at, text, letter=FIGURE, outside=outside)
            else:
                words = f"{text} from end {self.end}"
                wide = 7 + text_width(words, FIGURE)
                sides = [way for way in (1, -1) if left <= x + way * wide <= right]
                ways = [leader((x, y), (x + way * 4, at + self.out(leg) * more), words, letter=FIGURE) for more in (0.0, 6.0, -14.0, -20.0) for way in sides]
                items += clearest((*self.draw(), *items), ways)
        return tuple(items)

    def _across(self, line: TaperLine) -> Group:
        """The width left, beside the end; the vertex by its name."""
        if self.inner or self.low:
            return ()
        x = self.x0 - self.way * 5
        if line.to_vertex:
            side = line.other if len(self.lines) == 1 else line.leg  # the other leg has figures of its own there
            return leader(self.at(0, 0), (x - self.way * 3, self.fold + self.out(side) * 7), "vertex", letter=SMALL)
        zone, figures = self._flat(line.leg), both(line.width_left, 64, "up")
        if line.width_left <= zone.rise:
            return ()
        q = self.at(0, zone.place(float(line.width_left)))
        if zone.rise:  # round the heel the paper is shorter than the leg is wide: no dimension can be drawn to the heel
            tails = [(x, q[1] + rise) for rise in (-self.out(line.leg) * 3, self.out(line.leg) * 3, 0, -self.out(line.leg) * 6)]
            return clearest(self.draw(), [leader(q, tail, figures, letter=FIGURE) for tail in tails])
        p = self.at(0, zone.place(0))
        low, high = (p, q) if p[1] < q[1] else (q, p)
        drawn = upright_dimension(low, high, self.x0 - self.way * 7, figures, -self.way, FIGURE)
        clear = self.fold + self.out(line.leg) * 3.4  # two of them stand clear of each other
        return tuple(
            replace(item, y=clear) if isinstance(item, Label) and not item.rotation and abs(item.y - self.fold) < 3.4 else item
            for item in drawn
        )

    def _waste(self, line: TaperLine) -> list[Group]:
        """Ways to write "waste" between the saw's band and the toe, or beside it."""
        if self.low:
            return []
        wide = text_width("waste", SMALL) / INCH
        beyond = float(self.shop.allowance + self.shop.kerf)
        top = float(line.width - (self.part.section.toe_radius if self.inner else 0))
        low = float(line.width_left) + (wide + 2.5 / INCH) / float(line.slope) + line.shift_across(beyond)
        place = self._flat(line.leg).place
        ways: list[Group] = []
        if top - low > 4.6 / INCH:
            x, y = self.at(1.2 / INCH + wide / 2, place(top - 2.3 / INCH))
            ways.append((Label(x, y, "waste", SMALL, "middle", "middle", halo=True),))
        there = top - float(line.width_left) - line.shift_across(beyond)
        if there * INCH >= 1.0:
            tip, toe = self.at(0.6 / INCH, place(top - there / 3)), self.at(0, self.edge(line.leg))[1]
            for step in (0.0, 4.0, 7.0, -4.0):
                end = (self.x0 - self.way * 5, toe - self.out(line.leg) * step)
                ways.append(leader(tip, end, "waste", letter=SMALL, end="dot"))
        return ways

    def _beside(self, line: TaperLine, drawn: Group) -> Group:
        """The mark beside the fillet, named on the other leg's face."""
        if line.first_flat is None or not self.shows(float(line.first_flat)):
            return ()
        zone, other = self._flat(line.leg), self._flat(line.other)
        tip = self.at(float(line.first_flat), zone.place(zone.rise))
        face = self.at(0, other.place(other.rise))[1]
        tails = [(tip[0] + self.way * on, face + self.out(line.other) * step) for on in (6, 14, 24) for step in (3.4, 7.0, 11.0)]
        tails += [(tip[0] + self.way * (step + 4), tip[1] + self.out(line.leg) * step) for step in (4.0, 8.0)]
        return clearest(drawn, [leader(tip, tail, self._beside_words(line), letter=SMALL) for tail in tails])

    def _beside_words(self, line: TaperLine) -> str:
        return f"beside the fillet {both(line.first_flat, 64, 'down')}"

    def _names_at(self) -> float:
        """Where the faces' names begin: beyond the far edge, and beyond what is written over it."""
        ends = [self.at(self.high, 0)[0] + self.way * 4.5]
        for line in self.lines if self.inner else ():
            if line.first_flat is not None and self.shows(float(line.first_flat)):
                tip = self.at(float(line.first_flat), 0)[0]
                ends.append(tip + self.way * (12.0 + text_width(self._beside_words(line), SMALL)))
        return max(ends, key=lambda x: x * self.way)

    def named(self, left: float, right: float) -> bool:
        """Whether the faces' names fit beside the sheet."""
        x, wide = self._names_at(), max(text_width(zone.name, FIGURE) for zone in self.zones)
        return x + wide <= right if self.way > 0 else x - wide >= left

    def head(self, left: float, right: float) -> float:
        """How high the sheet's caption stands above its upper toe, its top [mm]."""
        return self.depth("A" if self.inner else "B") + (2.0 if self.named(left, right) else 7.5)

    def _names(self, left: float, right: float) -> Group:
        """The faces' names beyond the far edge; where the page is full, in the caption."""
        x = self._names_at()
        word = "inside" if self.inner else "outside"
        items: list[Item] = []
        top = max(self.at(0, self.edge(leg))[1] for leg in ("A", "B"))
        high = "A" if self.inner else "B"
        caption = (left, top + self.head(left, right) - 0.5)
        if not self.named(left, right):
            words = f"{word}: leg {high} above the {'fillet' if self.inner else 'heel'}, leg {'B' if high == 'A' else 'A'} below"
            return (Label(*caption, words, FIGURE, "start", "top"),)
        items.append(Label(*caption, word, FIGURE, "start", "top"))
        for zone in self.zones:
            v = (zone.start + zone.end) / 2
            name = zone.name if zone.leg else f"{zone.name}, unrolled"
            legs = min(abs(v - (flat.start + flat.end) / 2) for flat in (self.zones[0], self.zones[-1])) * INCH
            if zone.leg or ((zone.end - zone.start) * INCH > 3.4 and legs > 4.6):
                letter = FIGURE if zone.leg else SMALL
                items.append(Label(x, self.at(0, v)[1], name, letter, "start" if self.way > 0 else "end", "middle"))
        if not self.inner and len(self.zones) == 2:
            items.append(Label(x, self.fold, "heel: fold", SMALL, "start" if self.way > 0 else "end", "middle"))
        return tuple(items)

    def _datum(self, right: float) -> list[list[Group]]:
        """The witness line's name and the datum's sign, each with the ways to put them."""
        found: list[list[Group]] = []
        d = self.witness()
        leg = self.lines[0].other
        if d is not None:
            text = f"witness line, {both(d)} from end {self.end}"
            ways: list[Group] = []
            for side in (leg, self.lines[0].leg):
                x, y = self.at(float(d), self.edge(side))
                way = 1 if x + 8 + text_width(text, SMALL) <= right else -1
                out = y + self.out(side) * (self.depth(side) - 1.0)
                ways += [leader((x, y), (x + turn * 4, out), text, letter=SMALL) for turn in (way, -way)]
            found.append(ways)
        if self.end == 1 and self.low == 0 and not datum_lost(self.part, 1):
            edge = self.at(0, self.edge(leg))[1]
            steps = [self.out(leg) * -5, *(share * (self.fold - edge) for share in (0.5, 0.75, 0.25, 1.0, 1.25, 1.5, 1.75))]
            found.append([datum_sign(self.x0, edge + step, "datum", letter=FIGURE) for step in steps])
        return found
