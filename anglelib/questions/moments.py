"""When something was answered: a moment as text, in UTC, so that it means the same wherever the learner travels.

>>> from datetime import timedelta, timezone
>>> written(datetime(2026, 12, 1, 1, 30, tzinfo=timezone(timedelta(hours=2))))
'2026-11-30T23:30:00Z'
>>> read("2026-11-30T23:30:00Z") == datetime(2026, 11, 30, 23, 30, tzinfo=UTC), read("yesterday"), read("")
(True, None, None)
"""

from __future__ import annotations

from datetime import UTC, datetime


def now() -> datetime:
    """This moment, in the zone of this computer."""
    return datetime.now(UTC).astimezone()


def written(moment: datetime) -> str:
    """A moment as an answer file has it, to the second."""
    return moment.astimezone(UTC).replace(microsecond=0, tzinfo=None).isoformat() + "Z"


def read(text: str) -> datetime | None:
    """The moment that a text means; None where it means none."""
    try:
        return datetime.fromisoformat(text) if text.endswith("Z") else None
    except ValueError:
        return None
