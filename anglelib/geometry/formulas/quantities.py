"""The letters of the quantities as sympy's symbols, so that a formula reads as it is written on paper.

>>> W - s
W - s
"""

from __future__ import annotations

import sympy

from anglelib.geometry.quantities import QUANTITIES

# Real, not positive: a positive symbol would let sympy drop a sign that the metal may have.
SYMBOLS = {letter: sympy.Symbol(letter, real=True) for letter in QUANTITIES}
globals().update(SYMBOLS)
