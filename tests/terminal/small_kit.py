"""A small kit on the disk: two parts, three sticks, planned in a moment."""

from __future__ import annotations

import re
from pathlib import Path

from anglelib.__main__ import main

JOB = """format = 1
name = "Small kit"
{unit}
[shop]
kerf = "1/16"
allowance = "1/32"
grain = "1"
usable_minimum = "3"
hand_minimum = "6"

[section."3/4 x 3/4 x 1/8"]
leg_a = "3/4 in"
leg_b = "3/4 in"
thickness_a = "1/8 in"
fillet = "1/8 in"

[[part]]
id = "A"
name = "Long bar"
section = "3/4 x 3/4 x 1/8"
alloy = "6061-T6"
length = "20 in"
quantity = 3
hand = "neither"

[[part]]
id = "B"
name = "Short bar"
section = "3/4 x 3/4 x 1/8"
alloy = "6061-T6"
length = "7 in"
quantity = 2
hand = "neither"
"""
HEAD = "format,stick_id,leg_a,leg_b,thickness_a,thickness_b,fillet,toe_radius,heel_radius,alloy,length,kind,trim_1,trim_2,far_end_good,hands_off,dents,note\n"
ROW = "1,{0},3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,{1} in,{2},1/4 in,1/4 in,no,no,,\n"


class Kit:
    """A job, a rack, and somebody at the command line."""

    def __init__(self, folder: Path, capsys, sticks=(("S-1", 44, "remnant"), ("S-2", 30, "remnant"), ("S-3", 96, "new")), unit: str = ""):
        self.folder, self.capsys = folder, capsys
        self.job, self.rack = folder / "job.toml", folder / "rack.csv"
        folder.mkdir(parents=True, exist_ok=True)
        self.job.write_text(JOB.format(unit=unit))
        self.rack.write_text(HEAD + "".join(ROW.format(*stick) for stick in sticks))

    def run(self, *words: object, code: int = 0) -> str:
        """What a command says, on both streams, its white space made even."""
        assert main([str(word) for word in words]) == code, self.capsys.readouterr()
        out = self.capsys.readouterr()
        assert "Traceback" not in out.out + out.err
        return re.sub(r"\s+", " ", out.out + out.err)

    def plan(self, *words: object, code: int = 0) -> str:
        return self.run("plan", self.job, self.rack, *words, code=code)

    def pack(self, *words: object, code: int = 0) -> str:
        return self.run("pack", self.job, self.rack, "--out", self.folder / "pack", "--sheets", "tags", *words, code=code)
