"""A finished SVG drawn by a real browser: its words' ink as the browser measures it, and its raster with and without them."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
from judges import LEAST_CAPITAL, Grey, Look, Word
from PIL import Image
from svg_reader import grey

DOTS = 6
"""Dots a millimetre."""
THREE = """([picture, dots]) => {
  document.body.style.margin = 0;
  document.body.innerHTML = [0, 1, 2].map(n => `<div class="n${n}" style="font-size:0">${picture}</div>`).join("");
  for (const one of document.querySelectorAll("svg")) {
    const box = one.viewBox.baseVal;
    one.style.cssText = ""; one.setAttribute("width", Math.ceil(box.width * dots)); one.setAttribute("height", Math.ceil(box.height * dots));
    one.setAttribute("preserveAspectRatio", "xMinYMin meet");
    box.width = Math.ceil(box.width * dots) / dots; box.height = Math.ceil(box.height * dots) / dots;
  }
  document.querySelectorAll(".n1 svg *:not(g):not(text):not(tspan)").forEach(one => one.style.visibility = "hidden");
  document.querySelectorAll(".n2 text").forEach(one => one.style.visibility = "hidden");
}"""
WORDS = r"""() => {
  const brush = document.createElement("canvas").getContext("2d"), found = [], svg = document.querySelector("svg");
  const place = svg.getBoundingClientRect();
  [...svg.querySelectorAll("text")].forEach((one, label) => {
    const style = getComputedStyle(one), text = one.textContent, to = one.getScreenCTM();
    brush.font = `${style.fontStyle} ${style.fontWeight} 200px ${style.fontFamily}`;
    const size = parseFloat(style.fontSize), unit = size / 200, natural = brush.measureText(text).width * unit || 1;
    const stretch = one.getComputedTextLength() / natural;
    const high = brush.measureText("H").actualBoundingBoxAscent * unit * Math.hypot(to.c, to.d);
    for (const word of text.matchAll(/\S+/g)) {
      const ink = brush.measureText(word[0]), start = one.getStartPositionOfChar(word.index);
      const left = start.x - ink.actualBoundingBoxLeft * unit * stretch, right = start.x + ink.actualBoundingBoxRight * unit * stretch;
      const low = start.y + ink.actualBoundingBoxDescent * unit, top = start.y - ink.actualBoundingBoxAscent * unit;
      found.push({ text: word[0], label, high, stretch, fill: style.fill, quad: [[left, low], [right, low], [right, top], [left, top]].map(([x, y]) =>
        [to.a * x + to.c * y + to.e - place.left, to.b * x + to.d * y + to.f - place.top]) });
    }
  });
  return found;
}"""
ALONE = """label => document.querySelectorAll(".n1 text").forEach((one, n) => one.style.visibility = n === label || label < 0 ? "visible" : "hidden")"""


def look(page: Any, picture: str, name: str = "", *, dots: float = DOTS, least: float = LEAST_CAPITAL, font: str = "", unit: float = 1.0) -> Look:
    """A picture on a browser's page, looked at; ``font`` is another one than it asks for, ``unit`` what its coordinates count [mm]."""
    if font:
        picture = picture.replace("DejaVu Sans, Verdana, sans-serif", font)
    page.evaluate(THREE, [picture, dots * unit])
    words = tuple(
        Word(one["text"], one["label"], np.array(one["quad"]), one["high"] / dots, grey(one["fill"]), one["stretch"]) for one in page.evaluate(WORDS)
    )

    def shown() -> list[Grey]:
        boxes = [page.locator(f".n{n} svg").bounding_box() for n in range(3)]
        high = sum(box["height"] for box in boxes)
        view = page.viewport_size
        if view["height"] < high or view["width"] < boxes[0]["width"]:
            page.set_viewport_size({"width": max(view["width"], round(boxes[0]["width"])), "height": max(view["height"], round(high))})
        image = np.asarray(Image.open(io.BytesIO(page.screenshot())).convert("L"))
        return [image[round(b["y"]) : round(b["y"] + b["height"]), round(b["x"]) : round(b["x"] + b["width"])] for b in boxes]

    def alone(label: int) -> Grey:
        page.evaluate(ALONE, label)
        found = shown()[1]
        page.evaluate(ALONE, -1)
        return found

    whole, letters, drawing = shown()
    return Look(name, dots, whole, letters, drawing, words, alone, least=least)
