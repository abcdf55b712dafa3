"""One table of spoiled jobs and racks: what is wrong, where it is said to be, and what is said about it.

Each row is a good file with one thing spoiled. Whoever reads files, the library or a command, is
tested from this table: a sentence a problem, at its place, with what was read and what to do.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

JOB = '''\
# A job to spoil.
format = 1
name = "Tail repair"

[shop]
kerf = "1/16"
allowance = "1/32"

[section.heavy]
leg_a = "3/4"
leg_b = "3/4"
thickness_a = "1/8"
fillet = "1/8"

[[part]]
id = "T1L"
name = "Tail cleat, left"
section = "heavy"
alloy = "6061-T6"
length = "2 1/4"
quantity = 2
hand = "left"
mirror_of = "T1R"
tapers = [{leg = "A", end = 1, run = "1 1/4", width_left = "3/8"}]
holes = [
    {leg = "A", x = "1 1/2", y = "7/16", diameter = "1/8"},
    {leg = "B", x = "7/16", y = "7/16", diameter = "1/8"},
]

[[part]]
id = "T1R"
name = "Tail cleat, right"
section = "heavy"
alloy = "6061-T6"
length = "2 1/4"
quantity = 2
hand = "right"
mirror_of = "T1L"
tapers = [{leg = "B", end = 1, run = "1 1/4", width_left = "3/8"}]
holes = [
    {leg = "B", x = "1 1/2", y = "7/16", diameter = "1/8"},
    {leg = "A", x = "7/16", y = "7/16", diameter = "1/8"},
]

[[part]]
id = "T2"
name = "Tail bar"
section = "heavy"
alloy = "6061-T6"
length = "17 1/2"
hand = "neither"
one_piece = true
corners = [{leg = "A", end = 1, radius = "1/4"}, {leg = "A", end = 2, radius = "1/4"}]
'''

RACK = """\
format,stick_id,leg_a,leg_b,thickness_a,fillet,alloy,length,kind,trim_1,trim_2,far_end_good,hands_off,dents,note
1,S-01,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,144 in,new,1/4 in,1/4 in,no,no,,"printed line, leg A"
1,S-02,3/4 in,3/4 in,1/8 in,1/8 in,6061-T6,56 1/4 in,remnant,1/16 in,1/16 in,yes,no,29 1/2 in to 31 in; 50 in to 51 in,
1,S-03,3/4 in,3/4 in,1/8 in,0 in,unknown,47 in,remnant,1/16 in,1/16 in,no,yes,,no marking
"""

FOLDER = object()
ABSENT = object()


@dataclass(frozen=True)
class Spoiled:
    """A file that cannot be used: its kind ("job" or "rack"), its content, and what must be said.

    ``place`` is the place of the problem ("" for the file as a whole); ``wrong`` and ``remedy`` are
    phrases of its sentence.
    """

    name: str
    kind: str
    content: object
    place: str
    wrong: str
    remedy: str

    def write(self, folder: Path) -> tuple[Path, Path]:
        """Both files in a folder, this one spoiled and the other one good: the paths of job and rack."""
        job, rack = folder / "job.toml", folder / "rack.csv"
        job.write_text(JOB, encoding="utf-8")
        rack.write_text(RACK, encoding="utf-8")
        spoiled = job if self.kind == "job" else rack
        spoiled.unlink()
        if self.content is FOLDER:
            spoiled.mkdir()
        elif isinstance(self.content, bytes):
            spoiled.write_bytes(self.content)
        elif isinstance(self.content, str):
            spoiled.write_bytes(self.content.encode("utf-8"))
        return job, rack

    def path(self, folder: Path) -> Path:
        """Where :meth:`write` puts the spoiled file."""
        return folder / ("job.toml" if self.kind == "job" else "rack.csv")


def changed(text: str, old: str, new: str) -> str:
    """The text with its first ``old`` replaced; a row of the table that spoils nothing is a mistake in the table."""
    assert old in text, old
    return text.replace(old, new, 1)


def job(name: str, old: str, new: str, place: str, wrong: str, remedy: str) -> Spoiled:
    return Spoiled(f"job: {name}", "job", changed(JOB, old, new), place, wrong, remedy)


def rack(name: str, old: str, new: str, place: str, wrong: str, remedy: str) -> Spoiled:
    return Spoiled(f"rack: {name}", "rack", changed(RACK, old, new), place, wrong, remedy)


def whole(name: str, kind: str, content: object, place: str, wrong: str, remedy: str) -> Spoiled:
    return Spoiled(f"{kind}: {name}", kind, content, place, wrong, remedy)


_PART = '[[part]]\nid = "X{}"\nname = "Clip"\nsection = "heavy"\nalloy = "6061-T6"\nlength = "2"\n'
_HEAD = JOB[: JOB.index("[[part]]")]

SPOILED = [
    # --- the file as a whole, both kinds ------------------------------------------------------------
    whole("empty file", "job", "", "", "the file is empty", "copy the demo's job.toml"),
    whole("blank lines only", "job", "\n \n\t\n", "", "the file is empty", "copy the demo's job.toml"),
    whole("a folder", "job", FOLDER, "", "job.toml is a folder", "name the file in it"),
    whole("not there", "job", ABSENT, "", "There is no file job.toml", "check the name and the folder"),
    whole("not UTF-8", "job", JOB.encode().replace(b"Tail repair", b"Tail r\xe9pair"), "", "line 3", "again as UTF-8"),
    whole("UTF-16", "job", JOB.encode("utf-16"), "", "stored as UTF-16", "again as UTF-8"),
    whole("zero bytes", "job", b"\0" * 5000, "", "holds zero bytes", "name the job's own file"),
    whole("over 1 MB", "job", JOB + "# more\n" * 150_000, "", "larger than 1,000 kB", "check that it is the right file"),
    whole("a rack", "job", RACK, "line 1", "looks like a rack", "job file first"),
    whole("empty file", "rack", "", "", "the file is empty", "copy the demo's rack.csv"),
    whole("a folder", "rack", FOLDER, "", "rack.csv is a folder", "name the file in it"),
    whole("not there", "rack", ABSENT, "", "There is no file rack.csv", "check the name and the folder"),
    whole("not UTF-8", "rack", RACK.encode().replace(b"printed", b"pr\xefnted"), "", "line 2", "CSV UTF-8"),
    whole("UTF-16", "rack", ("\ufeff" + RACK).encode("utf-16-le"), "", "stored as UTF-16", "CSV UTF-8"),
    whole("a zip", "rack", b"PK\x03\x04\x14\0\x06\0\x08\0", "", "is a ZIP", "unpack it first"),
    whole("over 1 MB", "rack", RACK + RACK.splitlines(True)[1] * 12_000, "", "larger than 1,000 kB", "right file"),
    whole("a job", "rack", JOB, "row 1", "looks like a job", "name the job file first"),
    # --- limits before parsing ----------------------------------------------------------------------
    whole("40 kB dotted key", "job", _HEAD + "a." * 20_000 + "b = 1\n", "line 15", "40,005 characters long", "break it"),
    whole("5,000 brackets", "job", _HEAD + "x = " + "[" * 5_000 + "\n", "line 15", "5,004 characters long", "break it"),
    whole("5,000 brackets on lines", "job", _HEAD + "x = " + "[\n" * 5_000, "", "nested too deep", "close each bracket"),
    whole(
        "dotted keys on 1,000 lines", "job", _HEAD + "".join(f"k{n}.{'a.' * 480}b = 1\n" for n in range(1000)),
        "line 15", "a long chain of names", "one point at most",
    ),
    whole("2,001 parts", "job", _HEAD + "".join(_PART.format(n) for n in range(2001)), "", "more than 2000 parts", "split it"),
    whole("a line of 40,000", "rack", RACK + "x" * 40_000, "line 5", "40,000 characters long", "at most 4,000"),
    whole(
        "2,001 sticks", "rack", RACK + "".join(f"1,R-{n},1,1,1/8,0,unknown,9,new,0,0\n" for n in range(1998)),
        "", "2001 sticks", "split it",
    ),
    # --- the job as text ----------------------------------------------------------------------------
    job("length without quotes", '"2 1/4"', "2 1/4", "line 20", "length = 2 1/4", 'length = "2 1/4"'),
    job("decimal without quotes", '"2 1/4"', "2.25", "part T1L, length", '"2.25" is a bare number', 'length = "2.25"'),
    job("id without quotes", '"T1L"', "T1L", "line 16", "id = T1L", 'id = "T1L"'),
    job("quote not closed", '"Tail cleat, left"', '"Tail cleat, left', "line 17", "a quote is not closed", "two quotes"),
    job("quote in a name", '"Tail repair"', '""><img src=x onerror=alert(1)>"', "line 3", "cannot be read", "quotes"),
    job("list not closed", "]\nholes", "\nholes", "line 25", "a bracket is not closed", "end a list with ]"),
    job("heading not closed", "[shop]", "[shop", "line 5", '"[shop" cannot be read', "close as many brackets"),
    job("key twice", 'hand = "left"', 'hand = "left"\nhand = "left"', "line 23", "given twice", "keep one"),
    job("section twice", "[[part]]", "[section.heavy]\n[[part]]", "line 15", "stands above already", "its own name"),
    job("no value", 'kerf = "1/16"', "kerf =", "line 6", "there is no value", "write one after the sign"),
    job("no sign", 'kerf = "1/16"', 'kerf "1/16"', "line 6", "there is no =", "write name ="),
    job("backslash", '"Tail repair"', r'"Tail \repair \d"', "line 3", r"a \ cannot stand", "single quotes"),
    job("impossible date", '"Tail repair"', "2024-13-45", "line 3", "cannot be read", "in quotes"),
    # --- the job's keys -----------------------------------------------------------------------------
    job("no format", "format = 1\n", "", "format", "it is missing", "write format = 1"),
    job("another format", "format = 1\n", "format = 2\n", "format", 'it is "2"', "write format = 1"),
    job("no name", 'name = "Tail repair"\n', "", "name", "it is missing", "for example name ="),
    job("name a number", '"Tail repair"', "12", "name", 'is "12"', "text in quotes"),
    job("misspelt key", "length =", "lenght =", "part T1L", 'unknown key "lenght"', "did you mean length?"),
    job("unknown key", "one_piece", "colour", "part T2", 'unknown key "colour"', "take it out"),
    job("unknown table", "[shop]", "[workshop]", "", 'unknown key "workshop"', "did you mean shop?"),
    job("one bracket", '[[part]]\nid = "T2"', '[part.more]\nid = "T2"', "part T1R", 'unknown key "more"', "take it out"),
    whole("single part heading", "job", _HEAD + _PART.format(1)[1:].replace("]]", "]"), "part", "two brackets", "[[part]]"),
    whole("no parts", "job", _HEAD, "part", "has no parts", "add at least one"),
    job("shop no table", "[shop]\nkerf = \"1/16\"\nallowance = \"1/32\"\n", "shop = 3\n", "shop", 'it is "3"', "heading [shop]"),
    job("kerf in furlongs", '"1/16"', '"1/16 furlong"', "shop, kerf", "is not a length", "write it like"),
    job("kerf 3 in.", '"1/16"', '"3"', "shop", "kerf is over 1 in.", "check the unit"),
    job("negative allowance", '"1/32"', '"-1/32"', "shop, allowance", "below 0", "leave out the minus"),
    # --- sections -----------------------------------------------------------------------------------
    job("thickness over leg", 'thickness_a = "1/8"', 'thickness_a = "7/8"', 'section "heavy", thickness_a', "7/8 thick", "below the other leg"),
    job("fillet too large", 'fillet = "1/8"', 'fillet = "7/8"', 'section "heavy", fillet', "inside width", "measure both radii"),
    job("leg of 2 millionths", 'leg_a = "3/4"', 'leg_a = "0.000002"', 'section "heavy", leg_a', "is 0.000002", "1/8 to 12 in."),
    job("leg of 1200", 'leg_b = "3/4"', 'leg_b = "1200"', 'section "heavy", leg_b', "is 1200", "1/8 to 12 in."),
    job("leg of 1200 mm", 'leg_b = "3/4"', 'leg_b = "1200 mm"', 'section "heavy", leg_b', "is 1200 mm", "3 to 300 mm"),
    job("thickness of 1e-5", 'thickness_a = "1/8"', 'thickness_a = "0.00001"', 'section "heavy", thickness_a', "is 0.00001", "from 0.010 in."),
    job("thickness of 0.1 mm", 'thickness_a = "1/8"', 'thickness_a = "0.1 mm"', 'section "heavy", thickness_a', "is 0.1 mm", "from 0.25 mm"),
    job("toe radius out of reach", 'fillet = "1/8"', 'fillet = "1/8"\ntoe_radius = "1/4"', 'section "heavy", toe_radius', "more than the thickness", "measure the toe"),
    job("heel radius out of reach", 'fillet = "1/8"', 'fillet = "1/8"\nheel_radius = "5/8"', 'section "heavy", heel_radius', "more than this section takes", "measure it again"),
    rack("leg of 2 millionths", "3/4 in,3/4 in", "0.000002 in,3/4 in", "row 2, leg_a", "is 0.000002", "1/8 to 12 in."),
    rack("leg of 1200 mm", "3/4 in,3/4 in", "3/4 in,1200 mm", "row 2, leg_b", "is 1200 mm", "3 to 300 mm"),
    rack("thickness of 1e-5", "1/8 in,1/8 in,6061", "0.00001 in,1/8 in,6061", "row 2, thickness_a", "is 0.00001", "from 0.010 in."),
    rack("fillet out of reach", "1/8 in,1/8 in,6061", "1/8 in,3 in,6061", "row 2, fillet", "inside width", "measure both radii"),
    job("no fillet", 'fillet = "1/8"\n', "", 'section "heavy", fillet', "it is missing", '"0" for a square inside corner'),
    job("leg 0", 'leg_a = "3/4"', 'leg_a = "0"', 'section "heavy", leg_a', "is 0", "above 0"),
    job("unknown section", 'section = "heavy"', 'section = "light"', "part T1L, section", '"light" is not described', "add it"),
    job("no section", '[section.heavy]\nleg_a = "3/4"\nleg_b = "3/4"\nthickness_a = "1/8"\nfillet = "1/8"\n', "",
        "section", "no section is described", "write a heading"),
    job("section without a name", "[section.heavy]", "[section]", "section", '"leg_a" belongs to no section', "with its name"),
    whole("section a number", "job", 'format = 1\nname = "x"\nsection = 3\n' + _PART.format(1), "section", 'it is "3"', "write a heading"),
    whole("2,001 parts in one list", "job",
          _HEAD.replace("[shop]", "part = [\n" + "{},\n" * 2001 + "]\n[shop]"), "part", "2001 parts", "split it"),
    job("bad section, used twice", 'leg_b = "3/4"', 'leg_b = "wide"', 'section "heavy", leg_b', '"wide" is not a length', "write it like"),
    # --- lengths ------------------------------------------------------------------------------------
    job("wrong unit", '"17 1/2"', '"17 1/2 yd"', "part T2, length", '"17 1/2 yd" is not a length', "41.3 mm"),
    job("comma decimal", '"17 1/2"', '"17,5"', "part T2, length", "has a comma", "17.5"),
    job("divides by zero", '"17 1/2"', '"17 1/0"', "part T2, length", "divides by 0", "under the bar"),
    job("exponent", '"17 1/2"', '"1e99999999"', "part T2, length", "is not a length", "write it like"),
    job("exponent, bare", '"17 1/2"', "1e99999999", "part T2, length", "is a bare number", "write it in quotes"),
    job("infinity", '"17 1/2"', "inf", "part T2, length", '"inf" is a bare number', "write it in quotes"),
    job("100 miles", '"17 1/2"', '"6336000"', "part T2, length", "no stick is that long", "check the number and its unit"),
    job("41 characters", '"17 1/2"', f'"17{" " * 36}1/2"', "part T2, length", "41 characters long", "at most 40"),
    job("length 0", '"17 1/2"', '"0 mm"', "part T2, length", "is 0", "above 0"),
    job("length a list", '"17 1/2"', '["17 1/2"]', "part T2, length", "a list [...]", "a length in quotes"),
    # --- parts --------------------------------------------------------------------------------------
    job("duplicate ids", 'id = "T2"', 'id = "T1L"', "part T1L, id", "not its own", "Rename one"),
    job("ids by capitals", 'id = "T2"', 'id = "t1l"', "part t1l, id", "only in capitals", "Rename one"),
    job("id a path", 'id = "T2"', 'id = "../x"', "part ../x, id", '"../x" cannot be used', "letters, digits"),
    job("id a device", 'id = "T2"', 'id = "CON"', "part CON, id", "cannot name a file", "choose another"),
    job("id a formula", 'id = "T2"', 'id = "=1+1"', "part =1+1, id", '"=1+1" cannot be used', "starting with a letter"),
    job("no id", 'id = "T2"\n', "", "part number 3, id", "it is missing", "for example id ="),
    job("name with an escape", '"Tail bar"', '"Tail \\u202e bar"', "part T2, name", "cannot be printed", "by hand"),
    job("name empty", '"Tail bar"', '" "', "part T2, name", "is empty", "write it"),
    job("name too long", '"Tail bar"', f'"{"x" * 61}"', "part T2, name", "61 characters long", "shorten it to 60"),
    job("alloy no alloy", '"6061-T6"', '"aluminium"', "part T1L, alloy", '"aluminium" is no alloy', "6061-T6"),
    job("quantity 0", "quantity = 2", "quantity = 0", "part T1L, quantity", '"0" is out of range', "from 1"),
    job("quantity 1e9", "quantity = 2", "quantity = 1e9", "part T1L, quantity", '"1e9" is not a whole number', "without quotes"),
    job("quantity 10^9", "quantity = 2", "quantity = 1000000000", "part T1L, quantity", "out of range", "to 2000"),
    job("quantity quoted", "quantity = 2", 'quantity = "2"', "part T1L, quantity", "not a whole number", "without quotes"),
    job("2,003 pieces", "quantity = 2", "quantity = 2000", "quantity", "2003 pieces in all", "split it"),
    job("unknown hand", 'hand = "left"', 'hand = "L"', "part T1L, hand", '"L" is unknown', '"left" or "right"'),
    job("neither, but handed", 'hand = "left"', 'hand = "neither"', "part T1L, hand", "it is handed", "Say left or right"),
    job("left, but neither", 'hand = "neither"', 'hand = "left"', "part T2, hand", "its own mirror image", "say neither"),
    job("both left", 'hand = "right"', 'hand = "left"', "part T1L, mirror_of", "both say left", "the other hand"),
    job("partner absent", 'mirror_of = "T1R"', 'mirror_of = "T9"', "part T1L, mirror_of", "not in the job", "check the id"),
    job("partner no mirror", 'mirror_of = "T1R"', 'mirror_of = "T2"', "part T1L, mirror_of", "not the mirror image", "compare"),
    job("one_piece in quotes", "one_piece = true", 'one_piece = "yes"', "part T2, one_piece", 'is "yes"', "true or false"),
    job("one_piece yes", "one_piece = true", "one_piece = yes", "line 52", "one_piece = yes", "true or false"),
    job("priority a word", "one_piece = true", 'priority = "high"', "part T2, priority", '"high" is not a whole', "priority = 0"),
    # --- tapers, holes, corners, copes --------------------------------------------------------------
    job("taper longer than part", 'run = "1 1/4"', 'run = "2 1/2"', "part T1L, tapers 1", "longer than the part", "check its run"),
    job("angle too flat", 'run = "1 1/4"', 'angle = "5"', "part T1L, tapers 1", "longer than the part", "run or angle"),
    job("run and angle", 'run = "1 1/4"', 'run = "1 1/4", angle = 20', "part T1L, tapers 1", "both a run and an angle", "keep the one"),
    job("neither of them", 'run = "1 1/4", ', "", "part T1L, tapers 1", "neither a run nor an angle", "sets its slope"),
    job("angle 1e99999999", 'run = "1 1/4"', "angle = 1e99999999", "part T1L, tapers 1", '"1e99999999" is not', "like 22.5"),
    job("angle 90", 'run = "1 1/4"', "angle = 90", "part T1L, tapers 1", "is 90 degrees", "between 0 and 90"),
    job("width left over leg", 'width_left = "3/8"', 'width_left = "3/4"', "part T1L, tapers 1", "nothing would be cut", "Check the width"),
    job("no width left", ', width_left = "3/8"', "", "part T1L, tapers 1, width_left", "is missing", '"0" for a cut to the vertex'),
    job("taper on leg C", 'leg = "A", end = 1, run', 'leg = "C", end = 1, run', "part T1L, tapers 1, leg", '"C" is unknown', '"A" or "B"'),
    job("taper at end 3", "end = 1, run", "end = 3, run", "part T1L, tapers 1, end", '"3" is unknown', "1 or 2"),
    job("list begun without a bracket", '[{leg = "A", end = 1, run', '{leg = "A", end = 1, run', "line 24", "cannot be read", "name ="),
    job("tapers no list", "one_piece = true", 'tapers = {leg = "A"}', "part T2, tapers", "no list of entries", "tapers = [{leg"),
    job("note a number", "one_piece = true", "note = 7", "part T2, note", 'is "7"', "text in quotes"),
    job("stick id a path", "one_piece = true", 'only_stick = "../x"', "part T2, only_stick", "cannot be used", "letters, digits"),
    job("stick id a number", "one_piece = true", "only_stick = 7", "part T2, only_stick", 'is "7"', "text in quotes"),
    job("hole off the leg", 'y = "7/16"', 'y = "3/4"', "part T1L, holes 1", "lies off leg A", "check its y"),
    job("hole beyond the end", 'x = "1 1/2"', 'x = "2 1/4"', "part T1L, holes 1", "beyond the end", "check its x"),
    job("hole in the root", 'y = "7/16"', 'y = "1/8"', "part T1L, holes 1", "runs into leg B", "from the heel"),
    job("hole cut by the taper", 'x = "1 1/2", y = "7/16"', 'x = "1/4", y = "7/16"', "part T1L, holes 1", "breaks through", "check its x and y"),
    job("hole beyond the taper", 'x = "1 1/2", y = "7/16"', 'x = "1/4", y = "5/8"', "part T1L, holes 1", "lies in what the taper at end 1 cuts away", "check its x and y"),
    job("hole there twice", '{leg = "B", x = "7/16"', '{leg = "A", x = "1 1/2"', "part T1L, holes 2", "is there twice", "keep one of the two"),
    job("holes that touch", '{leg = "B", x = "7/16"', '{leg = "A", x = "1 5/8"', "part T1L, holes 2", "no metal is left between them", "move one of them"),
    job("hole 0", 'diameter = "1/8"', 'diameter = "0"', "part T1L, holes 1, diameter", "is 0", "above 0"),
    job("hole without a leg", '{leg = "A", x', "{x", "part T1L, holes 1, leg", "is missing", 'leg = "A" or "B"'),
    job("corner twice", 'end = 2, radius', "end = 1, radius", "part T2, corners", "two entries", "keep one"),
    job("corner that does not fit", 'end = 2, radius = "1/4"', 'end = 2, radius = "3"', "part T2, corners", "needs 3 of edge", "smaller radius"),
    job("cope radius", "corners = [", 'copes = [{leg = "A", end = 1, length = "1/8", width_left = "1/4", radius = "1/4"}]\ncorners = [',
        "part T2, copes 1", "longer than the cope", "smaller radius"),
    # --- the rack's columns -------------------------------------------------------------------------
    rack("missing column", ",length,", ",", "row 1", "there is no column length", "add it"),
    rack("misspelt column", ",length,", ",lenght,", "row 1", 'unknown column "lenght"', "did you mean length?"),
    rack("unknown column", ",note", ",price", "row 1", 'unknown column "price"', "take it out"),
    rack("column twice", ",far_end_good,", ",trim_1,", "row 1", "trim_1 stands here 2 times", "keep one"),
    rack("no header", RACK.splitlines(True)[0], "", "row 1", "must name the columns", "copy the demo's"),
    rack("another format", "\n1,S-01", "\n2,S-01", "row 2, format", 'it is "2"', "write 1 in this column"),
    rack("no format", "\n1,S-01", "\n,S-01", "row 2, format", 'it is ""', "write 1 in this column"),
    rack("a cell too many", "no marking", "no, marking", "row 4", '"marking" stands beyond', "put quotes round"),
    rack("comma decimal", "144 in", "144,5 in", "row 2", "stands beyond the last column", "decimals with a point"),
    rack("quote not closed", '"printed line', '"printed "line', "row 2", "is not closed, or goes on", 'write ""'),
    # --- its rows -----------------------------------------------------------------------------------
    rack("duplicate ids", "S-02", "s-01", "row 3, stick_id", '"s-01" is also in row 2', "rename one"),
    rack("id a path", "S-02", "../x", "row 3, stick_id", '"../x" cannot be used', "letters, digits"),
    rack("id a device", "S-02", "nul.txt", "row 3, stick_id", "cannot name a file", "choose another"),
    rack("id a formula", "S-02", "=1+1", "row 3, stick_id", '"=1+1" cannot be used', "starting with a letter"),
    rack("no id", "S-02", "", "row 3, stick_id", "there is no stick id", "marked on the stick"),
    rack("wrong unit", "144 in", "12 yd", "row 2, length", '"12 yd" is not a length', "write it like"),
    rack("length a date", "56 1/4 in", "4-Mar", "row 3, length", '"4-Mar" is a spreadsheet\'s date', "3/4 in"),
    rack("no length", "144 in", "", "row 2, length", "there is no length", "write it"),
    rack("length 0", "144 in", "0", "row 2, length", "is 0", "above 0"),
    rack("exponent", "144 in", "1e99999999", "row 2, length", "is not a length", "write it like"),
    rack("thickness over leg", "1/8 in,1/8 in", "1 in,1/8 in", "row 2, thickness_a", "1 thick", "below the other leg"),
    rack("fillet too large", "1/8 in,1/8 in", "1/8 in,1 in", "row 2, fillet", "inside width", "measure both radii"),
    rack("no fillet", "1/8 in,1/8 in", "1/8 in,", "row 2, fillet", "there is no fillet radius", "0 for a square inside corner"),
    rack("alloy empty", "6061-T6", "", "row 2, alloy", "no alloy", "or unknown"),
    rack("alloy no alloy", "6061-T6", "6061 T6", "row 2, alloy", '"6061 T6" is no alloy', "did you mean 6061-T6?"),
    rack("kind", ",new,", ",off-cut,", "row 2, kind", '"off-cut" is unknown', "new or remnant"),
    rack("stick shorter than trims", "1/4 in,1/4 in", "72 in,73 in", "row 2, trim_1", "leave nothing", "check the trims"),
    rack("no trim", "1/4 in,1/4 in", ",1/4 in", "row 2, trim_1", "there is no trim", "0 for an end that is square"),
    rack("negative trim", "1/4 in,1/4 in", "-1/4 in,1/4 in", "row 2, trim_1", "below 0", "leave out the minus"),
    rack("flag", ",yes,no,", ",yes,never,", "row 3, hands_off", '"never" is neither', "yes or no"),
    rack("dent without to", "29 1/2 in to 31 in", "29 1/2 in - 31 in", "row 3, dents", 'has no "to"', "29 1/2 to 31"),
    rack("dent no length", "29 1/2 in to", "here to", "row 3, dents", '"here" is not a length', "write it like"),
    rack("dent beyond the end", "50 in to 51 in", "50 in to 61 in", "row 3, dents", "the stick is 56 1/4 long", "measure the dent"),
    rack("dent backwards", "50 in to 51 in", "51 in to 50 in", "row 3, dents", "from 51 to 50", "must end beyond"),
    rack("note unprintable", "no marking", "no \x07marking", "row 4, note", "cannot be printed", "by hand"),
    rack("note too long", "no marking", "x" * 401, "row 4, note", "401 characters long", "shorten it to 400"),
]  # fmt: skip

INERT_NAMES = [
    '"><img src=x onerror=alert(1)>',
    "Cleat $a_{$",
    "=1+1",
    "@SUM(A1)",
    "-2+3",
    "<script>alert(1)</script>",
    "**bold** _it_ `code` [a](b)",
    "</svg>&amp;&lt;",
    "' OR 1=1 --",
    "{{7*7}} %s %(x)s {0}",
    "\\frac{1}{2}",
    "Brücke ⅝ 角",
]
"""Names and notes that are only text: accepted, kept to the letter, and inert wherever they are shown."""
