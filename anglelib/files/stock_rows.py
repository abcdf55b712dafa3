"""What the rows of a rack and of a supplier's list have in common: the columns of a section, the version of the form."""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.errors import SectionError
from anglelib.files.cells import Row, unguarded
from anglelib.files.csv_text import plain
from anglelib.files.report import FORMAT, Report, quoted, sentence
from anglelib.section import Section
from anglelib.section_sizes import section_given


def columns_of(header: list[str], report: Report, columns: Sequence[str], required: Sequence[str], further: Sequence[str], empty: str) -> list[str]:
    """The columns that a head names; ``further`` are read and not asked for, ``empty`` is the remedy where it names none."""
    found = [plain(unguarded(cell)) for cell in header]
    named = [column for column in found if column]
    if not set(named) & set(columns):
        report.stop("row 1", f"this row must name the columns ({', '.join(columns)}): {empty}")
    meant = report.unknown(dict.fromkeys(named), (*columns, *further), "row 1", "column")
    for column in required:
        if column not in found and column not in meant:
            report.add("row 1", f"there is no column {column}: add it.")
    for column in dict.fromkeys(named):
        if found.count(column) > 1:
            report.add("row 1", f"the column {column} stands here {found.count(column)} times: keep one.")
    report.close()  # without its columns no row can be read
    return found


def check_format(row: Row, first: bool) -> None:
    """Stop where a row is of another form than this library reads."""
    found = row.cell("format")
    if found != str(FORMAT) and (found or first):
        row.report.stop(
            row.at("format"),
            f"it is {quoted(found)}, and this library reads format {FORMAT}: write {FORMAT} in this column.",
        )


def section_of(row: Row) -> Section | None:
    """The section in the columns of a row; None where it has reported a problem."""
    sizes = {
        "leg_a": row.length("leg_a", "width of leg A", zero=False),
        "leg_b": row.length("leg_b", "width of leg B", zero=False),
        "thickness_a": row.length("thickness_a", "thickness of leg A", zero=False),
        "fillet": row.length("fillet", "fillet radius", hint="; 0 for a square inside corner"),
    }
    if row.cell("thickness_b"):
        sizes["thickness_b"] = row.length("thickness_b", "thickness of leg B", zero=False)
    for key, what in (("toe_radius", "toe radius"), ("heel_radius", "heel radius")):
        if row.cell(key):
            sizes[key] = row.length(key, what)
    if None in sizes.values():
        return None
    try:
        return section_given(**sizes)  # type: ignore[arg-type]
    except SectionError as error:
        row.problem(error.size, sentence(error))
        return None
