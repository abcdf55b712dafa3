"""How long the shop pack of 500 pieces takes, from the files to the PDF: processor time, with a budget near what is wished for."""

import shutil

from big_job import write
from processor_time import seconds

BUDGET = 20.0
"""The most that it may take [s]."""


def test_500_pieces_are_packed_in_their_budget(tmp_path, project):
    files = write(tmp_path)
    words = ["-m", "anglelib", "pack", *files, "--out", str(tmp_path / "pack")]
    taken = seconds(words, project)
    assert taken < BUDGET
    assert (tmp_path / "pack" / "shop-pack.pdf").exists()
    shutil.rmtree(tmp_path / "pack")
