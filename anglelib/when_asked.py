"""A mapping whose values are worked out when they are asked for, each once: who asks for one of thirty readings waits for one.

>>> squares = WhenAsked(("2", "3"), lambda key: int(key) ** 2)
>>> squares["3"], "4" in squares, squares == {"2": 4, "3": 9}
(9, False, True)
>>> squares["4"]
Traceback (most recent call last):
    ...
KeyError: '4'
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from typing import TypeVar

_Value = TypeVar("_Value")


class WhenAsked(Mapping[str, _Value]):
    """The ``keys`` in their order, and ``work_out``, which gives the value of one."""

    __slots__ = ("_keys", "_known", "_work_out")

    def __init__(self, keys: Collection[str], work_out: Callable[[str], _Value]) -> None:
        self._keys, self._work_out, self._known = keys, work_out, {}  # type: ignore[var-annotated]

    def __getitem__(self, key: str) -> _Value:
        if key not in self._known:
            if key not in self._keys:
                raise KeyError(key)
            self._known[key] = self._work_out(key)
        return self._known[key]

    def __contains__(self, key: object) -> bool:
        return key in self._keys

    def __iter__(self) -> Iterator[str]:
        return iter(self._keys)

    def __len__(self) -> int:
        return len(self._keys)

    def __repr__(self) -> str:
        return repr(dict(self))
