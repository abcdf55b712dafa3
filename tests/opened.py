"""The course as it is opened, and asked without a browser."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import time
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.cookiejar import CookieJar
from pathlib import Path
from typing import Any

from patience import PATIENCE

HIDDEN = ("JUPYTER", "DISPLAY", "WAYLAND", "BROWSER", "IPYTHON", "PYTHONWARNINGS")


def until(what: Callable[[], Any], seconds: float = PATIENCE) -> Any:
    """What is found, once it is something."""
    end = time.monotonic() + seconds
    while not (found := what()) and time.monotonic() < end:
        time.sleep(0.02)
    return found


class Opened:
    """A course that runs, and a browser's cookies."""

    def __init__(self, process: subprocess.Popen, folder: Path, log: Path) -> None:
        self.process, self.folder, self.log = process, folder, log
        self.jar = CookieJar()
        self.opener = urllib.request.build_opener(urllib.request.ProxyHandler({}), urllib.request.HTTPCookieProcessor(self.jar))
        if not until(lambda: process.poll() is not None or re.search(r"token=\w+\s", self.said)) or process.poll() is not None:
            raise RuntimeError(f"The course gave no address with a token:\n{self.said}")
        self.base, self.token = re.search(r"(http://[^/\s]+)/\S*token=(\w+)", self.said).groups()  # type: ignore[union-attr]

    @property
    def said(self) -> str:
        """What it says on the terminal."""
        return self.log.read_text(encoding="utf-8")

    def ask(self, path: str, **fields: str) -> tuple[int, str]:
        """The status and the text of an answer; with fields, as a form is sent."""
        body = urllib.parse.urlencode(fields).encode() if fields else None
        try:
            with self.opener.open(f"{self.base}{path}", body, timeout=PATIENCE) as answer:
                return answer.status, answer.read().decode()
        except urllib.error.HTTPError as error:
            return error.code, error.read().decode()

    def page(self, name: str = "00_start_here") -> str:
        """A lesson's page."""
        status, text = self.ask(f"/voila/render/notebooks/{name}.ipynb?token={self.token}")
        assert status == 200, text
        return text


@contextmanager
def opened(home: Path, *how: str, begins: str = "") -> Iterator[Opened]:
    """The course opened for a folder below ``home``, and stopped again; every Python of it ``begins`` with some lines."""
    (home / "first").mkdir()
    (home / "first" / "sitecustomize.py").write_text(begins)
    environment = {name: value for name, value in os.environ.items() if not name.startswith(HIDDEN)}
    environment |= {"ANGLELIB_HOME": str(home / "own"), "JUPYTER_CONFIG_DIR": str(home / "config"), "PYTHONPATH": os.pathsep.join([str(home / "first"), *sys.path])}
    with (home / "log").open("w") as log:
        process = subprocess.Popen([sys.executable, "-m", "anglelib", "course", "--no-browser", *how], env=environment, cwd=home, stdout=log, stderr=log)
        try:
            yield Opened(process, home / "own", home / "log")
        finally:
            process.terminate()
            try:
                process.wait(PATIENCE)
            finally:
                process.kill()
