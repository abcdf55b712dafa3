"""No objective, sentence, caption or table gives an answer away before its question is answered; and what waits, waits for a question of its page."""

import re

import pytest
from given_away import cells_of, given_away, gives_away, number_forms, sentences
from lesson_checks import PAGES, Page, asked
from points import COINCIDENCES, NAMES_A_THING, POINTS

from anglelib.after import folds, standing
from anglelib.explained import explained
from anglelib.lessons import taper_inside
from anglelib.questions.question import ChoiceQuestion

LESSONS = [page for page in PAGES if page.path.stem[:2].isdigit()]


@pytest.fixture(scope="module")
def cells():
    """The cells of every lesson, run once."""
    import io
    from contextlib import redirect_stdout

    found: dict[str, list] = {}

    def of(page: Page) -> list:
        if page.path.stem not in found:
            with redirect_stdout(io.StringIO()):
                found[page.path.stem] = cells_of(page)
        return found[page.path.stem]

    return of


@pytest.mark.parametrize("page", LESSONS, ids=lambda page: page.path.stem)
def test_nothing_stands_there_before_the_answer(page, cells):
    assert given_away(page, cells(page)) == []


@pytest.mark.parametrize("page", LESSONS, ids=lambda page: page.path.stem)
def test_every_question_is_looked_after_and_every_fold_waits_for_a_question_above_it(page, cells):
    above: set[str] = set()
    for source, box in cells(page):
        for fold in folds(source if box is None else box._repr_html_() if hasattr(box, "_repr_html_") else ""):
            assert set(fold.questions) <= above and fold.text, fold
        for question in asked(box) if box is not None else ():
            above.add(question.id)
            words = isinstance(question, ChoiceQuestion) and len(question.answer_text.split()) >= 3 and question.id not in NAMES_A_THING
            assert number_forms(question) or words or question.id in POINTS, question.id


def test_no_entry_is_of_a_question_of_long_ago(cells):
    ids = {question.id for page in LESSONS for _, box in cells(page) if box is not None for question in asked(box)}
    assert {*POINTS, *NAMES_A_THING, *COINCIDENCES, *ASKED_FOR} <= ids


PLANTED = [
    (0, "After this lesson you can\n\n- **derive** the mark from the thickness of the *other* leg", "predict-the-thickness"),
    (3, "The mark stands 7/32 from the end.", "predict-the-mark"),
    (5, "The caliper says 0.213 there.", "predict-the-mark"),
    (7, "![The mark goes by the thickness of the other leg, whatever the run.](x.png)", "predict-the-thickness"),
    (11, "A line aimed there starts right and ends wrong.", "predict-what-is-left"),
    (1, "The vertex lies where the heel meets the end.", "name-of-the-vertex"),
]


@pytest.mark.parametrize(("at", "words", "question"), PLANTED, ids=[f"{question}-{at}" for at, _, question in PLANTED])
def test_a_planted_giveaway_is_found(at, words, question, cells):
    page = Page.of(taper_inside)
    planted = [*cells(page)]
    assert planted[at][1] is None, "prose is planted into prose"
    planted[at] = (f"{planted[at][0]}\n\n{words}", None)
    assert question in {found.question for found in given_away(page, planted)}
    folded = [*cells(page)]
    folded[at] = (f'{folded[at][0]}\n\n<details class="after {question}"><summary>Answered? Read on</summary>\n\n{words}\n\n</details>', None)
    assert question not in {found.question for found in given_away(page, folded)}


def test_a_giveaway_that_an_earlier_answer_opens_is_found(cells):
    """The point of question 2 in the prose that waits for question 1: it stands there when question 2 is asked."""
    page = Page.of(taper_inside)
    planted = [*cells(page)]
    at = next(n for n, (source, _) in enumerate(planted) if folds(source) and folds(source)[0].questions == ("predict-the-mark",))
    source = planted[at][0].replace("the line bends.", "the line bends. The mark goes by the thickness of the other leg.")
    planted[at] = (source, None)
    assert {found.question for found in given_away(page, planted)} == {"predict-the-thickness"}


def test_a_picture_or_a_table_that_tells_is_found(cells):
    page = Page.of(taper_inside)
    planted = [*cells(page)]
    boxes = [box for _, box in planted if box is not None and next(asked(box), None) is not None and hasattr(box, "caption")]
    before = boxes[0].caption.value
    try:
        boxes[0].caption.value = before + "The mark lies 7/32 (0.213) from the end."
        assert {"predict-the-mark"} <= {found.question for found in given_away(page, planted)}
    finally:
        boxes[0].caption.value = before


def test_how_a_text_is_read():
    text = 'One. Two *three*:\n\n- four\n- **five**\n\n![A picture.](x.png)\n\n| a | b |\n\n<details><summary>S</summary>\n\nhidden\n\n</details>'
    assert sentences(standing(text)) == ["One.", "Two three:", "four", "five", "A picture.", "a", "b"]
    question = ChoiceQuestion("x", "Which?", {"a": "the part that stays", "b": "the waste"}, "a")
    assert list(gives_away(question, "It is the part that stays.", near=False)) == ["the part that stays"]
    assert list(gives_away(question, "It is the waste.", near=True)) == []


# --- words of the glossary ----------------------------------------------------------------------------------------
ASKED_FOR = {
    "name-of-the-vertex": {"vertex"}, "how-many-vertices": {"vertex"}, "which-is-the-heel": {"heel", "toe", "fillet"}, "datum-end": {"datum", "end-1"},
    "turned-end-for-end": {"hand"}, "turned-hand": {"hand"}, "predict-the-run": {"run"}, "predict-the-piece": {"saw-line", "finished-line"},
}  # fmt: skip
"""Words whose meaning answers a question."""




@pytest.mark.parametrize("page", LESSONS, ids=lambda page: page.path.stem)
def test_no_word_explains_what_a_question_asks_for(page, cells):
    """Down to the end of the section with the question, whose words' meanings would answer it."""
    made = iter(explained([source for source, box in cells(page) if box is None], page.path.stem)[0])
    marked = [next(made) if box is None else "" for _, box in cells(page)]
    for at, (_, box) in enumerate(cells(page)):
        for question in asked(box) if box is not None else ():
            rest = "\n\n".join(marked[at:])
            read = "\n\n".join(marked[:at]) + re.split(r"^## ", rest, maxsplit=1, flags=re.MULTILINE)[0]
            assert not set(re.findall(r'data-word="([^"]+)"', read)) & ASKED_FOR.get(question.id, set()), question.id
