"""A visitor's connection to the kernel of the page: only what :mod:`anglelib.visitors.allowed` lets pass goes either way.

``VisitorConnection`` is made on first use, since Jupyter's server is imported by it.
"""

from __future__ import annotations

import time
from typing import Any

from anglelib.visitors.allowed import DISABLED, HEARD, TOO_FAST, Pace, Page, Passed
from anglelib.visitors.frames import PROTOCOL, decoded, taken

NAME = "VisitorConnection"
SETTING = f"kernel_websocket_connection_class=anglelib.visitors.socket.{NAME}"
PER_SECOND, AT_ONCE = 100.0, 400.0
"""How fast a page may send; a slider that is dragged sends 30 a second."""


def __getattr__(name: str) -> Any:
    if name != NAME:
        raise AttributeError(name)
    from anglelib.prompt_socket import PromptConnection

    class VisitorConnection(PromptConnection):  # type: ignore[misc, valid-type]
        """A connection that passes on what was judged, made anew, and nothing as it came."""

        def connect(self) -> Any:
            self.pace = Pace(PER_SECOND, AT_ONCE)
            return super().connect()

        @property
        def page(self) -> Page:
            """The page, however often its connection is made again."""
            return self.multi_kernel_manager.page(self.kernel_id)

        def handle_incoming_message(self, incoming_msg: Any) -> None:
            if not self.channels:
                return
            if not self.pace.allows(time.monotonic()):
                self.multi_kernel_manager.dropped(TOO_FAST)
                return
            read = taken(incoming_msg) if self.subprotocol == PROTOCOL else None
            if read is None:
                self.multi_kernel_manager.dropped("frame")
                return
            channel, parts = read
            judged = self.page.judged(channel, decoded(parts[0]), decoded(parts[3]))
            if isinstance(judged, Passed):
                self._send_on(judged)
            else:
                self.multi_kernel_manager.dropped(judged.why)
                if judged.why == DISABLED:
                    self._let_go_on(decoded(parts[0]))

        def _let_go_on(self, header: dict[str, Any]) -> None:
            """Tells the page that its message was handled: a control that was shut a moment ago else waits for ever, and is dead."""
            from jupyter_server.services.kernels.connection.base import serialize_msg_to_ws_v1

            parent = {**self.session.msg_header("comm_msg"), "msg_id": header["msg_id"], "session": header["session"]}
            idle = self.session.msg("status", {"execution_state": "idle"}, parent={"header": parent})
            self.write_message(serialize_msg_to_ws_v1(idle, "iopub", self.session.pack), binary=True)

        def _send_on(self, passed: Passed) -> None:
            header = {**self.session.msg_header(passed.type), "msg_id": passed.id, "session": passed.session}
            message = {"header": header, "parent_header": {}, "metadata": passed.metadata, "content": passed.content, "buffers": []}
            self.session.send(self.channels["shell"], message)

        def handle_outgoing_message(self, stream: Any, outgoing_msg: list[Any]) -> None:
            _, parts = self.session.feed_identities(outgoing_msg)
            said = self.session.unpack(parts[1])["msg_type"]
            if said not in HEARD:
                return
            if said.startswith("comm_"):
                self.page.told(said, self.session.unpack(parts[4]))
            super().handle_outgoing_message(stream, outgoing_msg)

    globals()[NAME] = VisitorConnection
    return VisitorConnection
