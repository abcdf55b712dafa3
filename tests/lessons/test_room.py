"""The room is the same on every page, also on one whose kernel was made ready beforehand."""

from anglelib.lessons.room import Room


def test_a_kernel_that_waited_knows_what_was_chosen_meanwhile(tmp_path):
    waiting = Room(tmp_path)
    Room(tmp_path).theme = "projector"
    assert waiting.theme == "projector"
    waiting.theme = "screen"
    assert Room(tmp_path).theme == "screen"
