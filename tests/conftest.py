"""For all tests: where the project is, no skipped test in CI without a reason on the list, and no file that a test leaves in the project.

``--turn N`` runs a share of the slow tier (turns.py). By ANGLELIB_TURN_ENDS, a moment in seconds, no further test is begun: what was
not reached is said, and is no failure.
"""

import os
import signal
import tempfile
import time
from pathlib import Path

import pytest

# The search for examples would read both conftest files as one module of that name.
collect_ignore = ["conftest.py", "browser/conftest.py", "lessons/conftest.py"]

PROJECT = Path(__file__).resolve().parent.parent
ALLOWED = Path(__file__).with_name("allowed_skips.txt")
BEFORE = pytest.StashKey[frozenset[str]]()
WATCHED = (".", "notebooks", "notebooks/demo", "figures")
"""Folders in which a test may leave nothing."""
NOT_REACHED = "the turn's time was over"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--turn", type=int, metavar="N", help="only the slow tests of turn N: tests/turns.py")


def pytest_configure(config: pytest.Config) -> None:
    """Nobody's answers are read or written, and no kernel or start-up file of the user's own is used: also by the notebooks."""
    if config.getoption("turn", None) is not None:
        config.option.markexpr = "slow"
    children_take_ctrl_c()
    by_lot_or_not(config.option.markexpr)
    folder = tempfile.TemporaryDirectory(prefix="anglelib-tests-")
    config.add_cleanup(folder.cleanup)
    os.environ["ANGLELIB_HOME"] = folder.name
    os.environ["IPYTHONDIR"] = str(Path(folder.name, ".ipython"))
    os.environ["JUPYTER_PREFER_ENV_PATH"] = "1"
    os.environ.pop("COLUMNS", None)  # what commands say is as long as in a pipe, whoever runs the tests
    config.stash[BEFORE] = _files()


def children_take_ctrl_c() -> None:
    """What a test starts takes Ctrl-C as on a terminal, also where these tests run with it ignored (``nohup``), which programs inherit."""
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        signal.signal(signal.SIGINT, lambda *_: None)  # ignored here as before; a handler of Python's is not inherited


def by_lot_or_not(markexpr: str) -> None:
    """How all property tests run: no clock ends one; in CI the quick ones try the same every time, others what the lot gives."""
    try:
        from hypothesis import HealthCheck, settings
    except ModuleNotFoundError:
        return
    settings.register_profile(
        "anglelib", deadline=None, suppress_health_check=[HealthCheck.too_slow], print_blob=True,
        derandomize=os.environ.get("ANGLELIB_CI") == "1" and "not slow" in markexpr,
    )  # fmt: skip
    settings.load_profile("anglelib")


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """A turn does not read what has no slow test: that would take longer than some turns."""
    if config.getoption("turn", None) is None or collection_path.suffix != ".py":
        return None
    import turns

    return True if not turns.may_be_slow(collection_path.read_text(encoding="utf-8")) else None


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if (turn := config.getoption("turn", None)) is None:
        return
    import turns

    mine = set(turns.of_turn(turn % turns.TURNS, [item.nodeid for item in items], *turns.committed()))
    config.hook.pytest_deselected(items=[item for item in items if item.nodeid not in mine])
    items[:] = [item for item in items if item.nodeid in mine]


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup() -> None:
    if time.time() > float(os.environ.get("ANGLELIB_TURN_ENDS", "inf")):
        pytest.skip(NOT_REACHED)


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
    return [one for one in terminal.stats.get("skipped", []) if not one.nodeid.startswith(allowed or "\0") and not _reason(one).endswith(NOT_REACHED)]


def _reason(report: pytest.TestReport) -> str:
    return report.longrepr[2] if isinstance(report.longrepr, tuple) else str(report.longrepr)


def _not_reached(config: pytest.Config) -> list[pytest.TestReport]:
    terminal = config.pluginmanager.get_plugin("terminalreporter")
    return [] if terminal is None else [one for one in terminal.stats.get("skipped", []) if _reason(one).endswith(NOT_REACHED)]


def _files() -> frozenset[str]:
    return frozenset(str(path.relative_to(PROJECT)) for folder in WATCHED for path in (PROJECT / folder).glob("[!.]*") if path.is_file())


def _left(config: pytest.Config) -> list[str]:
    return [] if hasattr(config, "workerinput") else sorted(_files() - config.stash[BEFORE])


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    if (_unexpected(session.config) or _left(session.config)) and exitstatus in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter, config: pytest.Config) -> None:
    if late := _not_reached(config):
        terminalreporter.section(f"{len(late)} not reached, {NOT_REACHED}: they are not passed, and run when it is their turn again", yellow=True)
        terminalreporter.write_line("\n".join(one.nodeid for one in late))
    if left := _left(config):
        terminalreporter.section("left in the project by a test: a failure", red=True, bold=True)
        terminalreporter.write_line(", ".join(left))
    if unexpected := _unexpected(config):
        terminalreporter.section("skipped, and not in tests/allowed_skips.txt: a failure", red=True, bold=True)
        for report in unexpected:
            terminalreporter.write_line(f"{report.nodeid}: {_reason(report)}")
