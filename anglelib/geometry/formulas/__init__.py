"""Every formula of the course, each stated once. Only this package and :mod:`anglelib.geometry.formula` import sympy."""

from anglelib.geometry.formulas.allowance import *  # noqa: F403
from anglelib.geometry.formulas.compound import *  # noqa: F403
from anglelib.geometry.formulas.holes import *  # noqa: F403
from anglelib.geometry.formulas.noise import *  # noqa: F403
from anglelib.geometry.formulas.quantities import QUANTITIES
from anglelib.geometry.formulas.rounding import *  # noqa: F403
from anglelib.geometry.formulas.saw import *  # noqa: F403
from anglelib.geometry.formulas.section import *  # noqa: F403
from anglelib.geometry.formulas.squaring import *  # noqa: F403
from anglelib.geometry.formulas.state import STATED
from anglelib.geometry.formulas.stock import *  # noqa: F403
from anglelib.geometry.formulas.taper import *  # noqa: F403

ALL = tuple(STATED)
