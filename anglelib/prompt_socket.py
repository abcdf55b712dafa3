"""The connection between page and kernel without the wait that small messages otherwise have.

A slider's answer is several small messages. TCP holds the second of them back until the first is
acknowledged, and the browser's side acknowledges up to 40 ms late; Jupyter's server leaves that as it
is. Here every message is sent at once. ``PromptConnection`` is made on first use, since Jupyter's
server is imported by it.
"""

from __future__ import annotations

from typing import Any

NAME = "PromptConnection"
SETTING = f"kernel_websocket_connection_class=anglelib.prompt_socket.{NAME}"
"""What a server is told: ServerApp or Voila, a dot, and this."""


def __getattr__(name: str) -> Any:
    if name != NAME:
        raise AttributeError(name)
    from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection

    class PromptConnection(ZMQChannelsWebsocketConnection):  # type: ignore[misc]
        """Jupyter's own connection, its messages sent at once."""

        def connect(self) -> Any:
            self.websocket_handler.set_nodelay(True)
            return super().connect()

    globals()[NAME] = PromptConnection
    return PromptConnection
