"""What the visitors' server answers: the door, the list, the lessons, and for each page its own kernel; all else is nowhere.

Voila's list of handlers is not thinned out: a handler of it is taken only where it is named here.
"""

from __future__ import annotations

import asyncio
import secrets
from collections.abc import Sequence
from typing import Any

from anglelib.served import LESSON_PAGE
from anglelib.visitors import leaf
from anglelib.visitors.code import plain, same
from anglelib.visitors.kernels import ENTRY, Entry

COOKIE_DAYS = 1
WRONG_WAIT = 0.5
"""So long the one who typed a wrong code waits, and every other such one after him [s]."""


def identity(cookie: str) -> Any:
    """Who a request is from: whoever has the cookie that the door gives. No code is taken anywhere else, and no password set."""
    from jupyter_server.auth.identity import IdentityProvider, User

    class Visitors(IdentityProvider):  # type: ignore[misc]
        auth_enabled = login_available = logout_available = False

        def get_user(self, handler: Any) -> User | None:
            visitor = visitor_of(handler, cookie)
            return User(visitor, visitor, visitor) if visitor else None

        def get_handlers(self) -> list:
            return []

        def is_token_authenticated(self, handler: Any) -> bool:
            return False

    return Visitors


def visitor_of(handler: Any, cookie: str) -> str:
    """The visitor by the cookie; "" for a stranger."""
    found = handler.get_signed_cookie(cookie, max_age_days=COOKIE_DAYS)
    return found.decode("ascii", "replace") if found else ""


def handlers(theirs: Sequence[tuple], code: str, cookie: str) -> list[tuple]:
    """The server's handlers; ``theirs`` are Voila's."""
    from jupyter_server.base.handlers import FileFindHandler
    from jupyter_server.services.kernels.handlers import KernelHandler
    from jupyterlab_server.themes_handler import ThemesHandler
    from tornado.web import HTTPError, RequestHandler
    from voila.app import TornadoVoilaHandler
    from voila.shutdown_kernel_handler import VoilaShutdownKernelHandler
    from voila.static_file_handler import AllowListFileHandler, MultiStaticFileHandler, TemplateStaticFileHandler
    from voila.tornado.kernel_websocket_handler import VoilaKernelWebsocketHandler

    wrong = asyncio.Lock()

    class Door(RequestHandler):
        """Looks at the code, gives the cookie, and leads on to an address without the code; a visitor finds the list there."""

        def set_default_headers(self) -> None:
            self.set_header("Cache-Control", "no-store")
            self.set_header("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; form-action 'self'; frame-ancestors 'none'")

        async def get(self) -> None:
            if typed := self.get_query_argument("token", ""):
                await self._open(typed)
            else:
                self.finish(leaf.contents() if visitor_of(self, cookie) else leaf.door())

        async def post(self) -> None:
            await self._open(self.get_body_argument("token", ""))

        async def _open(self, typed: str) -> None:
            if not same(plain(typed), code):
                async with wrong:
                    await asyncio.sleep(WRONG_WAIT)
                self.set_status(403)
                self.finish(leaf.door(wrong=True))
                return
            if not visitor_of(self, cookie):
                self.set_signed_cookie(cookie, secrets.token_hex(16), expires_days=COOKIE_DAYS, httponly=True, samesite="Lax")
            self.redirect("/", status=303)

    class Nowhere(RequestHandler):
        """Everything that there is not."""

        def prepare(self) -> None:
            self.set_status(404)
            self.finish(leaf.nowhere())

    class Known:
        """For visitors alone, also what anybody could have from the library that it is of."""

        def prepare(self) -> Any:
            if not visitor_of(self, cookie):
                raise HTTPError(403)
            if any(".." in _text(part) for part in self.path_args):  # type: ignore[attr-defined]
                raise HTTPError(404)
            return super().prepare()  # type: ignore[misc]

        def parse_url_path(self, path: str) -> str:
            try:
                return super().parse_url_path(path)  # type: ignore[misc]
            except (ValueError, AssertionError):  # Voila's, for an address that is none of its own
                raise HTTPError(404) from None

    class Own:
        """For the visitor alone whose page has the kernel."""

        def prepare(self) -> Any:
            kernels, id_ = self.settings["kernel_manager"], (self.path_args or list(self.path_kwargs.values()))[0]  # type: ignore[attr-defined]
            if not kernels.house.owns(visitor_of(self, cookie), _text(id_)) or _text(id_) not in kernels:
                raise HTTPError(404)
            return super().prepare()  # type: ignore[misc]

    class Lesson(TornadoVoilaHandler):  # type: ignore[misc]
        """A page, where there is a place for it."""

        def prepare(self) -> Any:
            if not visitor_of(self, cookie):
                return self.redirect("/")
            if (file := self.request.path.rpartition("/")[2]) not in leaf.FILES:
                self.redirect("/") if file == leaf.HOME_FILE else (self.set_status(404), self.finish(leaf.nowhere()))
                return None
            return super().prepare()

        async def get(self, path: str = "") -> None:
            kernels, entry = self.kernel_manager, Entry(visitor_of(self, cookie))
            if not await kernels.admit(entry.visitor):
                self.set_status(503)
                self.set_header("Retry-After", "60")
                self.finish(leaf.full(kernels.house.most))
                return
            before = ENTRY.set(entry)
            try:
                await super().get(path)
            finally:
                ENTRY.reset(before)
                if not entry.used:
                    kernels.house.failed()

    class OwnKernel(Own, KernelHandler):  # type: ignore[misc]
        SUPPORTED_METHODS = ("GET",)

    class OwnSocket(Own, VoilaKernelWebsocketHandler):  # type: ignore[misc]
        pass

    class OwnEnd(Own, VoilaShutdownKernelHandler):  # type: ignore[misc]
        pass

    ours: dict[type, type] = {KernelHandler: OwnKernel, VoilaKernelWebsocketHandler: OwnSocket, VoilaShutdownKernelHandler: OwnEnd, TornadoVoilaHandler: Lesson}
    for plain_file in (FileFindHandler, ThemesHandler, AllowListFileHandler, MultiStaticFileHandler, TemplateStaticFileHandler):
        ours[plain_file] = type(plain_file.__name__, (Known, plain_file), {})
    found: list[tuple] = [(r"/", Door)]
    for pattern, kind, *more in theirs:
        if kind in ours:
            found.append((LESSON_PAGE if kind is TornadoVoilaHandler else pattern, ours[kind], *more))
    return [*found, (r"/.*", Nowhere)]


def _text(value: Any) -> str:
    return value.decode("ascii", "replace") if isinstance(value, bytes) else str(value)
