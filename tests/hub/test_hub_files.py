"""What the hub's command writes, without a hub: the configuration as JupyterHub's own classes read it, and what is refused."""

from __future__ import annotations

import ast
import os
import re
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from anglelib.__main__ import main
from anglelib.errors import BenchError
from anglelib.hub import command, learner_server, texts
from anglelib.hub.command import CONFIG_NAME, INSTRUCTIONS_NAME, changeable, memory_for, to_put_right, unreadable, write

pytestmark = pytest.mark.skipif(os.name == "nt", reason="JupyterHub does not run on Windows")


@pytest.fixture
def hub(tmp_path):
    """A folder with both files."""
    write(tmp_path / "hub", "riveters")
    return tmp_path / "hub"


def configured(path: Path):
    """The configuration as JupyterHub loads it."""
    traitlets = pytest.importorskip("traitlets.config.loader", reason="traitlets comes with JupyterLab")
    return traitlets.PyFileConfigLoader(path.name, str(path.parent)).load_config()


def changed(hub: Path, old: str, new: str) -> Path:
    path = hub / CONFIG_NAME
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    return path


# --- the configuration ------------------------------------------------------------------------------
def test_it_lets_in_one_group_with_the_system_s_passwords_on_this_machine_only(hub):
    c = configured(hub / CONFIG_NAME)
    assert c.JupyterHub.authenticator_class == "pam" and c.JupyterHub.spawner_class == "jupyterhub.spawner.LocalProcessSpawner"
    assert c.PAMAuthenticator.allowed_groups == {"riveters"}
    assert c.Authenticator.allow_all is False and c.Authenticator.admin_users == set()
    assert c.JupyterHub.bind_url == "http://127.0.0.1:8000" and c.JupyterHub.hub_ip == "127.0.0.1"
    assert c.Spawner.cmd == [sys.executable, "-sP", "-m", "anglelib.hub.learner_server"]


def test_every_setting_is_one_that_jupyterhub_knows(hub):
    """A misspelt name would be passed over in silence."""
    app = pytest.importorskip("jupyterhub.app", reason="JupyterHub is an extra")
    from jupyterhub.auth import Authenticator, PAMAuthenticator
    from jupyterhub.proxy import ConfigurableHTTPProxy
    from jupyterhub.spawner import Spawner

    known = {one.__name__: one for one in (app.JupyterHub, Authenticator, PAMAuthenticator, ConfigurableHTTPProxy, Spawner)}
    for section, values in configured(hub / CONFIG_NAME).items():
        names = known[section].class_trait_names(config=True)
        assert [name for name in values if name not in names] == []


def test_there_is_no_password_in_either_file(hub):
    for name in (CONFIG_NAME, INSTRUCTIONS_NAME):
        text = (hub / name).read_text(encoding="utf-8")
        assert "Dummy" not in text and not re.search(r"passw\w*\s*[=:]\s*[\"'\w]", text, re.IGNORECASE)
        assert not re.search(r"@[A-Z]+@", text)
    names = {node.attr for node in ast.walk(ast.parse((hub / CONFIG_NAME).read_text(encoding="utf-8"))) if isinstance(node, ast.Attribute)}
    assert not {name for name in names if "password" in name or "token" in name or "secret" in name and not name.endswith("_file")}


@pytest.mark.parametrize("address", ["0.0.0.0", "192.168.1.5", "::"])
def test_an_address_that_others_reach_needs_tls(hub, address):
    path = changed(hub, '"127.0.0.1", 8000', f'"{address}", 8000')
    with pytest.raises(SystemExit, match="set TLS_KEY and TLS_CERTIFICATE, or passwords could be read on the way"):
        configured(path)


def test_with_a_key_and_a_certificate_it_speaks_tls(hub):
    for name in ("k", "c"):
        (hub / name).touch()
    changed(hub, '"127.0.0.1", 8000', '"::", 443')
    path = changed(hub, 'TLS_KEY, TLS_CERTIFICATE = "", ""', f'TLS_KEY, TLS_CERTIFICATE = "{hub / "k"}", "{hub / "c"}"')
    c = configured(path)
    assert (c.JupyterHub.bind_url, c.JupyterHub.ssl_key, c.JupyterHub.ssl_cert) == ("https://[::]:443", str(hub / "k"), str(hub / "c"))
    (hub / "c").unlink()
    with pytest.raises(SystemExit, match="c is not there"):
        configured(path)


def test_a_name_for_an_address_is_refused_in_a_sentence(hub):
    with pytest.raises(SystemExit, match="in numbers, such as 127"):
        configured(changed(hub, '"127.0.0.1", 8000', '"localhost", 8000'))


# --- the folder ----------------------------------------------------------------------------------------
def test_both_files_are_their_owner_s_alone(hub):
    assert stat.S_IMODE(hub.stat().st_mode) == 0o700
    assert {stat.S_IMODE((hub / name).stat().st_mode) for name in (CONFIG_NAME, INSTRUCTIONS_NAME)} == {0o600}


def test_what_is_there_is_not_written_over(hub):
    before = (hub / CONFIG_NAME).read_text(encoding="utf-8")
    with pytest.raises(BenchError, match="is there already, perhaps with your changes"):
        write(hub, "others")
    (hub / CONFIG_NAME).unlink()
    with pytest.raises(BenchError, match="instructions.md is there already"):
        write(hub, "others")
    assert not (hub / CONFIG_NAME).exists() and before


@pytest.mark.parametrize("group", ["", "Two Words", "x;id", "x'y", "é", "a" * 40, "-a"])
def test_a_group_s_name_that_no_system_takes_is_refused(tmp_path, group):
    with pytest.raises(BenchError, match="cannot be the name of a group"):
        write(tmp_path / "hub", group)
    assert not (tmp_path / "hub").exists()


def test_folders_that_cannot_be_used_are_refused_in_a_sentence(tmp_path):
    (tmp_path / "file").touch()
    (tmp_path / "open").mkdir()
    (tmp_path / "open").chmod(0o777)
    (tmp_path / "below").mkdir()
    (tmp_path / "below" / "hub").mkdir(mode=0o700)
    (tmp_path / "below").chmod(0o777)
    for folder, says in (
        ("file", "a file has that name"),
        ("below/hub", "Others can write in .*below, and the hub runs what stands in .*hub with root's rights"),
        ("file/hub", "cannot be written"),
        ("not/there", "cannot be written"),
        ("open", "Others can write in"),
        ("with space", "without spaces"),
        ("a$(b)", "without spaces"),
    ):
        with pytest.raises(BenchError, match=says):
            write(tmp_path / folder, "riveters")
    with pytest.raises(BenchError, match="inside the project"):
        write(command.PROJECT / "hub", "riveters")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["below", "file", "open"]
    assert not list((tmp_path / "open").iterdir()) and not list((tmp_path / "below" / "hub").iterdir())


def test_a_folder_of_another_account_is_told(tmp_path):
    """Its owner could put another configuration there, which the hub would run with root's rights."""
    owner = tmp_path.stat().st_uid
    assert changeable(tmp_path) is None
    assert changeable(tmp_path, frozenset({owner + 1})) == tmp_path.resolve()


def test_where_the_second_file_cannot_be_written_the_first_goes_too(tmp_path, monkeypatch):
    whole = Path.write_text

    def full(self, text, **how):
        if self.name == INSTRUCTIONS_NAME:
            raise OSError(28, "No space left on device")
        return whole(self, text, **how)

    monkeypatch.setattr(Path, "write_text", full)
    with pytest.raises(BenchError, match="No space left on device"):
        write(tmp_path / "hub", "riveters")
    assert list(tmp_path.iterdir()) == []


def test_the_command_says_what_it_wrote_and_what_is_not_ready(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(command.shutil, "which", lambda name: None)
    assert main(["hub", "--out", str(tmp_path / "hub")]) == command.TO_PUT_RIGHT
    said = capsys.readouterr().out
    assert CONFIG_NAME in said and f"npm install --prefix {tmp_path / 'hub'} configurable-http-proxy" in said
    assert main(["hub", "--out", str(tmp_path / "hub")]) == 2
    assert "is there already" in capsys.readouterr().err


def test_a_project_in_a_closed_home_is_told(tmp_path):
    closed, opened = tmp_path / "home", tmp_path / "srv"
    for place, mode in ((closed, 0o700), (opened, 0o755)):
        (place / "anglelib").mkdir(parents=True)
        (place / "anglelib" / "__init__.py").touch(0o644)
        place.chmod(mode)
    (opened / "link").symlink_to(closed / "anglelib" / "__init__.py")
    for place in (closed, opened / "link"):
        assert unreadable(place) != ""
    told = to_put_right(closed, Path(sys.executable), tmp_path / "hub")
    assert any("because of" in sentence and "/srv/anglelib" in sentence for sentence in told)


# --- the instructions ---------------------------------------------------------------------------------------
def test_the_instructions_name_this_machine_s_paths_and_every_topic(hub):
    text = (hub / INSTRUCTIONS_NAME).read_text(encoding="utf-8")
    for words in (
        f"npm install --prefix {hub} configurable-http-proxy", f"--config {hub}/{CONFIG_NAME}", "groupadd riveters", "anglelib stuck /home",
        "give no isolation at all", "TLS", "KubeSpawner", "read-only", "deluser --remove-home", f"| 12 | {memory_for(12):g} GB |",
    ):  # fmt: skip
        assert words in text, words
    assert max(map(len, text.replace(str(hub), "/srv/hub").replace(sys.executable, "python").splitlines())) <= 150


def test_each_shell_block_is_a_shell_s(hub):
    text = (hub / INSTRUCTIONS_NAME).read_text(encoding="utf-8")
    blocks = re.findall(r"```sh\n(.*?)```", text, re.DOTALL)
    assert len(blocks) >= 6
    for block in blocks:
        done = subprocess.run(["bash", "-n"], input=block, text=True, capture_output=True)
        assert done.returncode == 0, done.stderr


def test_memory_grows_with_learners_and_pages():
    sizes = [memory_for(learners) for learners in (1, 6, 12, 20)]
    assert sizes == sorted(sizes) and sizes[-1] < 20 and memory_for(6, pages=4) > memory_for(6)
    assert all(2 * size == int(2 * size) for size in sizes)


# --- a learner's folder ---------------------------------------------------------------------------------------
@pytest.fixture
def project(tmp_path):
    made = tmp_path / "project"
    for name in ("notebooks/00_start_here.ipynb", "figures/00.png"):
        (made / name).parent.mkdir(parents=True)
        (made / name).write_text("shared", encoding="utf-8")
    return made


def test_the_lessons_are_the_shared_ones_and_the_folder_is_closed(tmp_path, project):
    own = tmp_path / "own"
    learner_server.prepare(own, project)
    (own / "answers" / "07.json").write_text("mine", encoding="utf-8")
    learner_server.prepare(own, project)  # every start
    assert os.path.samefile(own / "notebooks" / "00_start_here.ipynb", project / "notebooks" / "00_start_here.ipynb")
    assert (own / "answers" / "07.json").read_text(encoding="utf-8") == "mine"
    assert {stat.S_IMODE((own / name).stat().st_mode) for name in (".", "answers")} == {0o700}


def test_a_folder_of_copies_from_before_stays_the_learner_s(tmp_path, project):
    own = tmp_path / "own"
    (own / "notebooks").mkdir(parents=True)
    (own / "notebooks" / "00_start_here.ipynb").write_text("mine", encoding="utf-8")
    learner_server.prepare(own, project)
    assert not (own / "notebooks").is_symlink()
    (kept,) = (own / "notebooks").glob("00_start_here_mine_*.ipynb")  # beside the course's new version
    assert kept.read_text(encoding="utf-8") == "mine"
    assert (own / "figures" / "00.png").read_text(encoding="utf-8") == "shared"


def test_a_project_that_moved_is_found_again(tmp_path, project):
    own = tmp_path / "own"
    learner_server.prepare(own, project)
    moved = project.rename(tmp_path / "moved")
    learner_server.prepare(own, moved)
    assert (own / "notebooks" / "00_start_here.ipynb").read_text(encoding="utf-8") == "shared"


def test_a_file_in_the_way_and_lessons_that_cannot_be_read_are_told(tmp_path, project):
    (tmp_path / "own").write_text("", encoding="utf-8")
    with pytest.raises(BenchError, match="tell the instructor"):
        learner_server.prepare(tmp_path / "own", project)
    with pytest.raises(BenchError, match="let every account read that folder"):
        learner_server.prepare(tmp_path / "other", tmp_path / "not there")


def test_the_learner_s_server_listens_where_the_hub_says(tmp_path):
    words = learner_server.command(tmp_path, "00_start_here.ipynb", ["--x"])
    assert not any(word.startswith("--ServerApp.ip") for word in words) and words[-1] == "--x"
    assert f"--ServerApp.root_dir={tmp_path}" in words
    ast.parse(texts.CONFIG.replace("@PYTHON@", "''").replace("@GROUP@", "''"))
