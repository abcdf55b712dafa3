"""The builder's bench, without a kernel: every control to its ends, both themes, files kept, and its quick numbers against the slow ones."""

from __future__ import annotations

import random
import re
from dataclasses import replace
from fractions import Fraction
from functools import partial

import pytest
from lesson_checks import PROJECT, Page, corners, legible

from anglelib.drawing.area_along import area_sheet, areas
from anglelib.drawing.edges_view import edges_sheet, short, worst
from anglelib.drawing.escape import escape
from anglelib.drawing.sheet import Label
from anglelib.errors import BenchError
from anglelib.files import read_job
from anglelib.geometry.along import section_at
from anglelib.geometry.solid import solid_of
from anglelib.geometry.volume import cuts_apart, volume
from anglelib.job import Shop
from anglelib.lessons import builders_bench as lesson
from anglelib.lessons.bench_facts import differences, facts, weights
from anglelib.lessons.bench_out import saved
from anglelib.lessons.bench_views import HEAVY, VIEWS, draw
from anglelib.lessons.demo import JOB, demo_job, demo_part, demo_rack
from anglelib.lessons.room import ROOM
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

PAGE = Page.of(lesson)
legible = partial(legible, longest=900, most=12)
STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")


@pytest.mark.parametrize("few", (False, True))
def test_pictures_of_every_part_of_the_kit(few):
    kit = demo_job().parts
    for part in (*kit, *map(lesson.longer, kit)):
        for sheet in (edges_sheet(part, few=few), area_sheet(part, few=few), draw("saw", part, Shop(), demo_rack(), few=few)):
            legible(sheet, "projector" if few else "screen")


def test_faces_for_a_projector_have_few_and_large_words():
    for part in demo_job().parts:
        for view in ("marks-A", "marks-B", "inside"):
            sheet = draw(view, part, Shop(), demo_rack(), few=True)
            legible(sheet, "projector")
            assert sum(isinstance(item, Label) for item in sheet.items) <= 7


def test_every_control_to_its_ends():
    bench = lesson.Bench()
    for control in (*bench.own.controls.values(), bench.kerf, bench.allowance, bench.view, bench.variant):
        before = control.value
        for value in corners(control):
            control.value = value
            assert escape(bench.sheet.sentence) in bench.caption.value
            assert bool(bench.own.trouble) == (bench.own.value is None)
        control.value = before
    assert bench.kept["A"] == demo_part("C1L")


def test_random_corners_in_both_themes():
    rng, bench = random.Random(8), lesson.Bench()
    for turn in range(60):
        if turn == 30:
            ROOM.theme = "projector"
        name = rng.choice(list(bench.own.controls))
        bench.own.controls[name].value = rng.choice(corners(bench.own.controls[name]))
        bench.view.value = rng.choice(list(VIEWS))
        if bench.view.value in ("edges", "section"):
            legible(bench.sheet, ROOM.theme)
        if bench.own.value is None:
            bench.begin(rng.choice(demo_job().parts))


def test_two_variants_and_their_differences():
    bench = lesson.Bench()
    rows = {row[0]: row[1:] for row in differences(bench.kept["A"], bench.kept["B"], bench.shop, bench.rack)}
    assert rows["run, leg A, end 1"] == ("2.125", "2.625", "+0.500 in.")
    assert rows["holes EDGE SHORT"] == ("0", "1", "+1")  # 0.3625 in. from the bevel are 1.93 diameters of 3/16
    assert "1.93 diameters" in rows["worst hole"][1] and "bevel of the inner face at end 1" in rows["worst hole"][1]
    assert rows["length"] == ("4.750", "4.750", "same")
    bench.variant.value = "B"
    assert bench.own.value == bench.kept["B"]
    bench.own.controls["run"].value = Fraction(5, 2)
    assert bench.kept["A"].tapers[0].run == Fraction(17, 8) and short(bench.kept["B"]) == 0  # the row "longest run" says 2 1/2
    assert "+0.375" in bench.both.value
    bench.copy.click()
    assert bench.kept["A"] == bench.kept["B"]
    assert {row[3] for row in differences(bench.kept["A"], bench.kept["B"], bench.shop, bench.rack)} == {"same"}


def test_the_longest_run_is_where_the_edge_is_just_kept():
    part = demo_part("C1L")
    said = next(fact.words for fact in facts(part, Shop(), demo_rack()) if fact.id == "longest-run")
    run = Fraction(re.search(r"\((\d+\.\d+)\)", said)[1])
    keeps, loses = (replace(part, tapers=(Taper("A", 1, run=r),), hand=None, mirror_of="") for r in (run, run + Fraction(1, 100)))
    assert short(keeps) == 0 and short(loses) == 1 and abs(worst(keeps).diameters - 2) < 0.01


def test_heavy_pictures_come_when_pressed_and_go_when_the_part_changes():
    bench = lesson.Bench()
    for name in HEAVY:
        bench.heavy[name].value = True
        assert "<svg" in bench.preview.value and sum(toggle.value for toggle in bench.heavy.values()) == 1
        bench.own.controls["run"].value += Fraction(1, 8)
        assert bench.preview.value == "" and not bench.heavy[name].value
    bench.own.controls["tapers"].value = "none"
    for leg in "AB":
        bench.own.controls["hole_leg"].value, bench.own.controls["holes"].value = leg, "none"
    bench.heavy["fold"].value = True
    assert "measure along the heel" in bench.preview.value


def test_weight_and_area_the_quick_way_and_the_slow_way():
    """The quick ways take cuts off one by one; the solid and the section are integrated. Cuts that meet go to the solid."""
    rng, quick = random.Random(3), 0
    parts = list(demo_job().parts)
    for _ in range(25):
        holes = [Hole(rng.choice("AB"), Fraction(rng.randrange(8, 56), 8), Fraction(rng.randrange(22, 34), 32), Fraction(1, 8)) for _ in range(2)]
        tapers = [Taper(rng.choice("AB"), end, Fraction(rng.randrange(0, 20), 16), run=Fraction(rng.randrange(4, 40), 8)) for end in rng.sample((1, 2), 2)]
        parts.append(Part("R", "Random", STOCK, "6061-T6", 8, tapers, holes))
    parts.append(Part("K", "Coped", STOCK, "6061-T6", 8, copes=[Cope("A", 1, 1, "3/4", "1/8")], corners=[Corner("B", 2, "1/4")]))
    for part in parts:
        quick += cuts_apart(part)
        assert volume(part) == pytest.approx(solid_of(part).volume, rel=1e-9)
        for x, area in areas(part):
            net = any(abs(float(hole.x) - x) < 1e-12 for hole in part.holes)
            assert area == pytest.approx(section_at(part, min(max(x, 0), float(part.length)), net=net).area, abs=1e-9)
    assert 25 < quick < len(parts)
    done, uncut = weights(demo_part("A3"))
    assert done < uncut == pytest.approx(16 * 0.0975 * STOCKS_A * 17.25, rel=1e-9)


STOCKS_A = 2 * 0.75 * 0.125 - 0.125**2 + (1 - 3.141592653589793 / 4) * 0.125**2
"""Area of 3/4 x 3/4 x 1/8 with a fillet of 1/8 by hand: two rectangles less their common square, and the fillet's corner."""


# --- files ------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("typed", [".", "..", "~", "/", "sub", "sub/", "a\u202eb"])
def test_a_folder_or_a_name_that_nobody_sees_is_no_file(typed, tmp_path, monkeypatch):
    for variable in ("ANGLELIB_HOME", "HOME", "USERPROFILE"):
        monkeypatch.setenv(variable, str(tmp_path))
    (tmp_path / "sub").mkdir()
    bench = lesson.Bench()
    bench.saving.file.value = typed
    bench.saving.save.click()
    assert bench.saving.told.startswith("Not saved. ") and list(tmp_path.rglob("*.toml")) == []
    assert not tmp_path.with_suffix(".toml").exists()


def test_saving_adds_refuses_and_replaces(tmp_path):
    bench = lesson.Bench()
    bench.saving.file.value = "mine"
    bench.saving.save.click()
    path = tmp_path / "mine.toml"
    assert read_job(path).part("C1L").length == demo_part("C1L").length and str(path) in bench.saving.told
    before = path.read_text()
    bench.own.controls["length"].value = Fraction(5)
    bench.saving.save.click()
    assert bench.saving.told.startswith("Not saved") and path.read_text() == before
    bench.saving.replacing.value = True
    bench.saving.save.click()
    assert read_job(path).part("C1L").length == 5 and not bench.saving.replacing.value
    assert before in [other.read_text() for other in tmp_path.iterdir() if other != path and other.is_file()]
    bench.begin(demo_part("E1"))
    bench.saving.save.click()
    assert [part.id for part in read_job(path).parts] == ["C1L", "E1"]


def test_a_changed_partner_no_longer_claims_its_mirror_image(tmp_path):
    left, right = demo_part("C1L"), demo_part("C1R")
    path = tmp_path / "pair.toml"
    from anglelib.files import save_job
    from anglelib.job import Job

    save_job(Job("Pair", Shop(), (left, right)), path)
    longer = replace(lesson.longer(left), hand=None)
    assert saved(longer, Shop(), path, replacing=True)[0]
    assert read_job(path).part("C1R").mirror_of == ""


def test_what_cannot_be_saved_or_opened_is_a_sentence(tmp_path):
    bench = lesson.Bench()
    (tmp_path / "broken.toml").write_text("format = 1\n[[part]\n")
    for name in ("", "broken.toml", "nowhere/mine.toml"):
        bench.saving.file.value = name
        bench.saving.save.click()
        assert bench.saving.told.startswith("Not saved. ") and bench.saving.told.endswith("."), bench.saving.told
    for job_file in ("broken.toml", "nothing.toml"):
        bench.job_file.value = job_file
        bench.open.click()
        assert job_file in bench.opened.value and bench.job == demo_job()
    bench.job_file.value = str(PROJECT / "notebooks" / "demo" / "job.toml")
    bench.rack_file.value = str(PROJECT / "notebooks" / "demo" / "rack.csv")
    bench.open.click()
    assert "✓" in bench.opened.value
    bench.parts.value = "E1"
    assert bench.part == demo_part("E1") and bench.variant.value == "A"


def test_the_pack(tmp_path):
    bench = lesson.Bench()
    bench.packing.make.click()
    assert (tmp_path / "shop-pack" / "shop-pack.pdf").read_bytes().startswith(b"%PDF") and bench.packing.bar.value == 1
    (tmp_path / "file").write_text("x")
    bench.packing.folder.value = "file"
    bench.packing.make.click()
    assert bench.packing.told == "No pack was made. file is a file: name a folder for the pack."
    with pytest.raises(BenchError):
        draw_none = replace(demo_part("A3"), holes=(), length=Fraction(90))
        HEAVY["fold"](draw_none, Shop())


# --- the page ---------------------------------------------------------------------------------------------
def test_page():
    assert "approves nothing" in PAGE.prose
    bench = lesson.Bench()
    for cell in PAGE.cells:
        if cell.cell_type == "code" and cell.source.startswith("bench."):
            piece = getattr(bench, cell.source.removeprefix("bench."))
            assert cell.outputs[0]["data"]["text/html"] == piece.snapshot


def test_what_the_page_says_of_the_longer_taper():
    """The prose: the hole keeps its edge, and no longer does with the taper half an inch longer; it is on the other leg."""
    now, then = demo_part("C1L"), lesson.longer(demo_part("C1L"))
    assert short(now) == 0 and short(then) == 1
    assert worst(then).hole.leg == "B" and then.tapers[0].leg == "A" and then.tapers[0].run - now.tapers[0].run == Fraction(1, 2)
    done, other = weights(now)[0], weights(then)[0]
    assert 0.01 < done - other < 0.1  # "hundredths of an ounce"


def test_no_run_is_offered_that_is_longer_than_the_part():
    part = Part("P1", "Bracket", demo_part("C1L").section, "6061-T6", 3, [Taper("A", 1, run=1)], [Hole("A", "2 1/2", "1/2", "1/8")])
    said = next(fact.words for fact in facts(part, Shop(), demo_rack()) if fact.id == "longest-run")
    assert said == "leg A, end 1: no hole limits it, now 1"


@pytest.mark.parametrize("typed", ["~nosuchuser/x", "n" * 300, f"{'n' * 300}/x", ".", "/", "a\0b", "no/such/place/x", "loop.toml"])
def test_a_path_that_is_none_is_a_sentence_on_the_page(typed, tmp_path, monkeypatch):
    """Open, save, pack: never an error of the system's, and nothing changes."""
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "loop.toml").symlink_to("loop.toml")
    bench = lesson.Bench()
    for field in (bench.job_file, bench.rack_file):
        field.value = typed
        bench.open.click()
        assert "<b>?</b>" in bench.opened.value and ".</div>" in bench.opened.value
        field.value = ""
    bench.saving.file.value = typed
    bench.saving.save.click()
    assert bench.saving.told.startswith("Not saved. ") and bench.saving.told.endswith(".")
    bench.packing.folder.value = f"{typed}\0" if typed in (".", "/", "no/such/place/x") else typed  # a pack may be put there
    bench.packing.make.click()
    assert bench.packing.told.startswith("No pack was made. ") and bench.packing.told.endswith(".")
    assert [path.name for path in tmp_path.iterdir()] == ["loop.toml"]


def test_the_demo_kits_files_are_found_by_name_and_no_other_of_the_projects(tmp_path, monkeypatch):
    """On the plain pages there are no copies of them in the learner's folder."""
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    assert lesson.placed("demo/job.toml") == JOB and lesson.placed("demo/rack.csv") == JOB.with_name("rack.csv")
    for name in ("demo/none.toml", "demo/../00_start_here.ipynb", "00_start_here.ipynb", "../pyproject.toml"):
        assert lesson.placed(name) == tmp_path / name
    (tmp_path / "demo").mkdir()
    (tmp_path / "demo/job.toml").write_text("mine")
    monkeypatch.chdir("/")
    assert lesson.placed("demo/job.toml") == tmp_path / "demo/job.toml", "the learner's own comes first"
