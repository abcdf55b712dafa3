"""What a learner reads of the copies for JupyterLab, when the course has a new version and when a fresh copy was made.

>>> print(*filled_words(Filled(left=("notebooks/demo/rack.csv",))))
The course has a new notebooks/demo/rack.csv, and you have changed yours: yours stays. For the course's: python -m anglelib course --fresh demo/rack.csv
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from anglelib.copies import Filled, Fresh


def filled_words(filled: Filled) -> tuple[str, ...]:
    """Sentences on what was renewed and kept; none of what was only copied.

    >>> from anglelib.copies import Kept
    >>> print(*filled_words(Filled(kept=(Kept("notebooks/07_a.ipynb", "notebooks/07_a_mine_2026-05-04.ipynb"),))))
    The course has a new notebooks/07_a.ipynb. You had changed yours, so it is kept beside it: notebooks/07_a_mine_2026-05-04.ipynb
    """
    return tuple(_sentences(filled))


def _sentences(filled: Filled) -> Iterator[str]:
    if filled.renewed:
        yield f"The course has a new version of {_several(filled.renewed)}, and your folder has it: you had changed nothing there."
    for kept in filled.kept:
        yield f"The course has a new {kept.name}. You had changed yours, so it is kept beside it: {kept.beside}"
    for name in filled.left:
        short = name.removeprefix("notebooks/")
        yield f"The course has a new {name}, and you have changed yours: yours stays. For the course's: python -m anglelib course --fresh {short}"


def _several(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{len(names)} files"


def fresh_words(made: Fresh) -> str:
    """What is said of a fresh copy.

    >>> print(fresh_words(Fresh("notebooks/07_a.ipynb")))
    notebooks/07_a.ipynb is now as the course has it. You had changed nothing in it.
    """
    kept = "You had changed nothing in it." if made.kept is None else f"What you had is kept beside it: {made.kept.beside}"
    return f"{made.name} is now as the course has it. {kept}"
