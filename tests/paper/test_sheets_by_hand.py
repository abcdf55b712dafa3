"""Sheets that are written on and cut up: rows high enough for a pen, columns under their heads, tags whole within their cuts; measured where the ink stands."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from whole_kit import whole_job, whole_rack

from anglelib.drawing.checks import bounds, clipped, overlaps, struck
from anglelib.drawing.letters import box, text_width
from anglelib.drawing.sheet import Circle, Label, Line, Polyline
from anglelib.paper.page import A4, FIGURE, LETTER, SMALL, TITLE, Page
from anglelib.paper.receiving import HEADS, receiving_pages
from anglelib.paper.record import record_pages
from anglelib.paper.tags import tag_pages, tags
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack

ON = pytest.mark.parametrize("on", [A4, LETTER], ids=lambda on: on.name)
HAND = 6.0
"""The least height of a line that is written by hand [mm]: rules of lined paper are 6 to 8 apart."""


def labels(page: Page) -> list[Label]:
    return [item for item in page.items if isinstance(item, Label)]


def level(page: Page) -> list[Line]:
    return [item for item in page.items if isinstance(item, Line) and item.y1 == item.y2]


def upright(page: Page) -> list[Line]:
    return [item for item in page.items if isinstance(item, Line) and item.x1 == item.x2]


def top(label: Label) -> float:
    return box(label)[2][1]


def sound(page: Page, on) -> None:
    """Nothing hides or leaves the page, and everything keeps to the breadth that is printed."""
    sheet = page.sheet(on, "Trial", "2024-05-01", 1, 1)
    assert overlaps(sheet, "paper") == [] and struck(sheet, "paper") == [] and clipped(sheet, "paper", on.left - 0.1) == []
    left, bottom, right, high = bounds(page.items)
    assert left >= on.left - 1e-6 and right <= on.right + 1e-6 and high <= on.top + 1e-6 and bottom >= on.bottom - 1e-6


# --- the record ------------------------------------------------------------------------------------------------------
STICKS = {"R60": ["S-1 (1)"], "K34": [f"S-{n:02} (1)" for n in range(1, 5)], "U1L": [f"S-{n:02} (1)" for n in range(1, 21)]}
LOTS = {"R60": ["4711 (1)"]}


@ON
def test_a_record_has_a_row_a_part_to_be_written_in(on):
    job = whole_job()
    job = replace(job, parts=(*job.parts, *(replace(job.part("F1"), id=f"Z{n}") for n in range(14))))
    pages = record_pages(job, on, STICKS, LOTS)
    assert len(pages) > 1 and [page.bookmark != "" for page in pages] == [True] + [False] * (len(pages) - 1)
    told, empty = [], 0
    for number, page in enumerate(pages, 1):
        sound(page, on)
        assert page.title.endswith(f"sheet {number} of {len(pages)}") and labels(page)[0].text == page.title and labels(page)[0].height == TITLE
        rules = sorted({line.y1 for line in level(page)}, reverse=True)
        assert all((line.x1, line.x2) == (on.left, on.right) for line in level(page))
        under_title, head, *rows = rules
        assert 1 < on.top - TITLE - under_title < 4
        first = [label for label in labels(page)[1:] if label.y < under_title and label.y > head + 5]
        assert all(label.x == on.left and label.height == SMALL for label in first) and 1 < under_title - first[0].y < 2.5  # what it is for, then the table
        # columns run from under the heads to the last rule, each under its own head
        walls = sorted(line.x1 for line in upright(page))
        assert all((max(line.y1, line.y2), min(line.y1, line.y2)) == (head, pytest.approx(rows[-1])) for line in upright(page)) and len(walls) == 5
        edges = [on.left, *walls, on.right]
        heads = [label for label in labels(page) if head < label.y < head + 4]
        assert [label.text for label in heads] == ["part", "what and how", "when", "where", "who", "pictures"]
        for label, (left, right) in zip(heads, itertools.pairwise(edges)):
            assert left < label.x and box(label)[1][0] < right - 0.5 and 1.0 < label.y - head < 2.3 and label.x - left == pytest.approx(heads[0].x - on.left)
        assert edges[2] - edges[1] == max(b - a for a, b in itertools.pairwise(edges)) and min(b - a for a, b in itertools.pairwise(edges)) > 15  # room for a date
        # rows: two lines of handwriting each, the page filled and no fuller
        for above, below in itertools.pairwise([head, *rows]):
            inside = [label for label in labels(page) if below < label.y <= above]
            assert all(label.x == on.left + 1 and box(label)[1][0] <= edges[1] - 1 for label in inside)
            assert above - below >= 2 * HAND + 0.5
            if not inside:
                empty += 1
                continue
            title, name, *lines = inside
            told.append((title.text.split()[0], [line.text for line in lines]))
            assert title.height == FIGURE and {label.height for label in inside[1:]} == {SMALL}
            assert 0.4 < above - title.y < 1.6 and 0.4 < title.y - FIGURE - name.y < 2.2 and name.y - SMALL - below > 0.7
            assert all(1.3 < (one.y - other.y) / SMALL < 1.6 for one, other in itertools.pairwise(inside[1:]))
            assert inside[-1].y - SMALL - below > 0.7  # the tails of the last line
            assert above - below < 2 * HAND + 2.5 or len(lines) > 1
        assert rows[-1] - on.bottom < 2 * HAND + 2.5  # no row more would go on
    assert [name for name, _ in told] == [part.id for part in job.parts] and empty >= 3
    said = dict(told)
    assert said["R60"] == ["from S-1 (1)", "lot 4711 (1)"] and said["K34"] == ["from S-01 (1), S-02 (1),", "S-03 (1), S-04 (1)"] and said["V2"] == []
    assert len(said["U1L"]) == 2 and said["U1L"][1].endswith("more: see the plan")


def test_a_record_of_one_sheet_is_not_numbered():
    [page] = record_pages(replace(whole_job(), parts=whole_job().parts[:2]), A4)
    assert page.title == page.bookmark == "Record for the builder's file"


# --- tags --------------------------------------------------------------------------------------------------------------
@pytest.fixture(scope="module")
def made():
    job = whole_job()
    return plan(job, whole_rack()), job


@ON
def test_every_tag_is_whole_within_its_cuts(made, on):
    every = tags(*made)
    pages = tag_pages(*made, on)
    assert len(pages) > 1 and [page.title for page in pages] == [f"Tags, sheet {n} of {len(pages)}" for n in range(1, len(pages) + 1)]
    waiting = iter(every)
    for page in pages:
        sound(page, on)
        title, how, *_ = labels(page)
        assert (title.x, title.y, title.height, how.x) == (on.left, on.top, TITLE, on.left) and 1 < on.top - TITLE - how.y < 5
        columns = sorted({line.x1 for line in upright(page)})
        rows = sorted({line.y1 for line in level(page)}, reverse=True)
        assert columns[0] == on.left and columns[-1] <= on.right + 1e-9 and {round(b - a, 6) for a, b in itertools.pairwise(columns)} == {round(on.room / 3, 6)}
        assert {round(a - b, 6) for a, b in itertools.pairwise(rows)} == {33.7} and 2 < how.y - SMALL - rows[0] < 6
        if page is not pages[-1]:
            assert rows[-1] - 33.7 < on.bottom and len(rows) - 1 == int((how.y - SMALL - 3 - on.bottom) / 33.7)  # no row more would go on
        rings = [item for item in page.items if isinstance(item, Circle)]
        seen = 0
        for high, low in itertools.pairwise(rows):
            for left, right in itertools.pairwise(columns):
                inside = [item for item in page.items if isinstance(item, Label) and left < box(item)[0][0] < right and low < box(item)[0][1] < high]
                if not inside:
                    continue
                seen += 1
                # cut out on all four sides
                for x in (left, right):
                    assert any(line.x1 == x and {line.y1, line.y2} == {high, low} for line in upright(page))
                for y in (high, low):
                    assert any(line.y1 == y and line.x1 <= left + 1e-9 and line.x2 >= right - 1e-9 for line in level(page))
                is_one_tag(next(waiting), inside, [ring for ring in rings if left < ring.x < right and low < ring.y < high], (left, low, right, high))
        assert seen == len(rings)
        # no cut twice, none where there is no tag
        uprights = [(line.x1, max(line.y1, line.y2)) for line in upright(page)]
        assert len(uprights) == len(set(uprights)) and len(level(page)) == len(rows)
        for line in level(page):
            beside = [line.y1 + d for d in (-1, 1) if rows[-1] < line.y1 + d < rows[0]]
            ends = max(max(x for x, y in uprights if y - 33.7 < one < y) for one in beside)
            assert line.x2 == pytest.approx(ends)
    assert next(waiting, None) is None


def is_one_tag(tag, inside: list[Label], rings: list[Circle], frame: tuple[float, float, float, float]) -> None:
    left, low, right, high = frame
    [ring] = rings
    assert ring.radius >= 2 and ring.x - ring.radius - left > 2.5 and ring.y == pytest.approx((low + high) / 2)  # a wire tears no edge
    texts = {label.text: label for label in inside}
    assert all(box(label)[0][0] > left + 1.5 and box(label)[1][0] < right - 1.5 and top(label) < high - 1.3 and box(label)[0][1] > low for label in inside)
    text = [label for label in inside if label.anchor == "start" and label.text != tag.number]
    assert len({label.x for label in text}) == 1 and text[0].x > ring.x + ring.radius + 1.5 and text[0].text == tag.id
    assert text[0].height >= max(label.height for label in inside) and texts[tag.word].anchor == "end" if tag.word else True
    if tag.number:
        assert texts[tag.number].y == text[0].y and 1.5 < texts[tag.number].x - box(text[0])[1][0] < 4 and texts[tag.number].height == FIGURE
    if tag.word:
        assert texts[tag.word].y == text[0].y and 1.5 < right - box(texts[tag.word])[1][0] < 3
    assert [label.text for label in text[1 : 1 + len(tag.lines)]] == list(tag.lines)
    assert ", ".join(label.text.rstrip(",") for label in text[1 + len(tag.lines) :]) == ", ".join(tag.small)
    for one, other in itertools.pairwise(text):
        feet = one.y if one.base == "bottom" else one.y - one.height
        assert 0.5 < feet - other.y < 2.5, (one.text, other.text)


# --- receiving -------------------------------------------------------------------------------------------------------------
@ON
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_stick_is_received_in_a_row_with_room_for_a_pen(on, unit):
    from anglelib.lengths import writing

    rack = Rack([*whole_rack().sticks, *(replace(stick, id=f"T-{n}") for n in range(20) for stick in whole_rack().sticks[:1])])
    with writing(unit):
        pages = receiving_pages(rack, on)
    heads = [head for head in HEADS[unit] if head]
    for page in pages:
        sound(page, on)
        rules = sorted({line.y1 for line in level(page) if line.x2 - line.x1 > 0.9 * on.room}, reverse=True)
        assert all((line.x1, line.x2) == (pytest.approx(on.left), pytest.approx(on.right)) for line in level(page))
        ids = [label for label in labels(page) if label.x == on.left + 1 and label.base == "middle" and label.text != heads[0]]
        for name in ids:
            above, below = min(y for y in rules if y > name.y) if any(y > name.y for y in rules) else None, max(y for y in rules if y < name.y)
            walls = [line.x1 for line in upright(page) if min(line.y1, line.y2) <= name.y <= max(line.y1, line.y2)]
            assert len(walls) == 5 and all(min(b - a for a, b in itertools.pairwise([*sorted(walls), on.right])) > 17 for _ in [0])
            for line in upright(page):
                if line.x1 in walls and min(line.y1, line.y2) <= name.y <= max(line.y1, line.y2):
                    assert abs(line.y1 - line.y2) >= HAND + 1 and min(line.y1, line.y2) == pytest.approx(below)
            assert name.y == pytest.approx(below + max(abs(line.y1 - line.y2) for line in upright(page)) / 2) and (above is None or above > name.y)
        for row in [label for label in labels(page) if label.text == heads[0] and label.height == SMALL]:
            beside = [label for label in labels(page) if label.y == row.y]
            assert [label.text for label in beside] == heads
            below = [label for label in labels(page) if label.base == "middle" and 2 < row.y - label.y < 9]
            assert {label.x for label in below} <= {label.x for label in beside} | {label.x + text_width(label.text, SMALL) for label in beside} | {on.left + 1 + 17 + 22 + 31}
        boxes = [item for item in page.items if isinstance(item, Polyline) and len(item.points) == 4 and item.closed]
        counts = [label for label in labels(page) if label.text.endswith("counted")]
        assert len(boxes) == len(counts)
        for item, words in zip(boxes, counts):
            xs, ys = [x for x, _ in item.points], [y for _, y in item.points]
            assert max(xs) - min(xs) >= 2 * HAND and max(ys) - min(ys) >= 5 and 0.5 < min(xs) - box(words)[1][0] < 4 and min(ys) < words.y - SMALL / 2 < max(ys)
    said = [label.text for page in pages for label in labels(page)]
    assert all(said.count(stick.id) == 1 for stick in rack.sticks)
