"""A message of the kernel's protocol as it lies in a websocket's bytes, read as a stranger's: any lengths, any places.

>>> frame = put("shell", [b"{}", b"{}", b"{}", b'{"a": 1}'])
>>> channel, parts = taken(frame)
>>> channel, parts[3]
('shell', b'{"a": 1}')
>>> taken(b"\\xff" * 40) is None
True
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

PROTOCOL = "v1.kernel.websocket.jupyter.org"
MOST_PARTS = 8
"""Channel, header, parent, metadata, content, and few buffers, which are not looked at."""
MOST_BYTES = 1 << 16
"""The longest message that is taken from a visitor."""


def taken(frame: Any) -> tuple[str, list[bytes]] | None:
    """The channel and the parts of a message; None where the bytes hold none."""
    if not isinstance(frame, bytes) or not 8 <= len(frame) <= MOST_BYTES:
        return None
    count = int.from_bytes(frame[:8], "little")
    if not 6 <= count <= MOST_PARTS + 1 or len(frame) < 8 * (count + 1):
        return None
    at = [int.from_bytes(frame[8 * n : 8 * n + 8], "little") for n in range(1, count + 1)]
    if at[0] != 8 * (count + 1) or at != sorted(at) or at[-1] > len(frame):
        return None
    parts = [frame[begins:ends] for begins, ends in zip(at, at[1:], strict=False)]
    try:
        return parts[0].decode("ascii"), parts[1:]
    except UnicodeDecodeError:
        return None


def put(channel: str, parts: Sequence[bytes]) -> bytes:
    """The same the other way."""
    pieces = [channel.encode("ascii"), *parts]
    at = [8 * (len(pieces) + 2)]
    for piece in pieces:
        at.append(at[-1] + len(piece))
    return b"".join([len(at).to_bytes(8, "little"), *(n.to_bytes(8, "little") for n in at), *pieces])


def decoded(part: bytes) -> Any:
    """A part as data; None where it is none."""
    try:
        return json.loads(part.decode("utf-8"))
    except (ValueError, RecursionError):
        return None
