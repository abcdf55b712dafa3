"""What the demo's shop pack takes of the processor, from the command to the file: as a ratio to plain Python, since machines differ."""

from yardstick import command, yardstick

MOST = 105.0
"""Yardsticks: half as much again as the 70 that were measured."""


def test_the_demo_is_packed_in_its_budget(tmp_path):
    one = yardstick()
    taken = command("pack", "--out", str(tmp_path / "pack"))
    print(f"\nthe pack {taken:.2f} s, the yardstick {one * 1000:.0f} ms, ratio {taken / one:.1f}")
    assert taken < MOST * one, (taken, one)
