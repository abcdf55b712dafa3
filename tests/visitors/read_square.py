"""A reader of the square, by ISO/IEC 18004 and by nothing of the course: for the small ones whose data are one block (versions 1 to 5 at level L).

It reads a square that is whole, without its error correction: every small square counts.
"""

from __future__ import annotations

from collections.abc import Sequence

MASKS = (
    lambda y, x: (y + x) % 2, lambda y, x: y % 2, lambda y, x: x % 3, lambda y, x: (y + x) % 3, lambda y, x: (y // 2 + x // 3) % 2,
    lambda y, x: y * x % 2 + y * x % 3, lambda y, x: (y * x % 2 + y * x % 3) % 2, lambda y, x: ((y + x) % 2 + y * x % 3) % 2,
)  # fmt: skip
"""Table 10: where these are 0 a small square is turned over."""
FORMAT = 0b101010000010010


def text(rows: Sequence[Sequence[int]]) -> str:
    """What a square says."""
    side = len(rows)
    version = (side - 17) // 4
    assert side == 17 + 4 * version and 1 <= version <= 5 and all(len(row) == side for row in rows)
    for top, left in ((0, 0), (0, side - 7), (side - 7, 0)):  # the three corners that a camera looks for
        for y in range(7):
            for x in range(7):
                assert rows[top + y][left + x] == (max(abs(y - 3), abs(x - 3)) != 2)
    bits = int("".join(str(rows[8][x]) for x in (0, 1, 2, 3, 4, 5, 7, 8)) + "".join(str(rows[y][8]) for y in (7, 5, 4, 3, 2, 1, 0)), 2) ^ FORMAT
    mask = MASKS[bits >> 10 & 7]
    data = [
        rows[y][x] ^ (mask(y, x) == 0)
        for n, right in enumerate(x for x in range(side - 1, 0, -2) if True)
        for y, x in _strip(side, right - (right <= 6), n % 2)
        if not _function(side, version, y, x)
    ]
    return _bytes(data, 8 if version < 10 else 16)


def _strip(side: int, right: int, down: int):
    for step in range(side):
        y = step if down else side - 1 - step
        yield y, right
        yield y, right - 1


def _function(side: int, version: int, y: int, x: int) -> bool:
    """Whether a small square belongs to the form, not to what is said."""
    corner = y < 9 and (x < 9 or x >= side - 8) or y >= side - 8 and x < 9
    middle = side - 7
    alignment = version > 1 and abs(y - middle) <= 2 and abs(x - middle) <= 2
    return corner or alignment or y == 6 or x == 6


def _bytes(data: Sequence[int], counted: int) -> str:
    def number(begins: int, length: int) -> int:
        return int("".join(str(int(bit)) for bit in data[begins : begins + length]), 2)

    assert number(0, 4) == 0b0100, "not the mode of bytes"
    length = number(4, counted)
    return bytes(number(4 + counted + 8 * n, 8) for n in range(length)).decode()
