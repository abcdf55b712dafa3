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


def run(folder, sources, *, ci, allowed="", options=()):
    """The tests of some sources in a project of its own, a file each; each Python that starts costs more than all its tests."""
    tests = folder / "tests"
    tests.mkdir()
    shutil.copy(os.path.join(os.path.dirname(__file__), "conftest.py"), tests)
    (tests / "allowed_skips.txt").write_text(allowed)
    for name, source in sources.items():
        (tests / f"test_{name.replace(' ', '_')}.py").write_text(source)
    (folder / "pytest.ini").write_text("[pytest]\ntestpaths = tests\n")
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("PYTEST_", "ANGLELIB_"))}
    environment |= {"ANGLELIB_CI": "1", "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"} if ci else {"PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", *options], cwd=folder, env=environment, capture_output=True, text=True
    )


@pytest.mark.parametrize("options", [(), ("-p", "xdist", "-n", "2", "--dist", "loadfile")], ids=["alone", "two workers"])
def test_each_skip_fails_in_ci(tmp_path, options):
    done = run(tmp_path, SKIPPING, ci=True, options=options)
    assert done.returncode == 1, done.stdout
    for name in SKIPPING:
        assert f"tests/test_{name.replace(' ', '_')}.py" in done.stdout.partition("not in tests/allowed_skips.txt")[2]


@pytest.mark.slow
@pytest.mark.parametrize("how", SKIPPING)
def test_one_skip_alone_fails_in_ci(tmp_path, how):
    assert run(tmp_path, {how: SKIPPING[how]}, ci=True).returncode == 1


def test_a_skip_with_a_reason_on_the_list_passes_in_ci(tmp_path):
    done = run(tmp_path, {"in the body": SKIPPING["in the body"]}, ci=True, allowed="tests/test_in_the_body.py::test_it | no screen there\n")
    assert done.returncode == 0, done.stdout


def test_a_skip_passes_elsewhere(tmp_path):
    assert run(tmp_path, {"in the body": SKIPPING["in the body"]}, ci=False).returncode == 0
