"""The course: the learner's own folder, and the lessons opened as plain pages, or in JupyterLab.

The pages are the project's own, and only answers and what is saved go to the folder. In JupyterLab
the learner works on copies there (:mod:`anglelib.copies`): what they have changed is never overwritten.
"""

from __future__ import annotations

import argparse
import errno
import importlib.util
import json
import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, nullcontext
from pathlib import Path

from anglelib import kernels
from anglelib.copies import PROJECT, SHIPPED, CourseError, Filled, follow, fresh
from anglelib.copies_words import filled_words, fresh_words
from anglelib.lessons.contents import HOME, LESSONS
from anglelib.lines import Parser, say
from anglelib.pages import serve
from anglelib.port import MOST, port_number, refuse_taken
from anglelib.prompt_socket import SETTING
from anglelib.served import NO_PASSWORD, keep_light, kernel_options, port_options, quiet, search_path, without_slow_checks

NOTICES: list[str] = []
"""What is said in JupyterLab when it opens: what became of the learner's copies."""
LAB = Path(__file__).resolve().parent / "lab" / "extensions"
"""Where JupyterLab finds the course's own script."""


def home(environment: Mapping[str, str] = os.environ) -> Path:
    """The learner's folder: $ANGLELIB_HOME, else anglelib-course in the user's home.

    >>> home({"ANGLELIB_HOME": "/srv/course"}).as_posix().endswith("/srv/course")
    True
    """
    chosen = environment.get("ANGLELIB_HOME", "").strip()
    try:
        folder = Path(chosen).expanduser() if chosen else Path.home() / "anglelib-course"
    except RuntimeError as error:
        raise CourseError("This user has no home folder: set ANGLELIB_HOME to the folder that the course may use.") from error
    return Path(os.path.abspath(folder))


def make_home(folder: Path, project: Path) -> None:
    """Make the learner's folder where there is none, for its owner alone; what is there stays as it is.

    Raises CourseError, one sentence, where the project's notebooks are not beside the package, or
    where the folder is the project's or cannot be made.
    """
    if not any((project / "notebooks").glob("*.ipynb")):
        raise CourseError(
            f"The course's notebooks are not in {project}: get the whole project (a clone, or its unpacked archive) and "
            "install it from there with -r requirements.txt."
        )
    own, theirs = folder.resolve(), project.resolve()
    if own == theirs or any(own.is_relative_to(theirs / top) for top in SHIPPED):
        raise CourseError(
            f"ANGLELIB_HOME is the project's own folder, {folder}: choose another, so that your work and the project's files stay apart."
        )
    with _in_a_sentence(folder):
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not os.access(folder, os.W_OK | os.X_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))


def fill(folder: Path, project: Path) -> Filled:
    """Copy the lessons into the learner's folder, and let what is untouched there follow the course (:func:`anglelib.copies.follow`).

    Raises CourseError, one sentence, where the folder cannot be made (:func:`make_home`) or written.
    """
    make_home(folder, project)
    with _in_a_sentence(folder):
        return follow(folder, project)


@contextmanager
def _in_a_sentence(folder: Path) -> Iterator[None]:
    try:
        yield
    except (FileExistsError, NotADirectoryError) as error:
        raise CourseError(
            f"{error.filename} is in the way: the course needs a folder there. Move it, or set ANGLELIB_HOME to another folder."
        ) from error
    except OSError as error:
        raise CourseError(
            f"The course cannot write {error.filename or folder} ({error.strerror or error}): "
            "make room or give yourself the right to write there, or set ANGLELIB_HOME to another folder."
        ) from error


def told(folder: Path, filled: Filled = Filled()) -> str:
    """What the learner reads before the course opens.

    >>> print(told(Path("course"), Filled(renewed=("notebooks/03_square_an_end.ipynb",))))
    Your course folder: course (your answers, and what you save, are kept there)
    The course has a new version of notebooks/03_square_an_end.ipynb, and your folder has it: you had changed nothing there.
    Stop the course with Ctrl-C in this window.
    """
    first = f"Your course folder: {folder} (your answers, and what you save, are kept there)"
    return "\n".join([first, *filled_words(filled), "Stop the course with Ctrl-C in this window."])


def has_display(environment: Mapping[str, str] = os.environ, platform: str = sys.platform) -> bool:
    """Whether a browser window can open here; a text browser in the terminal would hide the address.

    >>> has_display({}, "linux"), has_display({"WAYLAND_DISPLAY": "wayland-0"}, "linux"), has_display({}, "darwin")
    (False, True, True)
    """
    if platform in ("win32", "darwin"):
        return True
    return any(environment.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER"))


SETTINGS = ".lab"
"""The folder of JupyterLab's settings for the course, inside the learner's, and of what its kernels say."""
QUIET_LAB = {"@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False}}
"""JupyterLab's own settings: without them it asks every new user whether it may fetch news."""


def lab_settings(folder: Path) -> Path:
    """The folder of JupyterLab's settings for the course, inside the learner's: no question about news."""
    settings = folder / SETTINGS
    try:
        settings.mkdir(exist_ok=True)
        (settings / "overrides.json").write_text(json.dumps(QUIET_LAB, indent=1), encoding="utf-8")
    except OSError as error:
        raise CourseError(f"The course folder {folder} cannot be written: {error.strerror}. Choose another with ANGLELIB_HOME.") from None
    return settings


def options(folder: Path, first: str, *, browser: bool, port: int | None = None, root: bool = False) -> list[str]:
    """What JupyterLab is told: this machine only, its own token, no news, no look for updates, no package manager."""
    given = [
        "--ServerApp.ip=127.0.0.1",
        f"--ServerApp.root_dir={folder}",
        f"--LabApp.default_url=/lab/tree/{first}",
        "--LabApp.news_url=None",
        f"--LabApp.app_settings_dir={folder / SETTINGS}",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        "--LabApp.extension_manager=readonly",
        f"--LabApp.extra_labextensions_path={LAB}",
        "--ServerApp.contents_manager_class=anglelib.lab.lessons.Lessons",
        "--ServerApp.jpserver_extensions=anglelib.lab.handlers=True",
        "--ServerApp.answer_yes=True",
        NO_PASSWORD,
        f"--ServerApp.{SETTING}",
        f"--ServerApp.{kernels.SETTING}",
        "--Application.log_level=ERROR",
        *kernel_options(folder / SETTINGS),
        *port_options("ServerApp", port),
    ]
    given += [] if browser else ["--ServerApp.open_browser=False"]
    return given + (["--allow-root"] if root else [])


def main(arguments: Sequence[str] = ()) -> int:
    """Open the lessons, as plain pages or in JupyterLab; returns when the learner stops them."""
    parser = Parser(prog="python -m anglelib course", description="Open the course in the browser: every lesson is a page, with nothing to run.")
    parser.add_argument("--lab", action="store_true", help="open copies of the lessons in JupyterLab, with their code")
    parser.add_argument("--fresh", metavar="LESSON", help="make your copy of a lesson (07, say) the course's again; what you changed is kept beside it")
    parser.add_argument("--no-browser", action="store_true", help="print the address and open no browser window")
    parser.add_argument("--pages", action="store_true", help=argparse.SUPPRESS)  # what was written down before the pages became the course
    parser.add_argument("--port", help=f"the port to use on this machine, 1 to {MOST} (otherwise a free one)")
    parser.add_argument("--share", action="store_true", help="open the lessons to the phones of the workshop's own network, too, by a code")
    parser.add_argument("--address", help="with --share: the address of this computer to share at (otherwise that of its network)")
    parser.add_argument("--visitors", metavar="N", help="with --share: at most so many pages at once (otherwise what this computer bears)")
    wanted = parser.parse_args(arguments)
    _refuse_mixed(wanted)
    if wanted.lab:
        _need_lab()
    port = None if wanted.port is None else port_number(wanted.port)
    if port is not None:
        refuse_taken(port)
    sharing = _sharing(wanted, port) if wanted.share else None
    folder = home()
    make_home(folder, PROJECT)
    if wanted.fresh is not None:
        with _in_a_sentence(folder):
            say(fresh_words(fresh(folder, PROJECT, wanted.fresh)))
        if not wanted.lab:
            return 0
    filled = fill(folder, PROJECT) if wanted.lab else Filled()
    NOTICES[:] = filled_words(filled)
    say(told(folder, filled))
    os.environ["ANGLELIB_HOME"] = str(folder)  # the notebooks keep the answers there
    os.environ["JUPYTER_PREFER_ENV_PATH"] = "1"  # this environment's kernel, not one that the user has elsewhere
    os.environ["PYTHONPATH"] = search_path(os.environ)  # this course's modules, wherever the folder was moved to since it was installed
    os.environ.pop("JUPYTER_TOKEN", None)  # a fresh one, which is then printed with the address
    keep_light()
    without_slow_checks()
    browser = has_display() and not wanted.no_browser
    if wanted.lab:
        _open_lab(folder, LESSONS[0].file, browser, port)
    else:
        how = {"sharing": sharing} if sharing else {}
        with sharing or nullcontext():
            serve(folder, PROJECT, HOME.file, browser=browser, port=port, **how)
    say(f"The course has stopped. Your work is in {folder}")
    return 0


def _refuse_mixed(wanted: argparse.Namespace) -> None:
    if wanted.share and wanted.lab:
        raise CourseError("--share opens the plain pages to others, and never JupyterLab, where code is run: leave --lab out.")
    for name in ("address", "visitors"):
        if getattr(wanted, name) is not None and not wanted.share:
            raise CourseError(f"--{name} says how the course is shared: give --share, too, or leave --{name} out.")


def _sharing(wanted: argparse.Namespace, port: int | None):
    from anglelib.visitors.share import Sharing, visitors_number  # for few starts, and what it needs for none but them

    return Sharing(PROJECT, wanted.address, port, None if wanted.visitors is None else visitors_number(wanted.visitors))


def _need_lab() -> None:
    if importlib.util.find_spec("jupyterlab") is None:
        raise CourseError(
            f"JupyterLab is not installed for {sys.executable}: run the README's first command line, or start the course with the "
            "Python that it made (.venv)."
        )


def _open_lab(folder: Path, first: str, browser: bool, port: int | None) -> None:
    from jupyterlab.labapp import LabApp

    lab_settings(folder)
    quiet()
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    LabApp.launch_instance(argv=options(folder, f"notebooks/{first}", browser=browser, port=port, root=root))
