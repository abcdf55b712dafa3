"""How long the demo's shop pack takes, from the command to the file."""

import subprocess
import sys
import time


def test_the_demo_is_packed_in_half_a_minute(tmp_path, project):
    start = time.perf_counter()
    words = [sys.executable, "-m", "anglelib", "pack", "--out", str(tmp_path / "pack")]
    subprocess.run(words, check=True, cwd=project, stdout=subprocess.DEVNULL)
    assert time.perf_counter() - start < 30
