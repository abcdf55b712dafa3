"""Cover and safety sheet, measured where they stand: each caution beside what it is about and its source, headings over their blocks, the contents in columns."""

from __future__ import annotations

import itertools

import pytest
from whole_kit import whole_job

from anglelib.drawing.checks import bounds, clipped, overlaps, struck
from anglelib.drawing.letters import box
from anglelib.drawing.sheet import Label, Line, Polyline
from anglelib.paper.cover import CAUTIONS as SHORT
from anglelib.paper.cover import CLAIMS, PRINTING, cover_pages
from anglelib.paper.page import A4, FIGURE, LETTER, SMALL, TITLE, Page
from anglelib.paper.safety_sheet import FIRST, LEVELS, safety_pages, teeth
from anglelib.safety import CAUTIONS, STEPS, hours_allowed
from anglelib.tolerances import Limits

ON = pytest.mark.parametrize("on", [A4, LETTER], ids=lambda on: on.name)
ROWS = [
    ("Plan", "", "", "", "2 to 4", "", ""), ("Long rail", "R60", "1", "neither", "5", "12", "20"), ("Seat stop, left", "U1L", "2", "left", "6", "13", ""),
    *((f"Clip {n}", f"K{n}", "3", "", "7", "", "") for n in range(60)),
]  # fmt: skip
WORDS = {"made": "79 of 79 pieces can be made.", "short": "SHORT: 1 of 4 x Bar (A1).", "holes": "A hole stands too near to an edge."}


def labels(page: Page) -> list[Label]:
    return [item for item in page.items if isinstance(item, Label)]


def signs(page: Page) -> list[tuple[float, float, float, float]]:
    return [bounds((item,)) for item in page.items if isinstance(item, Polyline) and len(item.points) == 3]


def sound(page: Page, on) -> None:
    sheet = page.sheet(on, "Trial", "2024-05-01", 1, 1)
    assert overlaps(sheet, "paper") == [] and struck(sheet, "paper") == [] and clipped(sheet, "paper", on.left - 0.1) == []
    left, bottom, right, high = bounds(page.items)
    assert left >= on.left - 1e-6 and right <= on.right + 1e-6 and high <= on.top + 1e-6 and bottom >= on.bottom - 1e-6


def lines_below(page: Page, first: Label) -> list[Label]:
    """A text that begins with a label, its lines down at their pitch."""
    found = [first]
    for label in sorted((one for one in labels(page) if one.y < first.y and one.height == first.height and abs(one.x - first.x) < 3.0), key=lambda one: -one.y):
        if found[-1].y - label.y < 1.75 * first.height:
            found.append(label)
    return found


# --- the safety sheet ----------------------------------------------------------------------------------------------------
@ON
def test_every_caution_stands_under_its_step_beside_its_source(on):
    pages = safety_pages(whole_job(), on)
    hand = "6 in."
    waiting = [(step, caution) for step in STEPS for caution in CAUTIONS if caution.step == step]
    headed = []
    for page in pages:
        sound(page, on)
        assert labels(page)[0].text == "Safety at each step" and (labels(page)[0].x, labels(page)[0].height) == (on.left, TITLE)
        sources = sorted({label.x for label in labels(page) if label.height == SMALL and label.x > on.left + 0.6 * on.room and label.anchor == "start"})
        column = on.right - 46
        assert column in [pytest.approx(x) for x in sources]
        heads = [label for label in labels(page) if label.height == FIGURE and label.text in STEPS.values() and label.x == pytest.approx(on.left + 6)]
        for head in heads:
            headed.append(head.text)
            [sign] = [one for one in signs(page) if abs((one[1] + one[3]) / 2 - (head.y - FIGURE / 2)) < 1.0]
            assert sign[0] == pytest.approx(on.left) and 0.8 < head.x - sign[2] < 2.5
            rule = max((line.y1 for line in page.items if isinstance(line, Line) and line.y1 < head.y), default=None)
            under = max(label.y for label in labels(page) if label.y < rule)
            assert 1.0 < head.y - FIGURE - rule < 2.0 and 1.0 < rule - under < 3.0
        firsts = [label for label in labels(page) if label.height == FIGURE and label.x == pytest.approx(on.left) and label.base == "top"]
        for label in sorted(firsts, key=lambda one: -one.y):
            if not waiting or not waiting[0][1].said(hand).startswith(label.text):
                continue
            _, caution = waiting.pop(0)
            text = [label]
            for other in sorted((one for one in labels(page) if one.height == FIGURE and one.y < label.y and one.x > on.left + 1 and one.x < on.left + 5), key=lambda one: -one.y):
                if text[-1].y - other.y == pytest.approx(5.0):
                    text.append(other)
            assert " ".join(one.text for one in text) == caution.said(hand)
            assert all(1.5 < one.x - label.x < 4 for one in text[1:])  # set in, so that each begins where the eye finds it
            assert all(box(one)[1][0] < column - 1.5 for one in text)
            [source] = [one for one in labels(page) if one.x == pytest.approx(column) and 0 < label.y - one.y < 1.2]
            origin = lines_below(page, source)[: max(1, len(caution.origin) // 12)]
            assert abs((source.y - SMALL / 2) - (label.y - FIGURE / 2)) < 0.6 and caution.origin.startswith(source.text)
            assert all(1.4 < (a.y - b.y) / SMALL < 1.6 for a, b in itertools.pairwise(origin)) and all(box(one)[1][0] <= on.right + 1e-6 for one in origin)
    assert waiting == [] and headed == list(STEPS.values())
    # what follows a caution keeps more than its own pitch; steps stand farther apart than cautions
    text = " ".join(label.text for page in pages for label in labels(page))
    assert FIRST[:60] in text and "29 CFR 1910.95," in text
    numbers = [label.text for page in pages for label in labels(page)]
    at = numbers.index("hours a day")
    assert numbers[at + 1 : at + 1 + len(LEVELS)] == [f"{hours_allowed(level):g}" for level in LEVELS] and [f"{level} dBA" in numbers for level in LEVELS] == [True] * 4
    for section in {part.section for part in whole_job().parts}:
        row = numbers.index(section.size, numbers.index("heel up"))
        assert tuple(numbers[row + 1 : row + 4]) == teeth(section)


def test_cautions_of_a_step_stand_closer_than_the_steps():
    between, within = [], []
    for page in safety_pages(whole_job(), A4):
        heads = {label.y for label in labels(page) if label.text in STEPS.values() and label.height == FIGURE}
        texts = sorted((label for label in labels(page) if label.height == FIGURE and label.base == "top"), key=lambda one: -one.y)
        for a, b in itertools.pairwise(texts):
            gap = a.y - FIGURE - b.y
            if b.y in heads:
                between.append(gap)
            elif b.x == pytest.approx(A4.left) and a.y not in heads and gap > 1.6:
                within.append(gap)
    assert min(between) > min(within) + 0.5 and min(within) > 1.4


# --- the cover ---------------------------------------------------------------------------------------------------------------
@ON
def test_the_cover_says_whose_it_is_what_can_hurt_and_what_is_in_it(on):
    job = whole_job()
    pages = cover_pages(job, on, ROWS, Limits(), WORDS)
    cover = pages[0]
    for page in pages:
        sound(page, on)
    said = labels(cover)
    name = next(label for label in said if label.text == job.name)
    made, short, holes = (next(label for label in said if label.text == words) for words in WORDS.values())
    assert said[0].text.startswith("Shop pack") and name.height > FIGURE and {one.height for one in (made, short, holes)} == {FIGURE}
    assert 2 < name.y - name.height - made.y < 6 and name.x == made.x == on.left and short.x == holes.x
    for warned in (short, holes):
        [sign] = [one for one in signs(cover) if abs((one[1] + one[3]) / 2 - (warned.y - FIGURE / 2)) < 0.8]
        assert sign[0] == pytest.approx(on.left) and 0.8 < warned.x - sign[2] < 3
    assert all(0.9 < (a.y - a.height - b.y) / FIGURE < 1.4 or 1.5 < a.y - FIGURE - b.y < 4 for a, b in ((made, short), (short, holes)))
    heads = [label for label in said if label.text in ("Before the first cut", "What it does not claim", "Printing, settings")]
    assert [label.text for label in heads] == ["Before the first cut", "What it does not claim", "Printing, settings"] and [h.y for h in heads] == sorted((h.y for h in heads), reverse=True)
    [sign] = [one for one in signs(cover) if abs((one[1] + one[3]) / 2 - (heads[0].y - FIGURE / 2)) < 0.8]
    assert sign[0] == pytest.approx(on.left) and 0.8 < heads[0].x - sign[2] < 2.5
    before = None
    for word, words in SHORT:
        label = next(one for one in said if one.text == word)
        text = [one for one in said if one.x == on.left + 24 and one.y <= label.y]
        assert text[0].y == label.y and label.x == on.left and box(label)[1][0] < text[0].x - 1 and words.format(hand="6 in.").startswith(text[0].text)
        if before is not None:
            last = min(one.y for one in said if one.x == on.left + 24 and one.y > label.y)
            assert 1.6 < (last - label.y) / SMALL < 2.2  # a little more than within one
        before = label
    for head, words in ((heads[1], CLAIMS), (heads[2], PRINTING)):
        first = max((label for label in said if label.y < head.y - 3 and label.x == on.left), key=lambda label: label.y)
        assert words.startswith(first.text) and 2 < head.y - FIGURE - first.y < 4
    more = next(label for label in said if label.text.startswith("Kerf 1/16"))
    over = min(label.y for label in said if label.y > more.y)
    assert 1.6 < (over - more.y) / SMALL < 2.2
    # the contents: every row once, in order, in columns of their own; no column of what nobody has
    told = []
    for page in pages:
        heading = [label for label in labels(page) if label.text in ("what", "id", "pieces", "hand", "page", "templates", "check print")]
        if page is cover:
            assert [label.text for label in heading] == ["what", "id", "pieces", "hand", "page", "templates", "check print"] and len({label.y for label in heading}) == 1
            edges = [label.x for label in heading]
            assert all(box(a)[1][0] < b.x - 1.5 for a, b in itertools.pairwise(heading)) and box(heading[-1])[1][0] <= on.right
        for label in labels(page):
            if label.x == edges[0] and any(label.text == row[0] for row in ROWS):
                row = {one.x: one.text for one in labels(page) if one.y == label.y}
                assert set(row) <= set(edges)
                told.append(tuple(row.get(x, "") for x in edges))
        rows = sorted((label.y for label in labels(page) if label.x == edges[0] and any(label.text == row[0] for row in ROWS)), reverse=True)
        assert all(1.3 < (a - b) / SMALL < 2.0 for a, b in itertools.pairwise(rows))
    assert told == [tuple(row) for row in ROWS] and len(pages) > 1
    fewer = cover_pages(job, on, [tuple(cell if n != 5 else "" for n, cell in enumerate(row)) for row in ROWS[:4]], Limits(), {"made": "x", "short": "", "holes": ""})
    assert "templates" not in [label.text for label in labels(fewer[0])] and len(signs(fewer[0])) == 1
