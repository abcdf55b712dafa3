"""The square that a phone's camera reads: what it says, and that it is black on white on every terminal, within 60 columns."""

import io
import re

import pytest
from read_square import text

from anglelib.visitors import leaf
from anglelib.visitors.addresses import At
from anglelib.visitors.code import LENGTH, LETTERS, Square, drawable, fresh, plain, same
from anglelib.visitors.share import Shared, tell

SHORT, LONG = "http://10.0.0.2:80/?token=abcdefghjkmn", "http://[fd12:3456:789a:bcde:f012:3456:789a:bcde]:65535/?token=abcdefghjkmn"


@pytest.mark.parametrize("address", [SHORT, "http://192.168.100.100:65535/?token=yz23456789ab", LONG])
def test_it_says_the_address(address):
    square = Square(address)
    assert text(square.rows) == address
    spoiled = [list(row) for row in square.rows]
    spoiled[-2][-2] ^= 1
    with pytest.raises((AssertionError, UnicodeDecodeError)):
        assert text(spoiled) == address


def painted(lines) -> list[list[int]]:
    """What a terminal paints, two small squares a place: 1 is black; only colours that no theme changes."""
    rows = []
    for line in lines:
        inner = re.fullmatch("\x1b\\[48;5;231m\x1b\\[38;5;16m([ \u2580\u2584\u2588]+)\x1b\\[0m", line)[1]
        rows += [[sign in "\u2580\u2588" for sign in inner], [sign in "\u2584\u2588" for sign in inner]]
    return [[int(dark) for dark in row] for row in rows]


@pytest.mark.parametrize("address", [SHORT, LONG])
def test_the_terminal_paints_the_same_with_its_white_edge(address):
    square = Square(address)
    rows, side = painted(square.in_terminal()), len(square.rows)
    assert len(rows[0]) == side + 8 <= 60
    assert text([row[4 : 4 + side] for row in rows[4 : 4 + side]]) == address
    edge = rows[:4] + rows[4 + side :] + [row[:4] for row in rows] + [row[-4:] for row in rows]
    assert len(rows) >= side + 8 and not any(any(row) for row in edge)


def test_the_picture_has_the_same_small_squares():
    square = Square(SHORT)
    dark = {(int(x) - 4, int(y) - 4) for x, y in re.findall(r"M(\d+) (\d+)h1v1h-1z", square.svg("a"))}
    assert dark == {(x, y) for y, row in enumerate(square.rows) for x, one in enumerate(row) if one}


class Terminal(io.StringIO):
    def __init__(self, encoding="utf-8", tty=True):
        super().__init__()
        self.told, self.tty = encoding, tty

    encoding = property(lambda self: self.told)

    def isatty(self):
        return self.tty


def test_where_it_cannot_be_painted_it_is_not():
    assert drawable(Terminal(), {"TERM": "xterm-256color"}, "linux") and drawable(Terminal(), {"WT_SESSION": "1"}, "win32")
    assert not drawable(Terminal(tty=False), {}, "linux")
    assert not drawable(Terminal(), {"TERM": "dumb"}, "linux")
    assert not drawable(Terminal("ascii"), {}, "linux") and not drawable(Terminal("latin-1"), {}, "linux")
    assert not drawable(Terminal(), {}, "win32")


def test_the_code_is_of_letters_that_are_told_apart_and_typed_as_one_likes():
    codes = {fresh() for _ in range(200)}
    assert len(codes) == 200 and {len(code) for code in codes} == {LENGTH} and set("".join(codes)) <= set(LETTERS)
    assert not set(LETTERS) & set("il1o0") and len(LETTERS) ** LENGTH > 2**58
    for code in codes:
        assert same(plain(f" {code[:4].upper()}-{code[4:8]} {code[8:]}\n"), code)
    assert not same("", fresh()) and not same("\udce4", fresh())


SHARED = Shared(At("192.168.1.20", "wlan0"), 8866, "abcdefghjkmn", 16, (At("10.0.0.5", "eth0"),))


def test_what_the_owner_reads_says_who_how_long_and_where_not():
    said = []
    tell(SHARED, "http://127.0.0.1:8866/wall?token=owner", said.append, said.append)
    words = " ".join(said)
    for needed in ("http://192.168.1.20:8866", "abcd-efgh-jkmn", "16 pages at once", "run no code", "workshop's own network only", "not encrypted", "Ctrl-C", "--address 10.0.0.5", "firewall", "/wall?token=owner"):
        assert needed in words
    assert "?token=abcd" not in words, "address and code stand together in the square alone"
    alone = " ".join(Shared(At("127.0.0.1", "this computer alone"), 1, "a", 1).for_owner)
    assert "Only this computer reaches it" in alone and "firewall" not in alone


def test_the_sheet_for_the_wall_has_the_address_the_code_and_the_caution_and_not_what_is_the_owners_on_paper():
    page = SHARED.wall
    assert "http://192.168.1.20:8866<" in page and "abcd-efgh-jkmn" in page and "own network" in page and "?token" not in page
    assert ".owner { display: none; }" in page[page.index("@media print") :] and page.index('class="owner"') < page.index("firewall")


def test_the_list_has_every_lesson_and_nothing_of_the_owners():
    page = leaf.contents()
    assert leaf.FILES == set(re.findall(r'href="/voila/render/notebooks/([^"]+)"', page)) and len(leaf.FILES) == 17
    assert not [file for file in ("instructor", "review.ipynb", "home.ipynb") if file in page]
