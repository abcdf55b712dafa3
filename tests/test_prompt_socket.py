"""Messages between page and kernel are sent at once, by the name that the servers are told."""

import asyncio
from contextlib import nullcontext
from types import SimpleNamespace

import pytest
from traitlets.utils.importstring import import_item

from anglelib import course, prompt_socket


def test_the_connection_asks_for_no_delay_and_then_connects_as_ever(monkeypatch):
    from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection

    found, told = import_item(prompt_socket.SETTING.partition("=")[2]), []
    assert issubclass(found, ZMQChannelsWebsocketConnection) and found is prompt_socket.PromptConnection
    monkeypatch.setattr(ZMQChannelsWebsocketConnection, "connect", lambda self: "connected")
    connection = object.__new__(found)
    connection._trait_values = {"websocket_handler": SimpleNamespace(set_nodelay=told.append)}
    assert connection.connect() == "connected" and told == [True]


@pytest.mark.parametrize("left", [True, False])
def test_a_page_that_is_left_while_it_connects_is_no_error(monkeypatch, left):
    """The server's handler has let its connection go by then, and would go on with none."""
    from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
    from tornado.web import Finish

    connection = object.__new__(prompt_socket.PromptConnection)
    handler = SimpleNamespace(connection=connection)
    connection._trait_values = {"websocket_handler": handler}

    async def prepare(self):
        if left:
            handler.connection = None

    monkeypatch.setattr(ZMQChannelsWebsocketConnection, "prepare", prepare)
    with pytest.raises(Finish) if left else nullcontext():
        asyncio.run(connection.prepare())


def test_a_real_server_says_nothing_of_it(tmp_path, monkeypatch, capfd):
    """What ends a request so is answered by the server without a word."""
    from tornado.httpserver import HTTPServer
    from tornado.ioloop import IOLoop
    from tornado.testing import bind_unused_port
    from tornado.web import Application, Finish
    from tornado.websocket import WebSocketHandler, websocket_connect

    class Left(WebSocketHandler):
        async def get(self):
            raise Finish

    async def asked():
        socket, port = bind_unused_port()
        server = HTTPServer(Application([("/", Left)]))
        server.add_socket(socket)
        with pytest.raises(Exception, match="Non-websocket"):
            await websocket_connect(f"ws://127.0.0.1:{port}/")
        server.stop()

    IOLoop(make_current=False).run_sync(asked)
    assert capfd.readouterr() == ("", "")


def test_only_that_name_is_made_on_use():
    with pytest.raises(AttributeError):
        prompt_socket.SlowConnection  # noqa: B018


def test_lab_and_pages_are_told(tmp_path):
    assert f"--ServerApp.{prompt_socket.SETTING}" in course.options(tmp_path, "x.ipynb", browser=False)
