"""The kernels of all servers of the course: what their processes say goes into a file, and all end with their server, in order.

``CourseKernel`` and ``CourseKernels`` are made on first use, since Jupyter's server is imported by them.

>>> options(Path("/home/me/anglelib-course/.pages"))
['--CourseKernel.said_in=/home/me/anglelib-course/.pages/kernels.txt']
"""

from __future__ import annotations

import asyncio
import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

from anglelib.kernels_say import FILE, Said, kept, tell

ONE, ALL = "CourseKernel", "CourseKernels"
SETTING = f"kernel_manager_class=anglelib.kernels.{ALL}"
"""What JupyterLab's server is told: ServerApp, a dot, and this."""


def options(place: Path) -> list[str]:
    """What a server is told of them: what they say goes to a file in ``place``."""
    return [f"--{ONE}.said_in={place / FILE}"]


def __getattr__(name: str) -> Any:
    if name not in (ONE, ALL):
        raise AttributeError(name)
    globals().update(_made())
    return globals()[name]


def _made() -> dict[str, Any]:
    from jupyter_server.services.kernels.kernelmanager import AsyncMappingKernelManager, ServerKernelManager
    from tornado.web import HTTPError
    from traitlets import Unicode, default

    class CourseKernel(ServerKernelManager):  # type: ignore[misc]
        """Jupyter's own manager of one kernel, whose process says what it has to say into a file."""

        said_in = Unicode(os.devnull, config=True, help="The file of what kernels' processes say.")
        tell: Callable[[Said | None], None] = staticmethod(tell)  # type: ignore[assignment]
        """Called with the file when a kernel cannot start; once, since the others cannot either."""
        told = False

        async def _async_launch_kernel(self, kernel_cmd: list[str], **how: Any) -> None:
            said = kept(self.said_in)
            with open(os.devnull, "wb") as nowhere:
                end = said.end if said else nowhere
                await super()._async_launch_kernel(kernel_cmd, **{**how, "stdout": end, "stderr": end})

        def start_restarter(self) -> None:
            super().start_restarter()
            self.add_restart_callback(self._cannot_start, "dead")

        def stop_restarter(self) -> None:
            self.remove_restart_callback(self._cannot_start, "dead")
            super().stop_restarter()

        def _cannot_start(self) -> None:
            """It was tried several times, and each time it ended at once."""
            if not CourseKernel.told:
                CourseKernel.told = True
                self.tell(kept(self.said_in))

    class CourseKernels(AsyncMappingKernelManager):  # type: ignore[misc]
        """Jupyter's own manager of kernels, which ends those too that are starting just then."""

        stopping = False

        @default("kernel_manager_class")
        def _kernel_manager_class_default(self) -> str:
            return f"{__name__}.{ONE}"

        async def _async_start_kernel(self, **how: Any) -> str:
            if self.stopping:
                raise HTTPError(503)
            return await super()._async_start_kernel(**how)

        start_kernel = _async_start_kernel

        async def shutdown_all(self, now: bool = False) -> None:
            """Ends all, also one that is starting, and one that its page ends meanwhile: Jupyter's own stops at either, and leaves the others."""

            async def end(id_: str) -> None:
                with suppress(HTTPError):  # it has ended
                    await self.shutdown_kernel(id_, now=now)

            self.stopping = True
            await asyncio.gather(*self._pending_kernels.values(), return_exceptions=True)
            await asyncio.gather(*(end(id_) for id_ in self.list_kernel_ids()))

    return {ONE: CourseKernel, ALL: CourseKernels}
