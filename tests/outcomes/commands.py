"""The command line: exit codes, files written, and the numbers in what is printed."""

from __future__ import annotations

import io
import os
import shutil
from collections.abc import Sequence
from contextlib import chdir, redirect_stderr, redirect_stdout
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from tests.outcomes.facts import figures

DEMO = Path(__file__).resolve().parents[2] / "notebooks" / "demo"
FILES = ("job.toml", "rack.csv")
OFFERS = """format,leg_a,leg_b,thickness_a,fillet,alloy,length,price,most
1,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,6 ft,$14.00,
1,3/4 in,3/4 in,1/16 in,1/16 in,6061-T6,8 ft,$9.00,3
1,1 1/4 in,1 1/4 in,1/8 in,1/8 in,6061-T6,8 ft,,
"""
RUN = (
    ("plan", *FILES),
    ("plan", *FILES, "--one", "3/4 x 3/4 x 1/8", "6061-T6", "17 1/4"),
    ("plan", *FILES, "--one", "3/4 x 3/4 x 1/8 fillet 1/8", "6061-T6", "200"),
    ("plan", *FILES, "--done", "S-05"),
    ("plan", *FILES, "--done", "S-01: A3, 2 x A4"),
    ("plan", *FILES, "--done", "S-01: A3"),
    ("plan", *FILES, "--spoiled", "S-01: A3"),
    ("plan", *FILES, "--buy"),
    ("plan", *FILES, "--undo", "S-01"),
    ("pack", *FILES, "--out", "pack", "--sheets", "cards,tags"),
    ("pack", *FILES, "--out", "pack", "--sheets", "stickers"),
    ("check", "--job", "job.toml", "--form", "readings.csv", "--codes", "K01,K02", "--parts", "A3,E2L"),
    ("check", "--job", "job.toml", "readings.csv"),
    ("export", "job.toml", "--part", "E2L", "--what", "csv,svg", "--out", "out"),
    ("export", "job.toml", "--part", "Z9", "--out", "out"),
    ("stuck", "nowhere"),
)
BUYING = (
    ("buy", "job.toml", "short.csv", "--out", "buy"),
    ("buy", "job.toml", "short.csv", "--bought", "1"),
    ("buy", "job.toml", "short.csv", "--bought", "2: 95"),
    ("buy", "job.toml", "short.csv", "--undo", "1"),
    ("buy", "job.toml", "--bought", "1", "--lot", "H4711"),
    ("buy", "job.toml", "short.csv", "--bought", "90"),
)


def buying() -> list[Any]:
    """What is bought by a list of offers, what came of it, and back."""
    return commands(BUYING)


def commands(run: Sequence[tuple[str, ...]] = RUN) -> list[Any]:
    """Some commands, one after another in one folder: the exit code of each, the numbers it says, the files there are then."""
    from anglelib.__main__ import main

    found = []
    with TemporaryDirectory() as folder, chdir(folder):
        for name in FILES:
            shutil.copy(DEMO / name, name)
        Path("short.csv").write_text("\n".join(Path("rack.csv").read_text().splitlines()[:9]) + "\n")
        Path("short.offers.csv").write_text(OFFERS)
        for words in run:
            said, refused = io.StringIO(), io.StringIO()
            with redirect_stdout(said), redirect_stderr(refused):
                try:
                    code = main(words)
                except SystemExit as stop:  # argparse
                    code = stop.code
            files = sorted(str(Path(path, name).relative_to(folder)) for path, _, names in os.walk(folder) for name in names if "." in name)
            found.append([words[0], code, figures(said.getvalue().replace(folder, "")), bool(refused.getvalue()), files])
    return found
