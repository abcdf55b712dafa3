"""A plan's nouns as plain JSON values and back: lengths as text with their unit, what is at its default left out.

The type of a field says how it is read, so that a field that is added to a noun is kept too; a key that nobody knows is passed over.

>>> from anglelib.section import Section
>>> plain(Section("3/4", "3/4", "1/8", fillet="1/8"))
{'leg_a': '3/4 in', 'leg_b': '3/4 in', 'thickness_a': '1/8 in', 'thickness_b': '1/8 in', 'fillet': '1/8 in'}
>>> made(Section, plain(Section("3/4", "3/4", "1/8", fillet="1/8"))) == Section("3/4", "3/4", "1/8", fillet="1/8")
True
"""

from __future__ import annotations

import dataclasses
import re
import types
import typing
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from typing import Any

from anglelib.errors import LengthError
from anglelib.lengths import exact, read
from anglelib.section import Section
from anglelib.stock.blank import Blank

_RATIO = re.compile(r"(-?\d{1,40})/(\d{1,40}) in")
_TAGS: dict[type, str] = {Fraction: "length", Section: "section"}
"""Where a field may be text, a length or a section, these say which."""


def length_text(value: Fraction) -> str:
    """A length with its unit, from which it is read back exactly."""
    text = exact(value, "in")
    text = text if text.endswith("mm") else f"{text} in"
    return text if value >= 0 and _reads_as(text, value) else f"{value.numerator}/{value.denominator} in"


def _reads_as(text: str, value: Fraction) -> bool:
    """Whether a text is read as a length; one that is longer than any stick, as all that is lost may be, is not."""
    try:
        return _read(text) == value
    except LengthError:
        return False


def length_of(text: str) -> Fraction:
    """A length from its text; BenchError for what is none."""
    found = _RATIO.fullmatch(text)
    return Fraction(int(found[1]), int(found[2])) if found else _read(text)


@cache
def _read(text: str) -> Fraction:
    return read(text, what="length of the plan", negative=True)


def plain(value: Any) -> Any:
    """A noun as JSON values."""
    if isinstance(value, Blank):
        whole = value.whole or value.part.quantity
        said = {"part": value.part.id, "number": value.number, "whole": whole, "length": length_text(value.length)}
        said |= {"pin": value.pin} if value.pin else {}
        return said | {"rough": length_text(value.rough)} if value.rough else said
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = {f.name: f for f in dataclasses.fields(value)}
        kept = {name: getattr(value, name) for name, f in fields.items() if getattr(value, name) != f.default}
        return {name: _tagged(found, fields[name].type) for name, found in kept.items()}
    if isinstance(value, Fraction):
        return length_text(value)
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    return value


def _tagged(value: Any, type_: Any) -> Any:
    tag = _TAGS.get(type(value)) if "str" in str(type_) and "|" in str(type_) else None
    return {tag: plain(value)} if tag else plain(value)


def made(type_: Any, value: Any, blank: Callable[[dict], Blank] | None = None) -> Any:
    """A noun of a type from its JSON values; ``blank`` makes a blank, which knows its part. Raises ValueError (or a kin of it) for what is none."""
    if type_ is Fraction:
        return length_of(_of(str, value))
    if type_ is Blank:
        assert blank is not None
        return blank(_of(dict, value))
    if type_ is Any:
        return value
    if dataclasses.is_dataclass(type_) and isinstance(type_, type):
        hints = _hints(type_)
        said = _of(dict, value)
        return type_(**{f.name: made(hints[f.name], said[f.name], blank) for f in dataclasses.fields(type_) if f.init and f.name in said})
    origin, inside = typing.get_origin(type_), typing.get_args(type_)
    if origin is tuple:
        items = _of(list, value)
        each = [inside[0]] * len(items) if len(inside) == 2 and inside[1] is ... else inside
        return tuple(made(kind, item, blank) for kind, item in zip(each, items, strict=True))
    if origin in (types.UnionType, typing.Union):
        return _one_of(inside, value, blank)
    if type_ is float and isinstance(value, int):
        return float(value)
    return _of(type_, value)


def _one_of(kinds: tuple, value: Any, blank: Callable[[dict], Blank] | None) -> Any:
    if value is None and type(None) in kinds:
        return None
    for kind, tag in _TAGS.items():
        if kind in kinds and str in kinds and isinstance(value, dict) and list(value) == [tag]:
            return made(kind, value[tag], blank)
    rest = [kind for kind in kinds if kind is not type(None)]
    return _of(str, value) if str in rest else made(rest[0], value, blank)


def _of(type_: type, value: Any) -> Any:
    if not isinstance(value, type_) or (isinstance(value, bool) and type_ is not bool):
        raise ValueError(f"{value!r} is no {type_.__name__}")
    return value


@cache
def _hints(type_: type) -> dict[str, Any]:
    return typing.get_type_hints(type_)
