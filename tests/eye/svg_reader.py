"""A finished SVG drawn by another hand: its own text is read as XML, its paths and letters are set by Pillow, from the font's file.

Dashed lines are drawn whole: where a dash falls is chance. Of SVG it knows what the pictures have, and refuses anything else.
"""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np
from judges import LEAST_CAPITAL, Grey, Look, Word
from PIL import Image, ImageColor, ImageDraw, ImageFont

from anglelib.drawing.pdf import font_file

DOTS = 8
"""Dots a millimetre."""
NAMESPACE = "{http://www.w3.org/2000/svg}"
TOKEN = re.compile(r"[MLAHVZ]|-?\d*\.?\d+(?:e-?\d+)?")
NUMBERS = {"M": 2, "L": 2, "H": 1, "V": 1, "A": 7, "Z": 0}
SET = 64
"""The font size in which letters are set, before they are made as small as they are [dots]."""


def look(picture: str, name: str = "", *, dots: float = DOTS, least: float = LEAST_CAPITAL) -> Look:
    """A picture, looked at."""
    root = ET.fromstring(picture)
    _, _, wide, high = map(float, root.attrib["viewBox"].split())
    size = math.ceil(wide * dots), math.ceil(high * dots)
    elements = [one for one in root if one.tag.removeprefix(NAMESPACE) not in ("title", "desc")]
    texts = [one for one in elements if one.tag == f"{NAMESPACE}text"]
    for one in elements:
        if one.tag.removeprefix(NAMESPACE) not in ("path", "text"):
            raise ValueError(f"no reader for {one.tag}")
    written = {id(one): _Written.of(one, dots) for one in texts}

    def shown(which: list, paper: bool = False) -> Grey:
        image = Image.new("L", size, 255)
        for one in which:
            if id(one) in written:
                written[id(one)].put(image)
            else:
                _path(image, one.attrib, dots)
        return np.asarray(image)

    order = {id(one): n for n, one in enumerate(texts)}
    words = tuple(word for one in texts for word in written[id(one)].words(order[id(one)]))
    drawn = [one for one in elements if id(one) not in written]
    return Look(
        name, dots, shown(elements), shown(texts), shown(drawn), words, alone=lambda label: shown([texts[label]]), least=least
    )


def grey(colour: str) -> int:
    """A colour as a picture of greys has it."""
    r, g, b = ImageColor.getrgb(colour)[:3]
    return round(0.299 * r + 0.587 * g + 0.114 * b)


# --- paths -----------------------------------------------------------------------------------------------
def _path(image: Image.Image, attributes: dict[str, str], dots: float) -> None:
    draw = ImageDraw.Draw(image)
    lines = list(_lines(attributes["d"]))
    fill, stroke = attributes.get("fill", "none"), attributes.get("stroke", "none")
    if fill != "none":
        for points, _ in lines:
            if len(points) > 2:
                draw.polygon([(x * dots - 0.5, y * dots - 0.5) for x, y in points], fill=grey(fill))
    if stroke != "none":
        width = max(1, round(float(attributes["stroke-width"]) * dots))
        for points, closed in lines:
            draw.line([(x * dots - 0.5, y * dots - 0.5) for x, y in [*points, *points[:closed]]], fill=grey(stroke), width=width, joint="curve")


def _lines(path: str) -> Iterator[tuple[list[tuple[float, float]], bool]]:
    """The strokes of a path as points, and whether each is closed."""
    tokens = TOKEN.findall(path)
    if "".join(tokens) != re.sub(r"[\s,]+", "", path):
        raise ValueError(f"no reader for the path {path[:60]}")
    points: list[tuple[float, float]] = []
    at, command = 0, ""
    while at < len(tokens):
        if tokens[at].isalpha():
            command, at = tokens[at], at + 1
            if command == "Z":
                yield points, True
                points = points[:1]
                continue
        numbers = [float(token) for token in tokens[at : at + NUMBERS[command]]]
        at += NUMBERS[command]
        if command == "M":
            if len(points) > 1:
                yield points, False
            points, command = [(numbers[0], numbers[1])], "L"
        elif command == "L":
            points.append((numbers[0], numbers[1]))
        elif command == "H":
            points.append((numbers[0], points[-1][1]))
        elif command == "V":
            points.append((points[-1][0], numbers[0]))
        else:
            points += _arc(points[-1], numbers)
    if len(points) > 1:
        yield points, False


def _arc(start: tuple[float, float], numbers: list[float]) -> list[tuple[float, float]]:
    """Points along a circle's arc, its start left out (SVG 2, appendix B.2.4, of equal radii)."""
    r, r2, _, large, sweep, x, y = numbers
    if r != r2:
        raise ValueError("no reader for an ellipse")
    dx, dy = (start[0] - x) / 2, (start[1] - y) / 2
    half = math.hypot(dx, dy)
    if not half:
        return []
    r = max(r, half)
    far = math.sqrt(max(0.0, r * r - half * half)) / half * (-1 if large == sweep else 1)
    cx, cy = (start[0] + x) / 2 + far * dy, (start[1] + y) / 2 - far * dx
    first, last = math.atan2(start[1] - cy, start[0] - cx), math.atan2(y - cy, x - cx)
    turn = last - first
    if sweep and turn < 0:
        turn += 2 * math.pi
    elif not sweep and turn > 0:
        turn -= 2 * math.pi
    steps = max(8, math.ceil(abs(turn) / 0.1))
    return [(cx + r * math.cos(first + turn * n / steps), cy + r * math.sin(first + turn * n / steps)) for n in range(1, steps + 1)]


# --- letters ---------------------------------------------------------------------------------------------
@cache
def _font(size: float) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(font_file()), size, layout_engine=ImageFont.Layout.BASIC)


@dataclass(frozen=True)
class _Written:
    """A text element, set by Pillow: its picture before it is turned, where it goes, and each word's ink."""

    mask: Image.Image
    origin: tuple[float, float]
    """Of the baseline's beginning, in the mask [dots]."""
    at: tuple[float, float]
    """The same in the picture [dots]."""
    turn: float
    """Clockwise, as SVG has it [deg]."""
    colour: int
    inks: tuple[tuple[str, tuple[float, float, float, float]], ...]
    """Each word with its ink's box from the baseline's beginning, y down [dots]."""
    capital: float
    stretch: float

    @classmethod
    def of(cls, one: ET.Element, dots: float) -> _Written:
        got, text = one.attrib, one.text or ""
        size, x, y = float(got["font-size"]), float(got["x"]), float(got["y"])
        font = _font(SET)
        natural = font.getlength(text) or 1.0
        own = _font(16 * SET).getlength(text) / (16 * SET) * size  # where letters are not moved to whole dots
        wide = float(got.get("textLength", own))
        across, down = wide * dots / natural, size * dots / SET
        pad = SET
        mask = Image.new("L", (math.ceil(natural + 2 * pad), math.ceil(2.5 * pad)))
        ImageDraw.Draw(mask).text((pad, 1.5 * pad), text, fill=255, font=font, anchor="ls")
        inks = tuple((word, (a * across, b * down, c * across, d * down)) for word, (a, b, c, d) in _word_inks(text, font, mask, pad))
        small = mask.resize((max(1, round(mask.width * across)), max(1, round(mask.height * down))), Image.Resampling.BOX)
        back = {"start": 0.0, "middle": wide / 2, "end": wide}[got.get("text-anchor", "start")]
        turn, about = 0.0, (x, y)
        if "transform" in got:
            turn, *about = map(float, re.fullmatch(r"rotate\((\S+) (\S+) (\S+)\)", got["transform"]).groups())
        if (about[0], about[1]) != (x, y):
            raise ValueError("no reader for a text that turns about another place than its own")
        c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        at = (x - back * c) * dots, (y - back * s) * dots
        capital = -_font(16 * SET).getbbox("H", anchor="ls")[1] / (16 * SET) * size
        return cls(small, (pad * across, 1.5 * pad * down), at, turn, grey(got["fill"]), inks, capital, wide / own if own else 1.0)

    def put(self, image: Image.Image) -> None:
        """Draws it."""
        mask, (ox, oy) = self.mask, self.origin
        if self.turn:
            before = mask.size
            mask = mask.rotate(-self.turn, Image.Resampling.BICUBIC, expand=True)
            c, s = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
            dx, dy = ox - before[0] / 2, oy - before[1] / 2
            ox, oy = mask.width / 2 + dx * c - dy * s, mask.height / 2 + dx * s + dy * c
        image.paste(self.colour, (round(self.at[0] - ox), round(self.at[1] - oy)), mask)

    def words(self, label: int) -> Iterator[Word]:
        """Its words with the turned boxes of their ink."""
        c, s = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        for text, (left, top, right, bottom) in self.inks:
            corners = ((left, bottom), (right, bottom), (right, top), (left, top))
            quad = np.array([(self.at[0] + u * c - v * s, self.at[1] + u * s + v * c) for u, v in corners])
            yield Word(text, label, quad, self.capital, self.colour, self.stretch)


def _word_inks(text: str, font: ImageFont.FreeTypeFont, mask: Image.Image, pad: float) -> Iterator[tuple[str, tuple[float, float, float, float]]]:
    """Each word with its ink's box from the baseline's beginning, y down, as it is set."""
    for found in re.finditer(r"\S+", text):
        begins, ends = (pad + font.getlength(text[:place]) for place in found.span())
        ink = mask.crop((round(begins), 0, round(ends), mask.height)).getbbox()
        if ink is not None:
            yield found[0], (begins + ink[0] - pad, ink[1] - 1.5 * pad, begins + ink[2] - pad, ink[3] - 1.5 * pad)
