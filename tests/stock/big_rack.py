"""A rack on which a search takes long, and the command in a process of its own that is stopped in the middle of it."""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from fractions import Fraction as F
from pathlib import Path
from random import Random

from anglelib.files import save_job, save_rack
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick

PIECES = 194
TOLD = """
import sys
from anglelib.stock import planner
from anglelib.__main__ import main
settle = planner.settle
def told(*given, **how):
    print("searching", file=sys.stderr, flush=True)
    return settle(*given, **how)
planner.settle = told
sys.exit(main(sys.argv[1:]))
"""


def big_rack(folder: Path) -> list[str]:
    """500 remnants of three sections, and parts enough that no search ends soon: the job's file and the rack's."""
    dice = Random("big rack 1")
    sections = [Section(F(n, 4), F(n, 4), "1/8", fillet="1/8") for n in (3, 4, 5)]
    parts = [Part(f"P{n:03}", "Part", sections[n % 3], "6061-T6", F(dice.randint(64, 800), 16), quantity=dice.randint(1, 6)) for n in range(60)]
    sticks = [Stick(f"S-{n:03}", sections[n % 3], "6061-T6", F(dice.randint(160, 1152), 8), "1/16", "1/16", remnant=True) for n in range(500)]
    files = [str(folder / "job.toml"), str(folder / "rack.csv")]
    save_job(Job("Big kit", Shop(), parts), files[0])
    save_rack(Rack(sticks), files[1])
    return files


def interrupted(*words: str, after: float = 0.5, times: int = 1) -> tuple[int, str, str, float]:
    """A command that gets Ctrl-C so many seconds after its search began: its exit code, what it said, and how long it still took [s]."""
    process = subprocess.Popen([sys.executable, "-c", TOLD, *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    try:
        assert process.stderr.readline() == "searching\n"
        for _ in range(times):
            time.sleep(after)
            process.send_signal(signal.SIGINT)
        begun = time.monotonic()
        out, wrong = process.communicate(timeout=120)
        return process.returncode, out, wrong, time.monotonic() - begun
    finally:
        process.kill()
