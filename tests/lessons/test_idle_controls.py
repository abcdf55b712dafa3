"""A slider of a picture does something, or is out of reach and says why: at the picture's start, and at every choice beside it."""

import pytest
from lesson_checks import PAGES, thinned

from anglelib.lessons.controls import ChoiceControl, NumberControl
from anglelib.lessons.live import LivePicture, View

PLANS = pytest.mark.slow  # each place of lesson 11 is a plan
PICTURES = [pytest.param(page, id=page.path.stem, marks=[PLANS] if page.path.stem[:2] == "11" else []) for page in PAGES if page.path.stem[:2].isdigit()]


def places(control) -> list:
    """Some of the values that a slider has, with the next to either side of where it stands."""
    every = [*range(control.slider.min, control.slider.max + 1, control.slider.step)] if isinstance(control, NumberControl) else [*control.values]
    at = min(range(len(every)), key=lambda n: abs(every[n] - control.value))
    return [*thinned(every, 5), *every[max(0, at - 1) : at + 2]]


def standings(picture: LivePicture) -> list[dict]:
    """The values at the start, and with every choice."""
    found = [dict(picture.start)]
    for name, control in picture.controls.items():
        if isinstance(control, ChoiceControl):
            found += [{**picture.start, name: value} for value in control.offered if value != picture.start[name]]
    return found


@pytest.mark.parametrize("page", PICTURES)
def test_a_slider_does_something_or_says_why_not(page):
    for call, picture in page.boxes():
        if not isinstance(picture, LivePicture):
            continue
        sliders = {name: control for name, control in picture.controls.items() if hasattr(control, "slider")}
        for stands in standings(picture) if sliders else ():
            reasons = picture.idle(stands) if picture.idle is not None else {}
            assert set(reasons) <= set(sliders) and all(reasons.values())
            for name, control in sliders.items():
                drawn = [picture.draw({**stands, name: value}, View()) for value in places(control) if value or name not in reasons]
                same = all(sheet == drawn[0] for sheet in drawn)
                assert same is (name in reasons), (call, name, stands)
