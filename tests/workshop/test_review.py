"""What comes back and when: the days written out by hand, over midnight, in other zones, with clocks that are wrong."""

from datetime import UTC, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest

from anglelib.questions.answer import PUT_BACK, Answer
from anglelib.questions.moments import written
from anglelib.workshop.own_questions import OWN
from anglelib.workshop.review import DAYS, Item, Reviewed, review
from anglelib.workshop.review_words import due_words, why_words

LESSON, ASKED, SLIP = "07_taper_inside", "07-project", "offset-as-thickness"
MAY = datetime(2027, 5, 3, 19, 0, tzinfo=UTC)  # a Monday evening


def given(*answers: tuple[str, datetime | str], question: str = ASKED) -> dict:
    """Answers to one exercise: each its grade and its moment."""
    rows = [
        Answer(question, n, "1", status, (SLIP,) if status == "mistake" else (), at if isinstance(at, str) else written(at))
        for n, (status, at) in enumerate(answers)
    ]
    return {LESSON: tuple(rows)}


def left(answers: dict, now: datetime) -> int | None:
    """How many days until the one exercise of these answers comes back; None where it does not."""
    found = review(answers, now)
    items = (*found.due, *found.later)
    assert len(items) <= 1
    return items[0].days if items else None


def days(number: float) -> datetime:
    return MAY + timedelta(days=number)


def test_the_days_of_the_rule():
    """Wrong on Monday 3 May, then right each time that it is due: 4, 7, 14 May, 4 June; then it is over."""
    course = [("mistake", MAY)]
    assert left(given(*course), days(0.01)) == 0
    course.append(("right", days(0.01)))
    for day, wait in ((1, 1), (4, 3), (11, 7), (32, 21)):
        asked_at = days(day)
        assert left(given(*course), asked_at - timedelta(days=1)) == 1 and left(given(*course), asked_at) == 0
        assert left(given(*course), asked_at - timedelta(days=wait)) == wait
        course.append(("right", asked_at))
    assert left(given(*course), days(33)) is None and left(given(*course), days(3000)) is None
    assert DAYS == (1, 3, 7, 21)


def test_a_wrong_answer_goes_back_to_the_start():
    course = [("mistake", MAY), ("right", days(0.01)), ("right", days(1)), ("wrong", days(4))]
    assert left(given(*course), days(4.1)) == 0
    course.append(("right", days(4.1)))
    assert left(given(*course), days(4.2)) == 1


def test_to_practise_three_times_in_one_evening_is_not_to_remember_for_a_week():
    course = [("mistake", MAY), *(("right", MAY + timedelta(minutes=n)) for n in range(1, 9))]
    assert left(given(*course), days(0.1)) == 1 and left(given(*course), days(1)) == 0


def test_nothing_that_was_right_at_once_comes_back_and_what_was_not_understood_is_no_answer():
    assert review(given(("right", MAY)), days(50)) == Reviewed((), ())
    assert review(given(("unreadable", MAY), ("blank", MAY), (PUT_BACK, MAY)), days(50)) == Reviewed((), ())
    assert left(given(("mistake", MAY), ("right", MAY), (PUT_BACK, days(1))), days(0.1)) == 1  # put back is not wrong


def test_over_midnight():
    """Right at ten to twelve: the evening goes on after midnight, and the next day is the next day."""
    late = datetime(2027, 5, 3, 23, 50, tzinfo=UTC)
    course = given(("mistake", late), ("right", late))
    assert left(course, late + timedelta(minutes=20)) == 1
    assert left(course, datetime(2027, 5, 4, 3, 59, tzinfo=UTC)) == 1 and left(course, datetime(2027, 5, 4, 4, 1, tzinfo=UTC)) == 0


@pytest.mark.parametrize("hours", [-11, -5, 0, 2, 5.75, 13])
def test_the_days_are_those_of_where_the_learner_is(hours):
    zone = timezone(timedelta(hours=hours))
    evening = datetime(2027, 5, 3, 21, 0, tzinfo=zone)
    course = given(("mistake", evening), ("right", evening))
    assert left(course, datetime(2027, 5, 3, 23, 59, tzinfo=zone)) == 1 and left(course, datetime(2027, 5, 4, 7, 0, tzinfo=zone)) == 0


def test_who_flies_west_is_not_asked_twice_on_one_day_and_who_flies_east_not_a_day_late():
    tokyo, hawaii = ZoneInfo("Asia/Tokyo"), ZoneInfo("Pacific/Honolulu")
    morning = datetime(2027, 5, 4, 9, 0, tzinfo=tokyo)  # in Hawaii it is 2 p.m. of the third
    course = given(("mistake", morning), ("right", morning))
    assert left(course, datetime(2027, 5, 3, 22, 0, tzinfo=hawaii)) == 1
    assert left(course, datetime(2027, 5, 4, 9, 0, tzinfo=hawaii)) == 0
    evening = datetime(2027, 5, 3, 20, 0, tzinfo=hawaii)  # in Tokyo 3 p.m. of the fourth
    assert left(given(("mistake", evening), ("right", evening)), datetime(2027, 5, 5, 8, 0, tzinfo=tokyo)) == 0


def test_summer_time_moves_nothing():
    zone = ZoneInfo("Europe/Berlin")
    before = datetime(2027, 3, 27, 20, 0, tzinfo=zone)
    course = given(("mistake", before), ("right", before))
    assert [left(course, datetime(2027, 3, 28, hour, 30, tzinfo=zone)) for hour in (1, 3, 5)] == [1, 1, 0]


# --- clocks ------------------------------------------------------------------------------------------------------
def test_a_clock_that_went_back_asks_too_soon_rather_than_never():
    ahead = MAY + timedelta(days=900)  # the clock was wrong by years, and was put right
    course = [("mistake", ahead), ("right", ahead)]
    assert left(given(*course), MAY) == 0
    course.append(("right", MAY))  # answered: from here on it counts
    assert left(given(*course), days(0.1)) == 3 and left(given(*course), days(3)) == 0


def test_a_clock_that_went_back_by_an_hour_changes_nothing():
    course = given(("mistake", MAY), ("right", MAY))
    assert left(course, MAY - timedelta(hours=1)) == 1 and left(course, days(1)) == 0


def test_a_clock_that_lost_its_battery():
    """Everything seems to lie in the future: it is all due, nothing raises, and the answers of today count as soon as the clock is right."""
    dead = datetime(2001, 1, 1, tzinfo=UTC)
    course = [("mistake", MAY), ("right", MAY)]
    assert left(given(*course), dead) == 0
    course.append(("right", dead + timedelta(minutes=5)))
    assert left(given(*course), dead + timedelta(hours=1)) is not None and left(given(*course), days(4)) == 0


def test_between_two_clocks_a_right_answer_before_the_last_step_begins_its_days_anew():
    course = [("mistake", days(2)), ("right", days(2)), ("right", days(0.5))]
    assert left(given(*course), days(1.6)) == 0


def test_answers_of_files_without_moments_are_due_at_once_and_count_from_the_next():
    course = [("mistake", ""), ("right", ""), ("right", ""), ("right", "soon")]
    assert left(given(*course), MAY) == 0
    assert left(given(*course, ("right", MAY)), days(0.1)) == 3


# --- what is asked -------------------------------------------------------------------------------------------------
def test_a_slip_in_a_prediction_brings_the_exercise_that_knows_it():
    wrong = Answer("predict-the-mark", 0, "1/8", "mistake", (SLIP,), written(MAY))
    found = review({LESSON: (wrong,)}, days(1)).due
    assert [(item.question, item.by, item.slips, item.number) for item in found] == [(ASKED, "predict-the-mark", (SLIP,), 1)]
    assert "an answer in the lesson that was not right: offset taken to be the thickness" in why_words(found[0])
    assert review({LESSON: (Answer("predict-the-mark", 0, "9", "wrong", (), written(MAY)),)}, days(1)) == Reviewed((), ())
    assert review({LESSON: (Answer("no-such-question", 0, "9", "mistake", (SLIP,), written(MAY)),)}, days(1)) == Reviewed((), ())


def test_the_numbers_are_fresh_and_begin_again_in_the_end():
    rows = given(*[("mistake", MAY)] * 3)
    assert review(rows, MAY).due[0].number == 3
    last = Answer(ASKED, 49, "1", "mistake", (SLIP,), written(MAY))
    assert review({LESSON: (last,)}, MAY).due[0].number == 0


def test_an_unknown_slip_is_not_named():
    found = review({LESSON: (Answer(ASKED, 0, "1", "mistake", ("of-long-ago",), written(MAY)),)}, MAY).due
    assert found[0].slips == () and why_words(found[0]).endswith("was not right.")


def test_the_order_is_the_order_of_the_lessons_and_later_the_soonest_first():
    rows = {
        "09_holes_and_what_if": given(("mistake", MAY), question="09-edge")[LESSON],
        LESSON: given(("mistake", MAY), ("right", MAY))[LESSON],
        "00_start_here": given(("wrong", MAY), question=OWN["00_start_here"].exercises[0])[LESSON],
        "04_mark_along_heel": given(("wrong", MAY), ("right", MAY), ("right", days(1)), question="04-set")[LESSON],
    }
    found = review(rows, days(1.1))
    assert [item.lesson[:2] for item in found.due] == ["00", "07", "09"]
    assert [(item.lesson[:2], item.days) for item in found.later] == [("04", 3)]
    assert due_words(found, days(1.1)) == "3 questions are due."


def test_when_the_next_is():
    course = given(("mistake", MAY), ("right", MAY))
    assert due_words(review(course, MAY), MAY).endswith("comes back tomorrow.")
    course = given(("mistake", MAY), ("right", MAY), ("right", days(1)))
    assert due_words(review(course, days(1)), days(1)).endswith("comes back on Friday, 7 May.")
    late = datetime(2027, 5, 5, 1, 0, tzinfo=UTC)  # the night of the fourth
    assert due_words(review(course, late), late).endswith("comes back on Friday, 7 May.")
    assert due_words(Reviewed((), ()), MAY).startswith("Nothing is due. An exercise that goes wrong comes back")
    assert due_words(Reviewed((Item(LESSON, ASKED, 0, ASKED, (), 0, 0),), ()), MAY) == "One question is due."
