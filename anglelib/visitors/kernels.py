"""The kernels of visitors' pages: a limited number, each its visitor's alone, sealed, ended when nobody touches them.

``VisitorKernels`` and ``SealedSpecs`` are made on first use, since Jupyter's server is imported by them.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Any

from anglelib.visiting import SET
from anglelib.visitors.allowed import Page
from anglelib.visitors.house import House

KERNELS, SPECS = "VisitorKernels", "SealedSpecs"
CANNOT_START = "cannot_start"
"""What the visitors' server tells the owner's: no kernel starts, with what they say."""


@dataclass
class Entry:
    """A visitor who was admitted, until a kernel is started."""

    visitor: str
    used: bool = False


ENTRY: ContextVar[Entry] = ContextVar("entry")
"""For whom a kernel is started."""


def __getattr__(name: str) -> Any:
    if name not in (KERNELS, SPECS):
        raise AttributeError(name)
    globals().update(_made())
    return globals()[name]


def _made() -> dict[str, Any]:
    from jupyter_client.kernelspec import KernelSpec, KernelSpecManager

    from anglelib.kernels import CourseKernels

    class SealedSpecs(KernelSpecManager):  # type: ignore[misc]
        """One kind of kernel, whatever a notebook asks for."""

        def find_kernel_specs(self) -> dict[str, str]:
            return {"python3": ""}

        def get_kernel_spec(self, kernel_name: str) -> KernelSpec:
            argv = [sys.executable, "-m", "anglelib.visitors.kernel", "-f", "{connection_file}"]
            return KernelSpec(argv=argv, display_name="Python 3", language="python", metadata={"supported_encryption": ["curve"]})

        def get_all_specs(self) -> dict[str, Any]:
            return {"python3": {"resource_dir": "", "spec": self.get_kernel_spec("python3").to_dict()}}

    class VisitorKernels(CourseKernels):  # type: ignore[misc,valid-type]
        """The course's kernels, with a house of so many places and a judge for each page."""

        house = House(1)
        heed: Callable[[str], None] = staticmethod(lambda why: None)  # type: ignore[assignment]

        def __init__(self, **how: Any) -> None:
            super().__init__(**how)
            self.pages: dict[str, Page] = {}

        def page(self, kernel_id: str) -> Page:
            """What is known of a kernel's page."""
            return self.pages.setdefault(kernel_id, Page())

        def dropped(self, why: str) -> None:
            """Something that a page sent was left out."""
            self.heed(why)

        async def admit(self, visitor: str) -> bool:
            """Whether a visitor may have one more page; those that make room for it are ended."""
            connected = {id_: self._kernel_connections.get(id_, 0) for id_ in self.list_kernel_ids()}
            admitted = self.house.admit(visitor, connected, time.monotonic())
            if admitted is None:
                return False
            for id_ in admitted.ends:
                await self.end(id_)
            return True

        async def end(self, kernel_id: str) -> None:
            """Ends a kernel that may have ended meanwhile."""
            self.house.forget(kernel_id)
            self.pages.pop(kernel_id, None)
            if kernel_id in self:
                await self.shutdown_kernel(kernel_id, now=True)

        async def _async_start_kernel(self, **how: Any) -> str:
            entry = ENTRY.get()
            entry.used = True
            try:
                id_ = await super()._async_start_kernel(**{**how, "env": {**os.environ, **SET}})
            except BaseException:
                self.house.failed()
                raise
            self.house.began(id_, entry.visitor, time.monotonic())
            return id_

        start_kernel = _async_start_kernel

        async def shutdown_all(self, now: bool = True) -> None:
            """At once: nobody's work is in them."""
            await super().shutdown_all(now=True)

        def notify_disconnect(self, kernel_id: str) -> None:
            self.house.left(kernel_id, time.monotonic())
            super().notify_disconnect(kernel_id)

        def remove_kernel(self, kernel_id: str) -> Any:
            self.house.forget(kernel_id)
            self.pages.pop(kernel_id, None)
            return super().remove_kernel(kernel_id)

    return {KERNELS: VisitorKernels, SPECS: SealedSpecs}
