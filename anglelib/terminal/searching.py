"""The planner's search seen from a terminal: its progress is shown, and Ctrl-C ends it with the best plan so far."""

from __future__ import annotations

import sys
import threading
from collections.abc import Callable
from typing import TypeVar

from anglelib.lines import say
from anglelib.paper.commands import Bar

Made = TypeVar("Made")


def searched(make: Callable[..., Made]) -> Made:
    """What ``make`` makes, which takes ``progress`` and ``stop``, with its progress shown; Ctrl-C ends the search with the best plan so far, a second one without."""
    # An interrupted join takes a running thread for finished; an event does not.
    stop, finished, found, bar = threading.Event(), threading.Event(), [], Bar(sys.stderr)

    def work() -> None:
        try:
            found.append(make(progress=bar, stop=stop))
        except BaseException as error:  # it is raised again where it is waited for
            found.append(error)
        finally:
            finished.set()

    threading.Thread(target=work, daemon=True).start()
    try:
        try:
            while not finished.wait(0.2):
                pass
        except KeyboardInterrupt:
            stop.set()
            say("Stopping; the best plan so far follows.", sys.stderr)
            while not finished.wait(0.2):
                pass
    finally:
        bar.close()
    (result,) = found
    if isinstance(result, BaseException):
        raise result
    return result
