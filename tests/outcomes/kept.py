"""What is kept in files: jobs, racks and their records written and read back, changed in place, and refused with every place that is wrong."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from tests.outcomes.facts import facts
from tests.outcomes.kit import JOB, RACK

DEMO = Path(__file__).resolve().parents[2] / "notebooks" / "demo"
SPOILED_JOB = """format = 1
name = "Spoiled"
limits = "rough"
[shop]
kerf = "2"
[section."a"]
leg_a = "3/4"
leg_b = "3/4"
thickness_a = "1"
fillet = "1/8"
[section."b"]
leg_a = "1"
leg_b = "1"
thickness_a = "1/8"
fillet = "1"
[[part]]
id = "A1"
name = "Bar"
section = "c"
alloy = "steel"
length = "x"
hand = "up"
[[part]]
id = "A2"
name = "Cleat"
section = "b"
alloy = "6061-T6"
length = "4"
tapers = [{leg = "C", end = 3, run = "1", angle = "20"}]
"""
SPOILED_RACK = """format,stick_id,leg_a,leg_b,thickness_a,fillet,alloy,length,kind,trim_1,trim_2,dents,cut_into
1,S-1,3/4 in,3/4 in,1 in,1/8 in,6061-T6,40 in,new,0,0,,
1,S-2,3/4 in,3/4 in,1/8 in,2 in,6061-T6,40 in,cut remnant,0,0,,A3
1,S-3,3/4 in,3/4 in,1/8 in,1/8 in,unknown,40 in,old,30,30,3 and 4,
1,S-4,3/4 in,3/4 in,1/8 in,1/8 in,unknown,40 in,remnant,30,30,3 to 4,
1,S-5,3/4 in,3/4 in,1/8 in,1/8 in,,40 in,new,0,0,50 to 51,
"""


def jobs() -> list[Any]:
    """Jobs as text and read back: the kit, the demo, the demo with parts changed in its own text, a job in millimetres with its own limits."""
    from anglelib.files import open_job, parse_job, read_job, render_job
    from anglelib.tolerances import Limits

    demo = open_job(DEMO / "job.toml")
    longer = replace(demo.value, parts=tuple(replace(part, quantity=part.quantity + 1) for part in demo.value.parts[:-2]))
    found = [JOB, demo.value]
    texts = [render_job(JOB), render_job(longer, demo.source.text)]
    texts += [render_job(replace(JOB, unit="mm", limits=Limits.named(name))) for name in ("ISO 2768-1 m", "ISO 2768-1 f", "1/32", "inch")]
    for text in texts:
        read = parse_job(text)
        found += [read, read.limits.name, read.limits.length(17), len(text.splitlines())]
    with TemporaryDirectory() as folder:
        path = Path(folder, "job.toml")
        path.write_text(texts[0], encoding="utf-8")
        found.append(read_job(path) == JOB)
    return [facts(one) for one in found]


def racks() -> list[Any]:
    """Racks as text and read back, with what was cut of them, spoiled, and undone."""
    from fractions import Fraction

    from anglelib.files import mark_cuts, mark_spoiled, read_rack, read_record, render_rack, save_rack, undo_cut
    from anglelib.files.plan_file import parse_plan, render_plan
    from anglelib.files.rack_file import parse_record
    from anglelib.files.rack_record import look_at, mend
    from anglelib.stock.in_hand import differences, in_hand
    from anglelib.stock.planner import plan as make_plan
    from anglelib.stock.record import Mark, pieces_from

    found = [read_rack(DEMO / "rack.csv"), parse_record(render_rack(RACK))]
    with TemporaryDirectory() as folder:
        path = Path(folder, "rack.csv")
        save_rack(RACK, path)
        found.append(mark_cuts(path, [Mark("S-1", pieces_from("P2; 2 x P4"))], JOB, on="2024-05-01"))
        rest = read_record(path).left_of("S-1")[0].id
        found.append(mark_cuts(path, [Mark(rest, pieces_from("P1"))], JOB, on="2024-05-02"))
        found += [mark_spoiled(path, rest, "P1"), read_record(path), len(path.read_text(encoding="utf-8").splitlines())]
        found += [[row.split(",")[11] for row in path.read_text(encoding="utf-8-sig").splitlines()], undo_cut(path, rest), read_record(path)]
        plan = in_hand(make_plan(JOB, RACK), JOB)
        found.append(mark_cuts(path, [plan.mark(next(s.stick.id for s in plan.sticks if len(s.cuts) > 2 and s.stick.id != "S-1"), 2)], JOB, on="2024-05-03"))
        found += [mark_spoiled(path, "S-1", "P4", Fraction(1, 4)), read_record(path)]
        held = parse_plan(render_plan(plan), JOB)
        found += [held == plan, held.number == plan.number, [one.id for one in differences(held, replace(JOB, parts=JOB.parts[1:]), read_record(path))]]
        path.write_text(render_rack(RACK), encoding="utf-8")
        found += [[(one.id, one.stick_id) for one in mend(path)], read_record(path), look_at(path).ids]
    return [facts(one) for one in found]


def refused() -> list[Any]:
    """Where spoiled files are wrong: line, row or part, and key."""
    from anglelib.errors import FileProblems
    from anglelib.files import parse_job, parse_rack

    found = []
    for parse, text in ((parse_job, SPOILED_JOB), (parse_rack, SPOILED_RACK), (parse_job, "format = 1\nname ="), (parse_job, 'name = "a\n'), (parse_rack, "a,b\n1,2")):
        try:
            parse(text)
        except FileProblems as error:
            found.append([[problem.place.split(", ")[-1] if "," in problem.place else "", facts(problem.place)] for problem in error.problems])
    return found
