"""Making structural parts from aluminium angle: marks, checks, drawings, stock plans.

Importing the package loads nothing else; take what you need from its modules, for example
``from anglelib.part import Part``.
"""

__version__ = "1.0.0"
