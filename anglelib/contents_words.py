"""What is said of a file that holds something else than its kind does, and what to do about it.

>>> from anglelib.contents import look_at
>>> print(refusal("my.toml", look_at("format = 1".encode("utf-16")), "job"))
my.toml is stored as UTF-16 (with its byte-order mark): a job is a TOML text; open it in a text editor and save it again as UTF-8.
>>> print(refusal("r.csv", look_at(b"PK\\x03\\x04 xl/workbook.xml"), "rack"))
r.csv is a spreadsheet's own file (a ZIP such as .xlsx or .ods): a rack is a CSV text; save it from the spreadsheet as "CSV UTF-8".
"""

from __future__ import annotations

from anglelib import contents as c
from anglelib.contents import Contents

JOB, RACK, READINGS, ANSWERS, LEARNERS, PLAIN = "job", "rack", "readings", "answers", "learners", "plain"
PLAN, JOURNAL, OFFERS, PURCHASE = "plan", "journal", "offers", "purchase"
"""The kinds of file that are read; answers by the lesson that keeps them, or a learner's for the count of a class."""

_KIND = {
    JOB: "a job is a TOML text", RACK: "a rack is a CSV text", READINGS: "a readings file is a CSV text",
    PLAN: "a plan file is a JSON text", JOURNAL: "a journal is a text, a line a mark",
    OFFERS: "a list of offers is a CSV text", PURCHASE: "a purchase file is a JSON text",
    ANSWERS: "answers are a JSON text", LEARNERS: "answers are a JSON text", PLAIN: "it should be a plain text",
}  # fmt: skip
_IN_AN_EDITOR, _IN_A_SPREADSHEET = "open it in a text editor and save it again as UTF-8", 'save it again as "CSV UTF-8" in the spreadsheet'
_LET_THE_LESSON = "move it out of the folder answers, and the lesson begins a new file"
_LEFT_OUT = "it is left out"
_PREVIOUS = "move it away, or put a copy of it that is whole in its place"
_AGAIN = {
    JOB: _IN_AN_EDITOR, RACK: _IN_A_SPREADSHEET, READINGS: _IN_A_SPREADSHEET, ANSWERS: _LET_THE_LESSON, LEARNERS: _LEFT_OUT, PLAIN: _IN_AN_EDITOR,
    PLAN: _PREVIOUS, JOURNAL: _PREVIOUS, OFFERS: _IN_A_SPREADSHEET, PURCHASE: _PREVIOUS,
}  # fmt: skip
"""How a text is stored again as UTF-8, by what its kind of file is edited with."""

_FROM_A_SPREADSHEET = 'save it from the spreadsheet as "CSV UTF-8"'
_THE_RIGHT = {
    JOB: "name the job's own file, such as job.toml", RACK: "name the rack's own file, such as rack.csv",
    READINGS: "name the readings' own file, such as readings.csv", ANSWERS: _LET_THE_LESSON, LEARNERS: _LEFT_OUT,
    PLAN: _PREVIOUS, JOURNAL: _PREVIOUS, OFFERS: "name the offers' own file, such as rack.offers.csv", PURCHASE: _PREVIOUS, PLAIN: "check that it is the right file",
}  # fmt: skip
_UNPACK = "unpack it first, and name the file inside"

_FOUND = {
    c.UTF_16: "is stored as UTF-16 (with its byte-order mark)",
    c.UTF_16_UNMARKED: "is stored as UTF-16 (without a byte-order mark)",
    c.UTF_32: "is stored as UTF-32",
    c.ZEROS: "holds zero bytes, so that it is no text file",
    c.SPREADSHEET: "is a spreadsheet's own file (a ZIP such as .xlsx or .ods)",
    c.OLD_OFFICE: "is an old office file (such as .xls or .doc)",
    c.DOCUMENT: "is a word processor's own file (a ZIP such as .docx or .odt)",
    c.ZIP: "is a ZIP, a packed folder",
    c.PACKED: "is a packed file (such as .gz)",
    c.PDF: "is a PDF",
    c.IMAGE: "is a picture",
    c.PAGE: "is a web page (HTML), as a browser saves it",
    c.XML: "is an XML file",
    c.RICH: "is a word processor's file (RTF)",
    c.DATABASE: "is a database",
}
_STORED = (c.UTF_16, c.UTF_16_UNMARKED, c.UTF_32)
_TABLES = (c.SPREADSHEET, c.OLD_OFFICE)


def refusal(name: str, found: Contents, kind: str = PLAIN) -> str:
    """The sentence about a file that is no text in UTF-8; ``kind`` is what it was named as."""
    if found.id in (c.ONE_BYTE, c.NOT_UTF_8):
        where = f"{name}, line {found.line}:"
        if found.id == c.NOT_UTF_8:
            return f"{where} what stands there is no text in UTF-8; {_KIND[kind]}: {_THE_RIGHT[kind]}."
        sign = f'the character "{found.sign}"' if found.sign else "a character there"
        return f"{where} {sign} is stored as Latin-1 (an old code page), not as UTF-8; {_KIND[kind]}: {_AGAIN[kind]}."
    return f"{name} {_FOUND[found.id]}: {_KIND[kind]}; {_remedy(found.id, kind)}."


def _remedy(found: str, kind: str) -> str:
    if found in _STORED or kind in (ANSWERS, LEARNERS):
        return _AGAIN[kind]
    if kind in (RACK, READINGS, OFFERS) and found in _TABLES:
        return _FROM_A_SPREADSHEET
    if kind in (JOB, PLAIN) and found in (c.DOCUMENT, c.RICH):
        return "save its text from the word processor as plain text in UTF-8"
    if found in (c.ZIP, c.PACKED):
        return _UNPACK
    if found == c.PAGE:
        return "download the file itself, not the page that shows it"
    return _THE_RIGHT[kind]
