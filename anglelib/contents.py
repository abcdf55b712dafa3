"""What a stranger's bytes are: a text in UTF-8, or what else somebody may have named by mistake.

Whoever reads a file, of whatever kind, asks here. What was found is an id; its English stands in
:mod:`anglelib.contents_words`.

>>> look_at("\\ufeffkerf = 1\\r\\n".encode()).text
'kerf = 1\\r\\n'
>>> look_at("1,S-01".encode("utf-16")).id, look_at("1,S-01".encode("utf-16-le")).id, look_at(b"%PDF-1.7").id
('utf-16', 'utf-16-unmarked', 'pdf')
"""

from __future__ import annotations

import re
from dataclasses import dataclass

TEXT = "text"
UTF_16, UTF_16_UNMARKED, UTF_32 = "utf-16", "utf-16-unmarked", "utf-32"
ONE_BYTE, NOT_UTF_8, ZEROS = "one-byte", "not-utf-8", "zeros"
SPREADSHEET, OLD_OFFICE, DOCUMENT, ZIP, PACKED, PDF, IMAGE = "spreadsheet", "old-office", "document", "zip", "packed", "pdf", "image"
PAGE, XML, RICH, DATABASE = "page", "xml", "rich", "database"

_MAGIC = (  # how a file of each kind begins
    (b"%PDF-", PDF),
    (b"\x1f\x8b", PACKED), (b"BZh", PACKED), (b"\xfd7zXZ\x00", PACKED), (b"7z\xbc\xaf\x27\x1c", PACKED), (b"Rar!\x1a", PACKED),
    (b"\x28\xb5\x2f\xfd", PACKED),
    (b"\x89PNG", IMAGE), (b"\xff\xd8\xff", IMAGE), (b"GIF8", IMAGE), (b"II*\x00", IMAGE), (b"MM\x00*", IMAGE),
    (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", OLD_OFFICE),
    (b"{\\rtf", RICH),
    (b"SQLite format 3\x00", DATABASE),
)  # fmt: skip
_IN_ZIP = ((b"xl/", SPREADSHEET), (b"opendocument.spreadsheet", SPREADSHEET), (b"word/", DOCUMENT), (b"opendocument.text", DOCUMENT))
_PAGE = re.compile(rb"(?:<!--.*?-->\s*)*<(?:!doctype\s+html|html|head|body|meta|table)\b", re.DOTALL)
_XML = re.compile(rb"<(?:\?xml|svg)\b")
_BOTH_BYTE_ORDERS = (b"\xff\xfe", b"\xfe\xff")
_FOUR_BYTES = (b"\xff\xfe\x00\x00", b"\x00\x00\xfe\xff")


@dataclass(frozen=True)
class Contents:
    """What the bytes are, by id; the ``text`` where they are one; the ``line`` and the character ``sign`` that is not UTF-8."""

    id: str
    text: str = ""
    line: int = 0
    sign: str = ""


def look_at(content: bytes) -> Contents:
    """What these bytes are. A text comes without byte-order mark, its line ends as they stand."""
    if content.startswith(_FOUR_BYTES):
        return Contents(UTF_32)
    if content.startswith(_BOTH_BYTE_ORDERS):
        return Contents(UTF_16)
    if (known := _by_its_start(content)) is not None:
        return Contents(known)
    if b"\x00" in content:
        return Contents(UTF_16_UNMARKED if _every_second_zero(content) else ZEROS)
    start = content[:2000].removeprefix(b"\xef\xbb\xbf").lstrip().lower()
    if _PAGE.match(start) or (_XML.match(start) and b"<html" in start):
        return Contents(PAGE)
    if _XML.match(start):
        return Contents(XML)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return _not_utf_8(content, error.start)
    return Contents(TEXT, text)


def with_line_ends(text: str) -> str:
    """The text with each old line end, a CR alone, as that of today.

    >>> with_line_ends("a\\rb\\r\\nc\\n")
    'a\\nb\\r\\nc\\n'
    """
    return re.sub("\r(?!\n)", "\n", text) if "\r" in text else text


def _by_its_start(content: bytes) -> str | None:
    if content.startswith((b"PK\x03\x04", b"PK\x05\x06")):
        return next((id_ for inside, id_ in _IN_ZIP if inside in content), ZIP)
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return IMAGE
    if content[4:8] == b"ftyp" and content[8:12] in (b"heic", b"heix", b"mif1", b"avif"):
        return IMAGE
    return next((id_ for begins, id_ in _MAGIC if content.startswith(begins)), None)


def _every_second_zero(content: bytes) -> bool:
    """Plain letters in UTF-16: their other byte is a zero, always on the same side."""
    half = max(len(content) // 2, 1)
    shares = sorted(content[side::2].count(0) / half for side in (0, 1))
    return shares[1] > 0.5 > 10 * shares[0]


def _not_utf_8(content: bytes, start: int) -> Contents:
    before = with_line_ends(content[:start].decode("latin-1"))
    line = before.count("\n") + 1
    odd = sum(byte < 9 or 13 < byte < 32 for byte in content)
    if odd:  # no code page has letters there
        return Contents(NOT_UTF_8, line=line)
    sign = content[start : start + 1].decode("cp1252", "replace")
    return Contents(ONE_BYTE, line=line, sign=sign if sign.isprintable() and sign != "\ufffd" else "")
