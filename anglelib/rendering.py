"""A page whose Python ends while the page is being made, or does not start, says so: Voila's own would wait for ever, and a traceback be on the terminal.

Voila's handler makes a page with the class that stands in its module under one name; ours is put there, and takes one thing of that class: that it
gives the page piece by piece.
"""

from __future__ import annotations

from collections.abc import AsyncIterator
from typing import Any

STARTS = "async_start_new_kernel_client"
"""Of nbclient, which logs what it then raises."""
ENDED = '<script>window.page_state("ended")</script>'
"""In the page, the line of its state (:mod:`anglelib.page_parts`)."""


def say_where_python_ends(app: Any) -> None:
    """Called before a Voila serves."""
    from voila import handler
    from voila.notebook_renderer import NotebookRenderer

    class Rendering(NotebookRenderer):  # type: ignore[misc]
        """Voila's own, whose last piece says that the kernel has ended."""

        async def generate_content_generator(self, kernel_id: Any = None, kernel_future: Any = None) -> AsyncIterator[tuple[str, Any]]:
            try:
                async for piece in super().generate_content_generator(kernel_id, kernel_future):
                    yield piece
            except Exception:
                if await kernel_future.is_alive():
                    raise
                yield ENDED, {}

    handler.NotebookRenderer = Rendering
    getattr(app.log, "logger", app.log).addFilter(lambda record: record.funcName != STARTS)
