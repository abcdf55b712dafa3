"""Every formula of the course, each stated once, with sympy. What runs takes :mod:`anglelib.geometry.ready_formulas`, which is written from here."""

from anglelib.geometry.formulas.allowance import *  # noqa: F403
from anglelib.geometry.formulas.compound import *  # noqa: F403
from anglelib.geometry.formulas.holes import *  # noqa: F403
from anglelib.geometry.formulas.noise import *  # noqa: F403
from anglelib.geometry.formulas.rounding import *  # noqa: F403
from anglelib.geometry.formulas.saw import *  # noqa: F403
from anglelib.geometry.formulas.section import *  # noqa: F403
from anglelib.geometry.formulas.squaring import *  # noqa: F403
from anglelib.geometry.formulas.state import STATED
from anglelib.geometry.formulas.stock import *  # noqa: F403
from anglelib.geometry.formulas.taper import *  # noqa: F403
from anglelib.geometry.formulas.throat import *  # noqa: F403
from anglelib.geometry.quantities import QUANTITIES

ALL = tuple(STATED)
