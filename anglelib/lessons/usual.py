"""What most lessons need, in one import: a kernel that waits for its page has read it already."""

from anglelib.geometry import ready_formulas  # noqa: F401
from anglelib.inspection import wanted  # noqa: F401
from anglelib.lessons import ask_order, ask_picture, demo, formula_card, live, table  # noqa: F401
from anglelib.questions import recall  # noqa: F401
