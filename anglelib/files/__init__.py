"""Job and rack files: read with every problem at once, saved so that nothing is lost."""

from anglelib.files.job_file import open_job, parse_job, read_job
from anglelib.files.report import Opened

__all__ = ["Opened", "open_job", "parse_job", "read_job"]
