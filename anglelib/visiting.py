"""Whether this page is a visitor's: one that somebody on the workshop's network has open, of a course that another person shares.

A visitor's page has no box for a path, saves nothing and keeps its answers in its own memory. The server that makes visitors'
pages says so to their kernels.

>>> visiting({"ANGLELIB_VISITOR": "1"}), visiting({})
(True, False)
"""

from __future__ import annotations

import os
from collections.abc import Mapping

NAME = "ANGLELIB_VISITOR"
SET = {NAME: "1"}
"""What the environment of a visitor's kernel has."""


def visiting(environment: Mapping[str, str] = os.environ) -> bool:
    """Whether the page of this kernel is a visitor's."""
    return environment.get(NAME) == SET[NAME]
