"""The kernel of a visitor's page: Jupyter's own, which keeps no history, leaves room for the owner's page, and is sealed before its first cell.

``python -m anglelib.visitors.kernel -f CONNECTION``, as the visitors' server starts it.
"""

from __future__ import annotations

import os
import sys
import tempfile

LATER = 5
"""How much later than others it gets its turn, in the computer's own steps of niceness."""


def main(arguments: list[str]) -> None:
    """Starts, seals, serves."""
    from ipykernel.kernelapp import IPKernelApp

    from anglelib.visitors.seal import seal

    if hasattr(os, "nice"):
        os.nice(LATER)
    app = IPKernelApp.instance()
    app.initialize([*arguments, "--HistoryManager.enabled=False", "--IPKernelApp.log_level=CRITICAL"])
    tempfile.gettempdir()  # a cell's name begins with it; to look for it, a file is written
    seal(path for path in sys.path if path)
    app.start()


if __name__ == "__main__":
    if sys.path[0] in ("", os.getcwd()):
        del sys.path[0]  # where it stands is nobody's place for modules
    main(sys.argv[1:])
