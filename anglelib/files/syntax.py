"""TOML as text: read with the standard library's parser, refused in bench language by line.

tomllib calls the mistakes by the names of the grammar; here they get the line as it was typed and
what to type instead. What would keep the parser busy (long chains of dotted names, thousands of
brackets) is refused before or by the parser's own depth, in well under a second.
"""

from __future__ import annotations

import re
import tomllib
from typing import Any, NoReturn

from anglelib.contents import with_line_ends
from anglelib.errors import LengthError
from anglelib.files.report import MOST_PIECES, Report, quoted
from anglelib.lengths import read

_STRING_OR_COMMENT = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'|#.*')
_CHAIN = re.compile(r"(?:[A-Za-z0-9_-]+\s*\.\s*){8}")
_PLACE = re.compile(r" \(at (?:line ([0-9]+), column ([0-9]+)|end of document)\)$")
_BARE = re.compile(r"^\s*([A-Za-z0-9_-]+)\s*=\s*([^#]*?)\s*(?:#.*)?$")
_PART = re.compile(r"\s*\[\[\s*part\s*\]\]")


_TYPESET = "\u201c\u201d\u201e\u2018\u2019\u00ab\u00bb"


class Unquoted(str):
    """A number as it was typed without quotes: nothing is rounded, nothing is computed."""


def parse(text: str, report: Report, empty: str) -> dict[str, Any]:
    """The tables of a TOML text. What cannot be parsed is one problem, with its line, in ``report``."""
    lines = report.check_limits(text, empty)
    if sum(1 for line in lines if _PART.match(line)) > MOST_PIECES:
        report.stop("", f"the job has more than {MOST_PIECES} parts: split it.")
    for number, line in enumerate(lines, 1):
        if _CHAIN.search(_STRING_OR_COMMENT.sub('""', line)):
            report.stop(
                f"line {number}", "the line has a long chain of names with points: a name here has one point at most."
            )
    try:
        return tomllib.loads(with_line_ends(text), parse_float=Unquoted)
    except RecursionError:
        report.stop("", "the brackets are nested too deep to read: close each bracket that is opened.")
    except ValueError as error:
        _refuse(str(error), lines, report)


def _refuse(message: str, lines: list[str], report: Report) -> NoReturn:
    found = _PLACE.search(message)
    number = int(found[1]) if found and found[1] else len(lines)
    what = _PLACE.sub("", message)
    line = lines[number - 1] if number <= len(lines) else ""
    if not line.strip() and number > 1 and "Unclosed" not in what:
        # The parser stops at the line after one that breaks off.
        earlier = [n for n in range(number - 1, 0, -1) if lines[n - 1].strip()]
        number = earlier[0] if earlier else number
        line = lines[number - 1]
    place = f"line {number}"
    if lines and "stick_id" in lines[0]:
        report.stop("line 1", "this looks like a rack (CSV), not a job: name the job file first, then the rack.")
    report.stop(place, f"{quoted(line.strip())} cannot be read: {_remedy(what, line)}")


_REMEDIES = (
    # What the parser says, and what to do about it; the first that matches.
    (r"overwrite|Duplicate", "the same name is given twice; keep one."),
    (r"declare|redefine|mutate", "a table of this name stands above already; keep one, or give this one its own name."),
    (r"Unclosed", "a bracket is not closed, or a comma is missing between two entries: end a list with ] and each {...} with }."),
    (r"Illegal character|Unterminated", "a quote is not closed on this line: text and lengths stand between two quotes."),
    (r"Unescaped|Escaped|hex value", "a \\ cannot stand between double quotes: use single quotes, '...', round such text."),
    (r"after a key", "there is no = after the name: write name = \"value\"."),
    (r"table declaration|array declaration", "a heading is [shop], [section.NAME] or [[part]]: close as many brackets as are opened."),
)  # fmt: skip


def _remedy(what: str, line: str) -> str:
    bare = _BARE.match(line)
    if bare and not bare[2]:
        return "there is no value: write one after the sign."
    if bare and bare[2].lower() in ("yes", "no", "true", "false"):
        return "write true or false, in small letters and without quotes."
    if bare and bare[2][0] not in "\"'[{" and not re.search("overwrite|mutate", what):
        return f"write text and lengths in quotes, {bare[1]} = {_in_quotes(bare[2])}."
    if "initial character" in what and "{" in line:
        what = "Unclosed"
    elif "initial character" in what and line.lstrip().startswith("["):
        what = "table declaration"
    for said, remedy in _REMEDIES:
        if re.search(said, what):
            return remedy
    return 'write each line as name = "value", with text and lengths in quotes.'


def _in_quotes(value: str) -> str:
    """The value as it should have been typed; an inch mark would end a double quote."""
    value = value.rstrip(",").strip(_TYPESET)  # quotes that a word processor or a telephone has made curly
    try:
        read(value)
    except LengthError:
        return f"'{value}'" if '"' in value else f'"{value}"'
    return f'"{value.rstrip(chr(34)).strip()}"'
