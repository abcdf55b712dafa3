"""The rack of the plan or the purchase in hand: their files have the name of the rack file, so that a mark needs the job alone.

The name is kept as it is seen from the plan file, so that a folder that is moved, or copied, keeps its own. A plan file of earlier has none.
"""

from __future__ import annotations

import json
import os
from os import PathLike
from pathlib import Path

from anglelib.contents_words import PLAN, PURCHASE
from anglelib.errors import BenchError, PlanError
from anglelib.files.plan_file import MOST_BYTES, laid_out, plan_path
from anglelib.files.purchase_file import laid_out_purchase, purchase_path
from anglelib.storage import path_shown, read_text, shown, write_text


def name_beside(job_file: str | PathLike, rack_file: str | PathLike) -> str:
    """The name of a rack file as the plan file of a job has it: from the folder of that one, with / between its parts.

    >>> name_beside("kit/job.toml", "kit/rack.csv"), name_beside("kit/job.toml", "shop/racks/rack.csv")
    ('rack.csv', '../shop/racks/rack.csv')
    """
    folder = Path(os.path.abspath(plan_path(job_file))).parent
    try:
        return Path(os.path.relpath(os.path.abspath(rack_file), folder)).as_posix()
    except ValueError:  # on another drive
        return Path(os.path.abspath(rack_file)).as_posix()


def rack_of(job_file: str | PathLike) -> Path | None:
    """The rack file that the plan in hand of a job names, whether it is there or not; None where no plan, or no name, is kept."""
    try:
        return _path(job_file, _said(job_file).get("rack", ""))
    except (BenchError, ValueError, AttributeError):
        return None


def rack_of_purchase(job_file: str | PathLike) -> Path | None:
    """The same that the purchase in hand names."""
    try:
        path = purchase_path(job_file)
        return _path(job_file, json.loads(read_text(path, MOST_BYTES, PURCHASE).text).get("rack", "")) if path.is_file() else None
    except (BenchError, ValueError, AttributeError):
        return None


def rack_asked(job_file: str | PathLike, command: str) -> str:
    """The rack file of a job where none was named; BenchError, with how to name it, where it is not known or not there."""
    path, plan = rack_of(job_file) or rack_of_purchase(job_file), plan_path(job_file)
    if path is None and plan.exists() and Path(job_file).is_file():
        raise PlanError(f"{shown(plan)} does not say which rack it is for: name the rack file too, once: {command}.")
    if path is None:
        raise BenchError(f"Name the rack file too: {command}.")
    if not path.is_file():
        raise PlanError(f"The rack of the {'plan' if rack_of(job_file) else 'purchase'} in hand is not at {path_shown(path)} any more: if it was moved or renamed, name it where it is, once: {command}.")
    return str(path)


def remember(job_file: str | PathLike, rack_file: str | PathLike) -> None:
    """Keep the name of a rack in the files of plan and purchase, where they have none, or one of a file that is not there any more; where it cannot be kept, it is asked for again."""
    kept = ((plan_path(job_file), rack_of, PLAN, laid_out), (purchase_path(job_file), rack_of_purchase, PURCHASE, laid_out_purchase))
    for path, named, what, lay_out in kept:
        old = named(job_file)
        if old is not None and old.is_file() or not path.is_file():
            continue
        try:
            source = read_text(path, MOST_BYTES, what)
            said = json.loads(source.text)
            said["rack"] = name_beside(job_file, rack_file)
            write_text(path, lay_out(said), source)
        except (BenchError, OSError, ValueError, TypeError):
            continue


def another(job_file: str | PathLike, rack_file: str | PathLike) -> Path | None:
    """The rack of the plan in hand where another one is named and both are there; None where it is that one, or none is known."""
    old = rack_of(job_file)
    if old is None or not old.is_file() or not os.path.exists(rack_file) or os.path.samefile(old, rack_file):
        return None
    return old


def _said(job_file: str | PathLike) -> dict:
    path = plan_path(job_file)
    return json.loads(read_text(path, MOST_BYTES, PLAN).text) if path.is_file() else {}


def _path(job_file: str | PathLike, name: object) -> Path | None:
    if not isinstance(name, str) or not name.strip():
        return None
    found = plan_path(job_file).parent / name
    return Path(os.path.normpath(found))
