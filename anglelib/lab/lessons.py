"""Where JupyterLab reads and saves notebooks: as anywhere else, but no view of a widget is kept (:mod:`anglelib.lab.views`)."""

from __future__ import annotations

from typing import Any

from jupyter_server.services.contents.largefilemanager import AsyncLargeFileManager

from anglelib.lab.views import set_aside


class Lessons(AsyncLargeFileManager):
    """Notebooks without dead views, whoever saved them."""

    async def get(self, path: str, *given: Any, **more: Any) -> dict:
        model = await super().get(path, *given, **more)
        if model["type"] == "notebook" and model.get("content"):
            set_aside(model["content"])
        return model

    async def save(self, model: dict, path: str = "") -> dict:
        if model.get("type") == "notebook":
            set_aside(model.get("content"))
        return await super().save(model, path)
