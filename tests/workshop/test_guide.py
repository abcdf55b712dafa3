"""The instructor's guide: its pages legible on both papers, its table of mistakes as large as promised, its numbers those of their sources."""

import io
import re

import pytest

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.errors import BenchError, StorageError
from anglelib.inspection.mistakes import MISTAKES
from anglelib.lessons.contents import LESSONS as CONTENTS
from anglelib.paper.page import PAPERS
from anglelib.workshop import guide, guide_command
from anglelib.workshop.guide_pages import sheets
from anglelib.workshop.lesson_questions import MODULES, questions_of
from anglelib.workshop.mistake_table import recognised, table
from anglelib.workshop.mistakes_gathered import diagnosed
from tests import mistakes_shown


def test_at_least_twenty_four_mistakes_are_recognised_in_a_lesson():
    rows = table()
    assert [row.id for row in rows] == list(MISTAKES)
    assert recognised() >= 24
    assert len({lesson for row in rows for lesson in row.lessons}) >= 11


def test_what_is_shown_is_what_is_gathered():
    assert mistakes_shown.SHOWN.read_text(encoding="utf-8") == mistakes_shown.text(), "python -m tests.mistakes_shown"


def test_a_wrong_answer_named_in_the_table_is_in_the_lesson():
    """Found the other way round: by each question's wrong answers and its right one."""
    for row in table():
        for number, ways in row.lessons.items():
            lesson = next(name for name in MODULES if name.startswith(number))
            of = questions_of(lesson).values()
            said = any(w.slip == row.id for q in of for w in q.wrong) or any(q.answer == row.id for q in of)
            assert said or (number == "10" and row.id in diagnosed()), (row.id, number, ways)


def test_the_guard_of_the_table_can_fail():
    """A mistake that no lesson names has no row: of a table without lessons nothing would be recognised."""
    assert table.__wrapped__ is not None and sum(bool(row.lessons) for row in ()) < 24
    assert "M06" not in diagnosed() and "M26" not in diagnosed()  # they show in a batch or a pair only


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_is_legible(paper):
    made = sheets(PAPERS[paper], "2026-01-01")
    assert len(made) >= 6
    for sheet in made:
        assert overlaps(sheet, "paper") == [] and clipped(sheet, "paper", 5) == [] and struck(sheet, "paper") == [], sheet.title


def test_every_lesson_of_the_course_is_led():
    assert [lesson.number for lesson in guide.LESSONS] == [lesson.number for lesson in CONTENTS if lesson.number <= "12"]
    for lesson in guide.LESSONS:
        assert all((lesson.say, lesson.late, lesson.materials, lesson.reveal)) and lesson.ask.endswith("?")


# Numbers as read in the sources (or quoted from them): Freeman et al. 2014; Alfieri et al. 2011; Barbieri et al. 2023; Pan and Rickard 2018;
# Uttal et al. 2013; Mayer and Fiorella; Wong 2011; The Carpentries.
READ = {
    "Freeman": ("0.47", "1.95"), "Alfieri": ("-0.38", "+0.30"), "Barbieri": ("0.48",), "Pan": ("0.40",), "Uttal": ("0.47",), "Mayer": ("1.10",),
    "Wong": ("8 %", "0.5 %"), "Carpentries": ("5 minutes", "10 to 15"),
}  # fmt: skip


def test_evidence_has_its_numbers_and_sources():
    for name, numbers in READ.items():
        row = next(row for row in guide.EVIDENCE if name in row.source)
        assert all(number in row.number for number in numbers)
    assert all(row.source and row.so for row in guide.EVIDENCE)


def test_the_pdf_has_the_same_words(tmp_path, capsys):
    from pypdf import PdfReader

    out = tmp_path / "guide.pdf"
    assert guide_command.main(["--out", str(out), "--paper", "a4", "--date", "2026-01-01"]) == 0
    reader = PdfReader(io.BytesIO(out.read_bytes()))
    text = re.sub(r"\s+", " ", " ".join(page.extract_text() for page in reader.pages))
    assert "Hands up before you cut" in text and all(row.id in text for row in table())
    assert len(reader.outline) >= 4 and str(out) in capsys.readouterr().out
    first = out.read_bytes()
    guide_command.main(["--out", str(out), "--paper", "a4", "--date", "2026-01-01"])
    assert out.read_bytes() == first  # same day, same guide


def test_bad_words(tmp_path):
    with pytest.raises(BenchError, match="no name of a PDF"):
        guide_command.main(["--out", str(tmp_path / "guide.txt")])
    with pytest.raises(BenchError, match="not a day"):
        guide_command.main(["--out", str(tmp_path / "guide.pdf"), "--date", "May"])
    with pytest.raises(StorageError, match="folder"):
        guide_command.main(["--out", str(tmp_path / "nowhere" / "guide.pdf")])
    assert list(tmp_path.iterdir()) == []
