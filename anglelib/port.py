"""The port that a person asks the course to use: a number that there is, and that nobody else has.

>>> port_number("8123")
8123
>>> port_number("-1")
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: --port -1 is no port: give a whole number from 1 to 65535, or leave --port out for a free one.
"""

from __future__ import annotations

import errno
import os
import socket

from anglelib.errors import BenchError
from anglelib.names import visible

MOST = 65535
FREE_ONE = "or leave --port out for a free one"


def port_number(typed: str) -> int:
    """The port that was typed; BenchError for what is none, 0 included, which means any port at all."""
    digits = typed.strip()
    if digits.isascii() and digits.isdigit() and len(digits) <= len(str(MOST)) and 1 <= int(digits) <= MOST:
        return int(digits)
    raise BenchError(f"--port {visible(typed)[:40]} is no port: give a whole number from 1 to {MOST}, {FREE_ONE}.")


def none_free(port: int, tried: int = 1) -> BenchError:
    """What is said where another program has the port, or so many of the ports near it.

    >>> print(none_free(8866, 51))
    Of 51 ports near 8866 none is free: stop a course that still runs, or give a --port, from 1024 to 65535.
    """
    if tried > 1:
        return BenchError(f"Of {tried} ports near {port} none is free: stop a course that still runs, or give a --port, from 1024 to {MOST}.")
    return BenchError(f"Port {port} is taken by another program, perhaps by a course that still runs: stop that, give another --port, {FREE_ONE}.")


def refuse_taken(port: int, address: str = "127.0.0.1") -> None:
    """BenchError where this computer does not let the course have the port."""
    with socket.socket(socket.AF_INET6 if ":" in address else socket.AF_INET) as asked:
        # As the servers ask for it: a port that was let go of a moment ago is free, and on Windows one is never shared.
        option = socket.SO_REUSEADDR if os.name == "posix" else socket.SO_EXCLUSIVEADDRUSE
        asked.setsockopt(socket.SOL_SOCKET, option, 1)
        try:
            asked.bind((address, port))
        except OSError as error:
            if error.errno == errno.EADDRINUSE:
                raise none_free(port) from None
            raise BenchError(
                f"Port {port} cannot be used ({error.strerror or error}): give another --port, from 1024 to {MOST}, {FREE_ONE}."
            ) from None
