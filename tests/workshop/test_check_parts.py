"""Made parts checked from a readings file: parts made with known slips, bad input, pairs, the class's counts, the time it takes."""

import csv
import io
import random
import time

import pytest

from anglelib.errors import BenchError, FileProblems, StorageError
from anglelib.files.job_file import read_job
from anglelib.inspection.by_amount import by_amount, one_way
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.reading_ids import chosen
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.wanted import wanted_readings
from anglelib.job import Job
from anglelib.paper.commands import DEMO
from anglelib.tolerances import Limits
from anglelib.workshop import check_command
from anglelib.workshop.check_parts import check_parts
from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.learner_parts import learners
from anglelib.workshop.readings_file import form, from_entries, parse_readings

JOB = read_job(DEMO / "job.toml")


def named(part):
    """The ids of the readings that the part's card asks for, with the words that the card has for them."""
    return [(id_, reading_words(id_, part)) for id_ in chosen(part)]


def typed(made, code, noise=0.0, seed=0):
    """The rows that a person would type of a made part, by the words on its card."""
    scatter, read = random.Random(f"{seed} {code}"), readings_of(made)
    return [
        [code, made.wanted.id, words, f"{max(0.0, read[id_] + scatter.gauss(0, noise)):.3f}"] for id_, words in named(made.wanted) if id_ in read
    ]


def text_of(rows):
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows([["code", "part", "reading", "read"], *rows])
    return out.getvalue()


def slipped(part_id, slip):
    part = JOB.part(part_id)
    return by_amount(one_way(slip, part, JOB.shop), 1) if slip else Made.as_wanted(part)


MADE = [
    ("A1L", ""), ("A1R", "M01"), ("A2L", "M10"), ("A2R", ""), ("C1L", "M13"), ("C1R", ""), ("C2L", "M19"), ("C2R", "M09"),
    ("D2L", ""), ("D2R", "M16"), ("E2L", "M18"), ("E2R", "M01"), ("E2L", "M21"), ("A6R", ""), ("A1L", "M20"), ("A1R", ""),
    ("E2L", "M05"), ("E2R", "M01"), ("A5L", ""), ("A5R", ""),
]  # fmt: skip


def test_twenty_parts_in_ten_seconds_each_with_its_slip():
    """The slip a part was made with is among those that are named; a good part passes; all in under 10 s."""
    rows = [row for n, (id_, slip) in enumerate(MADE) for row in typed(slipped(id_, slip), f"K{n:02d}", 0.002)]
    start = time.process_time()
    found = check_parts(parse_readings(text_of(rows), JOB), JOB)
    assert time.process_time() - start < 10
    missed = []
    for one, (id_, slip) in zip(found.parts, MADE, strict=True):
        named = {i for cause in one.causes for i in (*cause.ids, *cause.second)}
        if not slip:
            assert one.outcome in ("pass", "read again") and not one.causes, (id_, one.sentence)
        else:
            assert one.outcome in ("rework", "scrap"), (id_, slip, one.sentence)
            missed += [] if slip in named else [(id_, slip, named)]
    assert not missed
    assert found.count("pass") + found.count("read again") == 8
    counted = {mistake.ids[0]: mistake.count for mistake in found.mistakes}
    assert sum(counted.values()) == 12
    assert any(count >= 2 for count in counted.values())  # M01 was made three times
    words = " ".join([found.sentence, *(m.name + m.to_say for m in found.mistakes)])
    assert "K0" not in words and "A1L" not in words


CLASS_SLIPS = (
    "M01", "M09", "M10", "M13", "M16", "M18", "M19", "M20", "M05", "M11", "M14", "M21", "M22", "M02", "M04", "M15", "M23", "M03", "M17", "M01",
)  # fmt: skip


@pytest.mark.slow
def test_a_class_of_twenty_each_with_another_part_and_another_slip():
    """Parts of the class pack, no two alike: the slip is among those named, in under 10 s of the processor."""
    parts = [learner.part for learner in learners(ClassWanted(20))]
    job = Job("Class", JOB.shop, parts)
    rows = []
    for n, (part, slip) in enumerate(zip(parts, CLASS_SLIPS, strict=True)):
        rows += typed(by_amount(one_way(slip, part, job.shop), 1), f"K{n:02d}", 0.002)
    start = time.process_time()
    found = check_parts(parse_readings(text_of(rows), job), job)
    assert time.process_time() - start < 10
    right = sum(slip in {i for c in one.causes for i in (*c.ids, *c.second)} for one, slip in zip(found.parts, CLASS_SLIPS, strict=True))
    assert right >= 19


def test_rework_says_how_much_comes_off():
    part = JOB.part("A3")
    wanted = float(part.length)
    lengths = {"toe.A", "toe.B", "heel"}
    rows = [["K01", "A3", reading_words(r.id, part), f"{r.value + 0.040 * (r.id in lengths):.3f}"] for r in wanted_readings(part, JOB.limits)]
    assert len(rows) >= 5
    (one,) = check_parts(parse_readings(text_of(rows), JOB), JOB).parts
    assert one.outcome == "rework" and "take off" in one.sentence and "0.040" in one.sentence
    assert wanted == 17.25
    short = [[*row[:3], f"{float(row[3]) - 0.1:.3f}" if "end to end" in row[2] or "heel" in row[2] else row[3]] for row in rows]
    assert check_parts(parse_readings(text_of(short), JOB), JOB).parts[0].outcome == "scrap"


def test_a_pair_made_of_one_hand_is_named():
    """A1R made as another A1L: alone it is the other hand, beside its partner it is a pair of one hand."""
    left = Made.as_wanted(JOB.part("A1L"))
    right = JOB.part("A1R")
    readings = [["K01", "A1R", *row[2:]] for row in typed(slipped("A1R", "M09"), "K01")]
    assert {row[2] for row in readings} == {words for _, words in named(right)}
    found = check_parts(parse_readings(text_of(typed(left, "K01") + readings), JOB), JOB)
    assert "M26" in found.parts[1].pair and not found.parts[0].pair
    assert found.mistakes[0].ids == ("M26",)


def test_the_check_print_comes_first():
    text = "code,part,reading,read\nK01,A1L,check print,inside\nK02,A1L,Check Print,MISSES\nK03,A1L,check print,\n"
    found = check_parts(parse_readings(text, JOB), JOB)
    assert [one.outcome for one in found.parts] == ["pass", "not-read", "not-read"]
    assert "take its readings" in found.parts[1].sentence


def test_everything_wrong_is_said_at_once_by_row():
    part = JOB.part("A1L")
    want = wanted_readings(part, JOB.limits)[1]
    name, value = f'"{reading_words(want.id, part)}"', want.value  # its words hold a comma
    text = (
        "format,code,part,reading,read\n"
        f"1,K01,A1L,{name},one inch\n"
        f"1,K01,A1M,{name},0.875\n"
        f"1,,A1L,{name},0.875\n"
        f"1,K02,,{name},x\n"
        f"1,K03,A1L,{name},{value * 25.4:.1f}\n"
        f"1,K04,A1L,{name},{value:.3f} mm\n"
        f"1,K05,A1L,{name},{value * 10:.2f}\n"
        f"1,Anna Smith,A1L,{name},0.875\n"
        f"1,K06,A1L,{name},0.875\n"
        f"1,K06,A1L,{name},0.876\n"
        "1,K07,A1L,shoe size,9\n"
        "1,K08,A1L,check print,perhaps\n"
        f"1,K09,A1L,{name},0.875,7\n"
    )
    with pytest.raises(FileProblems) as error:
        parse_readings(text, JOB)
    told = str(error.value).splitlines()
    for row, says in {
        2: "is not a length", 3: "did you mean", 4: "no code", 5: "there is no part", 6: "is it millimetres", 7: "is it inches",
        8: "decimal point", 9: "cannot be used", 11: "also in row 10", 12: "no reading", 13: "inside or misses", 14: "beyond the last column",
    }.items():  # fmt: skip
        assert any(f"row {row}" in line.split(":")[0] and says in line for line in told), (row, says, told)
    assert not any("row 10," in line.split(":")[0] for line in told)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "empty"), ("x,y\n1,2\n", "must name the columns"), ("code,part,reading\nK1,A1L,x\n", "no column read"),
        ("code,part,reading,read\n", "no part is named"), ('code,part,reading,read\nK1,"A1L,x,1\n', "quote"),
        ("format,code,part,reading,read\n7,K01,A1L,check print,inside\n", "format"),
        ("code,part,reading,raed\nK1,A1L,check print,inside\n", "did you mean read"),
        ("code,part,reading,read\n" + "K1,A1L,check print,inside\n" * 5001, "at most 5,000"),
        ("code,code,part,reading,read\nK1,K1,A1L,x,1\n", "2 times"),
    ],
)  # fmt: skip
def test_files_that_are_not_readings(text, says):
    with pytest.raises(FileProblems, match=says):
        parse_readings(text, JOB)


def test_the_form_is_read_back_and_is_never_written_over_a_file(tmp_path, capsys):
    out = tmp_path / "readings.csv"
    assert check_command.main(["--form", str(out), "--codes", "3", "--parts", "A1L,A1R"]) == 0
    with pytest.raises(BenchError, match="No reading is typed in yet"):
        check_command.main([str(out)])
    with pytest.raises(StorageError, match="already a file"):
        check_command.main(["--form", str(out)])
    rows = list(csv.DictReader(out.read_text().splitlines()))
    assert {row["code"] for row in rows} == {"K01", "K02", "K03"} and len(rows) == 3 * 2 * 8
    # a person types what the column wanted says: a good part
    filled = out.read_text()
    good = io.StringIO()
    writer = csv.DictWriter(good, fieldnames=list(rows[0]))
    writer.writeheader()
    for row in rows:
        writer.writerow({**row, "read": "inside" if row["reading"] == "check print" else row["wanted"]})
    out.write_text(good.getvalue())
    assert check_command.main([str(out)]) == 0 and filled != good.getvalue()
    assert "6 parts: 6 pass." in capsys.readouterr().out


def test_the_command_tells_codes_to_the_instructor_and_none_to_the_class(tmp_path, capsys):
    path = tmp_path / "readings.csv"
    path.write_text(text_of(typed(slipped("E2L", "M01"), "K42")))
    assert check_command.main([str(path)]) == 3
    assert "K42 E2L" in capsys.readouterr().out
    assert check_command.main([str(path), "--class-only"]) == 3
    out = capsys.readouterr().out
    assert "K42" not in out and "E2L" not in out and "M01" in out


def test_what_a_good_part_reads_too_is_no_mistake_of_the_class():
    """One hole is off by little more than its limit, all else as wanted: nothing was weighed, so no wrong alloy is told to a class."""
    rows = [[code, id_, name, "0.3945" if name == "hole A at 1/2, from heel" else value] for code, id_, name, value in typed(slipped("A3", ""), "K1")]
    found = check_parts(parse_readings(text_of(rows), JOB), JOB)
    assert [one.outcome for one in found.parts] == ["scrap"]
    assert [(m.name, m.to_say) for m in found.mistakes] == [("no slip that is known", "Measure these parts again, then ask how they were made.")]


def test_no_form_is_made_that_would_not_be_read_back(tmp_path):
    with pytest.raises(BenchError, match="would have 35,200 rows, and a readings file at most 5,000: name fewer --parts"):
        check_command.main(["--form", str(tmp_path / "form.csv"), "--codes", "200"])
    assert not list(tmp_path.iterdir())


def test_a_form_refuses_names_and_unknown_parts():
    with pytest.raises(BenchError, match="may be a name"):
        form(JOB, ["Anna"])
    with pytest.raises(BenchError, match="no part"):
        form(JOB, ["K01"], ["Z9"])


def test_typed_on_a_page():
    found = from_entries([("K01, A3", {"code": "K01", "part": "A3", "reading": "heel length", "read": "17 1/4"})], JOB)
    assert found[0].readings[0].value == 17.25
    with pytest.raises(FileProblems, match="K01, A3, read: the length along the heel"):
        from_entries([("K01, A3", {"code": "K01", "part": "A3", "reading": "heel length", "read": "x"})], JOB)


# --- what the sheets say, and what the check says ------------------------------------------------------------------
@pytest.mark.parametrize("column", ["low", "high"])
def test_a_reading_on_a_limit_as_it_is_printed_is_not_called_bad(column):
    """63/64 is printed as 0.984, and 0.984 is a hair less than 63/64: a part that its card lets through is no scrap."""
    made = []
    for row in csv.DictReader(io.StringIO(form(JOB, ["K01"]))):
        if row["id"] != "print":
            made.append(row | {"read": row[column]})
    out = io.StringIO()
    writer = csv.DictWriter(out, made[0])
    writer.writeheader()
    writer.writerows(made)
    found = check_parts(parse_readings(out.getvalue(), JOB), JOB)
    assert {one.outcome for one in found.parts} <= {"pass", "again"}, [one.sentence for one in found.parts if one.outcome == "scrap"]


def test_a_reading_that_says_otherwise_than_the_check_print_is_read_again():
    text = "code,part,id,read\nK01,A1L,print,inside\nK01,A1L,toe.B,2.4\nK02,A1L,print,inside\nK02,A1L,toe.B,2.126"
    bad, good = check_parts(parse_readings(text, JOB), JOB).parts
    assert (bad.outcome, good.outcome) == ("again", "pass")
    assert bad.sentence.startswith("Read again: it is said to lie inside its check print, and its readings say otherwise. Rework: toe B")


def test_of_a_part_that_is_longer_than_the_paper_a_length_is_read_too():
    """A check print of a longeron shows its two ends: it cannot say how long the part is."""
    text = "code,part,id,read\nK01,A6L,print,inside\nK02,A6L,print,inside\nK02,A6L,toe.A,118.5"
    alone, measured = check_parts(parse_readings(text, JOB), JOB).parts
    assert (alone.outcome, measured.outcome) == ("not-read", "pass")
    assert alone.sentence == "It lies inside its check print, which shows its ends and not its length: read the toe A, end to end too."


def test_what_is_less_than_a_rule_shows_is_said_as_a_caliper_shows_it():
    tight = Job(JOB.name, JOB.shop, JOB.parts, limits=Limits.named("0.002"))
    one = check_parts(parse_readings("code,part,id,read\nK01,A1L,toe.B,2.119", tight), tight).parts[0]
    assert one.sentence.startswith("Scrap as A1L: toe B, end to end is short by 0.006, and metal")


@pytest.mark.parametrize("text", ["10000", "201 people", "K01, 7"])
def test_a_number_that_is_no_number_of_people_is_not_taken_for_a_code(text):
    with pytest.raises(BenchError, match="people|codes like K01"):
        form(JOB, check_command.codes(text))
