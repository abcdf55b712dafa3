"""The pictures of the lessons as a real browser draws them, in the font that they ask for and in another one: words measured and looked at there.

A picture of each kind in the tests; every page as it opens, answered and at the ends of its controls in the slow tier.
"""

import sys
from pathlib import Path

import pytest

EYE = Path(__file__).resolve().parents[1] / "eye"
sys.path.insert(0, str(EYE))
import browser_reader  # noqa: E402
import papers  # noqa: E402
import shown  # noqa: E402
from judges import faults  # noqa: E402
from tolerated import not_tolerated  # noqa: E402

from anglelib.job import Shop  # noqa: E402
from anglelib.paper.flat_svg import FACTORS, flat_svg  # noqa: E402
from anglelib.paper.flat_views import flat_views  # noqa: E402

sys.path.remove(str(EYE))
OTHER = "Liberation Sans"
"""A font of other widths, as on a machine without the first: its letters are pulled to the width that the drawing gives them."""
OF_FONT = {"small", "stretched"}
"""What another font's own shape brings with it."""


@pytest.fixture(autouse=True)
def own_folder(monkeypatch, tmp_path):
    """The learner's folder, empty."""
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path))


@pytest.fixture
def page(browser):
    made = browser.new_page()
    yield made
    made.close()


def unfit(page, found, theme="screen"):
    wrong, seen = [], set()
    for name, text in found:
        if text in seen:
            continue
        seen.add(text)
        for font in ("", OTHER):
            look = browser_reader.look(page, text, name, least=shown.least(text, theme), font=font)
            kept = [fault for fault in faults(look) if not font or fault.kind not in OF_FONT]
            wrong += [f"{name}{font and ' in ' + font}: {fault}" for fault in not_tolerated(f"{name} ({theme})", kept)]
    return wrong, len(seen)


def test_the_browser_finds_what_is_planted(page):
    text = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 120 80" font-family="DejaVu Sans, Verdana, sans-serif"><path fill="#ffffff" d="M0 0H120V80H0Z"/>'
        '<text x="20" y="50" font-size="3.6" fill="#161616">Cleat (1 of 6)</text>{}</svg>'
    )
    planted = {
        "": set(),
        '<text x="22" y="51.5" font-size="3.6" fill="#161616">datum</text>': {"overlap"},
        '<path fill="none" stroke="#161616" stroke-width="0.35" d="M10 49L50 49"/>': {"struck", "touched"},
        '<path fill="#ffffff" d="M19 45H30V52H19Z"/>': {"hidden"},
        '<text x="112" y="20" font-size="3.6" fill="#161616">cut off</text>': {"cut"},
        '<text x="20" y="20" font-size="3" fill="#161616">small</text>': {"small"},
        '<text x="20" y="20" font-size="3.6" textLength="12" lengthAdjust="spacingAndGlyphs" fill="#161616">squeezed</text>': {"stretched"},
        '<text x="20" y="20" font-size="3.6" fill="#999999">pale</text>': {"faint"},
    }
    for more, kinds in planted.items():
        assert {fault.kind for fault in faults(browser_reader.look(page, text.replace("{}", more)))} == kinds, more


@pytest.mark.slow
@pytest.mark.parametrize("theme", ["screen", "projector"])
@pytest.mark.parametrize("lesson", shown.PAGES, ids=lambda one: one.path.stem)
def test_every_picture_as_the_browser_draws_it(page, lesson, theme):
    wrong, count = unfit(page, shown.in_room(theme, lambda: shown.of_page(lesson, theme, most=2)), theme)
    assert wrong == [] and (count or lesson.path.stem in ("home",))


@pytest.mark.slow
@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("name", papers.PARTS)
def test_every_exported_view_as_the_browser_draws_it(page, name, unit):
    wrong = []
    for view in flat_views(papers.PARTS[name], Shop(), unit):
        look = browser_reader.look(page, flat_svg(view, unit), view.name, unit=FACTORS["mm"] / FACTORS[unit])
        wrong += [f"{name}, {view.name}: {fault}" for fault in not_tolerated(f"view {view.name} of {name}", faults(look))]
    assert wrong == []
