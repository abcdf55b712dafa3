"""A learner's own server on the class's hub: the hub starts this in the learner's account, and it becomes JupyterLab.

The lessons are the project's own, shared and read-only: two links in the learner's folder lead to
them. What the learner makes (answers, saved jobs, packs, a page kept under another name) lies in that
folder, which nobody else can open. All of it is done with the learner's rights, none with the hub's.

>>> from tempfile import TemporaryDirectory
>>> with TemporaryDirectory() as place:
...     shipped, own = Path(place, "project"), Path(place, "own")
...     Path(shipped, "notebooks").mkdir(parents=True)
...     _ = Path(shipped, "notebooks", "00_start_here.ipynb").write_text("one")
...     prepare(own, shipped)
...     print(oct(own.stat().st_mode & 0o777), Path(own, "notebooks", "00_start_here.ipynb").read_text())
0o700 one
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from anglelib.copies import PROJECT, SHIPPED, CourseError
from anglelib.course import QUIET_LAB, fill, home, lab_settings, options
from anglelib.errors import BenchError
from anglelib.lessons.contents import LESSONS
from anglelib.served import keep_light

ANSWERS = "answers"
"""The folder of the answers, inside the learner's."""

CLASS_LAB = {**QUIET_LAB, "@jupyterlab/notebook-extension:tracker": {"kernelShutdown": True}}
"""JupyterLab's settings in a class: a page that is closed ends its kernel, since each open page takes memory."""


def prepare(folder: Path, project: Path = PROJECT) -> None:
    """Make the learner's folder: closed to others, with links to the lessons, and a folder for the answers.

    A folder of copies from an earlier ``python -m anglelib course`` is the learner's, and stays one.
    Raises CourseError, one sentence, where the folder cannot be used.
    """
    if not any((project / "notebooks").glob("*.ipynb")):
        raise CourseError(f"The course's notebooks cannot be read in {project}: the instructor has to let every account read that folder.")
    try:
        for own in (folder, folder / ANSWERS):
            own.mkdir(parents=True, exist_ok=True)
            own.chmod(0o700)
        linked = [_link(folder / top, project / top) for top in SHIPPED if (project / top).is_dir()]
    except OSError as error:
        raise CourseError(
            f"The course cannot write {error.filename or folder} ({error.strerror or error}): tell the instructor."
        ) from error
    if not all(linked):
        fill(folder, project)


def _link(own: Path, shared: Path) -> bool:
    """Whether the learner's name now leads to the shared folder; a folder of the learner's own is let be."""
    if own.is_symlink():
        if os.readlink(own) == str(shared):
            return True
        own.unlink()  # the project has moved since
    elif own.exists():
        return False
    own.symlink_to(shared, target_is_directory=True)
    return True


def command(folder: Path, first: str, given: Sequence[str] = ()) -> list[str]:
    """The words that start JupyterLab under the hub, which says itself where to listen and who may come in.

    >>> "--ServerApp.terminals_enabled=False" in command(Path("anglelib-course"), "00_start_here.ipynb")
    True
    """
    lab = [word for word in options(folder, f"notebooks/{first}", browser=False) if not word.startswith("--ServerApp.ip=")]
    own = [
        "--ServerApp.terminals_enabled=False",  # the course needs none
        # Without it a file in a folder that is read-only is looked for in a temporary folder that all accounts share.
        f"--FileCheckpoints.checkpoint_dir={folder / '.checkpoints'}",
        # The usual handler of figures and downloads refuses what is behind a link that leads out of the learner's folder.
        "--ContentsManager.files_handler_class=jupyter_server.files.handlers.FilesHandler",
    ]
    return [sys.executable, "-sP", "-m", "jupyterhub.singleuser", *lab, *own, *given]


def main(given: Sequence[str]) -> None:
    """Prepare the learner's folder, and become the learner's server; what is wrong goes into the hub's log as a sentence."""
    os.umask(0o077)
    try:
        folder = home()
        prepare(folder)
        (lab_settings(folder) / "overrides.json").write_text(json.dumps(CLASS_LAB, indent=1), encoding="utf-8")
    except (BenchError, OSError) as error:
        sys.exit(str(error))
    os.chdir(folder)
    os.environ["ANGLELIB_HOME"] = str(folder)
    os.environ["JUPYTER_PREFER_ENV_PATH"] = "1"
    keep_light()
    words = command(folder, LESSONS[0].file, given)
    os.execv(words[0], words)


if __name__ == "__main__":
    main(sys.argv[1:])
