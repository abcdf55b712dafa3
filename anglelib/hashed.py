"""Frozen values that are looked up again and again: the hash of each is worked out once.

A part has dozens of exact fractions, and hashing them all takes longer than most of what is looked up by it.

>>> from dataclasses import dataclass
>>> @hashed_once
... @dataclass(frozen=True)
... class Stub:
...     id: str
>>> hash(Stub("a")) == hash(Stub("a")), Stub("a") == Stub("a"), {Stub("a"): 1}[Stub("a")]
(True, True, 1)
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

_HASH = "_hash"
_Class = TypeVar("_Class", bound=type)


def hashed_once(frozen: _Class) -> _Class:
    """The class of frozen values, whose hash is kept with each; it does not go along to another process, where words have other hashes."""
    whole: Callable[[Any], int] = frozen.__hash__

    def __hash__(self: Any) -> int:  # noqa: N807
        kept = self.__dict__.get(_HASH)
        if kept is None:
            kept = self.__dict__[_HASH] = whole(self)
        return kept

    def __getstate__(self: Any) -> dict[str, Any]:  # noqa: N807
        return {name: value for name, value in self.__dict__.items() if name != _HASH}

    frozen.__hash__, frozen.__getstate__ = __hash__, __getstate__  # type: ignore[method-assign, assignment]
    return frozen
