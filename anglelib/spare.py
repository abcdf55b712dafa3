"""One kernel kept ready for the next page: it has started, and has read what most lessons need, before anybody opens one.

A page that is opened takes it, and a little later the next one is made ready. There is never more than one, so it costs the memory of a page
that shows nothing. ``SpareKernel`` is made on first use, since Jupyter's server is imported by it.
"""

from __future__ import annotations

import asyncio
from contextlib import suppress
from typing import Any

NAME = "SpareKernel"
SETTING = f"VoilaConfiguration.multi_kernel_manager_class=anglelib.spare.{NAME}"
"""What Voila is told."""
FOLDER = "notebooks"
"""The folder of the pages, as Voila names it when it starts a kernel."""
READ = "import anglelib.lessons.usual; del anglelib"
"""What a kernel reads before it has a page."""
PAUSE = 10.0
"""So long after a page was opened the next kernel is made ready: the page itself comes first [s]."""


def __getattr__(name: str) -> Any:
    if name != NAME:
        raise AttributeError(name)
    from jupyter_server._tz import utcnow

    from anglelib.kernels import CourseKernels

    class SpareKernel(CourseKernels):  # type: ignore[misc,valid-type]
        """The course's kernels, with one more than there are pages."""

        spare: asyncio.Task[str] | None = None

        def make_ready(self) -> None:
            """Starts the spare kernel where there is none; called in the server's loop."""
            if self.spare is None and not self.stopping:
                reads = [f"--IPKernelApp.exec_lines={READ}"]
                self.spare = asyncio.ensure_future(super()._async_start_kernel(path=FOLDER, extra_arguments=reads))

        async def _async_start_kernel(self, *, kernel_id: str | None = None, path: str | None = None, **kwargs: Any) -> str:
            ready, self.spare = (self.spare, None) if kernel_id is None and path == FOLDER else (None, self.spare)
            if kernel_id is None:
                asyncio.get_running_loop().call_later(PAUSE, self.make_ready)
            if ready is not None:
                with suppress(Exception):  # whatever became of it: a page has a kernel
                    taken = await ready
                    if taken in self and await self.get_kernel(taken).is_alive():
                        self.get_kernel(taken).last_activity = utcnow()
                        return taken
            return await super()._async_start_kernel(kernel_id=kernel_id, path=path, **kwargs)

        start_kernel = _async_start_kernel

        async def shutdown_all(self, now: bool = False) -> None:
            """The spare kernel may be starting just now: it is waited for, and ended as the others are."""
            ready, self.spare, self.stopping = self.spare, None, True
            if ready is not None:
                with suppress(Exception):
                    await ready
            await super().shutdown_all(now)

        async def cull_kernel_if_idle(self, kernel_id: str) -> None:
            """The spare kernel has no page, and waits for one."""
            waits = self.spare is not None and self.spare.done() and not self.spare.cancelled() and self.spare.exception() is None
            if not (waits and self.spare.result() == kernel_id):  # type: ignore[union-attr]
                await super().cull_kernel_if_idle(kernel_id)

    globals()[NAME] = SpareKernel
    return SpareKernel
