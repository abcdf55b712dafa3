"""A job of 500 pieces and a rack for it: the demo's kit again and again, each time a little longer.

    python tests/benchmarks/big_job.py FOLDER       writes job.toml and rack.csv
"""

from __future__ import annotations

import sys
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from anglelib.files import read_both, save_job, save_rack
from anglelib.job import Job
from anglelib.part import Part
from anglelib.stock.rack import Rack

PIECES = 500
DEMO = Path(__file__).resolve().parents[2] / "notebooks" / "demo"


def big_job() -> tuple[Job, Rack]:
    """120 parts or so of 500 pieces, with every feature that the demo's have; sticks enough."""
    job, record = read_both(str(DEMO / "job.toml"), str(DEMO / "rack.csv"))
    parts: list[Part] = []
    turn = 0
    while sum(part.quantity for part in parts) < PIECES:
        turn += 1
        for part in job.parts:
            longer = part.length + (Fraction(turn, 8) if part.section.equal_legs and part.hand != "neither" else 0)  # hands stay what they are
            partner = f"{part.mirror_of}-{turn}" if part.mirror_of else ""
            parts.append(replace(part, id=f"{part.id}-{turn}", length=longer, mirror_of=partner, only_stick="", pinned=(), not_from=()))
    while sum(part.quantity for part in parts) > PIECES:  # the last turn is not wanted whole
        part = max((part for part in parts if part.quantity > 1), key=lambda part: (part.quantity, part.id))
        parts[parts.index(part)] = replace(part, quantity=part.quantity - 1)
    sticks = [replace(stick, id=f"{stick.id}-{n}") for n in range(1, turn + 4) for stick in record.rack.sticks]
    return Job("Six kits", job.shop, parts, job.unit, job.limits), Rack(sticks)


def write(folder: Path) -> list[str]:
    """Writes both files; their names."""
    job, rack = big_job()
    files = [str(folder / "job.toml"), str(folder / "rack.csv")]
    save_job(job, files[0])
    save_rack(rack, files[1])
    return files


if __name__ == "__main__":
    print(*write(Path(sys.argv[1])))
