"""How long class packs take, from the command to the files: each under a minute."""

import subprocess
import sys
import time

import pytest


@pytest.mark.parametrize("learners", [6, 12, 20])
def test_a_class_pack_is_made_in_a_minute(learners, tmp_path, project):
    start = time.perf_counter()
    words = [sys.executable, "-m", "anglelib", "class", "--learners", str(learners), "--out", str(tmp_path / "pack"), "--hours", "12"]
    subprocess.run(words, check=True, cwd=project, stdout=subprocess.DEVNULL)
    assert time.perf_counter() - start < 60
