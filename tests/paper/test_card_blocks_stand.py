"""The blocks of a card, measured where they stand: boxes for the readings, the marks' table, the saw's settings, the head, the holes."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from printed_pages import PARTS

from anglelib.drawing.checks import bounds, overlaps, struck
from anglelib.drawing.letters import box as box_of
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label, Line, Polyline, Sheet, move
from anglelib.geometry.work import operations
from anglelib.job import Shop
from anglelib.lengths import writing
from anglelib.paper.card_check import boxes, check_block
from anglelib.paper.card_marks import marks_block
from anglelib.paper.card_room import FIRST_SHEET, LARGE, ONE_SHEET, SECOND_SHEET, Room
from anglelib.paper.card_saw import AtTheSaw
from anglelib.paper.cards import card_pages
from anglelib.paper.page import A4, FIGURE, LETTER, SMALL
from anglelib.tolerances import Limits

WIDE = A4.room
NAMES = ("flat", "vertex", "both", "two-legs", "round", "bare", "mm-both", "mm-cope", "mm-unequal")


def labels(items) -> list[Label]:
    return [item for item in items if isinstance(item, Label)]


def level(items) -> list[Line]:
    return [item for item in items if isinstance(item, Line) and item.y1 == item.y2]


def sound(items: tuple[Item, ...], deep: float, spare: float = 2.0) -> None:
    left, bottom, right, top = bounds(items)
    assert left >= -1e-6 and right <= WIDE + 1e-6 and top <= 1.0 and -bottom - 0.8 <= deep <= -bottom + spare
    sheet = Sheet(WIDE + 20, deep + 30, move(items, 10, deep + 15), "block", "A block.")
    assert overlaps(sheet, "paper") == [] and struck(sheet, "paper") == []


def drawn(name: str, block) -> tuple[tuple[Item, ...], float]:
    part = PARTS[name]
    with writing(part.unit):
        return block(part, Shop(), Limits.usual(part.unit))


# --- the readings ------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("name", NAMES)
def test_every_reading_has_a_box_to_write_in_under_what_it_should_be(name):
    items, deep = drawn(name, lambda part, shop, limits: check_block(part, limits, WIDE))
    sound(items, deep)
    with writing(PARTS[name].unit):
        wanted = boxes(PARTS[name], Limits.usual(PARTS[name].unit))
    [rule] = level(items)
    title, *said = [label for label in labels(items) if label.y > rule.y1]
    assert (title.x, title.y, title.height, rule.x1, rule.x2) == (0, 0, FIGURE, 0, WIDE)
    assert 3 < said[0].x - box_of(title)[1][0] < 9 and abs((said[0].y - SMALL / 2) - (title.y - FIGURE / 2)) < 0.6 and len({label.x for label in said}) == 1
    lowest = min(box_of(label)[0][1] for label in (title, *said))
    assert 0.3 < lowest - rule.y1 < 2.5
    cells = [bounds((item,)) for item in items if isinstance(item, Polyline) and len(item.points) == 4]
    assert len(cells) == len(wanted) + 1  # the weight's beside them
    rows = sorted({round(cell[1], 6) for cell in cells}, reverse=True)
    assert len(rows) == (1 if len(cells) <= 8 else 2)
    top, seen = rule.y1, []
    for low in rows:
        row = sorted(cell for cell in cells if round(cell[1], 6) == low)
        pitches = {round(b[0] - a[0], 6) for a, b in itertools.pairwise(row)}
        assert len(pitches) <= 1 and {round(cell[2] - cell[0], 6) for cell in row} == {round(row[0][2] - row[0][0], 6)}
        assert all(cell[3] - cell[1] >= 7 and cell[2] - cell[0] >= 14 for cell in row)  # a pen's figure of five signs
        assert all(0.5 < b[0] - a[2] < 2.5 for a, b in itertools.pairwise(row)) and 0 <= row[0][0] < 1 and WIDE / len(row) * (len(row) - 1) < row[-1][0] or len(rows) == 2
        for cell in row:
            inside = [label for label in labels(items) if cell[0] <= label.x < cell[2] and cell[3] < label.y < top]
            assert len({label.x for label in inside}) == 1 and 0 < inside[0].x - cell[0] < 1 and all(box_of(label)[1][0] < cell[2] + 0.6 for label in inside)
            figure = next(label for label in inside if label.height == FIGURE or label.text == dict((n, f) for n, f, _ in wanted).get(" ".join(one.text for one in inside[:1])))
            at = inside.index(figure)
            name_, limits = inside[:at], inside[at + 1 :]
            seen.append((" ".join(label.text for label in name_), figure.text))
            assert 0 < top - name_[0].y < 3 and all(1.3 < (a.y - b.y) / SMALL < 1.5 for pair in (name_, limits) for a, b in itertools.pairwise(pair))
            assert 0.5 < name_[-1].y - SMALL - figure.y and 0.8 < figure.y - FIGURE - limits[0].y < 2.5 and 0.6 < limits[-1].y - SMALL - cell[3] < 5.5
        figures = [label.y for label in labels(items) if label.height == FIGURE and low < label.y < top]
        assert len(set(figures)) == 1  # the figures of a row stand on one line
        highest = min(label.y for label in labels(items) if low < label.y < top and label.height == SMALL and label.y > figures[0])
        assert highest - SMALL - figures[0] < 2.5  # no more white than the longest name needs
        nearest = min(label.y for label in labels(items) if low < label.y < top) - SMALL
        assert 0.6 < nearest - (low + 8.2) < 2.2
        top = low
    assert [one for one in seen if not one[0].startswith("weight")] == [(name_, figure) for name_, figure, _ in wanted]


# --- the marks ------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("figure", [FIGURE, SMALL])
@pytest.mark.parametrize("name", NAMES)
def test_the_marks_stand_in_a_table_under_how_they_are_meant(name, figure):
    part = PARTS[name]
    items, deep = drawn(name, lambda part, shop, limits: marks_block(part, shop, limits, operations(part, shop), WIDE, Room(figure=figure)))
    sound(items, deep, 0.5)
    title, *said = [label for label in labels(items) if label.y > level(items)[0].y1 + 0.1]
    assert (title.text, title.x, title.y, title.height) == ("Marks", 0, 0, FIGURE) and 3 < said[0].x - box_of(title)[1][0] < 9 and said[0].y == 0
    rule = level(items)[0]
    assert (rule.x1, rule.x2) == (0, WIDE) and 0.3 < min(label.y - label.height for label in (title, *said)) - rule.y1 < 2.6
    heads = [label for label in labels(items) if label.text in ("mark", "on", "from") or label.text.startswith(("finished line", "saw line"))][:5]
    assert [head.text.split(",")[0] for head in heads] == ["mark", "on", "from", "finished line", "saw line"] and len({head.y for head in heads}) == 1
    for a, b in itertools.pairwise(heads):
        column = [label for label in labels(items) if label.x == a.x and label.y < a.y]
        assert all(box_of(label)[1][0] < b.x - 1.4 for label in column)  # clear of the next column, with its rule's breadth
    last = [label for label in labels(items) if label.x == heads[-1].x and label.y < heads[-1].y]
    assert {label.height for label in last} == {figure} and max(box_of(label)[1][0] for label in (*last, heads[-1])) <= WIDE - 0.9
    widest = max(text_width(label.text, label.height) for label in (*last, *[one for one in labels(items) if one.x == heads[-2].x]))
    assert heads[-1].x - heads[-2].x == pytest.approx(WIDE + 1 - heads[-1].x) and 2.0 < heads[-1].x - heads[-2].x - widest < 3.0  # as wide as their widest figure wants
    numbers = [label for label in labels(items) if label.text.isdigit() and label.anchor == "middle"]
    assert [label.text for label in numbers] == [str(n) for n in range(1, len(numbers) + 1)] and len({label.x for label in numbers}) == 1
    assert len(numbers) >= 1 + (1 if part.tapers else 0)


# --- the saw ---------------------------------------------------------------------------------------------------------------------
SETTINGS = {"in": ("from the heel", "from square", "fall per foot", "5 in. sine bar"), "mm": ("from the heel", "from square", "fall per 100 mm", "100 mm sine bar")}


@pytest.mark.parametrize("room", [Room(), Room(plans=False), Room(plans=False, pictures=False)], ids=["pictures", "none from above", "none"])
@pytest.mark.parametrize("name", NAMES)
def test_the_saw_is_set_beside_its_pictures(name, room):
    part = PARTS[name]
    items, deep = drawn(name, lambda part, shop, limits: AtTheSaw(part, shop, WIDE).block(room))
    sound(items, deep, 3.0)
    words = [label for label in labels(items) if label.text in SETTINGS[part.unit]]
    kinds = {(float(t.width_left), str(t.run or t.angle)) for t in part.tapers}
    alone = len(kinds) == 1 and len({t.leg for t in part.tapers}) == 1
    assert not alone or len(words) == 4
    if alone:
        for word in words:  # each number beside its word, larger, on its line
            beside = [label for label in labels(items) if label.height == FIGURE and label.x > word.x and abs((label.y - FIGURE / 2) - (word.y - SMALL / 2)) < 0.6]
            number = min(beside, key=lambda label: label.x)
            assert 1.0 < number.x - box_of(word)[1][0] < 14 and any(sign.isdigit() for sign in number.text)
        if len({word.y for word in words}) == 1:
            gaps = []
            for a, b in itertools.pairwise(words):
                number = max((label for label in labels(items) if label.height == FIGURE and a.x < label.x < b.x and abs(label.y - a.y) < 1.2), key=lambda label: label.x)
                gaps.append(b.x - box_of(number)[1][0])
            assert max(gaps) - min(gaps) < 0.01 and 4 < gaps[0] <= 12.01
        else:
            assert len({word.x for word in words}) == 1 and {round(a.y - b.y, 6) for a, b in itertools.pairwise(words)} == {5.6}
    captions = [label for label in labels(items) if label.text.startswith(("square cuts", "taper, leg"))]
    assert captions[0].x == 0 and captions[0].text.startswith("square cuts") and len({label.y for label in captions if label.y > -8}) == 1
    pictures = [label for label in labels(items) if label.text == "guide"]
    assert len(pictures) == (len([label for label in captions if label.y > -8]) if room.pictures else 0)
    for caption, picture in zip(captions, pictures):
        assert 0 < picture.x - caption.x < 75 and picture.y < caption.y
    table = [label for label in labels(items) if label.text == "saw set to"]
    assert bool(table) == (bool(part.tapers) and not alone)


# --- the whole card ------------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("on", [A4, LETTER], ids=lambda on: on.name)
@pytest.mark.parametrize("name", NAMES)
def test_a_card_begins_with_whose_it_is_and_its_blocks_follow_down_the_page(name, on):
    part = PARTS[name]
    pages = card_pages(part, Shop(), on, blanks=("S-01 (1)", "S-02 (3)"), note="Note this first.")
    for number, page in enumerate(pages, 1):
        first = labels(page.items)[0]
        assert (first.text, first.x, first.y) == (part.name, on.left, on.top) and first.height >= 5
        facts = next(label for label in labels(page.items) if label.text.startswith(f"{part.id},"))
        assert 1.5 < on.top - first.height - facts.y < 6 and facts.x == on.left
        rule = max((line for line in level(page.items) if line.kind == "outline" and line.x2 - line.x1 > 0.99 * on.room), key=lambda line: line.y1)
        assert (rule.x1, rule.x2) == (on.left, on.right)
        over = [label for label in labels(page.items) if label.y > rule.y1]
        lowest = min(over, key=lambda label: label.y if label.base == "bottom" else label.y - label.height)
        assert 0.4 < (lowest.y if lowest.base == "bottom" else lowest.y - lowest.height) - rule.y1 < 3.0
        if len(pages) > 1:
            [sheet] = [label for label in over if label.text.startswith(f"sheet {number} of {len(pages)}")]
            assert sheet.anchor == "end" and sheet.x == on.right
        if number == 1:
            assert any(label.text == "1 required" and (label.x, label.y, label.anchor) == (on.right, on.top, "end") for label in over)
            assert any("blank " in label.text and "S-02 (3)" in label.text for label in over)
            note = next(label for label in over if label.text == "Note this first.")
            signs = [bounds((item,)) for item in page.items if isinstance(item, Polyline) and len(item.points) == 3]
            beside = [sign for sign in signs if sign[1] < note.y - SMALL / 2 < sign[3] and sign[0] == on.left]
            assert len(beside) == 1 and 0.5 < note.x - beside[0][2] < 2.5
        heads = [label for label in labels(page.items) if label.height == FIGURE and label.x == on.left and label.text.split(",")[0] in ("Marks", "How the angle sits at the saw", "Steps", "Readings")]
        order = [label.text.split(",")[0] for label in sorted(heads, key=lambda label: -label.y)]
        assert order == [one for one in ("Marks", "How the angle sits at the saw", "Steps", "Readings") if one in order]
        everything = bounds(page.items)
        assert everything[0] >= on.left - 1e-6 and everything[2] <= on.right + 0.51 and everything[3] <= on.top + 1e-6 and everything[1] >= on.bottom - 1e-6
        # white between the blocks: what stands over a heading keeps clear of it
        for head in heads:
            above = [bounds((item,))[1] for item in page.items if bounds((item,))[1] > head.y - 0.5]
            if above and head.y < rule.y1 - 5:
                assert 0.8 < min(above) - head.y < 9
    assert len(pages) > 1 or "sheet" not in pages[0].title


@pytest.mark.parametrize("most", [30, 36, 44, 60])
@pytest.mark.parametrize("name", ["flat", "two-legs"])
def test_a_long_name_keeps_clear_of_the_quantity_and_the_sheets_number(name, most):
    part = replace(PARTS[name], name="Wing root gusset, upper, with the fairing MMM WWW MMMM WWWW"[:most].strip(), quantity=12)
    for page in card_pages(part, Shop(), A4):
        first = labels(page.items)[0]
        beside = [label for label in labels(page.items) if label.anchor == "end" and label.x == A4.right and box_of(label)[2][1] > first.y - first.height - 1]
        assert all(box_of(first)[1][0] < box_of(label)[0][0] - 3 for label in beside) and box_of(first)[1][0] < A4.right - 20
        sheet = page.sheet(A4, "Trial", "2024-05-01", 1, 1)
        assert overlaps(sheet, "paper") == []


# --- what a card gives up ------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("ladder", [ONE_SHEET, FIRST_SHEET, SECOND_SHEET], ids=["one", "first", "second"])
def test_a_card_gives_up_more_and_more_and_takes_nothing_back(ladder):
    for room, tighter in itertools.pairwise(ladder):
        assert room != tighter and room.pad >= tighter.pad and room.figure >= tighter.figure and room.letter >= tighter.letter
        assert room.brief <= tighter.brief and room.plans >= tighter.plans and room.drawing >= tighter.drawing and room.listed <= tighter.listed
        assert room.pictures >= tighter.pictures and (room.steps, tighter.steps) != ("columns", "lines")
    assert all(0.4 <= room.pad < 1.0 and room.figure >= SMALL and room.letter >= SMALL for room in ladder)
    assert not any(room.steps == "columns" for room in ladder[:-1])  # the cautions go last of all


def test_what_each_sheet_of_a_card_never_gives_up():
    assert all(room.drawing and not room.listed and room.pictures and room.steps == "lines" for room in ONE_SHEET)
    assert all(room.plans or room.brief for room in (*ONE_SHEET, *SECOND_SHEET)) and all(room.drawing or room.listed for room in FIRST_SHEET)
    assert LARGE.letter == FIGURE and SECOND_SHEET[0] is LARGE and ONE_SHEET[0] == FIRST_SHEET[0] == SECOND_SHEET[1] == Room()
