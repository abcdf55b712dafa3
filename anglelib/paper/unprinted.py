"""Names and notes that a print cannot show, since its font has no such letters: said before somebody prints them.

>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> bar = Part("A1", "\u5e8a bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", 6)
>>> unprinted(Job("Demo", Shop(), [bar]), Rack([]))
('\u5e8a bar',)
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.drawing.pdf import as_printed, lacking
from anglelib.job import Job
from anglelib.stock.rack import Rack

MOST = 3
"""How many are written out."""


def unprinted(job: Job, rack: Rack) -> tuple[str, ...]:
    """The names and notes of a job and of a rack that have letters which cannot be printed, each once."""
    texts = [job.name, *(text for part in job.parts for text in (part.name, part.note)), *(text for stick in rack.sticks for text in (stick.note, stick.lot))]
    return tuple(dict.fromkeys(text for text in texts if not text.isascii() and lacking(text)))


def unprinted_words(texts: Sequence[str]) -> str:
    """What is said of them; "" where there are none."""
    if not texts:
        return ""
    pairs = [f"\u201c{text}\u201d as \u201c{as_printed(text)}\u201d" for text in texts[:MOST]]
    more = f", and {len(texts) - MOST} more" if len(texts) > MOST else ""
    return f"The font of the print lacks some letters. It shows {', '.join(pairs)}{more}: write the name in other letters too, or add it by hand."
