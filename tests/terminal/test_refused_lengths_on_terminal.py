"""A length typed behind a command is refused in one sentence that says which length it is and what to type instead; nothing is written."""

from __future__ import annotations

from fractions import Fraction

import pytest

from anglelib.__main__ import main
from anglelib.errors import LengthError
from anglelib.lengths import MM
from anglelib.paper.print_scale import measured
from anglelib.terminal.asked import lengths
from tests.unit.refused_lengths import REMEDIES

# What begins with a dash is an option to the shell's reader of options; a comma parts lengths where several are given.
ONE_LINE = {text: remedy for text, remedy in REMEDIES.items() if not text.startswith("-")}
FOURTH = dict(list(ONE_LINE.items())[::4])  # where a job is read before
NO_COMMA = {text: remedy for text, remedy in ONE_LINE.items() if "," not in text}
BAR = ["plan", "--one", "3/4 x 3/4 x 1/8", "6061-T6"]
PLACES = {
    "--one, its length": (lambda text: [*BAR, text], "The length of the part ", ONE_LINE),
    "--left-long": (lambda text: [*BAR, "17", "--left-long", text], "The length left on ", ONE_LINE),
    "--length": (lambda text: ["export", "--what", "saddle", "--out", "made", "--length", text], "The length of the saddle ", FOURTH),
    "--buy": (lambda text: ["plan", "--buy", text], "The length to buy ", {text: FOURTH[text] for text in FOURTH if "," not in text}),
    "buy --lengths": (lambda text: ["buy", "--lengths", text], "The length to buy ", {text: FOURTH[text] for text in FOURTH if "," not in text}),
    "class --lengths": (lambda text: ["class", "--learners", "2", "--out", "made", "--lengths", text], "The length to buy ", NO_COMMA),
    "--bar-measured": (lambda text: ["pack", "--out", "made", "--bar-measured", text], "The measured bar ", NO_COMMA),
}  # fmt: skip
PLACES["class --bar-measured"] = (lambda text: ["class", "--learners", "2", "--out", "made", "--bar-measured", text], "The measured bar ", {"½5": REMEDIES["½5"]})


@pytest.mark.parametrize("place", PLACES)
def test_a_command_says_which_length_and_what_to_type(place, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    words, begins, table = PLACES[place]
    for text, remedy in table.items():
        assert main(words(text)) == 2, text
        said = capsys.readouterr()
        assert said.err.startswith(begins) and remedy in said.err and said.err.count("\n") == 1 and not said.out, (text, said.err)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("command", [["plan"], ["pack", "--out", "made"], ["check", "no.csv"]], ids=lambda words: words[0])
def test_limits_are_refused_with_the_remedy_of_a_length(command, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    for text in ("½5", "1--1/2", "5' 15", "3 1/2m", "1,100", "1/0", "1'000"):
        assert main([*command, "--limits", text]) == 2
        said = capsys.readouterr()
        assert said.err.startswith(f'The limit "{text}"') and REMEDIES[text] in said.err and said.err.count("\n") == 1
    assert main([*command, "--limits", "tight"]) == 2
    assert 'The limits "tight" are unknown: write inch, ISO 2768-1 m' in capsys.readouterr().err


def test_the_sizes_of_a_section_are_lengths(capsys):
    for text in ("½5", "1--1/2", "5' 15", "3 1/2m", "1,100", "1'000", "1/0"):
        assert main(["plan", "--one", f"3/4 x 3/4 x {text}", "6061-T6", "17"]) == 2
        assert REMEDIES[text] in capsys.readouterr().err
        assert main(["plan", "--one", f"3/4 x 3/4 x 1/8 fillet {text}", "6061-T6", "17"]) == 2
        said = capsys.readouterr().err
        assert said.startswith("The fillet radius ") or "," in text, said


def test_pieces_that_were_cut_name_the_part(tmp_path, capsys):
    from anglelib.paper.commands import DEMO

    job, rack = (tmp_path / name for name in ("job.toml", "rack.csv"))
    for file in (job, rack):
        file.write_bytes((DEMO / file.name).read_bytes())
    before = rack.read_bytes()
    for text in ("½5", "1'000", "30 -1/4", "1--1/2", "3 1/2m", "5' 15"):
        assert main(["plan", str(job), str(rack), "--done", f"S-05: A4 at {text}"]) == 2
        said = capsys.readouterr().err
        assert f'awn length of A4 "{text}"' in said and REMEDIES[text] in said
    assert rack.read_bytes() == before


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1,250 mm", "may be one number: write 1250 or 1.250 for one length, 1, 250 for two"),
        ("1.250,5", "may be one number: write 1250.5 for one length, 1.250, 5 for two"),
        ("2,5 m", "has a unit behind some lengths and none behind others: write it behind each"),
        ("8,12 ft", "has a unit behind some lengths and none behind others"),
    ],
)
def test_a_comma_between_lengths_may_be_one_inside_a_number(text, says):
    with pytest.raises(LengthError) as caught:
        lengths(text, "length to buy")
    assert str(caught.value).startswith(f'The length to buy "{text}"') and says in str(caught.value)


def test_several_lengths_are_read():
    assert lengths("72,96,144", "length") == [72, 96, 144] == lengths("6 ft., 8', 144 in", "length")
    assert lengths("72.5, 96 in.", "length") == [Fraction(145, 2), 96] and lengths("2500,3000 mm", "length", "mm") == [2500 * MM, 3000 * MM]


def test_a_measured_bar_with_a_comma_inside_its_number(capsys):
    for text in ("99,2 mm", "3,97 in", "99,2"):
        assert main(["pack", "--bar-measured", text]) == 2
        assert "has a comma inside a number: write the decimal with a point, like 99.2 mm" in capsys.readouterr().err
    assert measured("99.2 mm.") == measured("99.2 mm") == measured("99.2 mm,99.2 mm") == measured("9.92 cm")
    assert measured("3.97,3.98") == measured("3.97 in., 3.98 in.")
