"""What the storage tests run in a process of its own, to be killed or to compete with others.

    python saver.py loop PATH        save ever new versions, and say each number once it is saved
    python saver.py step PATH N      save once, and die of SIGKILL at the N-th call to the system
    python saver.py count PATH N     N times: read the number in the file, save one more
"""

from __future__ import annotations

import os
import sys

from dying import die_at

from anglelib import storage
from anglelib.errors import StorageError


def version(number: int) -> str:
    """A long text that shows whether it is whole: its number on every line, and its length at the end."""
    return f"{number}\n" * 20_000 + f"end of {number}\n"


def number_of(text: str) -> int:
    """The number of a whole version; raises AssertionError for one that is not."""
    number = int(text[: text.index("\n")])
    assert text == version(number), "the file is neither one version nor another"
    return number


def loop(path: str) -> None:
    source = storage.read_text(path)
    number = number_of(source.text)
    while True:
        number += 1
        source = storage.write_text(path, version(number), source)
        os.write(1, f"{number}\n".encode())


def step(path: str, at: int) -> None:
    source = storage.read_text(path)
    die_at(at, ("open", "link", "unlink", "replace", "fsync", "chmod", "close", "stat", "fstat"))
    storage.write_text(path, version(number_of(source.text) + 1), source)


def count(path: str, times: int) -> None:
    for _ in range(times):
        while True:
            source = storage.read_text(path)
            try:
                storage.write_text(path, version(number_of(source.text) + 1), source)
                break
            except StorageError as error:
                assert "has changed on the disk" in str(error), error


if __name__ == "__main__":
    what, where, *rest = sys.argv[1:]
    {"loop": loop, "step": step, "count": count}[what](where, *map(int, rest))
