"""What a page costs: its cells, its kernel's memory, every move of every slider, the server's start; this commit against an earlier one, in one run.

    python tests/benchmarks/page_cost.py COMMIT [PAGE ...]        writes the table page_cost.md beside this file, of all pages or of those

TIMES=1 in the environment is quicker.
The two commits take turns. What is taken is the processor's time, not the clock's, so that another program on the machine weighs little.
"""

from __future__ import annotations

import datetime
import json
import os
import platform
import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from two_commits import PROJECT, cell_name, code, earlier, git, pages, part

TABLE = Path(__file__).with_suffix(".md")
MOVES = 40
MOST_MOVE, MOST_CELLS, MOST_MEMORY = 15, 0.7, 75
"""What a lesson may cost: 95 % of a slider's moves [ms of its kernel], its cells [s], its kernel [MB, proportional]."""
TIMES = int(os.environ.get("TIMES", 3))


# --- one page in a kernel, or one page's sliders: run by the tree that is measured ----------------------------
def page(notebook: str) -> dict[str, float]:
    """Runs a page's cells in a kernel as the course starts it: the processor's time [s], the memory [MB]."""
    from jupyter_client.manager import start_new_kernel

    manager, client = start_new_kernel(kernel_name="python3")
    try:
        process = manager.provisioner.pid
        before = _used(process)
        for source in code(Path(notebook)):
            reply = client.execute_interactive(source, output_hook=lambda message: None, timeout=300)
            assert reply["content"]["status"] == "ok", reply["content"]
        memory = re.search(r"^Pss: +(\d+)", Path(f"/proc/{process}/smaps_rollup").read_text(), re.MULTILINE)
        return {"cells": _used(process) - before, "memory": int(memory[1]) / 1024}
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)


def _used(process: int) -> float:
    fields = Path(f"/proc/{process}/stat").read_text().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def sliders(notebook: str) -> dict[str, list[float]]:
    """Every slider of a page moved over its range: milliseconds of each move."""
    sys.path.insert(0, "tests/lessons")
    from contextlib import redirect_stdout
    from io import StringIO

    from lesson_checks import Page, predict

    from anglelib.lessons.ask import Predict

    with redirect_stdout(StringIO()):
        boxes = list(Page(Path(notebook)).boxes())
    found: dict[str, list[float]] = {}
    for source, box in boxes:
        if isinstance(getattr(box, "ask", None), Predict):
            predict(box)
        for control in _controls(box, set()):
            slider, row = control.slider, found.setdefault(f"{cell_name(source)}: {control.label}", [])
            was, step = slider.value, getattr(slider, "step", 1) or 1
            places = list(range(slider.min, slider.max + 1, step))
            for place in [*places[:: max(1, len(places) // MOVES)], was]:
                start = time.process_time()
                slider.value = place
                row.append((time.process_time() - start) * 1000)
    return found


def _controls(box, seen: set[int]):
    if id(box) in seen:
        return
    seen.add(id(box))
    if hasattr(box, "slider"):
        if not box.slider.disabled:
            yield box
        return
    for child in getattr(box, "children", ()):
        yield from _controls(child, seen)


def start() -> float:
    """The processor's time of the server until it gives its address [s]."""
    with tempfile.TemporaryDirectory() as home:
        environment = {**os.environ, "ANGLELIB_HOME": home}
        server = subprocess.Popen(
            [sys.executable, "-m", "anglelib", "course", "--no-browser"], env=environment, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
        )
        for line in server.stdout:  # type: ignore[union-attr]
            if "token=" in line:
                break
        used = _used(server.pid)
        server.terminate()
        server.wait()
    return used


# --- both trees ------------------------------------------------------------------------------------------------
def asked(tree: Path, what: str, notebook: str = "") -> object:
    """What a tree's own code gives, in a Python of its own; the course's kernels are light where the tree knows of it."""
    with tempfile.TemporaryDirectory() as home:
        environment = {**os.environ, "PYTHONPATH": str(tree), "ANGLELIB_HOME": home, "ANGLELIB_LIGHT": "1"}
        done = subprocess.run([sys.executable, __file__, "--one", what, notebook], cwd=tree, env=environment, capture_output=True, text=True, check=True)
    return json.loads(done.stdout.splitlines()[-1])


def measured(before: Path, now: Path) -> tuple[list[str], list[str], list[float], list[float]]:
    """The rows of both tables, what was over its limit, and the starts."""
    costly, moves, over, starts = [], [], [], ([], [])
    asked(before, "start"), asked(now, "start")  # not counted: Python compiles what it reads for the first time
    for _ in range(TIMES):
        for tree, row in zip((before, now), starts, strict=True):
            row.append(asked(tree, "start"))
    for path in pages(sys.argv[2:]):
        name, costs, times = f"notebooks/{path.name}", ([], []), []
        for _ in range(TIMES):
            for tree, row in zip((before, now), costs, strict=True):
                if (tree / name).exists():  # a page may be newer than the earlier commit
                    row.append(asked(tree, "page", name))
        cells, memory = ([_median(row, what) for row in costs] for what in ("cells", "memory"))
        costly.append(f"| {path.stem} | {' / '.join(_written(n, 2) for n in cells)} | {' / '.join(_written(n, 0) for n in memory)} |")
        if path.stem[:2].isdigit() and (cells[1] > MOST_CELLS or memory[1] > MOST_MEMORY):
            over.append(f"{path.stem}: cells {cells[1]:.2f} s, {memory[1]:.0f} MB")
        times = [asked(tree, "sliders", name) if (tree / name).exists() else {} for tree in (before, now)]
        for control, now_row in times[1].items():
            then_row = times[0].get(control, [])
            parts = [f"{part(row, 50):.1f} / {part(row, 95):.1f}" if len(row) > 1 else "-" for row in (then_row, now_row)]
            moves.append(f"| {path.stem} | {control} | {parts[0]} | {parts[1]} |")
            if len(now_row) > 1 and part(now_row, 95) > MOST_MOVE:
                over.append(f"{path.stem}, {control}: {part(now_row, 95):.1f} ms")
        print(costly[-1], file=sys.stderr, flush=True)
    return costly, moves, over, [statistics.median(row) for row in starts]


def _median(row: list[dict[str, float]], what: str) -> float | None:
    return statistics.median(one[what] for one in row) if row else None


def _written(number: float | None, places: int) -> str:
    return "-" if number is None else f"{number:.{places}f}"


def main() -> int:
    before, now = git("rev-parse", "--short", sys.argv[1]), git("rev-parse", "--short", "HEAD")
    with earlier(before) as tree:
        costly, moves, over, starts = measured(tree, PROJECT)
    head = f"""# What a page costs

Made by `python tests/benchmarks/page_cost.py {before}`: the processor's time, two commits taking turns, {f'medians of {TIMES}' if TIMES > 1 else 'once'}; each pair is before / now.

- machine: {platform.system()} {platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}; load while measuring {os.getloadavg()[0]:.1f}
- date: {datetime.date.today().isoformat()}; commits {before} and {now}
- the server, from its command to its address: {starts[0]:.2f} / {starts[1]:.2f} s
- limits for a lesson: cells {MOST_CELLS} s, its kernel {MOST_MEMORY} MB, 95 % of a slider's moves {MOST_MOVE} ms; over them now: {"; ".join(over) or "none"}

| page | its cells, s | its kernel afterwards, MB (proportional) |
|---|---|---|
"""
    middle = "\n\n| page | slider | before, ms: median / 95 % | now |\n|---|---|---|---|\n"
    TABLE.write_text(head + "\n".join(costly) + middle + "\n".join(moves) + "\n", encoding="utf-8")
    print(TABLE.read_text(encoding="utf-8"))
    return 1 if over else 0


if __name__ == "__main__":
    if sys.argv[1] == "--one":
        given = (sys.argv[3],) if sys.argv[3] else ()
        print(json.dumps({"page": page, "sliders": sliders, "start": start}[sys.argv[2]](*given)))
    else:
        sys.exit(main())
