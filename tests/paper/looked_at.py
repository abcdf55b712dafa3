"""The sheets on which the drawing itself seeks a place for every word, as they were when somebody last looked at them.

What such a sheet says, and that nothing on it hides another, has guards of its own; that a word stands where it reads best no
rule can say. So each sheet is looked at, once, and its drawing's fingerprint is kept. Where one has changed and is meant to have, look at it and keep it anew:

    python tests/paper/looked_at.py FOLDER    each sheet as a PDF in a folder, to be looked at; then its number is kept
"""

from __future__ import annotations

import sys
from hashlib import sha256
from pathlib import Path

from printed_pages import PARTS

from anglelib.drawing.pdf import pdf
from anglelib.drawing.sheet import Sheet
from anglelib.drawing.svg import fingerprint
from anglelib.job import Shop
from anglelib.paper.cards import card_pages
from anglelib.paper.check_print import check_pages
from anglelib.paper.page import A4, LETTER
from anglelib.paper.template import template_pages

KEPT = Path(__file__).with_name("looked_at.txt")
SHEETS = {
    **{f"card {name}": (name, LETTER, card_pages) for name in ("flat", "two-legs", "mm-both", "unequal")},
    **{f"fold {name}": (name, A4, template_pages) for name in ("flat-B-2", "vertex", "two-legs", "round-B", "mm-both", "mm-cope")},
    **{f"check {name}": (name, A4, lambda part, shop, on: check_pages(part, on)) for name in ("flat", "two-legs", "round", "mm-cope", "mm-long")},
}
"""The part, the paper and what is made of it."""


def sheets(name: str) -> list[Sheet]:
    """The pages of one of them, without their foot."""
    part, on, make = SHEETS[name]
    return [Sheet(on.width, on.height, page.items, page.title, page.sentence) for page in make(PARTS[part], Shop(), on)]


def number(name: str) -> str:
    """Everything that stands on its pages, in eight figures."""
    return sha256("".join(map(fingerprint, sheets(name))).encode()).hexdigest()[:8]


def kept() -> dict[str, str]:
    """The numbers by name."""
    lines = [line for line in KEPT.read_text(encoding="utf-8").splitlines() if line and line[0] != "#"]
    return {name: digits for digits, name in (line.split(" ", 1) for line in lines)}


def main(folder: Path) -> None:
    for name in SHEETS:
        folder.joinpath(f"{name}.pdf").write_bytes(pdf(sheets(name), name))
    KEPT.write_text("# Kept by tests/paper/looked_at.py once a sheet was looked at.\n" + "".join(f"{number(name)} {name}\n" for name in SHEETS), encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
