"""The README's commands are what CI runs; what is committed names no machine and no registry's host."""

import re
import subprocess
import tomllib
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parent.parent
README = (PROJECT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")
TOP_LEVEL = {
    "README.md", "DEVELOPERS.md", "requirements.txt", "notebooks", "anglelib", "tests", "figures", "pyproject.toml", "LICENSE",
}  # fmt: skip


def committed() -> list[Path]:
    """The project's files: git's list, or where there is no git (an unpacked archive), all but what is hidden or made."""
    try:
        listed = subprocess.run(["git", "ls-files", "-z"], cwd=PROJECT, capture_output=True, text=True, check=True).stdout
        names = [name for name in listed.split("\0") if name]
    except (OSError, subprocess.CalledProcessError):
        names = []
    if not names:
        made = re.compile(r"(^|/)(\.(?!ci/|git)|__pycache__/|[^/]+\.egg-info/|build/|dist/)")
        paths = (path.relative_to(PROJECT).as_posix() for path in PROJECT.rglob("*") if path.is_file())
        names = [name for name in paths if not made.search(name) and not name.startswith(".git/")]
    return [PROJECT / name for name in names if (PROJECT / name).is_file()]


def blocks(text: str, language: str) -> list[str]:
    return [block.strip() for block in re.findall(rf"```{language}\n(.*?)```", text, re.DOTALL)]


def test_two_commands_each_one_line_and_their_windows_forms():
    shell, windows = blocks(README, "sh"), blocks(README, "powershell")
    assert len(shell) == len(windows) == 2 and all("\n" not in line for line in shell + windows)
    assert shell[0].endswith("-m anglelib course") and " -m pytest " in shell[1]
    for line in windows:
        assert "&&" not in line, "PowerShell 5 does not know it"


def test_the_first_command_opens_the_pages_and_running_is_for_the_lab():
    assert "--pages" not in README and "course --lab" in README
    for line in re.split(r"\n(?=- )|\n{2,}", README):
        assert "Run All Cells" not in line or "JupyterLab" in line, line


def test_the_windows_forms_run_the_same():
    for shell, windows in zip(blocks(README, "sh"), blocks(README, "powershell"), strict=True):
        steps = [step.replace(".venv/bin/python", "PYTHON").replace("python3 ", "PYTHON ") for step in shell.split(" && ")]
        told = re.sub(r"if \(\$\?\) \{|\}", "", windows).replace(r".venv\Scripts\python", "PYTHON").replace("py -3 ", "PYTHON ")
        assert [step.strip() for step in told.split(";")] == steps


def test_every_file_that_the_commands_name_is_there():
    for line in blocks(README, "sh"):
        for name in re.findall(r"(?:-r|--nbval-sanitize-with) (\S+)", line):
            assert (PROJECT / name).is_file(), name


def test_ci_runs_the_readmes_test_command():
    """CI takes its command out of the README; here the same way of taking it is tried on the README."""
    script = (PROJECT / ".ci/run").read_text(encoding="utf-8")
    pattern = re.search(r"command=\$\(grep -E '([^']+)' README\.md\)", script)[1]
    assert [line for line in README.splitlines() if re.search(pattern, line)] == [blocks(README, "sh")[1]]
    assert re.search(r"^timeout .* bash -c \"\$command\"$", script, re.MULTILINE) and "export ANGLELIB_CI=1" in script
    assert "pytest" not in re.sub(r"#.*|command=.*", "", script), "CI runs pytest by the README's command alone"


def test_developers_names_the_tiers():
    for command in ("-m pytest -m slow", "-m pytest tests/benchmarks"):
        assert command in DEVELOPERS


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README", "DEVELOPERS"])
def test_links_lead_somewhere(text):
    """Files that the text points to are there, and so are the headings."""
    prose = re.sub(r"```.*?```", "", text, flags=re.DOTALL)
    for target in re.findall(r"\]\(([^)\s]+)\)", prose):
        if re.match(r"[a-z]+:", target):
            continue
        name, _, heading = target.partition("#")
        assert not name or (PROJECT / name).exists(), target
        if heading and (name or "README.md").endswith(".md"):
            there = (PROJECT / name).read_text(encoding="utf-8") if name else text
            headings = [re.sub(r"[^a-z0-9 -]", "", line.lstrip("# ").lower()).replace(" ", "-") for line in there.splitlines() if line[:1] == "#"]
            assert heading in headings, target


def test_every_lesson_has_its_line_in_the_readme():
    there = {path.name[:2] for path in (PROJECT / "notebooks").glob("[0-9][0-9]_*.ipynb")}
    assert there <= set(re.findall(r"^\| (\d\d) ", README, re.MULTILINE))


def test_the_top_level_is_tidy():
    tops = {path.relative_to(PROJECT).parts[0] for path in committed()}
    assert {top for top in tops if not top.startswith(".")} <= TOP_LEVEL


# Split, so that this file does not find itself.
FORBIDDEN = {
    "a path of one machine": r"/(wo" r"rk|ro" r"ot|opt/an" r"gle|ho" r"me/[a-z]|Us" r"ers/[A-Za-z]|var/fol" r"ders)/|[A-Z]:\\Us" r"ers",
    "a registry's host": r"py" r"pi\.org|python" r"hosted|npm" r"js\.(org|com)|deb\.deb" r"ian|conda\.ana" r"conda|index-" r"url|find-" r"links",
}


@pytest.mark.parametrize("what", FORBIDDEN)
def test_nothing_committed_names(what):
    forbidden, found, read = re.compile(FORBIDDEN[what]), [], 0
    for path in committed():
        if path.suffix in (".png", ".pdf") or path.name == "test_readme.py":
            continue
        text = path.read_text(encoding="utf-8")
        read += 1
        found += [f"{path.relative_to(PROJECT)}:{n}: {line[:120]}" for n, line in enumerate(text.splitlines(), 1) if forbidden.search(line)]
    assert read > 20 and found == []


@pytest.mark.parametrize(
    ("what", "line"),
    [
        ("a path of one machine", "see /" + "work/notes.md"),
        ("a path of one machine", "in C:" + "\\Us" + "ers\\me"),
        ("a registry's host", "--index-" + "url x"),
        ("a registry's host", "files.python" + "hosted.org"),
    ],
)
def test_the_guard_fails(what, line):
    assert re.search(FORBIDDEN[what], line)


def locked(name: str) -> dict[str, set[str]]:
    """The pins of a lock: package to its versions (more than one where markers part them)."""
    pins: dict[str, set[str]] = {}
    for line in (PROJECT / name).read_text(encoding="utf-8").splitlines():
        line = line.split("#", 1)[0].strip()
        if line and line != "-e .":
            package, _, rest = line.partition("==")
            assert re.fullmatch(r"[a-z0-9][a-z0-9-]*", package) and rest, f"{name}: {line} is not an exact pin"
            pins.setdefault(package, set()).add(rest.split(";")[0].strip())
    return pins


def test_the_locks_hold_every_package_that_the_project_asks_for():
    settings = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    running, adding = locked("requirements.txt"), locked("tests/requirements.txt")
    asked = [re.match(r"[A-Za-z0-9_-]+", text)[0].lower() for text in settings["dependencies"]]
    tests = [re.match(r"[A-Za-z0-9_-]+", text)[0].lower() for text in settings["optional-dependencies"]["tests"]]
    assert [name for name in [*asked, "nbval"] if name not in running] == []
    assert [name for name in tests if name not in running and name not in adding] == []
    assert set(running) & set(adding) == set()


def test_the_first_line_installs_the_project_itself():
    assert "-e ." in (PROJECT / "requirements.txt").read_text(encoding="utf-8").splitlines()
