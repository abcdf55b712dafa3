"""A flat view as an SVG file at true size: a group for each layer, arcs as arcs, coordinates in the unit asked for.

>>> from anglelib.geometry.edges import Straight
>>> view = Flat("P1", "A line", "A line 1 in long.", (Outline("FINISHED", (Straight((0.0, 0.0), (1.0, 0.0)),)),))
>>> text = flat_svg(view)
>>> 'width="1.5in"' in text, '<g id="FINISHED"' in text, "M0 0L1 0" in text
(True, True, True)
"""

from __future__ import annotations

from collections.abc import Iterable

from anglelib.drawing.escape import escape
from anglelib.drawing.letters import font_size, text_width
from anglelib.drawing.svg import FONTS
from anglelib.geometry.edges import Bend, Edge
from anglelib.paper.flat import LAYERS, LETTER, Circle, Flat, Item, Linear, Ordinate, Outline, Words

FACTORS = {"in": 1.0, "mm": 25.4}
MARGIN = 0.25
"""Room round the view [in]."""


def flat_svg(view: Flat, unit: str = "in") -> str:
    """The view as SVG text; one unit of its coordinates is one inch or one millimetre, and x = 0, y = 0 is the datum on the heel."""
    f = FACTORS[unit]
    left, low, right, high = view.box
    left, low, right, high = left - MARGIN, low - MARGIN, right + MARGIN, high + MARGIN
    wide, tall = _n((right - left) * f), _n((high - low) * f)
    groups = []
    for name, layer in LAYERS.items():
        shapes = [_shape(item, f) for item in view.items if _layer(item) == name]
        if not shapes:
            continue
        dashes = f' stroke-dasharray="{" ".join(_n(d * f / 25.4) for d in layer.dashes)}"' if layer.dashes else ""
        groups.append(
            f'<g id="{name}" stroke="{layer.seen}" stroke-width="{_n(layer.width * f / 25.4)}"{dashes}><title>{escape(layer.holds)}</title>'
            + "".join(shapes)
            + "</g>"
        )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{wide}{unit}" height="{tall}{unit}" '
        f'viewBox="{_n(left * f)} {_n(-high * f)} {wide} {tall}" font-family="{FONTS}" fill="none" stroke-linejoin="round">'
        f"<title>{escape(view.title)}</title><desc>{escape(view.sentence)}</desc>\n" + "\n".join(groups) + "\n</svg>\n"
    )


def _layer(item: Item) -> str:
    if isinstance(item, Outline | Circle):
        return item.layer
    return "TEXT" if isinstance(item, Words) else "DIMENSIONS"


def _n(value: float) -> str:
    """A coordinate to a millionth, without idle noughts; never minus nought."""
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _shape(item: Item, f: float) -> str:
    if isinstance(item, Outline):
        return f'<path d="{_path(item.edges, item.closed, f)}"/>'
    if isinstance(item, Circle):
        return f'<circle cx="{_n(item.centre[0] * f)}" cy="{_n(-item.centre[1] * f)}" r="{_n(item.radius * f)}"/>'
    if isinstance(item, Words):
        return _text(item.at, item.text, item.height, "start", 0, f)
    return _ordinate(item, f) if isinstance(item, Ordinate) else _linear(item, f)


def _path(edges: Iterable[Edge], closed: bool, f: float) -> str:
    words: list[str] = []
    for edge in edges:
        if not words:
            words.append(f"M{_n(edge.first[0] * f)} {_n(-edge.first[1] * f)}")
        x, y = edge.last
        if isinstance(edge, Bend):
            r, large, sweep = _n(edge.radius * f), int(abs(edge.turn) > 180), int(edge.turn < 0)  # y runs down here
            words.append(f"A{r} {r} 0 {large} {sweep} {_n(x * f)} {_n(-y * f)}")
        else:
            words.append(f"L{_n(x * f)} {_n(-y * f)}")
    return "".join(words) + ("Z" if closed else "")


def _text(at: tuple[float, float], text: str, height: float, anchor: str, turn: int, f: float) -> str:
    x, y = _n(at[0] * f), _n(-at[1] * f)
    turned = f' transform="rotate({-turn} {x} {y})"' if turn else ""
    return (
        f'<text x="{x}" y="{y}" font-size="{_n(font_size(height) * f)}" fill="#000000" stroke="none" text-anchor="{anchor}"{turned} '
        f'textLength="{_n(text_width(text, height) * f)}" lengthAdjust="spacingAndGlyphs">{escape(text)}</text>'
    )


def _ordinate(item: Ordinate, f: float) -> str:
    """A leader from the feature, with a knee where figures had to make room for one another, and the figure at its end."""
    (x, y), (u, v) = item.feature, item.foot
    half = LETTER / 2
    if item.axis == "x":
        way = 1 if v > y else -1
        knee = v - way * 1.5 * LETTER
        points = [(x, y), (x, knee), (u, v - way * LETTER / 2), (u, v)] if abs(u - x) > 1e-9 else [(x, y), (u, v)]
        words = _text((u + half, v + way * half), item.text, LETTER, "start" if way > 0 else "end", 90, f)
    else:
        way = 1 if u > x else -1
        knee = u - way * 1.5 * LETTER
        points = [(x, y), (knee, y), (u - way * LETTER / 2, v), (u, v)] if abs(v - y) > 1e-9 else [(x, y), (u, v)]
        words = _text((u + way * half, v - half), item.text, LETTER, "start" if way > 0 else "end", 0, f)
    return f'<path d="{_chain(points, f)}"/>{words}'


def _linear(item: Linear, f: float) -> str:
    """Dimension line with its ticks, extension lines, and the figure beyond it."""
    along = 0 if item.axis == "x" else 1
    at = item.base[1 - along]
    ends = [(p[0], at) if along == 0 else (at, p[1]) for p in (item.first, item.last)]
    tick = LETTER / 3
    lines = [_chain((p, q), f) for p, q in zip((item.first, item.last), ends, strict=True)]
    lines.append(_chain(ends, f))
    lines += [_chain(((x - tick, y - tick), (x + tick, y + tick)), f) for x, y in ends]
    middle = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
    if along == 0:
        out = at > item.first[1]
        words = _text((middle[0], middle[1] + (LETTER / 2 if out else -1.5 * LETTER)), item.text, LETTER, "middle", 0, f)
    else:
        out = at > item.first[0]
        words = _text((middle[0] + (LETTER / 2 if out else -LETTER / 2), middle[1] - LETTER / 2), item.text, LETTER, "start" if out else "end", 0, f)
    return f'<path d="{"".join(lines)}"/>{words}'


def _chain(points: Iterable[tuple[float, float]], f: float) -> str:
    return "M" + "L".join(f"{_n(x * f)} {_n(-y * f)}" for x, y in points)
