"""A job as TOML text: new, or put into the text that it was read from, comments and all.

The old text is taken apart at its headings. A part that has not changed keeps its lines as they
are typed, with the comments above it; in one that has changed, only the changed values are
written. What comes out is read back and compared before anybody stores it.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable
from dataclasses import fields
from difflib import SequenceMatcher
from fractions import Fraction
from itertools import pairwise
from os import PathLike
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Array

from anglelib.contents import with_line_ends
from anglelib.errors import FileProblems, JobError
from anglelib.files.job_file import ENTRY_KEYS, PART_KEYS, SAW_KEYS, SECTION_KEYS, SHOP_KEYS, parse_job
from anglelib.files.report import FORMAT, Opened
from anglelib.job import Job, Shop
from anglelib.lengths import exact, read
from anglelib.part import Part
from anglelib.section import Section
from anglelib.storage import write_text
from anglelib.tolerances import Limits

_HEADING = re.compile(r"^[ \t]*\[(\[?)[ \t]*([^\]\n]*?)[ \t]*\]", re.MULTILINE)
Values = dict[str, Any]


def save_job(job: Job, path: str | PathLike, opened: Opened[Job] | None = None) -> Opened[Job]:
    """Save a job; ``opened`` is the file as it was read (or last saved), None where there is none yet.

    Comments stay, the previous version is kept, and a file that somebody else has changed since is
    not overwritten. Raises StorageError, or JobError for a job that cannot be written exactly; in
    either case nothing is written.
    """
    text = render_job(job, opened.source.text if opened else None)
    return Opened(job, write_text(path, text, opened.source if opened else None))


def render_job(job: Job, original: str | None = None) -> str:
    """The job as TOML text, put into the ``original`` text where there is one.

    Raises JobError where the text would not be read back as the same job.
    """
    if original is None:
        return _anew(job)
    plain = with_line_ends(original).replace("\r\n", "\n")
    # A text that is laid out in a way of its own is written anew, with all its comments on top.
    text = _kept(job, plain) or _anew(job, "".join(f"{line.strip()}\n" for line in plain.split("\n") if line.lstrip().startswith("#")))
    return text.replace("\n", "\r\n") if "\r\n" in original else text


def _kept(job: Job, original: str) -> str:
    """The original with what has changed put in; empty where that does not come out as this job."""
    try:
        merged = _merged(job, original)
    except (TOMLKitError, KeyError, ValueError, AttributeError, TypeError):
        return ""
    return merged if _reads_as(merged, job) is None else ""


def _anew(job: Job, comments: str = "") -> str:
    text = _new_text(job, comments)
    trouble = _reads_as(text, job)
    if trouble is not None:
        raise JobError(f"The job cannot be saved: {trouble}")
    return text


def _reads_as(text: str, job: Job) -> str | None:
    """None if the text is read as this job, else what is wrong."""
    try:
        found = parse_job(text)
    except FileProblems as error:
        return str(error.problems[0])
    return None if found == job else "one of its lengths or angles has no exact text; give it as a shop fraction or decimal."


# --- values as they are written --------------------------------------------------------------------
def _degrees(value: Fraction) -> str:
    for places in range(9):
        if 10**places % value.denominator == 0:
            digits = str(value.numerator * 10**places // value.denominator).rjust(places + 1, "0")
            return f"{digits[:-places]}.{digits[-places:]}" if places else digits
    raise JobError(f"The job cannot be saved: the angle {float(value):.6f} degrees has no exact decimal; shorten it.")


def _length(value: Fraction, unit: str) -> str:
    """A length that is read back exactly in a table whose numbers are in this unit."""
    return exact(value, unit)


def _values(noun: object, keys: Iterable[str], unit: str) -> Values:
    """What a file says about a noun: its fields as plain values, without those that are at their default."""
    defaults = {field.name: field.default for field in fields(noun)}  # type: ignore[arg-type]
    said: Values = {}
    for key in keys:
        value = getattr(noun, key)
        # Two zeros are always written: a cut to the vertex and a square inside corner are facts, not omissions.
        if value is None or (value == defaults[key] and key not in ("width_left", "fillet")):
            continue
        if isinstance(value, Fraction):
            value = _degrees(value) if key == "angle" else _length(value, unit)
        elif isinstance(value, tuple):
            value = [_values(entry, ENTRY_KEYS[key], unit) for entry in value] if key in ENTRY_KEYS else list(value)
        said[key] = value
    return said


def _section_values(section: Section, unit: str, both: bool = False) -> Values:
    both = both or section.thickness_b != section.thickness_a
    return _values(section, [key for key in SECTION_KEYS if key != "thickness_b" or both], unit)


def _part_values(part: Part, section: str, unit: str) -> Values:
    """``section`` is its name in the file, ``unit`` the job's: a part says its own where that is another."""
    said = _values(part, PART_KEYS, part.unit) | {"section": section}
    said.pop("unit", None)
    if part.unit == unit:
        return said
    at = PART_KEYS.index("unit")
    return {key: part.unit if key == "unit" else said[key] for key in PART_KEYS if key in said or PART_KEYS.index(key) == at}


def _shop_values(shop: Shop, unit: str) -> Values:
    saw = _values(shop.saw, SAW_KEYS, unit) if shop.saw is not None else {}
    return {key: _length(getattr(shop, key), unit) for key in SHOP_KEYS} | saw


def _head_values(job: Job) -> Values:
    """The job's own keys: its name and id, and unit and limits where they are not the usual ones."""
    said: Values = {"name": job.name}
    if job.id:
        said["id"] = job.id
    if job.unit != "in":
        said["unit"] = job.unit
    if job.limits != Limits.usual(job.unit):
        said["limits"] = job.limits.name
    return said


# --- a new text -----------------------------------------------------------------------------------
def _toml(value: Any) -> str:
    """A value on the right of a key; each entry of a list on its own line, so that lines stay short."""
    if isinstance(value, list) and isinstance(value[0], dict):
        return "[\n" + "".join(f"    {_inline(entry)},\n" for entry in value) + "]"
    return tomlkit.item(value).as_string()


def _inline(entry: Values) -> str:
    return "{" + ", ".join(f"{key} = {_toml(value)}" for key, value in entry.items()) + "}"


def _block(heading: str, values: Values) -> str:
    return f"\n{heading}\n" + "".join(f"{key} = {_toml(value)}\n" for key, value in values.items())


def _section_block(name: str, section: Section, unit: str) -> str:
    return _block(f"[section.{tomlkit.item(name).as_string()}]", _section_values(section, unit))


def _part_block(part: Part, names: dict[Section, str], unit: str) -> str:
    return _block("[[part]]", _part_values(part, names[part.section], unit))


def _new_text(job: Job, comments: str) -> str:
    names = _names(job, {})
    return (
        f"{comments}format = {FORMAT}\n"
        + "".join(f"{key} = {_toml(value)}\n" for key, value in _head_values(job).items())
        + _block("[shop]", _shop_values(job.shop, job.unit))
        + "".join(_section_block(name, section, job.unit) for section, name in names.items())
        + "".join(_part_block(part, names, job.unit) for part in job.parts)
    )


def _names(job: Job, taken: dict[Section, str]) -> dict[Section, str]:
    """A name for every section of the job: the one it has in the file, else its size, made unique."""
    names = dict(taken)
    for section in dict.fromkeys(part.section for part in job.parts):
        if section in names:
            continue
        name, number = section.size, 2
        if name in names.values():
            name = f"{section.size}, fillet {exact(section.fillet)}"
        while name in names.values():
            name, number = f"{section.size} ({number})", number + 1
        names[section] = name
    return names


# --- an old text ----------------------------------------------------------------------------------
def _blocks(text: str) -> list[str]:
    """The text cut above each heading and above the comments over it; the last block is what follows the last line.

    The headings of one part's own lists ([[part.holes]]) stay with the part.
    """
    starts = [m.start() for m in _HEADING.finditer(text) if not m[2].replace(" ", "").startswith("part.")]
    edges = [0, *(_above_comments(text, start) for start in (*starts, len(text))), len(text)]
    return [text[a:b] for a, b in pairwise(edges)]


def _above_comments(text: str, start: int) -> int:
    """Where the blank lines and comments that lead to the line at ``start`` begin."""
    while start:
        above = text.rfind("\n", 0, start - 1) + 1
        line = text[above:start].strip()
        if line and not line.startswith("#"):
            break
        start = above
    return start


def _kind(block: str) -> str:
    match = _HEADING.search(block)
    return match[2].split(".")[0].strip(" \t\"'") if match else ""


def _merged(job: Job, text: str) -> str:
    """The text with what has changed put in. It may fail on a text that is laid out oddly; it is read back."""
    text = text if text.endswith("\n") else text + "\n"
    old, raw = parse_job(text), tomllib.loads(text, parse_float=str)
    head, *blocks, tail = _blocks(text)
    if job.unit != old.unit:
        raise ValueError("every number of the text would mean another length")  # it is written anew
    head = _changed(head, lambda doc: doc, _head_values(old), _head_values(job))
    unit = job.unit
    names = _names_kept(job, old, raw)
    old_names = [item["section"] for item in raw["part"]]
    old_values = {
        part.id: _part_values(part, name, unit) for part, name in zip(old.parts, old_names, strict=True)
    }
    typed = dict(zip(old_values, (b for b in blocks if _kind(b) == "part"), strict=True))
    parts = [
        _changed(typed[part.id], lambda doc: doc["part"][0], old_values[part.id], _part_values(part, names[part.section], unit))
        if part.id in typed
        else _part_block(part, names, unit)
        for part in job.parts
    ]
    others = [b if _kind(b) == "part" else _other(b, job, old, names) for b in blocks]
    if job.shop != old.shop and "shop" not in map(_kind, blocks):
        head += _block("[shop]", _shop_values(job.shop, unit))
    after = max(n for n, block in enumerate(blocks, 1) if _kind(block) == "section")
    others[after:after] = [_section_block(name, section, unit) for section, name in names.items() if name not in raw["section"]]
    return head + "".join(_in_slots(others, parts)) + tail


def _in_slots(blocks: list[str], parts: list[str]) -> Iterable[str]:
    """The blocks with the parts where parts stood, in their new order; headings of other tables first."""
    slots = [n for n, block in enumerate(blocks) if _kind(block) == "part"]
    waiting = list(parts)
    for n, block in enumerate(blocks):
        if n not in slots:
            yield block
        elif n == slots[-1]:
            yield from waiting
        elif waiting:
            yield waiting.pop(0)


def _names_kept(job: Job, old: Job, raw: Values) -> dict[Section, str]:
    """Names for the job's sections: a section whose every part has changed to one other is that other now."""
    described = {name: _as_section(values, job.unit) for name, values in raw["section"].items()}
    now = {part.id: part.section for part in job.parts}
    wanted = set(now.values())
    taken = {section: name for name, section in reversed(described.items())}
    for name, section in described.items():
        users = {now[item["id"]] for item in raw["part"] if item["section"] == name and item["id"] in now}
        if section not in wanted and len(users) == 1 and not users & set(taken):
            del taken[section]
            taken[users.pop()] = name
    return _names(job, taken)


def _as_section(values: Values, unit: str) -> Section:
    return Section(**{key: read(text, unit=unit) for key, text in values.items()})


def _other(block: str, job: Job, old: Job, names: dict[Section, str]) -> str:
    """The block of the shop or of a section, with what has changed."""
    if _kind(block) == "shop":
        return _changed(block, lambda doc: doc["shop"], _shop_values(old.shop, job.unit), _shop_values(job.shop, job.unit))
    described = tomllib.loads(block)["section"]
    if not described:
        return block  # a heading [section] over those of the sections
    [(name, values)] = described.items()
    new = next((section for section, kept in names.items() if kept == name), None)
    if new is None:
        return block
    both = "thickness_b" in values
    return _changed(
        block,
        lambda doc: doc["section"][name],
        _section_values(_as_section(values, job.unit), job.unit, both),
        _section_values(new, job.unit, both),
    )


def _changed(block: str, find: Callable[[Any], Any], old: Values, new: Values) -> str:
    """The block with every value that differs between old and new."""
    if old == new:
        return block
    doc = tomlkit.parse(block)
    _update(find(doc), old, new)
    return doc.as_string()


def _update(table: Any, old: Values, new: Values) -> None:
    for key in old.keys() | new.keys():
        if old.get(key) == new.get(key):
            continue
        if key not in new:
            del table[key]
        elif isinstance(new[key], list) and isinstance(new[key][0], dict) and isinstance(table.get(key), Array):
            _update_list(table[key], old[key], new[key])
        else:
            table[key] = tomlkit.parse(f"x = {_toml(new[key])}\n")["x"] if isinstance(new[key], list) else new[key]


def _update_list(array: Array, old: list[Values], new: list[Values]) -> None:
    """Entry by entry from the back, so that comments between the entries stay with them."""
    matcher = SequenceMatcher(None, [tuple(v.items()) for v in old], [tuple(v.items()) for v in new], autojunk=False)
    for tag, i1, i2, j1, j2 in reversed(matcher.get_opcodes()):
        if tag == "equal":
            continue
        shared = min(i2 - i1, j2 - j1)
        for n in range(shared):
            _update(array[i1 + n], old[i1 + n], new[j1 + n])
        for n in reversed(range(i1 + shared, i2)):
            del array[n]
        for n in reversed(range(j1 + shared, j2)):
            array.insert(i1 + shared, tomlkit.parse(f"x = {_inline(new[n])}")["x"])
