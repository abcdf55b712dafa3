"""What a mark costs where a job has 200 parts: it is read off the plan file, and planned nothing."""

import time
from fractions import Fraction as F
from random import Random

from anglelib.__main__ import main
from anglelib.files import save_job, save_rack
from anglelib.job import Job, Shop
from anglelib.part import Hole, Part
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick


def test_a_mark_of_200_parts_takes_less_than_a_second(tmp_path, capsys):
    dice = Random(1)
    sections = [Section(F(n, 4), F(n, 4), "1/8", fillet="1/8") for n in (3, 4, 5, 6)]
    holes = [Hole("A", "1/2", "3/8", "1/8")]
    parts = [Part(f"P{n:03}", "Part", dice.choice(sections), "6061-T6", F(dice.randint(48, 640), 16), holes=holes) for n in range(200)]
    sticks = [Stick(f"S-{n:03}", sections[n % 4], "6061-T6", 144, "1/4", "1/4") for n in range(60)]
    files = [str(tmp_path / "job.toml"), str(tmp_path / "rack.csv")]
    save_job(Job("Big", Shop(), parts), files[0])
    save_rack(Rack(sticks), files[1])
    assert main(["pack", *files, "--out", str(tmp_path / "pack"), "--sheets", "tags"]) == 0
    took = []
    for words in (["--done", "S-000"], ["--done", "S-004:2"], ["--undo", "S-000"]):
        start = time.process_time()
        assert main(["plan", *files, *words]) == 0
        took.append(time.process_time() - start)
    assert max(took) < 1, took
    capsys.readouterr()
