"""The words of a plan need no drawing: who plans on the terminal does not wait for the paper's modules."""

import subprocess
import sys

from anglelib.files import save_job, save_rack
from anglelib.job import Job, Shop
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
PLANNED = """
import sys
from anglelib.__main__ import main
code = main(["plan", *sys.argv[1:]])
print(code, *sorted(name for name in sys.modules if name.startswith({heavy!r})), file=sys.stderr)
"""
HEAVY = ("anglelib.drawing", "anglelib.lessons", "reportlab", "matplotlib", "shapely", "sympy", "ipywidgets")


def test_a_plan_is_said_without_the_paper(tmp_path):
    files = [str(tmp_path / "job.toml"), str(tmp_path / "rack.csv")]
    parts = [
        Part("A1", "Cleat", STOCK, "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")], quantity=3),
        Part("A3", "Bar", STOCK, "6061-T6", "17 1/4", holes=[Hole("A", 1, "7/16", "1/8")], quantity=2),
    ]
    save_job(Job("Trial", Shop(), parts), files[0])
    save_rack(Rack([Stick("S-1", STOCK, "6061-T6", 40), Stick("S-2", STOCK, "6061-T6", 20)]), files[1])
    done = subprocess.run([sys.executable, "-c", PLANNED.format(heavy=HEAVY), *files], capture_output=True, text=True, check=True)
    assert "Edge distance" in done.stdout and "S-1" in done.stdout
    assert done.stderr.splitlines()[-1].split() == ["0"]
