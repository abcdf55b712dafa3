"""A course that is really shared, and somebody on its network: a browser as far as cookies, pages and the websocket go, and no further."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.parse
import urllib.request
import uuid
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from http.cookiejar import CookieJar
from pathlib import Path
from typing import Any

from patience import PATIENCE

from anglelib.visitors.frames import PROTOCOL, decoded, put, taken

PROJECT = Path(__file__).resolve().parents[2]
HIDDEN = ("JUPYTER", "DISPLAY", "WAYLAND", "BROWSER", "IPYTHON", "PYTEST", "PYTHONWARNINGS")
START = "import sys; from pathlib import Path; from anglelib import __main__, course\ncourse.PROJECT = Path({!r}); sys.exit(__main__.main(['course', '--share', *{!r}]))"


class Course:
    """What the owner's terminal says: the owner's address with its token, the visitors' address with its code."""

    def __init__(self, process: subprocess.Popen, log: Any) -> None:
        self.process, self.log = process, log
        until = time.monotonic() + PATIENCE
        while not (found := re.search(r"Shared with the workshop: (\S+) +code (\S+)", self.said)) or "To end it" not in self.said:
            if process.poll() is not None or time.monotonic() > until:
                raise RuntimeError(f"Nothing was shared:\n{self.said}")
            time.sleep(0.1)
        self.url, self.code = found.groups()
        self.owner, self.token = re.search(r"pages are at (\S+)/\S*\?token=(\w+)", self.said).groups()  # type: ignore[union-attr]

    @property
    def said(self) -> str:
        """All that it has said."""
        self.log.seek(0)
        return self.log.read()

    def stop(self) -> str:
        """Ctrl-C; what it has said in the end."""
        self.process.send_signal(getattr(signal, "CTRL_BREAK_EVENT", signal.SIGINT))
        try:
            self.process.wait(PATIENCE)
        finally:
            self.process.kill()
        return self.said


@contextmanager
def shared(home: Path, *how: str, project: Path = PROJECT, address: str = "127.0.0.1") -> Iterator[Course]:
    """The course, shared at an address of this computer, for a learner's folder."""
    environment = {name: value for name, value in os.environ.items() if not name.startswith(HIDDEN)} | {"ANGLELIB_HOME": str(home), "A_SECRET": "of the owner's"}
    environment["PYTHONPATH"] = str(PROJECT)
    with tempfile.TemporaryFile("w+", encoding="utf-8") as log:
        process = subprocess.Popen(
            [sys.executable, "-c", START.format(str(project), ["--no-browser", f"--address={address}", *how])],
            env=environment, stdout=log, stderr=log, cwd=home, creationflags=getattr(subprocess, "CREATE_NEW_PROCESS_GROUP", 0),
        )  # fmt: skip
        try:
            yield Course(process, log)
        finally:
            if process.poll() is None:
                process.send_signal(signal.SIGTERM)
                with suppress(subprocess.TimeoutExpired):
                    process.wait(60)
            process.kill()


class Visitor:
    """Somebody's browser; with a ``code`` it has gone through the door."""

    def __init__(self, url: str, code: str = "") -> None:
        self.url, self.jar = url, CookieJar()
        self.opener = urllib.request.build_opener(urllib.request.ProxyHandler({}), urllib.request.HTTPCookieProcessor(self.jar))
        if code:
            assert self.ask("GET", f"/?token={code}")[0] == 200

    def ask(self, method: str, path: str, body: bytes | None = None, **headers: str) -> tuple[int, str]:
        """The status and the text of an answer."""
        request = urllib.request.Request(f"{self.url}{path}", body, headers, method=method)
        try:
            with self.opener.open(request, timeout=PATIENCE) as answer:
                self.arrived = answer.url
                return answer.status, answer.read().decode(errors="replace")
        except urllib.error.HTTPError as error:
            return error.code, error.read().decode(errors="replace")

    @property
    def cookies(self) -> str:
        """As a header has them."""
        return "; ".join(f"{one.name}={one.value}" for one in self.jar)

    def page(self, file: str = "00_start_here.ipynb") -> tuple[str, str]:
        """Opens a lesson: its kernel and its text."""
        status, text = self.ask("GET", f"/voila/render/notebooks/{file}")
        assert status == 200, text
        return re.search(r'"kernelId": "([\w-]+)"', text)[1], text  # type: ignore[index]


class Socket:
    """A websocket to a kernel, which may send what it likes."""

    def __init__(self, visitor: Visitor, kernel: str) -> None:
        from websocket import create_connection

        self.session = uuid.uuid4().hex
        address = f"{visitor.url.replace('http', 'ws', 1)}/api/kernels/{kernel}/channels?session_id={self.session}"
        self.connection = create_connection(address, cookie=visitor.cookies, subprotocols=[PROTOCOL], timeout=60, origin=visitor.url)
        self.heard: list[tuple[str, dict, dict]] = []

    def send(self, type_: str, content: Any, channel: str = "shell", metadata: Any = None, **header: Any) -> str:
        """Sends a message; its id."""
        id_ = uuid.uuid4().hex
        made = {"msg_id": id_, "msg_type": type_, "session": self.session, "username": "", "version": "5.3", **header}
        self.raw(put(channel, [json.dumps(part).encode() for part in (made, {}, metadata or {}, content)]))
        return id_

    def raw(self, frame: bytes | str) -> None:
        """Sends bytes, or a text."""
        self.connection.send(frame, opcode=1 if isinstance(frame, str) else 2)

    def hear(self, seconds: float = PATIENCE, until: Any = lambda type_, parent, content: False) -> tuple[str, dict, dict] | None:
        """Listens so long, or until something is said that is waited for: its type, its parent's header, its content."""
        from websocket import WebSocketTimeoutException

        end = time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0:
            self.connection.settimeout(min(left, 5))  # a ping of the server's begins it anew
            with suppress(WebSocketTimeoutException):
                _, parts = taken_whole(self.connection.recv())
                said = decoded(parts[0])["msg_type"], decoded(parts[1]), decoded(parts[3])
                self.heard.append(said)
                if until(*said):
                    return said
        return None

    def answered(self, id_: str) -> bool:
        """Whether anything that was heard answers a message."""
        return any(parent.get("msg_id") == id_ for _, parent, _ in self.heard)

    def models(self) -> dict[str, dict]:
        """All widgets of the page with their states, asked as a page of ours asks; again where a busy kernel's first answer was lost."""
        control = uuid.uuid4().hex
        self.send("comm_open", {"comm_id": control, "target_name": "jupyter.widget.control", "data": {}}, metadata={"version": "1.0.0"})
        for _ in range(6):
            self.send("comm_msg", {"comm_id": control, "data": {"method": "request_states"}})
            found = self.hear(10, lambda type_, _, content: type_ == "comm_msg" and content["data"].get("method") == "update_states")
            if found is not None:
                self.send("comm_close", {"comm_id": control, "data": {}})
                return found[2]["data"]["states"]
        raise RuntimeError("The page's kernel says nothing of its widgets.")


def taken_whole(frame: bytes) -> tuple[str, list[bytes]]:
    """A message of the server's, which may be long."""
    count = int.from_bytes(frame[:8], "little")
    at = [int.from_bytes(frame[8 * n : 8 * n + 8], "little") for n in range(1, count + 1)]
    parts = [frame[a:b] for a, b in zip(at, at[1:], strict=False)]
    return parts[0].decode(), parts[1:]


assert taken(put("shell", [b"1", b"2", b"3", b"4"])) is not None
