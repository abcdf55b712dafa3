"""Messages between page and kernel are sent at once, by the name that the servers are told."""

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


def test_only_that_name_is_made_on_use():
    with pytest.raises(AttributeError):
        prompt_socket.SlowConnection  # noqa: B018


def test_lab_and_pages_are_told(tmp_path):
    assert f"--ServerApp.{prompt_socket.SETTING}" in course.options(tmp_path, "x.ipynb", browser=False)
