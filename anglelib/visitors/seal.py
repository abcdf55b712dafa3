"""The Python behind a visitor's page, sealed: it writes no file, starts no program, talks to nobody, reads its own library alone.

A visitor's messages are judged before they come here (:mod:`anglelib.visitors.allowed`), and nothing of the course that a visitor
sees wants any of this. The seal is the second wall, for the day when the first has a hole: it sits in Python's own audit hooks, which
nobody can take off again. It is no prison for code of a stranger's own, and none comes here.

>>> refusal("subprocess.Popen", ("ls",), ("/usr/lib",))
'subprocess.Popen'
>>> refusal("open", ("/usr/lib/a.py", "r", 0), ("/usr/lib",)), refusal("open", ("/usr/lib/a.py", "w", 0), ("/usr/lib",))
('', 'open')
>>> refusal("open", ("/usr/library", "r", 0), ("/usr/lib",))
'open'
"""

from __future__ import annotations

import os
import sys
import sysconfig
from collections.abc import Iterable
from pathlib import Path
from typing import Any

PROJECT = Path(__file__).resolve().parents[2]
READ = ("anglelib", "notebooks", "figures")
"""Of the project, what a visitor's page reads."""
NEVER = (
    "os.system", "os.exec", "os.posix_spawn", "os.spawn", "os.fork", "os.startfile", "pty.", "subprocess.", "webbrowser.", "code.",
    "os.remove", "os.rename", "os.mkdir", "os.rmdir", "os.link", "os.symlink", "os.truncate", "os.chmod", "os.chown", "os.chflags",
    "os.utime", "os.setxattr", "os.removexattr", "os.kill", "os.chdir", "os.fchdir", "os.fwalk", "os.walk", "shutil.", "tempfile.", "sqlite3.",
    "socket.connect", "socket.bind", "socket.send", "socket.get", "socket.sethostname", "urllib.", "ftplib.", "smtplib.", "http.client.",
    "imaplib.", "poplib.", "nntplib.", "telnetlib.", "syslog.", "winreg.", "msvcrt.", "_winapi.", "resource.", "signal.pthread_kill",
    "ctypes.dlsym", "ctypes.string_at", "ctypes.wstring_at", "ctypes.cdata", "ctypes.call_function", "sys.addaudithook",
    "cpython.run_", "cpython._PySys_ClearAuditHooks", "sys.remote_exec",
)  # fmt: skip
"""How the events begin that never happen behind a visitor's page."""
PLACES = ("os.listdir", "os.scandir", "glob.glob", "ctypes.dlopen")
"""Events that look at a place: among what may be read only."""
_WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
MOST_KEPT = 50

refused: list[str] = []
"""The first events that were refused in this Python."""


def readable() -> tuple[str, ...]:
    """Where a visitor's page may read: Python, its packages, the course's own files, time zones."""
    python = {sys.prefix, sys.base_prefix, sys.exec_prefix, *sysconfig.get_paths().values()}
    found = {os.path.realpath(path) for path in python if path}
    found |= {os.path.realpath(path) for path in sys.path if path and os.path.basename(path) in ("site-packages", "dist-packages")}
    found |= {os.path.realpath(PROJECT / name) for name in READ}
    found |= {os.path.realpath(path) for path in ("/usr/share/zoneinfo", os.devnull)}
    return tuple(sorted(found - {os.path.realpath(os.sep)}))


def refusal(event: str, given: tuple[Any, ...], roots: Iterable[str]) -> str:
    """The event where it is to be refused; "" where it may happen."""
    if event == "open":
        path, mode, flags = (*given, None, 0)[:3]
        if isinstance(path, int):
            return ""
        writes = isinstance(mode, str) and any(sign in mode for sign in "wax+") or isinstance(flags, int) and bool(flags & _WRITES)
        return event if writes or not _inside(path, roots) else ""
    if event.startswith(NEVER):
        return event
    if event in PLACES:
        path = given[0] if given else None
        return "" if path is None and event == "ctypes.dlopen" or path is not None and _inside(path, roots) else event
    return ""


def _inside(path: Any, roots: Iterable[str]) -> bool:
    if isinstance(path, int):
        return False
    real = os.path.realpath(os.fsdecode(path))
    return any(real == root or real.startswith(root + os.sep) for root in roots)


def seal(also_listed: Iterable[str] = ()) -> None:
    """Seals this Python for good. ``also_listed`` are folders whose names may be listed, which the search for modules does."""
    roots = readable()
    listed = frozenset(os.path.realpath(path) for path in also_listed)
    watched = tuple({*NEVER, *PLACES, "open"})

    def hook(event: str, given: tuple[Any, ...]) -> None:
        if not event.startswith(watched):
            return
        if event == "os.listdir" and given and isinstance(given[0], str) and os.path.realpath(given[0]) in listed:
            return
        if why := refusal(event, given, roots):
            if len(refused) < MOST_KEPT:
                refused.append(f"{why} {given!r}"[:300])
            raise PermissionError(f"A visitor's page may not do this: {why}")

    sys.addaudithook(hook)
