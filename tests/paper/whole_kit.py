"""A kit of our own with every feature, as files: a job in inches with parts in millimetres, and the same job in millimetres with a part in inches.

Every length carries its unit, so that both jobs have the same metal; which unit a part is written in is the job's, where
the part names none.
"""

from __future__ import annotations

from anglelib.files.job_file import parse_job
from anglelib.files.rack_file import parse_rack
from anglelib.job import Job
from anglelib.stock.rack import Rack

HEAD = """\
format = 1
name = "Whole kit"
unit = "{unit}"
{limits}
[shop]
kerf = "1/16 in"
allowance = "1/32 in"
grain = "1 in"
usable_minimum = "3 in"
hand_minimum = "6 in"

[section."equal"]
leg_a = "1 1/4 in"
leg_b = "1 1/4 in"
thickness_a = "1/8 in"
fillet = "1/8 in"

[section."unequal"]
leg_a = "1 1/2 in"
leg_b = "1 in"
thickness_a = "1/8 in"
fillet = "1/8 in"

[section."thin"]
leg_a = "3/4 in"
leg_b = "3/4 in"
thickness_a = "1/16 in"
fillet = "1/16 in"

[section."metric"]
leg_a = "30 mm"
leg_b = "30 mm"
thickness_a = "3 mm"
fillet = "2 mm"
"""
PARTS = """
[[part]] # the longest: to the vertex at end 1, flat on the other leg at end 2, holes flush and facing
id = "R60"
name = "Long rail"
section = "equal"
alloy = "6061-T6"
length = "60 in"
one_piece = true
tapers = [
    {leg = "A", end = 1, run = "2 1/8 in", width_left = "0"},
    {leg = "B", end = 2, run = "1 7/8 in", width_left = "1/2 in"},
]
holes = [
    {leg = "A", x = "6 in", y = "11/16 in", diameter = "1/8 in"},
    {leg = "B", x = "6 in", y = "11/16 in", diameter = "1/8 in", flush = true},
    {leg = "A", x = "31 3/8 in", y = "11/16 in", diameter = "1/8 in", flush = true},
    {leg = "A", x = "59 1/2 in", y = "11/16 in", diameter = "3/16 in"},
]

[[part]] # the shortest
id = "K34"
name = "Clip"
section = "thin"
alloy = "6061-T6"
length = "3/4 in"
quantity = 3
holes = [{leg = "A", x = "3/8 in", y = "7/16 in", diameter = "3/32 in"}]

[[part]] # half round: both corners of leg A take the whole toe
id = "H34"
name = "Half-round clip"
section = "thin"
alloy = "6061-T6"
length = "3/4 in"
quantity = 2
corners = [{leg = "A", end = 1, radius = "3/8 in"}, {leg = "A", end = 2, radius = "3/8 in"}]
holes = [{leg = "A", x = "3/8 in", y = "3/8 in", diameter = "1/8 in"}]

[[part]] # a handed pair of unequal legs: to the vertex, blunted by the plans, and a cope
id = "U1L"
name = "Seat stop, left"
section = "unequal"
alloy = "6061-T6"
length = "8 3/4 in"
quantity = 2
hand = "left"
mirror_of = "U1R"
tapers = [{leg = "B", end = 1, run = "1 1/2 in", width_left = "0", blunt = "1/32 in"}]
copes = [{leg = "A", end = 2, length = "1 in", width_left = "5/8 in", radius = "1/8 in"}]
holes = [{leg = "A", x = "4 1/4 in", y = "3/4 in", diameter = "3/16 in"}]

[[part]]
id = "U1R"
name = "Seat stop, right"
section = "unequal"
alloy = "6061-T6"
length = "8 3/4 in"
quantity = 2
hand = "right"
mirror_of = "U1L"
tapers = [{leg = "B", end = 2, run = "1 1/2 in", width_left = "0", blunt = "1/32 in"}]
copes = [{leg = "A", end = 1, length = "1 in", width_left = "5/8 in", radius = "1/8 in"}]
holes = [{leg = "A", x = "4 1/2 in", y = "3/4 in", diameter = "3/16 in"}]

[[part]] # a cope and a rounded corner on one leg at opposite ends
id = "C1"
name = "Corner and cope"
section = "equal"
alloy = "6061-T6"
length = "5 1/2 in"
copes = [{leg = "A", end = 1, length = "1 in", width_left = "1/2 in", radius = "1/8 in"}]
corners = [{leg = "A", end = 2, radius = "1/2 in"}, {leg = "B", end = 1, radius = "1/4 in"}]
holes = [{leg = "B", x = "2 3/4 in", y = "11/16 in", diameter = "1/8 in"}]

[[part]] # tapers that cross: the leg never reaches its width
id = "X1"
name = "Gable"
section = "equal"
alloy = "6061-T6"
length = "9 in"
tapers = [
    {leg = "A", end = 1, angle = "8", width_left = "3/8 in"},
    {leg = "A", end = 2, angle = "8", width_left = "3/8 in"},
]

[[part]] # into the fillet
id = "F1"
name = "Fillet brace"
section = "equal"
alloy = "6061-T6"
length = "12 5/8 in"
tapers = [{leg = "B", end = 1, run = "2 3/8 in", width_left = "3/16 in"}]

[[part]] # both legs at both ends, one of them blunted by the plans
id = "T4"
name = "Four tapers"
section = "equal"
alloy = "6061-T6"
length = "14 1/2 in"
tapers = [
    {leg = "A", end = 1, run = "1 5/8 in", width_left = "5/8 in"},
    {leg = "B", end = 1, run = "1 1/4 in", width_left = "1/2 in"},
    {leg = "A", end = 2, run = "2 in", width_left = "0", blunt = "1/16 in"},
    {leg = "B", end = 2, run = "1 in", width_left = "3/4 in"},
]

[[part]] # both ends of one leg to the vertex
id = "V2"
name = "Foot"
section = "equal"
alloy = "6061-T6"
length = "5 3/8 in"
tapers = [
    {leg = "A", end = 1, run = "1 5/8 in", width_left = "0"},
    {leg = "A", end = 2, run = "1 5/8 in", width_left = "0"},
]
holes = [{leg = "B", x = "2 11/16 in", y = "11/16 in", diameter = "1/8 in"}]

[[part]] # in millimetres wherever it stands
id = "M1L"
name = "Metric bracket, left"
section = "metric"
alloy = "6061-T6"
unit = "mm"
length = "120 mm"
hand = "left"
mirror_of = "M1R"
tapers = [
    {leg = "A", end = 1, run = "54 mm", width_left = "0"},
    {leg = "B", end = 2, run = "31.5 mm", width_left = "8 mm"},
]
holes = [
    {leg = "A", x = "75 mm", y = "15 mm", diameter = "3.2 mm"},
    {leg = "B", x = "75 mm", y = "16 mm", diameter = "3.2 mm", flush = true},
]

[[part]]
id = "M1R"
name = "Metric bracket, right"
section = "metric"
alloy = "6061-T6"
unit = "mm"
length = "120 mm"
hand = "right"
mirror_of = "M1L"
tapers = [
    {leg = "B", end = 1, run = "54 mm", width_left = "0"},
    {leg = "A", end = 2, run = "31.5 mm", width_left = "8 mm"},
]
holes = [
    {leg = "B", x = "75 mm", y = "15 mm", diameter = "3.2 mm"},
    {leg = "A", x = "75 mm", y = "16 mm", diameter = "3.2 mm", flush = true},
]

[[part]]
id = "M2"
name = "Metric cope"
section = "metric"
alloy = "6061-T6"
unit = "mm"
length = "85 mm"
copes = [{leg = "A", end = 1, length = "20 mm", width_left = "10 mm", radius = "4 mm"}]
corners = [{leg = "A", end = 2, radius = "8 mm"}]
holes = [{leg = "B", x = "30 mm", y = "16 mm", diameter = "1/8 in"}]

[[part]] # in inches wherever it stands
id = "I1"
name = "Inch strut"
section = "unequal"
alloy = "6061-T6"
unit = "in"
length = "22 5/8 in"
tapers = [{leg = "A", end = 2, run = "2 5/8 in", width_left = "5/8 in"}]
corners = [{leg = "B", end = 1, radius = "3/16 in"}]
holes = [{leg = "A", x = "13/16 in", y = "3/4 in", diameter = "3/16 in"}]
"""
RACK = """\
format,stick_id,leg_a,leg_b,thickness_a,thickness_b,fillet,toe_radius,heel_radius,alloy,length,kind,trim_1,trim_2,far_end_good,hands_off,dents,note
1,S-1,1 1/4 in,1 1/4 in,1/8 in,,1/8 in,,,6061-T6,144 in,new,1/4 in,1/4 in,no,no,,
1,S-2,1 1/2 in,1 in,1/8 in,,1/8 in,,,6061-T6,96 in,new,1/4 in,1/4 in,no,no,,
1,S-3,3/4 in,3/4 in,1/16 in,,1/16 in,,,6061-T6,30 in,remnant,1/16 in,1/16 in,no,no,,
1,S-4,30 mm,30 mm,3 mm,,2 mm,,,6061-T6,1000 mm,new,6 mm,6 mm,no,no,,
"""


def job_text(unit: str = "in", limits: str = "") -> str:
    """The job file; ``limits`` are as the file names them ("": none are named)."""
    return HEAD.format(unit=unit, limits=f'limits = "{limits}"\n' if limits else "") + PARTS


def whole_job(unit: str = "in", limits: str = "") -> Job:
    """The job as it is read from its file."""
    return parse_job(job_text(unit, limits))


def whole_rack() -> Rack:
    """The rack as it is read from its file."""
    return parse_rack(RACK)
