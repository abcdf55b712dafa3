"""What the shop pack of 500 pieces takes of the processor, from the files to the PDF: as a ratio to plain Python, since machines differ."""

from big_job import write
from processor_time import seconds
from yardstick import yardstick

MOST = 405.0
"""Yardsticks: of 49 ms each it has 20 s, which is the most that somebody is to wait for so large a job; 310 were measured."""


def test_500_pieces_are_packed_in_their_budget(tmp_path, project):
    one = yardstick()
    taken = seconds(["-m", "anglelib", "pack", *write(tmp_path), "--out", str(tmp_path / "pack")], project)
    print(f"\nthe pack {taken:.1f} s, the yardstick {one * 1000:.0f} ms, ratio {taken / one:.0f}")
    assert (tmp_path / "pack" / "shop-pack.pdf").exists()
    assert taken < MOST * one, (taken, one)
