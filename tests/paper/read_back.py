"""The words of a printed PDF, read back as a person at the bench reads them: plan, card, tag, fold sheet, check print, cover.

A page is the list of its labels in the order in which they are printed. Numbers are read as they stand, with the unit
that the sheet says; nothing here asks the library what it meant.
"""

from __future__ import annotations

import ctypes
import io
import re
from dataclasses import dataclass, field

import pypdfium2
import pypdfium2.raw as raw

KERF, ALLOWANCE, HAND = 1 / 16, 1 / 32, 6  # of the usual shop: what the blade takes, what is sanded off an end, the least for a hand
MM = 25.4
BOTH = 12
"""The ends of a tile that shows the whole part."""
Page = list[str]


# --- the pages -----------------------------------------------------------------------------------------------------
def labels(content: bytes) -> list[Page]:
    """What stands on each page of a PDF, label by label."""
    document, found = pypdfium2.PdfDocument(io.BytesIO(content)), []
    for page in document:
        words, texts = page.get_textpage(), []
        for item in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT]):
            room = (ctypes.c_ushort * (raw.FPDFTextObj_GetText(item.raw, words.raw, None, 0) // 2))()
            raw.FPDFTextObj_GetText(item.raw, words.raw, room, len(room) * 2)
            texts.append(bytes(room).decode("utf-16-le").rstrip("\0").strip())
        found.append(texts)
    return found


def flat(page: Page) -> str:
    """A page in one line."""
    return re.sub(r"\s+", " ", " ".join(page))


@dataclass
class Pack:
    """A pack's pages by what they are; those of a part by its id."""

    pages: list[Page]
    cover: str = ""
    plans: list[Page] = field(default_factory=list)
    tags: list[Page] = field(default_factory=list)
    cards: dict[str, Page] = field(default_factory=dict)
    folds: dict[str, list[Page]] = field(default_factory=dict)
    checks: dict[str, list[Page]] = field(default_factory=dict)


def sorted_pages(pages: list[Page]) -> Pack:
    """Which page is which, by its own words."""
    found = Pack(pages)
    for page in pages:
        text = flat(page[:8])
        id_ = match[1] if (match := re.search(r"\b([A-Z]\w*), (?:\d+ off|section)", text)) else ""
        if page[0] == "Shop pack":
            found.cover = flat(page)
        elif page[0].startswith("Plan for"):
            found.plans.append(page)
        elif page[0].startswith("Tags"):
            found.tags.append(page)
        elif "fold sheet, 1:1" in page[:3]:
            found.folds.setdefault(id_, []).append(page)
        elif "check print, 1:1" in page[:3]:
            found.checks.setdefault(id_, []).append(page)
        elif id_:  # the sheets of a card, one after the other
            found.cards[id_] = [*found.cards.get(id_, []), *page]
    return found


# --- numbers -------------------------------------------------------------------------------------------------------
FIGURE = r"(?:\d[\d /]*(?: bare| full)? \(\d+\.\d{3}\)|\d+(?:\.\d+)?(?: bare| full)?(?: \(\d+\.\d+\))?)"
"""A mark: "2 1/8 (2.125)", "7/32 bare (0.213)", "54", "5.5 bare (5.4)"."""


def inches(figure: str, unit: str) -> float:
    """What a mark stands for: the number in its brackets, else itself, in the unit that the sheet says [in]."""
    value = float((re.search(r"\(([\d.]+)\)", figure) or re.match(r"([\d.]+)", figure))[1])
    return value / MM if unit == "mm" else value


def length(text: str) -> tuple[float, str]:
    """A length in running text, "1 5/8", "22 5/8 in.", "86.59 mm": [in], and the unit that it says ("in" where it says none)."""
    match = re.fullmatch(r"(?:(\d+) )?(?:(\d+)/(\d+)|([\d.]+))(?: (mm|in)\.?)?", text)
    assert match, text
    whole, over, under, number, unit = match.groups()
    value = int(whole or 0) + (int(over) / int(under) if over else float(number))
    return (value / MM, "mm") if unit == "mm" else (value, "in")


# --- the plan ------------------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Said:
    """What one sheet says of a blank: the end made first and how, the clamp, its line from the squared end or the witness line."""

    first: int
    on_stick: frozenset[str]
    clamp: bool
    saw: str
    origin: str


ROW = re.compile(r"(?P<id>[A-Z]\w*\d[LR]?)(?: \(\d+ of \d+\))? \d[\d /.]* \((?P<line>\d+\.\d+)(?: in)?\)")
TRIM = re.compile(r"trim [\d /.]+(?: in| mm)?, square 0")
CARD = re.compile(r"card: (?P<saw>[\d /.]+?(?: mm)?(?: (?:bare|full))?(?: in\.)?) from (?:the )?(?P<origin>end \d|witness line)")
FULL = re.compile(r"end (?P<end>\d) first: (?P<what>[\w ,]+)")
LETTERS = re.compile(r"; (?P<t>T?)(?P<c>C?)(?P<end>\d)\b")


def of_plan(page: str) -> list[tuple[str, float, Said]]:
    """The rows of a plan's page: the part, what its blank measures by the lines before and after it, what is said of it."""
    marks = sorted((*TRIM.finditer(page), *ROW.finditer(page)), key=lambda mark: mark.start())
    stops = [mark.start() for mark in marks[1:]] + [page.find("Back on the rack")]
    found, at, said = [], 0.0, {}
    for mark, stop in zip(marks, stops, strict=True):
        if mark.re is TRIM:
            at = 0.0
            continue
        line, words = float(mark["line"]), page[mark.end() : stop]
        if card := CARD.search(words):  # a row like the one before it does not say it again
            end = 2 if "reversed" in words else 1
            full, letters = FULL.search(words), LETTERS.search(words)
            if full:
                made = {kind for kind in ("taper", "cope") if kind in full["what"]}
            else:
                made = {kind for kind, letter in (("taper", "t"), ("cope", "c")) if letters and letters[letter]}
            if any(named is not None and int(named["end"]) != end for named in (full, letters)):
                end = 0  # the end that lies at the datum is not the one that is made first
            saw = re.sub(r" mm| in\.", "", card["saw"])
            said[mark["id"]] = Said(end, frozenset(made), "clamp: " in words, saw, card["origin"])
        found.append((mark["id"], line - at, said[mark["id"]]))
        at = line + KERF
    return found


# --- the card ------------------------------------------------------------------------------------------------------
FACES = r"(?:leg [AB], (?:outer face|inner face|toe's edge)|both outer faces|fillet)"
ORIGINS = r"(?:heel, at both ends|heel, at end \d|end 1, end 2|end \d|witness line)"
MARK = re.compile(
    rf"\d+ (?P<name>[a-z][a-z ,-]*?(?:, end (?P<to>\d))?) (?P<face>{FACES}) (?P<origin>{ORIGINS}) "
    rf"(?P<wanted>{FIGURE}|[\d/ .]+(?: bare| full)?, [\d/ .]+(?: bare| full)? high) (?P<saw>{FIGURE}|-)(?= \d+ [a-z]| Readings| How the|\s*$)"
)
READING = re.compile(r"(?P<name>[a-z].*?) (?P<value>\d+\.\d{2,4}) (?:from )?(?P<low>\d+\.\d{2,4})(?: to |–)(?P<high>\d+\.\d{2,4})(?= |$)")


@dataclass(frozen=True)
class Mark:
    """A row of the marks, its numbers as they stand."""

    name: str
    face: str
    origin: str
    wanted: str
    saw: str


@dataclass(frozen=True)
class Card:
    """What a card says besides its order: its unit, length, hand, partner, limits, marks, readings (name, wanted, low, high)."""

    unit: str
    length: float
    hand: str
    partner: str
    limits: str
    square: str
    datums: tuple[str, ...]
    marks: tuple[Mark, ...]
    readings: tuple[tuple[str, str, str, str], ...]


def whole_card(page: Page) -> Card:
    """A card, read from all its sheets."""
    text = flat(page)
    units = {("mm" if f"{words}, mm" in text else "in") for words in ("finished line", "saw line", "Readings")}
    assert len(units) == 1, f"a card in two units: {text}"
    head = re.search(r"length ([\d /.]+?(?: mm)?) \(", text)
    limits = re.search(r"Limits (?P<rule>.+?), ends square to (?P<square>.+?); the plans first\.", text)
    table = text[text.index("saw line") : re.search(r"Readings(?:, mm)? Limits", text).start()]
    boxes = text[limits.end() :].partition("Computed from")[0]
    boxes = re.sub(r"^.*?(?=(?:toe|heel|taper start|leg [AB]|length along|corner|cope|hole|thickness) )", "", boxes)
    datums = [words for words, there in (("end 1", "square it: now the datum" in text or "in, out: now the datum" in text), ("witness line", "witness line (datum)" in text)) if there]
    datums += ["end 1"] * ("end 1, datum" in text and "end 1" not in datums)
    return Card(
        units.pop(),
        length(head[1])[0],
        match[1] if (match := re.search(r"hand: (left|right)", text)) else "",
        match[1] if (match := re.search(r"partner (\w+)", text)) else "",
        limits["rule"],
        limits["square"],
        tuple(datums),
        tuple(Mark(m["name"], m["face"], m["origin"], m["wanted"], m["saw"]) for m in MARK.finditer(table)),
        tuple((m["name"], m["value"], m["low"], m["high"]) for m in READING.finditer(boxes)),
    )


def of_card(text: str) -> tuple[Said, float]:
    """What a card says, and how far its saw line is from the end that is squared first, over the witness line where there is one."""
    unit = "mm" if "saw line, mm" in text else "in"
    first = int(re.search(r"Square end (\d) on the stick", text)[1])
    steps = text[text.index("Steps") :]
    cut = re.search(r"Cut end (?P<end>\d) to length(?P<more>.*?) \d+ [A-Z]", steps)
    before = steps[: cut.start()]
    made = frozenset(kind for kind, words in (("taper", r"Saw (?:it|leg [AB]'s taper)"), ("cope", "saw the cope")) if re.search(words, before))
    assert ("on the stick, far end on a stand" in before) == ("taper" in made) and int(cut["end"]) == 3 - first
    rows = {mark["name"]: mark for mark in MARK.finditer(text)}
    row, witness = rows[f"length, end {3 - first}"], rows.get("witness line")
    assert (witness is not None) == (row["origin"] == "witness line") and (witness is None or witness["origin"] == f"end {first}")
    far = inches(row["saw"], unit) + (inches(witness["wanted"], unit) if witness else 0.0)
    return Said(first, made, "clamp it" in cut["more"], re.sub(r" \([\d.]+\)$", "", row["saw"]), row["origin"]), far


# --- tags ----------------------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Tag:
    """A blank's tag: length and blank with the units that they say, the end that is squared, hand, partner."""

    length: tuple[float, str]
    blank: tuple[float, str]
    end: int
    hand: str
    partner: str


TAG = re.compile(
    r"(?P<id>[A-Z]\w*\d[LR]?) (?:\d+ of \d+ )?(?:(?P<hand>left|right|neither) )?[A-Z][^0-9]*? \d[\d /x]*(?: in| mm)? "
    r"[0-9]{4}-T\d, (?P<length>[\d /.]+(?: in\.| mm)?) from \S+?,? blank (?P<blank>[\d /.]+(?: in\.| mm)?),? end (?P<end>\d) squared(?:,? partner (?P<partner>\w+))?"
)


def of_tags(pages: list[Page]) -> dict[str, list[Tag]]:
    """Every blank's tag by its part's id."""
    found: dict[str, list[Tag]] = {}
    for m in TAG.finditer(" ".join(flat(page[2:]) for page in pages)):
        tag = Tag(length(m["length"]), length(m["blank"]), int(m["end"]), m["hand"] or "", m["partner"] or "")
        found.setdefault(m["id"], []).append(tag)
    return found


# --- fold sheets and check prints ----------------------------------------------------------------------------------
@dataclass(frozen=True)
class Fold:
    """A part's fold sheets: unit, length, hand, where the witness line is from end 1, the datum's sign, the figures by face and end, the radii.

    ``figures``: (whether inside, the end that they are from; BOTH: either; 0: a stretch between the ends) -> the marks as they stand.
    """

    unit: str
    length: float
    hand: str
    witness: float | None
    datum: bool
    figures: dict[tuple[bool, int], set[str]]
    radii: frozenset[str]


TILE = re.compile(r"(?P<side>outside|inside): (?P<where>.*)")
IN_TILE = re.compile(rf"(?:beside the fillet )?(?P<figure>{FIGURE})(?: from end (?P<end>\d))?")


def of_folds(pages: list[Page]) -> Fold:
    """What the fold sheets of a part say."""
    text = " ".join(map(flat, pages))
    apart = float(length(re.search(r"ticks ([\d.]+ (?:mm|in\.)) apart", text)[1])[0])
    found: dict[tuple[bool, int], set[str]] = {}
    radii, here = set(), []
    for page in pages:
        start = next(i for i, label in enumerate(page) if label == "waste") + 1
        for label in page[start:]:
            if tile := TILE.fullmatch(label):
                for end, figure in _without_ticks(here, apart):
                    for one in (end,) if end else _ends(tile["where"]):
                        found.setdefault((tile["side"] == "inside", one), set()).add(figure)
                here = []
            elif radius := re.fullmatch(r"R (.*)", label):
                radii.add(radius[1])
            elif figure := IN_TILE.fullmatch(label):
                here.append((int(figure["end"] or 0), figure["figure"]))
            elif re.fullmatch("[A-Z]", label):
                here.append((0, label))  # a joint's letter, at both toes
    facts, witness = re.search(r"-T\d, (?P<length>[\d /.]+(?: mm)?) long", text), re.search(r"witness line, ([\d /.]*\d)( mm)?", text)
    unit = "mm" if "Figures are in millimetres" in text else "in"
    return Fold(
        unit, length(facts["length"])[0],
        match[1] if (match := re.search(r"off, hand: (left|right)", text)) else "",
        length(witness[1] + f" {unit}")[0] if witness else None, any("datum" in page for page in pages), found, frozenset(radii),
    )  # fmt: skip


def _ends(where: str) -> tuple[int, ...]:
    """Which end a tile shows, by its caption; both for the whole part, 0 for none."""
    if where.startswith("the whole part"):
        return (BOTH,)
    return tuple(end for end, words in ((1, "end 1 to "), (2, " to end 2")) if words in where) or (0,)


def _without_ticks(here: list[tuple[int, str]], apart: float) -> list[tuple[int, str]]:
    """The figures of a tile without those between its joints and their ticks, one a joint."""
    joints = sum(label.isalpha() for _, label in here) // 2
    kept = [(end, label) for end, label in here if not label.isalpha()]
    for _ in range(joints):
        tick = next((one for one in kept if "(" not in one[1] and abs(inches(one[1], "mm") - apart / 2) < 1e-6), None)
        if tick is not None:
            kept.remove(tick)
    return kept


@dataclass(frozen=True)
class Check:
    """A part's check print: unit, length and how far off it may be [in], hand, limits, whether the other hand fits, what a blunted edge is shorter."""

    unit: str
    length: float
    off: float
    hand: str
    limits: str
    handed: bool
    shorter: frozenset[str]


def of_checks(pages: list[Page]) -> Check:
    """What the pages of a part's check print say."""
    text = " ".join(map(flat, pages))
    said = {(m[1], m[2]) for m in re.finditer(r"(\d[\d /.]*(?: mm)?) \(\d+\.\d{3}(?: in)?\) ±(\d[\d/.]*(?: mm)?) long", text)}
    assert len(said) == 1, said
    ((long, off),) = said
    return Check(
        length(long)[1], length(long)[0], length(off)[0], match[1] if (match := re.search(r"off, hand: (left|right)", text)) else "",
        re.search(r"Limits: (.+?), unless the plans say otherwise", text)[1], "The other hand does not fit" in text,
        frozenset(re.findall(r"feather edge, (?:broken: up to|blunted:) (.+?) shorter", text)),
    )  # fmt: skip
