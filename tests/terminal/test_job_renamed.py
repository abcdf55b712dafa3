"""A job file that was renamed: its plan lies beside it under the old name, and is not replaced by another without a word."""

import pytest
from small_kit import Kit


@pytest.fixture
def kit(tmp_path, capsys):
    return Kit(tmp_path / "kit", capsys)


def test_the_plan_is_found_and_named(kit):
    kit.pack()
    kit.job = kit.job.rename(kit.folder / "new.toml")
    for words in ((), ("--done", "S-1")):
        said = kit.plan(*words, code=2)
        assert "job.plan.json has a printed plan of Small kit" in said and "rename that one to new.plan.json too" in said, words
    assert "job.plan.json" in kit.pack(code=2)
    assert "is cut" not in kit.rack.read_text() and not (kit.folder / "new.plan.json").exists()
    (kit.folder / "job.plan.json").rename(kit.folder / "new.plan.json")
    assert "Marked: S-1" in kit.run("plan", kit.job, "--done", "S-1")


def test_it_can_be_left_behind(kit):
    kit.pack()
    kit.job = kit.job.rename(kit.folder / "new.toml")
    assert "5 of 5" in kit.plan("--anew") and "Plan " in kit.plan()


@pytest.mark.parametrize("what", ["not printed", "another job", "its job is there", "no plan"])
def test_what_is_no_plan_of_this_job_is_left_alone(what, kit):
    kit.plan() if what == "not printed" else kit.pack()
    plan, new = kit.folder / "job.plan.json", kit.folder / "new.toml"
    new.write_bytes(kit.job.read_bytes())
    if what != "its job is there":
        kit.job.unlink()
    if what == "another job":
        plan.write_text(plan.read_text().replace("Small kit", "Other kit"))
    if what == "no plan":
        plan.write_text("[1, 2]")
    kit.job = new
    assert "5 of 5" in kit.plan()
