"""Job and rack files: read with every problem at once, saved so that nothing is lost."""

from anglelib.files.job_file import open_job, parse_job, read_job
from anglelib.files.pairing import check_job_against_rack, plan_home, read_both
from anglelib.files.rack_file import open_rack, parse_rack, read_rack, read_record
from anglelib.files.report import Opened

__all__ = [
    "Opened",
    "check_job_against_rack",
    "mark_cuts",
    "mark_spoiled",
    "open_job",
    "open_rack",
    "parse_job",
    "parse_rack",
    "plan_home",
    "read_both",
    "read_job",
    "read_rack",
    "read_record",
    "render_job",
    "render_rack",
    "save_job",
    "save_rack",
    "undo_cut",
]

_WRITERS = {
    "render_job": "job_text", "save_job": "job_text", "render_rack": "rack_text", "save_rack": "rack_text",
    "mark_cuts": "rack_record", "mark_spoiled": "rack_record", "undo_cut": "rack_record",
}  # fmt: skip


def __getattr__(name: str):
    # Saving needs tomlkit; whoever only reads, and every lesson does, does not pay for it.
    if name in _WRITERS:
        from importlib import import_module

        return getattr(import_module(f"anglelib.files.{_WRITERS[name]}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
