"""Whatever is done to a file, its reader answers with a job, a rack or sentences: never with a traceback.

500 mutations of each in the default tier, 20,000 with ``-m slow``.
"""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from spoiled import JOB, RACK

import anglelib
from anglelib.errors import BenchError
from anglelib.files import parse_job, parse_rack, read_job, read_rack
from anglelib.job import Job
from anglelib.names import visible
from anglelib.stock.rack import Rack

DEMO = Path(anglelib.__file__).parents[1] / "notebooks" / "demo"
# What has upset readers of text before: of TOML, of CSV, of numbers, of names.
SCRAPS = st.sampled_from(
    ["=", '"', '""', '"""', "'''", "[", "]", "[[", "]]", "{", "}", ",", ";", "\t", ".", "#", "\\", "\\u0000", "\\uD800",
     "\n", "\r", "\r\n", "\0", "\ufeff", "\u202e", "⅝", "'", "-", "1e999", "0x", "nan", "inf", "1979-05-27", "07:32:00",
     "true", "9" * 30, "part.", "[part]", "[[part]]", "[section.heavy]", "format = 1", "a.b.c", "1/0", "to", "unknown",
     "=1+1", "@", "../x", "CON", "-1", "0"],
)  # fmt: skip
CUT = st.tuples(st.floats(0, 1), st.integers(0, 30), st.one_of(SCRAPS, st.text(max_size=8)))


def mutated(text: str, cuts: list[tuple[float, int, str]]) -> str:
    """The text with pieces cut out and others put in."""
    for place, length, scrap in cuts:
        at = int(place * len(text))
        text = text[:at] + scrap + text[at + length :]
    return text


def lines_moved(text: str, moves: list[tuple[float, float]]) -> str:
    """The text with lines copied to other places."""
    lines = text.splitlines(True)
    for source, target in moves:
        lines.insert(int(target * len(lines)), lines[int(source * (len(lines) - 1))])
    return "".join(lines)


def answers(parse, noun, text) -> None:
    start = time.process_time()
    try:
        found = parse(text)
    except BenchError as error:
        assert str(error)
        assert all(visible(line) == line for line in str(error).split("\n"))
    else:
        assert isinstance(found, noun)
    assert time.process_time() - start < 2  # the first job pays for sympy's import


quick = settings(max_examples=500)
long = settings(quick, max_examples=20_000)
CUTS, MOVES = st.lists(CUT, min_size=1, max_size=6), st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), max_size=4)


def check_job(cuts, moves):
    answers(parse_job, Job, mutated(lines_moved(JOB, moves), cuts))


def check_rack(cuts, moves):
    answers(parse_rack, Rack, mutated(lines_moved(RACK, moves), cuts))


test_mutated_jobs = quick(given(CUTS, MOVES)(check_job))
test_mutated_racks = quick(given(CUTS, MOVES)(check_rack))
test_very_many_mutated_jobs = pytest.mark.slow(long(given(CUTS, MOVES)(check_job)))
test_very_many_mutated_racks = pytest.mark.slow(long(given(CUTS, MOVES)(check_rack)))


@given(st.text(max_size=300))
def test_any_text(text):
    answers(parse_job, Job, text)
    answers(parse_rack, Rack, text)


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=300))
def test_any_bytes(tmp_path, content):
    path = tmp_path / "file"
    path.write_bytes(content)
    answers(read_job, Job, path)
    answers(read_rack, Rack, path)


# A value of every kind that TOML has, in the place of every value that a job has.
VALUES = ['""', '"x"', "0", "-1", "1.5", "1e99", "true", "[]", "[1]", "{}", "{x = 1}", "[{}]", "1979-05-27", "07:32:00", "nan",
          "1979-05-27T07:32:00Z", '"\\u202e"', "9" * 100, "0xffffffff", '"' + "9" * 60 + '"', "[[[]]]"]  # fmt: skip
KEYED = [line for line in JOB.splitlines() if " = " in line and not line.startswith(" ")]


@pytest.mark.parametrize("value", VALUES)
def test_every_kind_of_value_at_every_key(value):
    for line in dict.fromkeys(KEYED):
        key = line.split(" = ")[0]
        whole = JOB if not line.endswith("[") else JOB[: JOB.index(line)] + line + "]" + JOB[JOB.index("]\n", JOB.index(line)) + 1 :]
        answers(parse_job, Job, whole.replace(line.rstrip("[") if line.endswith("[") else line, f"{key} = {value}", 1))
    for key in ("leg", "end", "run", "angle", "width_left", "x", "y", "diameter", "flush", "radius", "length"):
        for kind in ("tapers", "holes", "corners", "copes"):
            text = JOB.replace('hand = "neither"', f"{kind} = [{{{key} = {value}}}]").replace("corners = [", "note = '' #")
            answers(parse_job, Job, text)


@pytest.mark.parametrize("name", ["job.toml", "rack.csv"])
def test_every_line_of_the_demo_may_be_missing(name):
    lines = (DEMO / name).read_text(encoding="utf-8").splitlines(True)
    parse, noun = (parse_job, Job) if name == "job.toml" else (parse_rack, Rack)
    for n in range(0, len(lines), 1 if name == "rack.csv" else 7):
        answers(parse, noun, "".join(lines[:n] + lines[n + 1 :]))
