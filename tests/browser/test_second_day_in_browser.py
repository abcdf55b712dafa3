"""JupyterLab on the second day: a lesson that was run and saved, opened again by a course that was started again, shows its pictures."""

import json

import pytest
from course import open_notebook, run_all, served
from lab import copy_of, early, end_kernels, lesson, pictures_of, run_menu, save, shipped, shown, until_idle, until_shown, views_in

WIDGET = ".jp-OutputArea-output .jupyter-widgets"


def saved(page, home, name):
    """The usual end of a day."""
    return save(page, home, name)


def with_its_state(page, home, name):
    """JupyterLab's own setting, which keeps the state of all controls in the file; see ``first_day``."""
    return save(page, home, name)


def while_it_runs(page, home, name):
    run_menu(page)
    return save(page, home, name)


def without_its_kernel(page, home, name):
    end_kernels(home)
    until_shown(page, lambda found: found["live"] == 0)
    page.locator(".jp-Dialog button").first.click()
    return save(page, home, name)


def from_before(page, home, name):
    """A file of a course that still saved the views, signed as the learner's own."""
    save(page, home, name)
    path = home / "notebooks" / name
    notebook = copy_of(home, name)
    for cell in notebook["cells"]:
        for output in cell.get("outputs", ()):
            if view := output.get("metadata", {}).pop("anglelib_view", None):
                output["data"]["application/vnd.jupyter.widget-view+json"] = {"version_major": 2, "version_minor": 0, "model_id": view}
    path.write_text(json.dumps(notebook), encoding="utf-8")
    assert views_in(notebook)
    return shipped(name)


DAYS = [("08_order_of_work.ipynb", saved), ("10_check_and_diagnose.ipynb", with_its_state), ("11_plan_the_stock.ipynb", while_it_runs),
        ("07_taper_inside.ipynb", without_its_kernel), ("00_start_here.ipynb", from_before)]  # fmt: skip


def first_day(browser, home, name, end) -> None:
    if end is with_its_state:
        settings = home / ".jupyter/lab/user-settings/@jupyter-widgets/jupyterlab-manager"
        settings.mkdir(parents=True)
        (settings / "plugin.jupyterlab-settings").write_text('{"saveState": true}', encoding="utf-8")
    with served(home, "--lab") as address, early(browser, address, name) as page:
        run_menu(page)
        ran = until_shown(page, lambda found: found["live"] >= 5, 90)
        until_idle(page)
        assert shown(page)["live"] >= 5, f"the lesson did not run: {ran}"
        written = end(page, home, name)
        assert views_in(written) == 0 and "widgets" not in written["metadata"], "the file holds a view that nobody will know tomorrow"
        if end is saved:  # the page is loaded again, and its kernel still lives: so do its widgets
            live = shown(page)["live"]
            open_notebook(page, address, name)
            assert until_shown(page, lambda found: found["live"] == live)["live"] == live


def second_day(browser, home, name) -> None:
    wanted = pictures_of(shipped(name))
    assert wanted >= 3
    with served(home, "--lab") as address, lesson(browser, address, name) as page:
        for when in ("at once", "when Python is there"):
            found = until_shown(page, lambda found: found["pictures"] >= wanted, 20)
            assert (found["dead"], found["live"], found["pictures"]) == (0, 0, wanted), when
            until_idle(page)
        run_all(page, WIDGET)
        assert until_shown(page, lambda found: found["live"] >= 5)["dead"] == 0


def test_a_second_day(browser, tmp_path):
    first_day(browser, tmp_path, "07_taper_inside.ipynb", saved)
    second_day(browser, tmp_path, "07_taper_inside.ipynb")


@pytest.mark.slow
@pytest.mark.parametrize(("name", "end"), DAYS, ids=lambda what: getattr(what, "__name__", None))
def test_five_second_days(browser, tmp_path, name, end):
    first_day(browser, tmp_path, name, end)
    second_day(browser, tmp_path, name)
