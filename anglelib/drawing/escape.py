"""The one place where text from a person becomes text in SVG, HTML or an alt attribute.

Names and notes come from files that strangers may have written. :func:`clean` takes out what cannot
be seen (controls, direction marks, lone surrogates); :func:`escape` also disarms markup.

>>> escape('"><img src=x onerror=alert(1)>')
'&quot;&gt;&lt;img src=x onerror=alert(1)&gt;'
>>> clean("Cleat\\u202e 8/5 1\\n")
'Cleat 8/5 1 '
"""

from __future__ import annotations

import re

# C0 and C1 controls without the white space below; soft hyphen and other invisible format marks;
# everything that turns the writing direction; byte order mark; tags; surrogates; XML noncharacters.
_HIDDEN = re.compile(
    "[\x00-\x08\x0e-\x1f\x7f-\x84\x86-\x9f\xad\u061c\u200b\u200e\u200f\u202a-\u202e"
    "\u2060-\u2069\ufeff\ufff9-\ufffb\ufffe\uffff\ud800-\udfff\U000e0000-\U000e007f]"
)
_WHITE = re.compile("[\t\n\x0b\x0c\r\x85\u2028\u2029]")
_MARKUP = {ord("&"): "&amp;", ord("<"): "&lt;", ord(">"): "&gt;", ord('"'): "&quot;", ord("'"): "&#39;"}


def clean(text: str) -> str:
    """The text without control and direction characters; a tab or line end becomes a space."""
    if text.isprintable():  # the usual case, and quick
        return text
    return _HIDDEN.sub("", _WHITE.sub(" ", text))


def escape(text: str) -> str:
    """Cleaned text, safe between tags and inside a quoted attribute of SVG, HTML and XML."""
    return clean(text).translate(_MARKUP)
