"""What a command costs: the processor's time of a process with its children, so that another program on the machine weighs little."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path


def environment(tree: Path) -> dict[str, str]:
    """That of a user: the project from this folder, its modules compiled once and kept."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPATH": str(tree)}


def seconds(words: Sequence[str], tree: Path) -> float:
    """The processor's time of ``python WORDS`` in a folder of the project [s]; the words may exit with 0 or 3, which says that something is short."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run([sys.executable, *words], cwd=tree, env=environment(tree), stdout=subprocess.DEVNULL, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert done.returncode in (0, 3), words
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def least(words: Sequence[str], tree: Path, times: int = 3) -> float:
    """The least of several runs [s], after one that is not counted: what compiles, and what another program takes of the cache, is none of the command's."""
    return min([seconds(words, tree) for _ in range(times + 1)][1:])
