"""Job and rack files: read with every problem at once, saved so that nothing is lost."""

from importlib import import_module
from typing import Any

_WHERE = {
    "job_file": ("open_job", "parse_job", "read_job"),
    "job_text": ("render_job", "save_job"),
    "pairing": ("check_job_against_rack", "plan_home", "read_both"),
    "rack_file": ("open_rack", "parse_rack", "read_rack", "read_record"),
    "rack_record": ("mark_cuts", "mark_spoiled", "undo_cut"),
    "rack_text": ("render_rack", "save_rack"),
    "report": ("Opened",),
}
__all__ = sorted(name for names in _WHERE.values() for name in names)  # noqa: PLE0605


def __getattr__(name: str) -> Any:
    # Saving needs tomlkit, a rack the whole stock: whoever only reads a job, and every lesson does, does not pay for them.
    for module, names in _WHERE.items():
        if name in names:
            return getattr(import_module(f"anglelib.files.{module}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
