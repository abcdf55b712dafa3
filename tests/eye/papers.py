"""Everything that is printed, as finished PDFs by name: packs of several kits, parts of every shape, the class, the guide, the purchase."""

from __future__ import annotations

import datetime
import sys
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

from anglelib.drawing.pdf import pdf
from anglelib.files import read_job, read_rack
from anglelib.job import Shop
from anglelib.lengths import writing
from anglelib.paper.buy_pages import buy_pages
from anglelib.paper.cards import card_pages
from anglelib.paper.check_print import check_pages
from anglelib.paper.pack import make_pack
from anglelib.paper.page import A4, LETTER, PAPERS, Page, Paper
from anglelib.paper.print_scale import measured
from anglelib.paper.template import template_pages
from anglelib.part import Part
from anglelib.workshop.class_pack import make_class_pack
from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.guide_pages import guide_pdf
from anglelib.workshop.handouts import handouts

TESTS = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(TESTS / "paper"), str(TESTS / "drawing")]
from printed_pages import PARTS  # noqa: E402
from random_parts import part as random_part  # noqa: E402
from random_parts import part_in_mm  # noqa: E402
from test_buy_pages import INCH, METRIC, many  # noqa: E402
from test_pages_in_mm import KITS, rack  # noqa: E402
from whole_kit import whole_job, whole_rack  # noqa: E402

del sys.path[:2]

DAY = datetime.date(2024, 5, 1)
DEMO = TESTS.parent / "notebooks" / "demo"
METRIC_SHOP = Shop(kerf="1.6 mm", allowance="1 mm")
NARROW = measured("98.6 mm, 99 mm")
"""A printer that makes everything smaller: what is drawn at 1:1 is drawn larger."""


def printed(pages: list[Page], on: Paper) -> bytes:
    """Some pages as they are printed."""
    return pdf([page.sheet(on, "Trial", "2024-05-01", n, len(pages), "K7M2-PX4W", "H7M3YW") for n, page in enumerate(pages, 1)], "Trial")


def of_part(part: Part, on: Paper, shop: Shop = Shop(), **more) -> bytes:
    """A part's card, fold sheets and check prints."""
    pages = card_pages(part, shop, on, blanks=("S-01 (1)",)) + template_pages(part, shop, on, **more) + check_pages(part, on, **more)
    return printed(pages, on)


@cache
def demo():
    """The demo kit's job and rack."""
    return read_job(DEMO / "job.toml"), read_rack(DEMO / "rack.csv")


def demo_pack(paper: str, unit: str = "in", **more) -> bytes:
    """The pack of the demo kit; in millimetres its parts are written so too."""
    job, stock = demo()
    if unit == "mm":
        job = replace(job, unit="mm", parts=[replace(part, unit="mm") for part in job.parts])
    return make_pack(job, stock, PAPERS[paper], date=DAY, number="H7M3YW", **more).pdf()


def whole_pack(paper: str, unit: str) -> bytes:
    """The pack of the kit that has every feature."""
    return make_pack(whole_job(unit), whole_rack(), PAPERS[paper], date=DAY, number="H7M3YW").pdf()


def metric_pack(kit: str, paper: str) -> bytes:
    """A pack in millimetres, or of both units."""
    return make_pack(KITS[kit], rack(KITS[kit]), PAPERS[paper], date=DAY).pdf()


def bought(on: Paper, unit: str, lines: int) -> bytes:
    """A sheet of what is to be bought."""
    mine = many(INCH if unit == "in" else METRIC, unit, lines)
    with writing(unit):
        pages = buy_pages(mine, on)
    return printed(pages, on)


def class_files(number: int, paper: str, **more) -> Iterator[tuple[str, bytes]]:
    """The PDFs of a class."""
    pack = make_class_pack(ClassWanted(number, date=DAY, paper=paper, **more))
    for name, content in pack.files().items():
        if name.endswith(".pdf"):
            yield name, content


LARGE = {"saws": 2, "discs": 2, "competent": 2}
CLASSES = ((1, "letter", {}), (2, "a4", {}), (6, "letter", {}), (12, "a4", LARGE), (20, "letter", LARGE))
SHOPS = (Shop(), Shop(allowance=0), Shop(kerf=0, allowance="1/16"), Shop(kerf="1/8", allowance="1/8"))
PACKS = {
    **{f"demo on {paper} in {unit}": lambda paper=paper, unit=unit: demo_pack(paper, unit) for paper in PAPERS for unit in ("in", "mm")},
    **{f"demo by a printer that shrinks, on {paper}": lambda paper=paper: demo_pack(paper, scale=NARROW, sheets=("templates", "checks")) for paper in PAPERS},
    **{f"every feature on {paper} in {unit}": lambda paper=paper, unit=unit: whole_pack(paper, unit) for paper in PAPERS for unit in ("in", "mm")},
    **{f"{kit} on {paper}": lambda kit=kit, paper=paper: metric_pack(kit, paper) for kit in KITS for paper in PAPERS},
    **{f"guide on {on.name}": lambda on=on: guide_pdf(on, DAY) for on in (A4, LETTER)},
    **{f"handouts on {on.name}": lambda on=on: printed(handouts(on), on) for on in (A4, LETTER)},
    **{
        f"{lines} lines to buy on {on.name} in {unit}": lambda on=on, unit=unit, lines=lines: bought(on, unit, lines)
        for on in (A4, LETTER) for unit in ("in", "mm") for lines in (0, 1, 8)
    },
    **{f"{name} by shop {n} on {on.name}": lambda name=name, shop=shop, on=on: of_part(PARTS[name], on, shop) for name in PARTS for n, shop in enumerate(SHOPS) for on in (A4, LETTER)},
}  # fmt: skip
"""What is printed by name, each made when it is asked for."""


def random_papers(seed: int) -> Iterator[tuple[str, bytes]]:
    """A random part's sheets: in inches, in millimetres, and in millimetres in a shop that works in inches."""
    for part, shop in ((random_part(seed), Shop()), (part_in_mm(seed), METRIC_SHOP), (part_in_mm(seed), Shop())):
        for on in (A4, LETTER):
            yield f"part {seed} in {part.unit} on {on.name}", of_part(part, on, shop)
