"""The connection between page and kernel without the wait that small messages otherwise have.

A slider's answer is several small messages. TCP holds the second of them back until the first is
acknowledged, and the browser's side acknowledges up to 40 ms late; Jupyter's server leaves that as it
is. Here every message is sent at once. And what a kernel still says when its page is gone is for nobody:
Jupyter's own is a traceback on the terminal then. ``PromptConnection`` is made on first use, since Jupyter's
server is imported by it.
"""

from __future__ import annotations

import asyncio
from contextlib import suppress
from typing import Any

NAME = "PromptConnection"
SETTING = f"kernel_websocket_connection_class=anglelib.prompt_socket.{NAME}"
"""What a server is told: ServerApp or Voila, a dot, and this."""


def __getattr__(name: str) -> Any:
    if name != NAME:
        raise AttributeError(name)
    from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
    from tornado.web import Finish
    from tornado.websocket import WebSocketClosedError

    class PromptConnection(ZMQChannelsWebsocketConnection):  # type: ignore[misc]
        """Jupyter's own connection, its messages sent at once."""

        async def prepare(self) -> None:
            await super().prepare()
            if self.websocket_handler.connection is not self:  # its page was left meanwhile: nobody is there to be connected
                raise Finish

        def connect(self) -> Any:
            self.websocket_handler.set_nodelay(True)
            return super().connect()

        @property
        def write_message(self) -> Any:
            """What sends to the page."""
            return self._write

        def _write(self, message: Any, binary: bool = False) -> None:
            with suppress(WebSocketClosedError):
                sent = self.websocket_handler.write_message(message, binary)
                if sent is not None:
                    asyncio.ensure_future(_unless_closed(sent))

    async def _unless_closed(sent: Any) -> None:
        with suppress(WebSocketClosedError):
            await sent

    globals()[NAME] = PromptConnection
    return PromptConnection
