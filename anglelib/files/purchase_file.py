"""The purchase file: the purchase in hand, kept beside its job (my-job.purchase.json), plain JSON, written whole.

Its number is computed from what it says, so that a file that was changed by hand, or cut off, is noticed.
"""

from __future__ import annotations

import json
from contextlib import suppress
from dataclasses import dataclass
from os import PathLike
from pathlib import Path

from anglelib.contents_words import PURCHASE
from anglelib.errors import BenchError, PlanError
from anglelib.files.plan_codec import made, plain
from anglelib.files.plan_file import JOINED, beside_job
from anglelib.files.report import FORMAT
from anglelib.stock.to_buy import ToBuy
from anglelib.storage import Source, read_text, shown, write_text

ENDING = ".purchase.json"
MOST_BYTES = 4_000_000
WHAT = "The purchase in hand, by whose lines sticks are said to have come. Money is in hundredths. A change here is noticed and refused."


@dataclass(frozen=True)
class KeptPurchase:
    """The purchase in hand with its file as it was read."""

    purchase: ToBuy
    source: Source


def purchase_path(job_file: str | PathLike) -> Path:
    """Where the purchase for a job is kept.

    >>> purchase_path("kit/my-job.toml").name
    'my-job.purchase.json'
    """
    return beside_job(job_file, ENDING)


def read_purchase(job_file: str | PathLike) -> KeptPurchase | None:
    """The purchase in hand of a job; None where none is kept. Raises BenchError for a file that is none, or not any more what was written."""
    path = purchase_path(job_file)
    if not path.exists():
        return None
    source = read_text(path, MOST_BYTES, PURCHASE)
    return KeptPurchase(parse_purchase(source.text, shown(path)), source)


def purchases_beside(job_file: str | PathLike) -> list[tuple[str, ToBuy]]:
    """The other purchases for one of these jobs, alone or with others (tail.purchase.json, tail+wing.purchase.json), by their files; those that can be read."""
    home = purchase_path(job_file)
    jobs, found = set(home.name.removesuffix(ENDING).split(JOINED)), []
    for path in sorted(home.parent.glob(f"*{ENDING}")):
        if path.name != home.name and jobs & set(path.name.removesuffix(ENDING).split(JOINED)):
            with suppress(BenchError):
                found.append((path.name, parse_purchase(read_text(path, MOST_BYTES, PURCHASE).text, shown(path))))
    return found


def write_purchase(job_file: str | PathLike, purchase: ToBuy, kept: KeptPurchase | None = None, rack: str = "") -> KeptPurchase:
    """Keep a purchase in the place of the one that was ``kept`` so far, with the name of its rack file; raises StorageError, with nothing written."""
    return KeptPurchase(purchase, write_text(purchase_path(job_file), render_purchase(purchase, rack), kept.source if kept is not None else None))


def render_purchase(purchase: ToBuy, rack: str = "") -> str:
    """The purchase as JSON text; ``rack`` is the name of its rack file as it is seen from it ("": not known)."""
    said = {"what": WHAT, "format": FORMAT, "number": purchase.number} | ({"rack": rack} if rack else {})
    said |= {"purchase": {key: value for key, value in plain(purchase).items() if key != "number"}}
    return laid_out_purchase(said)


def laid_out_purchase(said: dict) -> str:
    """What a purchase file says, as its text."""
    return json.dumps(said, ensure_ascii=False, indent=1) + "\n"


def parse_purchase(text: str, file: str = f"job{ENDING}") -> ToBuy:
    """The purchase in hand from its text."""
    try:
        said = json.loads(text)
        if said["format"] != FORMAT:
            raise PlanError(f"{file} is of format {str(said['format'])[:8]}, and this library reads {FORMAT}: make the purchase anew (--anew).")
        found = made(ToBuy, {key: value for key, value in said["purchase"].items() if key != "number"})
    except PlanError:
        raise
    except (BenchError, ValueError, KeyError, TypeError, AttributeError, RecursionError, AssertionError):
        raise PlanError(f"{file} is no purchase file, or only part of one: take its previous version, or make the purchase anew (--anew).") from None
    if found.number != said.get("number"):
        raise PlanError(
            f"{file} says other things than when it was written (its number is {str(said.get('number'))[:12]}, what it says would be {found.number}): "
            "take its previous version, or make the purchase anew (--anew)."
        )
    return found
