"""The kernel that is kept ready: a page gets it, the next one another; a dead one is no page's; it is never ended for being idle."""

import asyncio
from contextlib import asynccontextmanager
from datetime import timedelta

from patience import PATIENCE

from anglelib import spare


@asynccontextmanager
async def manager(folder, pause=600.0):
    kernels = spare.SpareKernel(root_dir=str(folder))
    old, spare.PAUSE = spare.PAUSE, pause
    try:
        yield kernels
    finally:
        spare.PAUSE = old
        await kernels.shutdown_all(now=True)
        kernels.make_ready()
        assert len(kernels) == 0 and kernels.spare is None  # nothing starts in a course that is stopped


async def loaded(kernels, id_: str, module: str) -> bool:
    """Whether a kernel has read a module."""
    client = kernels.get_kernel(id_).client()
    client.start_channels()
    try:
        await client.wait_for_ready(timeout=PATIENCE)
        reply = await client.execute("", user_expressions={"there": f"{module!r} in __import__('sys').modules"}, reply=True, timeout=PATIENCE)
        return reply["content"]["user_expressions"]["there"]["data"]["text/plain"] == "True"
    finally:
        client.stop_channels()


def test_a_page_gets_the_kernel_that_is_ready_and_the_next_one_another(tmp_path):
    async def pages():
        async with manager(tmp_path, pause=0.05) as kernels:
            kernels.make_ready()
            kernels.make_ready()
            ready = await kernels.spare
            assert len(kernels) == 1
            first = await kernels.start_kernel(path="notebooks", kernel_name="python3", env={})
            assert first == ready and await loaded(kernels, first, "anglelib.lessons.live")
            await asyncio.sleep(0.2)
            assert await kernels.spare != first and len(kernels) == 2  # the next is made ready

    asyncio.run(pages())


def test_a_kernel_that_has_died_is_no_pages(tmp_path):
    async def page():
        async with manager(tmp_path) as kernels:
            kernels.make_ready()
            dead = await kernels.spare
            await kernels.shutdown_kernel(dead, now=True)
            first = await kernels.start_kernel(path="notebooks")
            assert first != dead and await kernels.get_kernel(first).is_alive()
            assert not await loaded(kernels, first, "anglelib.lessons.live")

    asyncio.run(page())


def test_the_spare_is_not_ended_for_being_idle_and_a_page_is(tmp_path):
    async def hours():
        async with manager(tmp_path) as kernels:
            kernels.make_ready()
            ready, page = await kernels.spare, await kernels.start_kernel(path="elsewhere")
            kernels.cull_idle_timeout = 60
            for id_ in (ready, page):
                kernel = kernels.get_kernel(id_)
                kernel.last_activity, kernel.execution_state = kernel.last_activity - timedelta(hours=2), "idle"
                await kernels.cull_kernel_if_idle(id_)
            assert ready in kernels and page not in kernels
            taken = await kernels.start_kernel(path="notebooks")
            assert taken == ready
            await kernels.cull_kernel_if_idle(taken)
            assert taken in kernels  # its hour begins with its page

    asyncio.run(hours())
