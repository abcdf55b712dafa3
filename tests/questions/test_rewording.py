"""Every sentence of the course is reworded at its source, and gradings, answer files, counts and keys stay what they are."""

from functools import cache

import pytest

from tests.questions import graded
from tests.rewording import Raised, outcome, outcomes

FUNCTIONS = [graded.gradings, graded.migrated, graded.counted, graded.recognised, graded.keys]


@cache
def run(reword: bool) -> dict:
    """What all of them return, in one Python."""
    return outcomes([f"tests.questions.graded:{function.__name__}" for function in FUNCTIONS], reword=reword)


def found_by(function, reword: bool = False) -> list:
    found = run(reword)[f"tests.questions.graded:{function.__name__}"]
    assert not isinstance(found, Raised), found
    return found


@pytest.mark.parametrize("function", FUNCTIONS, ids=lambda function: function.__name__)
def test_no_sentence_steers(function):
    plain, other = found_by(function), found_by(function, reword=True)
    different = [(one, two) for one, two in zip(plain, other, strict=True) if one != two]
    assert different == [], f"{len(different)} of {len(plain)}; the first: {different[:1]}"


def test_every_question_is_graded_in_many_ways():
    """What the comparison above rests on: right is right, and each wrong answer carries its slip."""
    found = found_by(graded.gradings)
    assert len({lesson for lesson, *_ in found}) >= 14 and len(found) > 500
    for lesson, question, number, _kind, slips, rows in found:
        assert rows[0][1] == "right", (lesson, question, number)
        for slip, (_, status, behind, _) in zip(slips, rows[1:]):
            assert (status, slip in behind) == ("mistake", True), (lesson, question, number, slip)
    assert {row[1] for *_, rows in found for row in rows} == {"blank", "unreadable", "unit", "right", "mistake", "wrong"}


# --- the guard itself ---------------------------------------------------------------------------------------
WORDS = {
    "by_sentence": "from planted.order import STRIKE\ndef outcome():\n    return STRIKE == 'Strike the witness line'\n",
    "by_beginning": "from planted.order import title\ndef outcome():\n    return title(2).startswith('Square the end ') and title(2)[-1] == '2'\n",
    "by_ending": "from planted.order import STRIKE\ndef outcome():\n    return STRIKE.removesuffix(' line') != STRIKE\n",
    "by_search": "from planted.order import STRIKE\ndef outcome():\n    return 'witness line' in STRIKE\n",
    "by_letters": "from planted.order import STRIKE\ndef outcome():\n    return 'witness' in STRIKE\n",
    "by_key": "from planted.order import STRIKE\ndef outcome():\n    return {'Strike the witness line': 'witness'}.get(STRIKE)\n",
    "by_join": "from planted.order import BOTH\ndef outcome():\n    return BOTH.split(' or that of ')\n",
    "by_id": "from planted.order import WORDS, title\ndef outcome():\n    return [list(WORDS), len(title(1)) > 10, title(1)[-1]]\n",
}
PLANTED = {
    "__init__": "",
    "order": "STRIKE = 'Strike the witness line'\nWORDS = {'witness': STRIKE, 'length': 'Cut to length'}\nBOTH = 'the end of leg A or that of leg B'\n"
    "def title(end):\n    return f'Square the end {end}'\n",
    **WORDS,
}


@pytest.fixture(scope="module")
def planted(tmp_path_factory):
    """What the planted modules give, as they are and reworded."""
    root = tmp_path_factory.mktemp("planted")
    (root / "planted").mkdir()
    for name, source in PLANTED.items():
        (root / "planted" / f"{name}.py").write_text(source)
    return [outcomes([f"planted.{module}:outcome" for module in WORDS], package="planted", root=root, reword=reword) for reword in (False, True)]


@pytest.mark.parametrize("module", WORDS)
def test_a_comparison_of_english_is_seen(planted, module: str):
    """Planted: modules of a small package that go by another module's sentence, by its beginning or end, by a search, a key, its parts; and one by ids."""
    plain, other = (found[f"planted.{module}:outcome"] for found in planted)
    assert not isinstance(plain, Raised) and not isinstance(other, Raised)
    assert (plain == other) is (module == "by_id")
    assert plain not in (False, None)


def test_what_cannot_be_run_is_told(tmp_path):
    with pytest.raises(AssertionError, match="No module named 'nothing_here'"):
        outcome("nothing_here:outcome", root=tmp_path)
