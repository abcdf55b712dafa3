"""For all tests: where the project is, no skipped test in CI without a reason on the list, and no file that a test leaves in the project."""

import os
import tempfile
from pathlib import Path

import pytest

# The search for examples would read both conftest files as one module of that name.
collect_ignore = ["conftest.py", "browser/conftest.py", "lessons/conftest.py"]

PROJECT = Path(__file__).resolve().parent.parent
ALLOWED = Path(__file__).with_name("allowed_skips.txt")
BEFORE = pytest.StashKey[frozenset[str]]()
WATCHED = (".", "notebooks", "notebooks/demo", "figures")
"""Folders in which a test may leave nothing."""


def pytest_configure(config: pytest.Config) -> None:
    """Nobody's answers are read or written, and no kernel or start-up file of the user's own is used: also by the notebooks."""
    folder = tempfile.TemporaryDirectory(prefix="anglelib-tests-")
    config.add_cleanup(folder.cleanup)
    os.environ["ANGLELIB_HOME"] = folder.name
    os.environ["IPYTHONDIR"] = str(Path(folder.name, ".ipython"))
    os.environ["JUPYTER_PREFER_ENV_PATH"] = "1"
    os.environ.pop("COLUMNS", None)  # what commands say is as long as in a pipe, whoever runs the tests
    config.stash[BEFORE] = _files()


@pytest.fixture(scope="session")
def project() -> Path:
    """The clone's folder."""
    return PROJECT


def allowed_skips() -> dict[str, str]:
    """The list: where a test may be skipped (the start of its id), and why."""
    lines = (line.split("#", 1)[0].strip() for line in ALLOWED.read_text(encoding="utf-8").splitlines())
    return dict(tuple(map(str.strip, line.split("|", 1))) for line in lines if line)


def _unexpected(config: pytest.Config) -> list[pytest.TestReport]:
    terminal = config.pluginmanager.get_plugin("terminalreporter")
    if os.environ.get("ANGLELIB_CI") != "1" or hasattr(config, "workerinput") or terminal is None:
        return []
    allowed = tuple(allowed_skips())
    return [report for report in terminal.stats.get("skipped", []) if not report.nodeid.startswith(allowed or "\0")]


def _files() -> frozenset[str]:
    return frozenset(str(path.relative_to(PROJECT)) for folder in WATCHED for path in (PROJECT / folder).glob("[!.]*") if path.is_file())


def _left(config: pytest.Config) -> list[str]:
    return [] if hasattr(config, "workerinput") else sorted(_files() - config.stash[BEFORE])


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    if (_unexpected(session.config) or _left(session.config)) and exitstatus in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter, config: pytest.Config) -> None:
    if left := _left(config):
        terminalreporter.section("left in the project by a test: a failure", red=True, bold=True)
        terminalreporter.write_line(", ".join(left))
    if unexpected := _unexpected(config):
        terminalreporter.section("skipped, and not in tests/allowed_skips.txt: a failure", red=True, bold=True)
        for report in unexpected:
            reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else report.longrepr
            terminalreporter.write_line(f"{report.nodeid}: {reason}")
