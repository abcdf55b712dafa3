"""What is taken for what: each place of an angle, and each letter of a formula, with those that it is mistaken for.

They are offered beside the right one, and a slip's id and name come from the two.

>>> slip_of("vertex", "heel"), TAKEN["vertex.for.heel"]
('vertex.for.heel', 'vertex for heel')
"""

from __future__ import annotations

from anglelib.drawing.place_names import WORDS

PLACES = {
    "heel": ("vertex", "fillet", "toe-A"),
    "toe-A": ("toe-B", "heel", "end-2"),
    "toe-B": ("toe-A", "heel", "fillet"),
    "outer-A": ("inner-A", "outer-B", "toe-A"),
    "inner-A": ("outer-A", "inner-B", "taper"),
    "outer-B": ("inner-B", "outer-A", "toe-B"),
    "inner-B": ("outer-B", "inner-A", "fillet"),
    "fillet": ("heel", "vertex", "inner-B"),
    "end-1": ("end-2", "toe-A", "taper"),
    "end-2": ("end-1", "toe-A", "taper"),
    "vertex": ("heel", "fillet", "toe-B"),
    "taper": ("toe-A", "run", "end-1"),
    "run": ("taper", "width-left", "toe-A"),
    "width-left": ("run", "end-1", "taper"),
}
"""Each place with what it is taken for."""

LETTERS = {
    "e_s": ("k", "d_w", "e"),
    "X": ("x", "L", "l_e"),
    "s": ("e_s", "W", "r"),
    "t": ("tA", "k", "W"),
    "k": ("e_s", "c", "d_f"),
    "e": ("e_s", "D", "r"),
    "theta": ("theta_q", "delta", "phi"),
    "r": ("rho", "r2", "Rh"),
}
"""Letters that are asked for, each with those it is taken for."""


def slip_of(taken: str, right: str) -> str:
    """The id of the slip that takes one for the other."""
    return f"{taken}.for.{right}"


TAKEN = {
    **{slip_of(taken, right): f"{WORDS[taken]} for {WORDS[right]}" for right, others in PLACES.items() for taken in others},
    slip_of("toe-B", "heel"): f"{WORDS['toe-B']} for {WORDS['heel']}",
    **{slip_of(taken, right): f"{taken} for {right}" for right, others in LETTERS.items() for taken in others},
}
"""The names of these slips by id."""
