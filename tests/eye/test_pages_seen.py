"""What is printed, read back from the finished PDF: no word over another, cut, hidden, struck, too small or too pale; nothing in the printer's white edge.

A page of every kind in the tests; every page of every pack, of parts of every shape and of the class in the slow tier.
"""

from dataclasses import replace

import page_reader
import papers
import pytest
from judges import faults
from tolerated import not_tolerated

from anglelib.job import Job
from anglelib.paper.pack import make_pack
from anglelib.paper.page import A4, LETTER


def unfit(content: bytes, name: str, pages: range | None = None) -> tuple[list[str], int, int]:
    """What is wrong on the pages of a PDF, how many pages there are, how many words on them."""
    found, count, words = [], 0, 0
    for look in page_reader.looks(content, pages=pages):
        where = f"{name}, {look.name}"
        found += [f"{where}: {fault}" for fault in not_tolerated(where, faults(look))]
        count, words = count + 1, words + len(look.words)
    return found, count, words


def few_of_the_demo(unit: str) -> bytes:
    """A pack of two parts with every sheet of it but their own, which are looked at for themselves."""
    job, rack = papers.demo()
    parts = [replace(part, unit=unit) for part in job.parts[:2]]
    few = Job(job.name, job.shop, parts, unit=unit, limits=None if unit == "mm" else job.limits)
    return make_pack(few, rack, A4 if unit == "mm" else LETTER, date=papers.DAY, sheets=("cover", "safety", "plan", "tags", "record")).pdf()


QUICK = {
    "a part in inches": lambda: papers.of_part(papers.PARTS["two-legs"], LETTER),
    "a part in millimetres": lambda: papers.of_part(papers.PARTS["mm-cope"], A4, papers.METRIC_SHOP),
    "lists in inches": lambda: few_of_the_demo("in"),
    "lists in millimetres": lambda: few_of_the_demo("mm"),
    "to be bought": lambda: papers.bought(A4, "mm", 2),
    "a handout": lambda: papers.printed(papers.handouts(LETTER)[:2], LETTER),
}


@pytest.mark.parametrize("name", QUICK)
def test_a_page_of_every_kind(name):
    found, pages, words = unfit(QUICK[name](), name)
    assert found == [] and pages and words > 50


@pytest.mark.slow
@pytest.mark.parametrize("name", papers.PACKS)
def test_every_page_of_every_pack(name):
    found, pages, words = unfit(papers.PACKS[name](), name)
    assert found == [] and pages and words > 50


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(150))
def test_parts_of_every_shape(seed):
    assert [fault for name, content in papers.random_papers(seed) for fault in unfit(content, name)[0]] == []


@pytest.mark.slow
@pytest.mark.parametrize(("number", "paper", "more"), papers.CLASSES)
def test_every_page_of_a_class(number, paper, more):
    assert [fault for name, content in papers.class_files(number, paper, **more) for fault in unfit(content, f"class of {number} on {paper}, {name}")[0]] == []
