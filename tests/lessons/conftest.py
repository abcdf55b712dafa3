"""For every test of a lesson: answers are kept in a folder of its own, and the pictures of one test are not drawn again in the next."""

import pytest

from anglelib.lessons.look import page_style, projector_switch
from anglelib.lessons.room import ROOM

page_style()  # the two that a page has once, which watch the room as long as the tests run
projector_switch()


@pytest.fixture(autouse=True)
def own_folder(monkeypatch, tmp_path):
    """The learner's folder, empty. Afterwards the room is a screen's again, and only who watched it before does so still."""
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path))
    watched = {name: {kind: list(calls) for kind, calls in kinds.items()} for name, kinds in ROOM._trait_notifiers.items()}
    yield tmp_path
    ROOM._trait_notifiers = watched
    ROOM.theme = "screen"
