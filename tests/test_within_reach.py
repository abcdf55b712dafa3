"""What the plain pages' script is told of the committed figures holds: which have fine letters, and how many dots a millimetre is."""

import struct

from anglelib import within_reach
from anglelib.drawing.sheet import Label
from tests.refresh import FIGURES, figure_modules


def test_the_figures_with_fine_letters_are_known():
    drawn = {name: sheet for module in figure_modules() for name, sheet in module.figures().items()}
    least = {name: min(item.height for item in sheet.items if isinstance(item, Label) and item.text.strip()) for name, sheet in drawn.items()}
    fine = {name.removesuffix(".png") for name, letters in least.items() if letters < within_reach.FIGURE_LETTERS}
    assert fine and fine <= set(within_reach.FINE) <= {name.removesuffix(".png") for name in drawn}  # one too many is only drawn larger
    assert min(least.values()) == within_reach.FINE_LETTERS
    for name, sheet in drawn.items():
        dots = struct.unpack(">I", (FIGURES / name).read_bytes()[16:20])[0]
        assert abs(dots / sheet.width - within_reach.FIGURE_DOTS) < 0.02, name


def test_what_a_figure_measures_stands_behind_it():
    assert within_reach.with_letters("![A card.](figures/12_make_part_layout.png)").endswith('<span data-letters="2.5"></span>')
    assert "data-letters" not in within_reach.with_letters("Words. ![A rule.](figures/07_taper_inside.png)")
