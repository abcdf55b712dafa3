"""Write down where each mistake is shown by name, so that nobody who opens the instructor's page waits for its being gathered.

    python -m tests.mistakes_shown

writes ``anglelib/workshop/mistakes_shown.py``, which is never edited by hand; ``tests/workshop/test_guide.py`` holds it to what is gathered.
"""

from __future__ import annotations

import sys
from pathlib import Path

from anglelib.workshop.mistakes_gathered import gathered

SHOWN = Path(__file__).resolve().parents[1] / "anglelib" / "workshop" / "mistakes_shown.py"
HEAD = '''"""Where each mistake is shown by name: written by ``python -m tests.mistakes_shown`` from the lessons' questions, never by hand.

By mistake and lesson the letters of :data:`~anglelib.workshop.mistake_table.WAYS`.
"""

SHOWN = {
'''


def text() -> str:
    """The whole module."""
    found = {id_: ", ".join(f'"{lesson}": "{ways}"' for lesson, ways in lessons.items()) for id_, lessons in gathered().items()}
    rows = "".join(f'    "{id_}": {{{lessons}}},\n' for id_, lessons in found.items())
    return f"{HEAD}{rows}}}\n"


def main() -> int:
    SHOWN.write_text(text(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
