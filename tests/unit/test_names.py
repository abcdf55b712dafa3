"""Ids that are file names on every machine, and text that shows what it holds."""

from __future__ import annotations

import os
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from anglelib.errors import BenchError, PartError
from anglelib.names import check_id, check_text, visible


@pytest.mark.parametrize("text", ["A1L", "S-01", "a", "7", "A.1_b-2", "x" * 32, "CONE", "COM10", "nulls", "A..b"])
def test_ids(text):
    assert check_id(text, "part id") == text


BAD_IDS = {
    "": "1 to 32 letters",
    " ": "1 to 32 letters",
    "../x": "1 to 32 letters",
    "/etc": "1 to 32 letters",
    "a/b": "1 to 32 letters",
    "a\\b": "1 to 32 letters",
    "-x": "starting with a letter or digit",
    ".hidden": "starting with a letter or digit",
    "=1+1": "starting with a letter or digit",
    "A1L\n": "1 to 32 letters",
    "Ä1": "1 to 32 letters",
    "A 1": "1 to 32 letters",
    "x" * 33: "1 to 32 letters",
    "٣": "1 to 32 letters",
    "CON": "cannot name a file",
    "con": "cannot name a file",
    "nul.txt": "cannot name a file",
    "LPT9": "cannot name a file",
    "Aux.b.c": "cannot name a file",
    "A1.": "cannot name a file",
}


@pytest.mark.parametrize("text", BAD_IDS)
def test_refuses_what_cannot_be_a_file_name(text):
    with pytest.raises(PartError) as caught:
        check_id(text, "part id", PartError)
    assert BAD_IDS[text] in str(caught.value)
    assert str(caught.value).isprintable()


@pytest.mark.parametrize("thing", [None, 3, ["A1"]])
def test_refuses_what_is_no_text(thing):
    with pytest.raises(BenchError):
        check_id(thing, "part id")
    with pytest.raises(BenchError, match="is not text: write it in quotes"):
        check_text(thing, "name")


@given(st.text(max_size=40))
def test_an_id_stays_in_its_folder(text):
    try:
        name = check_id(text, "part id")
    except BenchError:
        return
    assert os.path.basename(name) == name and name not in (".", "..")
    assert os.path.dirname(os.path.normpath(os.path.join("folder", name))) == "folder"


@given(st.text(max_size=80))
def test_text_that_passes_holds_nothing_invisible(text):
    try:
        check_text(text, "name")
    except BenchError as error:
        assert visible(str(error)) == str(error)
        return
    assert not {unicodedata.category(c) for c in text} & {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


@pytest.mark.parametrize("sign", ["\u202e", "\u2066", "\u200b", "\ufeff", "\0", "\n", "\t", "\x1b", "\u2028", "\ud800", "\ue000"])
def test_refuses_signs_that_hide_or_turn_text(sign):
    with pytest.raises(BenchError, match="holds a character that cannot be printed: type it again by hand"):
        check_text(f"Cleat{sign}left", "name")


def test_refuses_text_that_is_too_long():
    with pytest.raises(BenchError, match="61 characters long: shorten it to 60"):
        check_text("x" * 61, "name", most=60)
