"""What the course's script in JupyterLab asks its server: the words of the buttons, words of the glossary, and a fresh copy of a lesson.

An extension of the server; ``course.options`` names it.
"""

from __future__ import annotations

import json
from typing import Any

from jupyter_server.base.handlers import APIHandler
from jupyter_server.utils import url_path_join
from tornado import web

from anglelib import course
from anglelib.copies import PROJECT, fresh, shipped
from anglelib.copies_words import fresh_words
from anglelib.course import home
from anglelib.errors import BenchError
from anglelib.lab.page_words import page_words
from anglelib.lab.words import WORDS


def notices() -> list[str]:
    """What became of the learner's copies, for the page that asks first: it stands there until it is put away."""
    given = list(course.NOTICES)
    course.NOTICES.clear()
    return given


class LessonHandler(APIHandler):
    """``anglelib/lesson``: GET the words and the lessons that there are, POST for a fresh copy."""

    @web.authenticated
    def get(self) -> None:
        lessons = [name for name in shipped(PROJECT) if name.endswith(".ipynb")]
        self.finish(json.dumps({"words": WORDS, "lessons": lessons, "notices": notices()}))

    @web.authenticated
    def post(self) -> None:
        asked = self.get_json_body()
        path = asked.get("path") if isinstance(asked, dict) else None
        try:
            made = fresh(home(), PROJECT, path if isinstance(path, str) else "")
        except BenchError as error:
            self.set_status(409)
            self.finish(json.dumps({"said": str(error)}))
        else:
            self.finish(json.dumps({"said": fresh_words(made)}))


class WordsHandler(APIHandler):
    """``anglelib/words?path=notebooks/NAME.ipynb``: GET the words of the glossary that the course explains in the prose of a page."""

    @web.authenticated
    def get(self) -> None:
        self.finish(json.dumps(page_words(self.get_query_argument("path", ""))))


def _jupyter_server_extension_points() -> list[dict[str, str]]:
    return [{"module": __name__}]


def _load_jupyter_server_extension(app: Any) -> None:
    base = app.web_app.settings["base_url"]
    app.web_app.add_handlers(".*$", [(url_path_join(base, "anglelib", name), handler) for name, handler in (("lesson", LessonHandler), ("words", WordsHandler))])
