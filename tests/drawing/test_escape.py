"""Names from strangers stay text in SVG, HTML and alt text."""

import unicodedata
import xml.etree.ElementTree as ET
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from anglelib.drawing.escape import clean, escape
from anglelib.drawing.sheet import Label, Sheet
from anglelib.drawing.svg import image, svg

NASTY = (
    '"><img src=x onerror=alert(1)>',
    "Cleat $a_{$",
    "</text></svg><script>alert(1)</script>",
    "' onload='alert(1)",
    "a\u202eb\u2066c\x00d\x1be\ud800f\ufffeg",
    "&lt;b&gt; ]]> <!-- --> &#60;",
    "**bold** [x](javascript:alert(1)) `q` $$x$$",
)


class _Tags(HTMLParser):
    """Collects the tags and attributes that a browser would see."""

    def __init__(self):
        super().__init__()
        self.seen, self.names = [], set()

    def handle_starttag(self, tag, attributes):
        self.seen.append(tag)
        self.names |= {name for name, _ in attributes}


@pytest.mark.parametrize("name", NASTY)
def test_a_name_is_inert_in_svg_and_html(name):
    sheet = Sheet(100, 50, (Label(50, 20, name),), f"Part {name}", f"Part {name} is drawn.")
    text = svg(sheet)
    root = ET.fromstring(text)
    assert [element.tag.rpartition("}")[2] for element in root.iter()] == ["svg", "title", "desc", "path", "text"]
    assert root.get("aria-label") == clean(f"Part {name} is drawn.")
    assert root.find("{*}text").text == clean(name)
    parser = _Tags()
    parser.feed(text)
    assert parser.seen == ["svg", "title", "desc", "path", "text"]
    assert not [attribute for attribute in parser.names if attribute.startswith("on")]
    parser = _Tags()
    parser.feed(image(sheet))
    assert parser.seen == ["img"] and parser.names == {"alt", "style", "width", "src"}


@given(st.text(st.characters()))
def test_whatever_the_text_it_is_one_text_node_of_well_formed_xml(text):
    root = ET.fromstring(f'<t a="{escape(text)}">{escape(text)}</t>'.encode())
    assert len(root) == 0
    assert (root.text or "") == clean(text) and root.get("a") == clean(text)
    assert not [c for c in clean(text) if unicodedata.category(c) in ("Cc", "Cs", "Zl", "Zp")]
    assert not [c for c in clean(text) if unicodedata.bidirectional(c) in ("RLO", "LRO", "RLE", "LRE", "PDF", "RLI", "LRI", "FSI", "PDI")]
    assert clean(clean(text)) == clean(text)


def test_what_is_printable_stays_as_it_is():
    assert clean("Zweite Rippe, 3/4 × 1/8 – Ø 4,8 °µ 日本") == "Zweite Rippe, 3/4 × 1/8 – Ø 4,8 °µ 日本"
