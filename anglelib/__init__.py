"""Making structural parts from aluminium angle: marks, checks, drawings, stock plans.

Importing the package loads nothing else; take what you need from its modules, for example
``from anglelib.part import Part``. This file alone is read by any Python, so that an old one says what it is.
"""

import sys

__version__ = "1.0.0"

OLDEST = (3, 11)
"""The oldest Python that runs this."""

if sys.version_info < OLDEST:
    _this = tuple(sys.version_info[:2]) + (sys.executable,)
    _sentence = "The course needs Python %d.%d or later, and this is Python %d.%d (%s). " % (OLDEST + _this)  # noqa: UP031 (read by old ones)
    _sentence += "Where there is a later one (python3.12, say), remove the folder .venv and run the README's first command line with it; else "
    _sentence += "install one first."
    if sys.argv[:1] in (["-m"], ["-c"]):  # so it is while "python -m anglelib" looks for what to run
        sys.exit(_sentence)
    raise ImportError(_sentence)
