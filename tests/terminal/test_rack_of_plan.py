"""The plan in hand knows its rack file: marks name the job alone; a rack that is not there any more is asked for."""

import json
import shutil

import pytest
from small_kit import Kit


@pytest.fixture
def kit(tmp_path, capsys):
    return Kit(tmp_path / "kit", capsys)


def kept(kit) -> dict:
    return json.loads((kit.folder / "job.plan.json").read_text())


def test_a_mark_names_the_job_alone(kit):
    kit.plan()
    assert kept(kit)["rack"] == "rack.csv"
    assert "Saved in rack.csv" in kit.run("plan", kit.job, "--done", "S-1")
    assert "S-1,44 in,cut remnant" in kit.rack.read_text().replace("3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,", "")
    assert "as it is in hand" in kit.run("plan", kit.job)
    assert "S-3" in kit.run("plan", kit.job, "--one", "3/4 x 3/4 x 1/8", "6061-T6", "50")


def test_a_pack_needs_no_rack_named_again_either(kit):
    kit.plan()
    assert "It is plan" in kit.run("pack", kit.job, "--out", kit.folder / "pack", "--sheets", "tags")
    assert kept(kit)["rack"] == "rack.csv" and kept(kit)["printed"]


def test_a_folder_that_is_moved_keeps_its_own_rack(kit):
    """The name is seen from the plan file, not from where somebody stands."""
    kit.plan()
    shutil.copytree(kit.folder, kit.folder.parent / "elsewhere")
    before = kit.rack.read_bytes()
    kit.run("plan", kit.folder.parent / "elsewhere/job.toml", "--done", "S-1")
    assert kit.rack.read_bytes() == before and b"cut remnant" in (kit.folder.parent / "elsewhere/rack.csv").read_bytes()


def test_a_rack_in_another_folder(kit):
    shop = kit.folder.parent / "shop"
    shop.mkdir()
    kit.rack = kit.rack.rename(shop / "our rack.csv")
    kit.plan()
    assert kept(kit)["rack"] == "../shop/our rack.csv"
    kit.run("plan", kit.job, "--done", "S-1")


def test_a_rack_that_was_renamed_is_asked_for_once(kit):
    kit.plan()
    number, new = kept(kit)["number"], kit.rack.rename(kit.folder / "new.csv")
    before = (kit.folder / "job.plan.json").read_bytes()
    said = kit.run("plan", kit.job, "--done", "S-1", code=2)
    assert "The rack of the plan in hand is not at" in said and "rack.csv any more: if it was moved or renamed, name it where it is, once" in said
    assert (kit.folder / "job.plan.json").read_bytes() == before
    kit.run("plan", kit.job, new, "--done", "S-1")
    assert kept(kit)["rack"] == "new.csv" and kept(kit)["number"] == number
    kit.run("plan", kit.job, "--undo", "S-1")


def test_a_plan_file_of_earlier_has_no_name_and_works(kit):
    kit.plan()
    said = kept(kit)
    del said["rack"]
    (kit.folder / "job.plan.json").write_text(json.dumps(said))
    assert "job.plan.json does not say which rack it is for: name the rack file too, once" in kit.run("plan", kit.job, "--done", "S-1", code=2)
    assert "Marked: S-1" in kit.plan("--done", "S-1")
    assert "Marked: S-2" in kit.run("plan", kit.job, "--done", "S-2")


def test_a_mark_in_another_rack_than_the_plans_says_so(kit):
    kit.plan()
    copy = kit.folder / "copy.csv"
    shutil.copy(kit.rack, copy)
    said = kit.run("plan", kit.job, copy, "--done", "S-1")
    assert "Mind: the plan in hand was made from" in said and "rack.csv, where this is not marked" in said and "Saved in copy.csv" in said
    assert kept(kit)["rack"] == "rack.csv"
    assert "Mind" not in kit.plan("--done", "S-1")


def test_a_name_that_cannot_be_kept_costs_no_mark(kit, monkeypatch):
    kit.plan()
    new = kit.rack.rename(kit.folder / "new.csv")
    monkeypatch.setattr("anglelib.files.rack_of_plan.write_text", lambda *_: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    assert "Marked: S-1" in kit.run("plan", kit.job, new, "--done", "S-1")
    assert kept(kit)["rack"] == "rack.csv"


@pytest.mark.parametrize("name", ["", "  ", 7, None, ["rack.csv"]])
def test_what_is_no_name_counts_for_none(name, kit):
    kit.plan()
    said = kept(kit) | {"rack": name}
    (kit.folder / "job.plan.json").write_text(json.dumps(said))
    assert "name the rack file too, once" in kit.run("plan", kit.job, "--done", "S-1", code=2)
    assert "Marked: S-1" in kit.plan("--done", "S-1")
