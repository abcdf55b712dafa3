"""A class of five on this machine: the documented configuration, real accounts and passwords, five browsers at once.

Needs root (accounts are made, and removed afterwards), npm, and a browser. Nothing listens anywhere but on
127.0.0.1. With ANGLELIB_HUB_TABLE set to a file, what was measured is written there as a table.
"""

from __future__ import annotations

import contextlib
import datetime
import json
import os
import platform
import stat
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

import class_hub
import pytest
from class_hub import FLAGS, browser_path, run_all

from anglelib.hub.command import HUB_MB, PAGE_MB, PAGES, SERVER_MB, memory_for

pytestmark = pytest.mark.slow

ANSWERS = ("1/8", "5/32", "3/16", "7/32", "1/4")
"""What each of the five predicts in lesson 07."""
LESSONS = ("07_taper_inside", "11_plan_the_stock")
READY = ".jp-CodeCell .widget-html svg"
PRIVATE = ("", "answers", "answers/07_taper_inside.json", ".lab/overrides.json", ".checkpoints")
PROBE = """
import json, os, sys
others, shared, own = json.loads(sys.argv[1])
done = []
def attempt(what, act):
    try:
        act()
    except OSError:
        return
    done.append(what)
for path in others:
    attempt("read " + path, lambda: os.listdir(path) if path.endswith("/") else open(path).close())
    attempt("change " + path, lambda: os.chmod(path, 0o777))
    attempt("put " + path, lambda: open(os.path.join(os.path.dirname(path), "mine"), "w").close())
for path in shared:
    attempt("write " + path, lambda: open(path, "a").close())
    attempt("make readable " + path, lambda: os.chmod(path, 0o666))
    attempt("put beside " + path, lambda: open(path + ".mine", "w").close())
    attempt("rename " + path, lambda: os.rename(path, path + ".old"))
for path in own:
    attempt("own " + path, lambda: open(path).close())
print(json.dumps(done))
"""
"""What the programs of one account can do to the files of another, to the lessons, and to its own."""


@pytest.fixture(scope="module")
def hub():
    if why := class_hub.lacking():
        pytest.skip(f"No class was tried on a hub: {why}.")
    if browser_path() is None:
        pytest.skip("No class was tried on a hub: there is no Chromium or Chrome on this machine.")
    with class_hub.place() as folder:
        project, python = class_hub.project_for_all(folder)
        with class_hub.accounts(folder, len(ANSWERS)) as (group, learners):
            names = [learner.name for learner in learners]
            with class_hub.served(folder, python, project, group, learners) as running:
                running.python, running.group, running.place = python, group, folder
                yield running
    import pwd

    left = [entry.pw_name for entry in pwd.getpwall() if entry.pw_name in names]
    assert left == [] and not folder.exists()


@pytest.fixture(scope="module")
def measured():
    """What the tests measure, for the table."""
    return {}


@pytest.fixture(scope="module")
def pages(hub, measured):
    """A browser's page for each learner, logged in by the form, all at once."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=browser_path(), args=FLAGS)
        opened = []
        for learner in hub.learners:
            page = browser.new_context(viewport={"width": 1366, "height": 900}).new_page()
            page.refused, page.outside = [], []
            page.on("response", lambda got, page=page: page.refused.append((got.status, got.url)) if got.status >= 400 else None)
            page.on(
                "request",
                lambda sent, page=page: (
                    page.outside.append(sent.url) if sent.url.startswith("http") and "//127.0.0.1" not in sent.url else None
                ),
            )
            page.goto(hub.address)
            page.fill("#username_input", learner.name)
            page.fill("#password_input", learner.password)
            opened.append(page)
        begun, took = time.monotonic(), {}
        for page in opened:
            page.locator("#login_submit").click(no_wait_after=True)
        while len(took) < len(opened) and time.monotonic() < begun + 240:
            for number, page in enumerate(opened):
                if number not in took and page.locator(".jp-Notebook .jp-MarkdownOutput h1").count():
                    took[number] = time.monotonic() - begun
            opened[0].wait_for_timeout(100)
        measured["start"] = took
        measured["load"] = os.getloadavg()[0]
        yield opened
        browser.close()


def open_lesson(page, hub, learner, name: str) -> None:
    page.goto(f"{hub.address}/user/{learner.name}/lab/tree/notebooks/{name}.ipynb?reset")
    page.wait_for_selector(".jp-Notebook .jp-MarkdownOutput h1", timeout=60_000)


def cell(page, call: str):
    """The code cell that calls this, scrolled to."""
    found = page.locator(".jp-CodeCell", has_text=f"lesson.{call}")
    page.locator(".jp-WindowedPanel-outer").first.evaluate("panel => panel.scrollTop = 0")
    for _ in range(40):
        if found.count():
            break
        page.locator(".jp-WindowedPanel-outer").first.evaluate("panel => panel.scrollTop += 500")
        page.wait_for_timeout(100)
    found.evaluate("cell => cell.scrollIntoView()")
    return found


def asked(page, method: str, url: str, body: dict | None = None) -> int:
    """The status of a request that the page itself makes, with its own cookies and its token against forgery."""
    return page.evaluate(
        """async ([method, url, body]) => {
            const token = (document.cookie.match(/(?:^|; )_xsrf=([^;]*)/) || [])[1] || '';
            const got = await fetch(url, {method, redirect: 'follow', headers: {'X-XSRFToken': decodeURIComponent(token),
                'Content-Type': 'application/json'}, body: body === null ? undefined : JSON.stringify(body)});
            return got.status;
        }""",
        [method, url, body],
    )


def probe(hub, learner, others: list[str], shared: list[str], own: list[str]) -> list[str]:
    """What a program with a learner's rights can do: the same rights as the learner's notebooks have."""
    said = subprocess.run(
        [str(hub.python), "-sP", "-c", PROBE, json.dumps([others, shared, own])],
        user=learner.uid, group=learner.gid, extra_groups=[], cwd="/", capture_output=True, text=True, check=True,
    )  # fmt: skip
    return json.loads(said.stdout)


# --- in order: one class from the log-in to the end -------------------------------------------------
def test_nobody_comes_in_with_a_wrong_password_or_from_outside_the_group(hub, measured):
    """Before anybody is in: the system's own check of the password, and the group's."""
    from playwright.sync_api import sync_playwright

    assert "pam" in Path(hub.folder, "jupyterhub_config.py").read_text(encoding="utf-8")
    stranger = f"{hub.group}-x"
    subprocess.run(["useradd", "-M", "-N", "-g", "nogroup", stranger], check=True, capture_output=True)
    try:
        subprocess.run(["chpasswd"], input=f"{stranger}:not-a-learner\n", text=True, check=True)
        with sync_playwright() as player:
            browser = player.chromium.launch(executable_path=browser_path(), args=FLAGS)
            for name, password in ((hub.learners[0].name, "wrong"), (stranger, "not-a-learner")):
                page = browser.new_page()
                page.goto(hub.address)
                page.fill("#username_input", name)
                page.fill("#password_input", password)
                page.click("#login_submit")
                page.get_by_text("Invalid username or password").wait_for(timeout=30_000)
                assert "/hub/login" in page.url
                measured["strangers"] = measured.get("strangers", 0) + 1
                page.close()
            browser.close()
    finally:
        subprocess.run(["userdel", stranger], check=True, capture_output=True)


def test_five_come_in_at_once_and_see_the_course(hub, pages, measured):
    assert len(measured["start"]) == len(ANSWERS), hub.log.read_text(encoding="utf-8")[-3000:]
    for page in pages:
        assert "00 Start here" in page.locator(".jp-Notebook .jp-MarkdownOutput h1").first.inner_text()
        assert page.get_by_text("notebook is read-only").count() == 1


def test_each_server_runs_with_its_learner_s_rights_and_is_reached_from_here_only(hub, pages):
    import psutil

    ours = [*(process for learner in hub.learners for process in class_hub.processes_of(learner.uid))]
    ours += [psutil.Process(hub.process.pid), *psutil.Process(hub.process.pid).children(recursive=True)]
    listening = {place.laddr.ip for process in ours for place in process.net_connections("inet") if place.status == psutil.CONN_LISTEN}
    assert listening == {"127.0.0.1"}
    for learner in hub.learners:
        words = [" ".join(process.info["cmdline"]) for process in class_hub.processes_of(learner.uid)]
        assert sum("jupyterhub.singleuser" in word for word in words) == 1
        assert sum("ipykernel" in word for word in words) == 1


def test_each_answers_lesson_07_differently(hub, pages, measured):
    for page, learner, answer in zip(pages, hub.learners, ANSWERS):
        open_lesson(page, hub, learner, "07_taper_inside")
        run_all(page, READY)
        part = cell(page, "project()")
        part.get_by_label("Your answer (in.)").fill(answer)
        seal = part.get_by_role("button", name="Commit")
        seal.click()
        part.get_by_text("Understood as").or_(part.locator("button:disabled", has_text="Commit")).first.wait_for(timeout=60_000)
        if seal.is_enabled():  # a wrong number has a second try
            seal.click()
        part.locator(f'.widget-html svg[aria-label*="Your prediction for the mark on leg A is {answer}"]').wait_for(timeout=15_000)
    for learner, answer in zip(hub.learners, ANSWERS):
        kept = json.loads((learner.folder / "answers" / "07_taper_inside.json").read_text(encoding="utf-8"))
        assert [given["typed"] for given in kept["answers"]] == [answer]
    measured["one page"] = [memory_of(learner) for learner in hub.learners]
    for page in pages:
        assert page.refused == [] and page.outside == []


def test_after_a_new_start_each_finds_its_own_answer(hub, pages, measured):
    for page, learner, answer in zip(pages, hub.learners, ANSWERS):
        open_lesson(page, hub, learner, "07_taper_inside")
        page.get_by_role("menuitem", name="Kernel", exact=True).click()
        page.get_by_role("menuitem", name="Restart Kernel and Run All Cells…", exact=True).click()
        page.locator(".jp-Dialog .jp-mod-accept").click()
        part = cell(page, "project()")
        part.locator(f'.widget-html svg[aria-label*="Your prediction for the mark on leg A is {answer}"]').wait_for(timeout=60_000)
        measured["found again"] = measured.get("found again", 0) + 1


def keys_of(learner) -> list[str]:
    """What would let another account in: the keys of the learner's kernels, and the environment of its server, which has its token."""
    keys = [str(path) for path in (learner.home / ".local/share/jupyter/runtime").glob("kernel-*.json")]
    return keys + [f"/proc/{process.pid}/environ" for process in class_hub.processes_of(learner.uid)]


def test_no_program_of_a_learner_reads_another_s_folder_or_changes_a_lesson(hub, pages, measured):
    lessons = [str(hub.project / name) for name in ("notebooks/07_taper_inside.ipynb", "anglelib/part.py", "figures/07_taper_inside.png")]
    before = [Path(path).read_bytes() for path in lessons]
    places, through = 0, []
    for learner in hub.learners:
        others = [f"{other.folder}/{name}" for other in hub.learners if other != learner for name in PRIVATE]
        keys = [key for other in hub.learners if other != learner for key in keys_of(other)]
        assert sum("kernel-" in key for key in keys) >= len(hub.learners) - 1
        others += [*keys, str(hub.folder) + "/", str(hub.folder / "jupyterhub_config.py"), str(hub.folder / "jupyterhub.sqlite")]
        own = str(learner.folder / "answers" / "07_taper_inside.json")
        done = probe(hub, learner, others, lessons, [own])
        assert f"own {own}" in done
        places += len(others)
        through += [words for words in done if not words.startswith("own ")]
        for path in (learner.folder, learner.folder / "answers"):
            found = path.stat()
            assert (found.st_uid, stat.S_IMODE(found.st_mode)) == (learner.uid, 0o700)
    assert through == [] and [Path(path).read_bytes() for path in lessons] == before
    measured["by programs"] = (places, len(through))
    measured["lessons"] = (len(lessons) * len(hub.learners), len(through))


def test_the_probe_finds_an_open_folder(hub, pages):
    """The guard fails: a learner who opens the folder to all is found out at once."""
    open_one, reader = hub.learners[0], hub.learners[1]
    open_one.folder.chmod(0o777)
    try:
        done = probe(hub, reader, [f"{open_one.folder}/"], [], [])
        assert {words.split()[0] for words in done} == {"read", "put"}
    finally:
        (open_one.folder / "mine").unlink(missing_ok=True)
        open_one.folder.chmod(0o700)


def test_nobody_reaches_another_s_server(hub, pages, measured):
    """Through the hub with one's own log-in, and past the hub, at the port of the server itself."""
    import psutil

    got = []
    for number, (page, learner) in enumerate(zip(pages, hub.learners)):
        other = hub.learners[(number + 1) % len(hub.learners)]
        assert asked(page, "GET", f"{hub.address}/user/{learner.name}/api/contents/answers/07_taper_inside.json") == 200
        for path in ("api/contents/answers/07_taper_inside.json", "files/answers/07_taper_inside.json", "api/kernels", "lab"):
            got.append(asked(page, "GET", f"{hub.address}/user/{other.name}/{path}"))
        got.append(asked(page, "DELETE", f"{hub.address}/hub/api/users/{other.name}/server"))
        server = next(one for one in class_hub.processes_of(other.uid) if "singleuser" in " ".join(one.info["cmdline"]))
        port = next(place.laddr.port for place in server.net_connections("inet") if place.status == psutil.CONN_LISTEN)
        with pytest.raises(urllib.error.HTTPError) as refused:
            urllib.request.urlopen(f"http://127.0.0.1:{port}/user/{other.name}/api/kernels", timeout=10)
        got.append(refused.value.code)
    assert set(got) <= {403, 404}
    measured["by address"] = (len(got), sum(status < 400 for status in got))


def test_only_root_counts_who_is_stuck(hub, pages, measured):
    """The instructor, as root, sees the mistakes of all five; a learner's program sees its own answers."""
    from anglelib.workshop.who_is_stuck import look

    homes = hub.place / "home"
    found = look([homes])
    assert found.learners == len(ANSWERS) and found.trouble == ()
    code = "import sys; from anglelib.workshop.who_is_stuck import look; print(look(sys.argv[1:]).learners)"
    learner = hub.learners[0]
    said = subprocess.run(
        [str(hub.python), "-sP", "-c", code, str(homes)], user=learner.uid, group=learner.gid, extra_groups=[], cwd="/", capture_output=True, text=True,
        check=True,
    )  # fmt: skip
    assert said.stdout.split() == ["1"]
    measured["stuck"] = (found.learners, int(said.stdout))


def test_a_lesson_cannot_be_saved_and_a_page_of_one_s_own_can(hub, pages, measured):
    page, learner = pages[0], hub.learners[0]
    empty = {"type": "notebook", "format": "json", "content": {"cells": [], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}}
    mine = f"{hub.address}/user/{learner.name}/api/contents"
    assert asked(page, "PUT", f"{mine}/my_page.ipynb", empty) == 201
    shared = hub.project / "notebooks" / "07_taper_inside.ipynb"
    before = shared.read_bytes()
    got = [asked(page, method, f"{mine}/notebooks/07_taper_inside.ipynb", empty) for method in ("PUT", "DELETE")]
    assert min(got) >= 400
    measured["saving"] = (len(got), sum(status < 400 for status in got))
    assert shared.read_bytes() == before
    assert (learner.folder / "my_page.ipynb").stat().st_uid == learner.uid


def test_the_memory_stays_within_the_rule(hub, pages, measured):
    for page, learner in zip(pages, hub.learners):
        open_lesson(page, hub, learner, LESSONS[1])
        run_all(page, READY)
    measured["two pages"] = memory_at_rest(pages[0], hub.learners)
    measured["hub"] = hub_memory(hub)
    open_lesson(pages[0], hub, hub.learners[0], "builders_bench")
    run_all(pages[0], READY)
    measured["bench"] = memory_at_rest(pages[0], hub.learners[:1])[0]["pages"][-1]
    assert measured["bench"][0] < PAGE_MB
    for learner in measured["two pages"]:
        assert sum(pss for pss, _ in learner["server"]) < SERVER_MB, measured
        assert all(pss < PAGE_MB for pss, _ in learner["pages"]), measured
    assert sum(pss for pss, _ in measured["hub"]) < HUB_MB
    if place := os.environ.get("ANGLELIB_HUB_TABLE"):
        Path(place).write_text(table(measured), encoding="utf-8")


def test_with_a_certificate_the_hub_speaks_tls_and_without_one_it_refuses_other_addresses(hub):
    key, certificate = hub.place / "tls.key", hub.place / "tls.crt"
    subprocess.run(
        ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-keyout", str(key), "-out", str(certificate),
         "-subj", "/CN=classroom.lan", "-addext", "subjectAltName=DNS:classroom.lan"], check=True, capture_output=True,
    )  # fmt: skip

    def with_tls(text: str) -> str:
        return text.replace('TLS_KEY, TLS_CERTIFICATE = "", ""', f'TLS_KEY, TLS_CERTIFICATE = "{key}", "{certificate}"')

    with class_hub.served(hub.place, hub.python, hub.project, hub.group, [], with_tls) as encrypted:
        assert encrypted.address.startswith("https:")
        with pytest.raises(OSError):  # a certificate that nobody has vouched for
            urllib.request.urlopen(f"{encrypted.address}/hub/login", timeout=10)
    with pytest.raises(RuntimeError, match="passwords could be read"):
        with class_hub.served(hub.place, hub.python, hub.project, hub.group, [], lambda text: text.replace('"127.0.0.1"', '"0.0.0.0"', 1)):
            pass


# --- the measurements ---------------------------------------------------------------------------------
def memory_of(learner) -> dict[str, list[tuple[float, float]]]:
    """Proportional and resident memory of a learner's processes [MB]: the server, and each page's kernel with the solver's helper that it has."""
    import psutil

    server, kernels, helpers = [], {}, []
    for process in class_hub.processes_of(learner.uid):
        words = " ".join(process.info["cmdline"])
        if "jupyterhub.singleuser" in words:
            server.append(class_hub.memory(process))
        elif "ipykernel" in words:
            kernels[process.pid] = class_hub.memory(process)
        elif words:  # one that ends just now has none
            helpers.append((words, process))
    for words, process in helpers:
        with contextlib.suppress(psutil.Error):  # it rests, and ends
            of = process.ppid()
            assert "anglelib.stock.apart" in words and of in kernels, words
            kernels[of] = tuple(map(sum, zip(kernels[of], class_hub.memory(process))))
    return {"server": server, "pages": sorted(kernels.values())}


def memory_at_rest(page, learners) -> list[dict[str, list[tuple[float, float]]]]:
    """What each learner's processes take once they do nothing more: for three seconds they have hardly worked."""
    import psutil

    def worked() -> float:
        busy = 0.0
        for process in (one for learner in learners for one in class_hub.processes_of(learner.uid)):
            with contextlib.suppress(psutil.Error):
                busy += sum(process.cpu_times()[:2])
        return busy

    before, deadline = -1.0, time.monotonic() + 180
    while (now := worked()) > before + 0.1 * len(learners) or now < before:
        assert time.monotonic() < deadline, "the learners' pages do not come to rest"
        before = now
        page.wait_for_timeout(3000)
    return [memory_of(learner) for learner in learners]


def hub_memory(hub) -> list[tuple[float, float]]:
    import psutil

    process = psutil.Process(hub.process.pid)
    return [class_hub.memory(one) for one in (process, *process.children()) if one.uids().real == 0]


def _summed(rows) -> str:
    return " / ".join(f"{sum(column):.0f}" for column in zip(*rows))


def table(measured: dict) -> str:
    """What was measured, as tests/benchmarks/hub.md has it."""
    commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], capture_output=True, text=True, cwd=class_hub.PROJECT).stdout.strip()
    rows = []
    for number, (one, two) in enumerate(zip(measured["one page"], measured["two pages"])):
        rows.append(
            f"| {number + 1} | {measured['start'][number]:.0f} | {_summed(two['server'])} | "
            f"{', '.join(f'{pss:.0f} / {rss:.0f}' for pss, rss in two['pages'])} | {_summed(one['server'] + one['pages'])} | "
            f"{_summed(two['server'] + two['pages'])} |"
        )

    def tried(what: str) -> str:
        times, through = measured[what]
        return f"{times} | {through or 'none'}"

    versions = subprocess.run(
        [sys.executable, "-c", "import jupyterhub, jupyterlab; print(f'JupyterHub {jupyterhub.__version__}, JupyterLab {jupyterlab.__version__}')"],
        capture_output=True, text=True,
    ).stdout.strip()  # fmt: skip
    sizes = "; ".join(f"{learners} learners {memory_for(learners):g} GB" for learners in (6, 12, 20))
    return f"""# A class of five on a hub

Five accounts of the system with passwords of their own, the configuration that `python -m anglelib hub` writes, the system's own check of
the passwords (PAM), five headless browsers at once. Made by `ANGLELIB_HUB_TABLE=tests/benchmarks/hub.md python -m pytest -m slow tests/hub`,
which holds all of it but the times.

- machine: {platform.system()} {platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}; {versions}; the browsers on it too; \
load when all were in {measured["load"]:.1f}
- date: {datetime.date.today().isoformat()}; commit {commit}
- start: from the press on *Sign in*, all five at once, until lesson 00 is on the screen
- memory in MB, proportional / resident; the kernels are those of lessons 00 (opened, and as the learner left it), 07 and 11 (both run), \
each with its helper for the solver while that is there

| learner | start, s | server | kernels | all, lessons 00 and 07 | all, and lesson 11 |
|---|---|---|---|---|---|
{chr(10).join(rows)}

The hub and the proxy: {_summed(measured["hub"])} MB. The largest kernel of learner 1 with the builder's bench open too: {_summed([measured["bench"]])} MB.

| what was tried | times | came through |
|---|---|---|
| read, change or add to files of the others and of the hub, keys of kernels and tokens included, with a learner's rights | {tried("by programs")} |
| write, rename or add beside a lesson, a module, a figure, with a learner's rights | {tried("lessons")} |
| open another's answers, kernels or JupyterLab, or stop its server, through the hub and at the server's own port | {tried("by address")} |
| save over a lesson, or delete it, in JupyterLab | {tried("saving")} |

With a wrong password, and from outside the group, nobody came in ({measured["strangers"]} tries). After a new start of the kernel
{measured["found again"]} learners of five found their own answer in the picture. Counting who is stuck, root saw the answers of {measured["stuck"][0]}
learners, a learner's program of {measured["stuck"][1]}, its own.

**The rule:** {HUB_MB} MB for system and hub, and for each learner {SERVER_MB} MB and {PAGE_MB} MB for each page that is open and was run; with
{PAGES} pages each: {sizes}.
"""
