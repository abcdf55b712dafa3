"""In CI a skipped test is a failure: seen to fail, and to let pass what the list names."""

import os
import shutil
import subprocess
import sys

import pytest

SKIPPING = {
    "in the body": "import pytest\ndef test_it():\n    pytest.skip('no browser')\n",
    "by a mark": "import pytest\n@pytest.mark.skipif(True, reason='no browser')\ndef test_it(): pass\n",
    "the whole file": "import pytest\npytest.importorskip('no_such_package_at_all')\ndef test_it(): pass\n",
}


def run(folder, source, *, ci, allowed="", options=()):
    tests = folder / "tests"
    tests.mkdir()
    shutil.copy(os.path.join(os.path.dirname(__file__), "conftest.py"), tests)
    (tests / "allowed_skips.txt").write_text(allowed)
    (tests / "test_skipping.py").write_text(source)
    (folder / "pytest.ini").write_text("[pytest]\ntestpaths = tests\n")
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("PYTEST_", "ANGLELIB_"))}
    environment |= {"ANGLELIB_CI": "1"} if ci else {}
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", *options], cwd=folder, env=environment, capture_output=True, text=True
    )


@pytest.mark.parametrize("options", [(), ("-n", "2", "--dist", "loadfile")], ids=["alone", "two workers"])
@pytest.mark.parametrize("how", SKIPPING)
def test_a_skip_fails_in_ci(tmp_path, how, options):
    done = run(tmp_path, SKIPPING[how], ci=True, options=options)
    assert done.returncode == 1, done.stdout
    assert "tests/test_skipping.py" in done.stdout.partition("not in tests/allowed_skips.txt")[2]


def test_a_skip_with_a_reason_on_the_list_passes_in_ci(tmp_path):
    done = run(tmp_path, SKIPPING["in the body"], ci=True, allowed="tests/test_skipping.py::test_it | no screen there\n")
    assert done.returncode == 0, done.stdout


def test_a_skip_passes_elsewhere(tmp_path):
    assert run(tmp_path, SKIPPING["in the body"], ci=False).returncode == 0
