"""SVG: well formed, the same on every Python, and telling its sentence."""

import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from anglelib.drawing.sheet import Arc, Circle, Hatch, Label, Line, Polyline, Sheet, polygon
from anglelib.drawing.style import KINDS, NARROW, WIDE
from anglelib.drawing.svg import fingerprint, image, number, svg

SVG = "{http://www.w3.org/2000/svg}"
ROOT = Path(__file__).parents[2]


def sheet(*items, high=60):
    return Sheet(100, high, items, "A trial", "A trial sheet with a line 10 mm long.")


def test_y_runs_up_on_the_sheet_and_down_in_the_picture():
    root = ET.fromstring(svg(sheet(Line(0, 0, 10, 0), Circle(50, 20, 5), Arc(50, 20, 10, 0, 90))))
    assert root.get("viewBox") == "0 0 100 60"
    paper, ink = root.iter(SVG + "path")
    assert paper.get("d") == "M0 0H100V60H0Z"
    assert ink.get("d") == "M0 60L10 60M55 40A5 5 0 1 0 45 40A5 5 0 1 0 55 40ZM60 40A10 10 0 0 0 50 30"


def test_it_is_a_picture_with_a_name_and_a_description():
    root = ET.fromstring(svg(sheet()))
    assert root.get("role") == "img" and root.get("aria-label") == "A trial sheet with a line 10 mm long."
    assert root.find(SVG + "title").text == "A trial" and root.find(SVG + "desc").text == root.get("aria-label")
    assert 'alt="A trial sheet with a line 10 mm long."' in image(sheet())


def test_labels_carry_their_length_and_capital_height():
    text = ET.fromstring(svg(sheet(Label(50, 20, "1 5/8 (1.625)", 3.5, "end", "middle", 90)))).find(SVG + "text")
    assert text.get("textLength") == "31.32" and text.get("font-size") == "4.8"
    assert text.get("transform") == "rotate(-90 51.75 40)" and text.get("text-anchor") == "end"


def test_wide_is_twice_narrow_in_every_theme():
    for theme in ("screen", "projector", "paper"):
        root = ET.fromstring(svg(sheet(Line(0, 0, 1, 1, "outline"), Line(0, 0, 1, 1, "narrow"), high=200), theme))
        wide, narrow = (float(p.get("stroke-width")) for p in list(root.iter(SVG + "path"))[1:])
        assert wide == pytest.approx(2 * narrow, abs=0.011)
    assert WIDE == 2 * NARROW and {kind.width for kind in KINDS.values()} == {WIDE, NARROW}


def test_the_projector_theme_has_large_letters_and_three_pixel_lines():
    root = ET.fromstring(svg(sheet(Line(0, 0, 1, 1, "narrow"), Label(9, 9, "heel", 2.5), high=200), "projector"))
    assert float(root.find(SVG + "text").get("font-size")) * 0.729 == pytest.approx(0.03 * 200, abs=0.01)
    assert float(list(root.iter(SVG + "path"))[1].get("stroke-width")) * 720 / 200 >= 3 - 0.02


def test_true_size_is_in_millimetres():
    assert 'width="100mm" height="60mm"' in svg(sheet(), true_size=True)


@pytest.mark.parametrize(
    "value, text", [(0, "0"), (-0.0, "0"), (-0.004, "0"), (-0.01, "-0.01"), (12.5, "12.5"), (-3.07, "-3.07"), (100, "100")]
)
def test_numbers_are_short_and_never_minus_nought(value, text):
    assert number(value) == text


def test_a_fingerprint_changes_with_the_drawing_only():
    one = sheet(Line(0, 0, 10, 0))
    assert fingerprint(one) == fingerprint(sheet(Line(0, 0, 10, 1e-7)))
    assert fingerprint(one) != fingerprint(sheet(Line(0, 0, 10.02, 0)))
    assert len(fingerprint(one)) == 16


SCRIPT = """
from fractions import Fraction
from anglelib.drawing.sheet import *
from anglelib.drawing.dimensions import *
from anglelib.drawing.symbols import *
from anglelib.drawing.svg import svg
stops = [Stop(20 + n * 25.4 / 16, 30, f"{n}/16 ({n / 16:.4f})") for n in range(1, 60, 7)]
items = running_dimensions(20, stops, 45) + check_bar(20, 5) + third_angle(150, 15) + hole(70, 25, 2.38)
items += (Hatch(((20, 20), (90, 20), (70, 30)), 30, 25.4 / 16), Polyline(tuple((x * 25.4 / 64, 40) for x in range(99))))
items += angle_dimension((20, 20), 30, 0, 26.57, "26.6°") + linear_dimension((20, 20), (60, 38.1), 5, "3/4", "line")
print(svg(Sheet(200, 80, items, "t", "s")))
"""


def test_the_same_text_on_every_python_at_hand():
    """Every Python from 3.11 on that pyenv has, and this one with other hash seeds."""
    others = sorted(Path.home().glob(".pyenv/versions/3.*/bin/python"))
    others = [p for p in others if tuple(map(int, p.parts[-3].split(".")[:2])) >= (3, 11)]
    texts = set()
    for python in (sys.executable, sys.executable, *others):
        seed = {**os.environ, "PYTHONHASHSEED": str(len(texts) + 1)}
        done = subprocess.run([python, "-c", SCRIPT], cwd=ROOT, env=seed, capture_output=True, text=True, check=True)
        texts.add(done.stdout)
    assert len(texts) == 1
    (text,) = texts
    assert text.startswith("<svg") and "nan" not in text.lower()


def test_open_and_closed_filled_and_empty():
    triangle = ((0, 0), (10, 0), (0, 10))
    text = svg(sheet(Polyline(triangle), polygon(triangle, "", "ink"), Hatch(triangle, 0, 3)))
    root = ET.fromstring(text)
    _, line, filled, hatch = root.iter(SVG + "path")
    assert line.get("d").count("Z") == 0 and filled.get("fill") and filled.get("stroke") == "none"
    assert hatch.get("d").count("M") == 3
