"""What the pages show of a job is what the job says, or they say in words what they do not show; and no control is dead without a word."""

from __future__ import annotations

import html
import random
import re
from fractions import Fraction
from pathlib import Path

import ipywidgets as widgets
import pytest
from lesson_checks import commit, corners

from anglelib.drawing.escape import escape
from anglelib.errors import BenchError
from anglelib.files import read_job, save_job
from anglelib.geometry.hole_words import limits_words
from anglelib.inspection.wanted import wanted_readings
from anglelib.job import Job, Shop
from anglelib.lengths import exact, fine, writing
from anglelib.lessons import builders_bench, make_part
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, leaves
from anglelib.lessons.demo import demo_job, demo_part
from anglelib.lessons.own_part import OwnPart
from anglelib.lessons.own_values import HoleRow, not_shown
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section
from anglelib.tolerances import Limits

MM = Fraction(10, 254)


# --- random jobs ------------------------------------------------------------------------------------------
def one_of(rng: random.Random, *values):
    return rng.choice(values)


def random_part(rng: random.Random, number: int) -> Part:
    """A part such as a plan may draw, not such as a slider has steps for: in mm, long, unequal, tapers at odd angles, holes anywhere."""
    while True:
        try:
            t = one_of(rng, Fraction(1, 16), Fraction(1, 8), Fraction(3, 16), 3 * MM, Fraction(5, 16))
            section = Section(
                one_of(rng, Fraction(3, 8) + t, Fraction(3, 4), 1, Fraction(3, 2), 30 * MM, 4), one_of(rng, Fraction(3, 4), 1, 30 * MM, Fraction(7, 2)), t,
                one_of(rng, t, t, t + Fraction(1, 32)), one_of(rng, 0, t, Fraction(9, 64)), toe_radius=one_of(rng, 0, 0, Fraction(1, 32)),
            )  # fmt: skip
            length = one_of(rng, Fraction(3, 4), Fraction(17, 8), 85 * MM, Fraction(141, 1) + Fraction(3, 8), Fraction(rng.randrange(64, 2000), 64))
            tapers = []
            for end in rng.sample((1, 2), rng.randrange(3)):
                slope = {"run": Fraction(rng.randrange(4, 200), 64)} if rng.random() < 0.6 else {"angle": Fraction(rng.randrange(2, 170), 2)}
                tapers.append(Taper(one_of(rng, "A", "B"), end, one_of(rng, 0, Fraction(1, 8), Fraction(rng.randrange(0, 40), 64)), **slope))
            holes = []
            for leg in rng.sample("AB", rng.randrange(3)):
                y, d, flush = Fraction(rng.randrange(16, 60), 64), one_of(rng, Fraction(1, 8), Fraction(3, 16), Fraction(1, 4), 4 * MM), rng.random() < 0.2
                step = Fraction(rng.randrange(20, 90), 64)
                holes += [Hole(leg, Fraction(1, 4) + n * step, y, d, flush) for n in range(rng.randrange(1, 12)) if rng.random() < 0.9]
            corners_ = [Corner(one_of(rng, "A", "B"), 1, Fraction(1, 8))] if rng.random() < 0.2 else []
            copes = [Cope("A", 2, Fraction(3, 8), section.thickness("B") + Fraction(1, 8), Fraction(1, 8))] if rng.random() < 0.2 else []
            more = {"one_piece": rng.random() < 0.2, "later": rng.random() < 0.2, "priority": rng.randrange(3), "quantity": one_of(rng, 1, 6, 120)}
            note = one_of(rng, "", "deburr twice")
            return Part(f"P{number}", f"Part {number}", section, one_of(rng, "6061-T6", "7075-T6"), length, tapers, holes, corners_, copes, note=note, **more)
        except BenchError:
            continue


def random_job(rng: random.Random, path: Path) -> Job:
    """A job of six such parts that a file bears, saved to the path."""
    def small() -> Fraction:
        return one_of(rng, Fraction(0), Fraction(1, 16), Fraction(5, 16), Fraction(1, 4), Fraction(63, 1000), 3 * MM, Fraction(7, 8))

    shop = Shop(small(), small(), one_of(rng, 1, Fraction(1, 2)), one_of(rng, 3, 5), one_of(rng, 6, 8))
    parts: list[Part] = []
    while len(parts) < 6:
        part = random_part(rng, len(parts))
        try:
            save_job(Job("Random", shop, [part]), path)  # a hole in the air, say, no file takes
            parts.append(part)
        except BenchError:
            continue
        finally:
            path.unlink(missing_ok=True)
    job = Job("Random", shop, parts)
    save_job(job, path)
    return job


def shown(control) -> object:
    """What a control says, read from what a person sees of it: its entry's words, or its pressed button."""
    if isinstance(control, FractionControl):
        return control.entry.value
    if isinstance(control, NumberControl):
        assert control.entry.value == control.slider.value
        return control.entry.value
    if isinstance(control, ChoiceControl):
        return control.buttons.value
    return control.value


def check_shown(own: OwnPart, part: Part) -> None:
    """Each number of the part stands in an entry or in the words below; the controls' part is the part."""
    assert own.value == part and not own.trouble
    at = own.controls
    assert shown(at["length"]) == exact(part.length) and shown(at["quantity"]) == part.quantity
    section = part.section
    assert (shown(at["leg_a"]), shown(at["leg_b"])) == (exact(section.leg_a), exact(section.leg_b))
    assert (shown(at["thickness"]), shown(at["fillet"]), shown(at["alloy"])) == (exact(section.thickness_a), exact(section.fillet), part.alloy)
    words = html.unescape(own.kept.value)
    for name, value in (("thick", section.thickness("B")), ("toe radius", section.toe_radius), ("heel radius", section.heel_radius)):
        if value and value != section.thickness_a:
            assert name in words and exact(value) in words
    for taper in part.tapers:
        slope = exact(taper.run) if taper.run is not None else f"{float(taper.angle):g} degrees"
        in_words = f"taper of leg {taper.leg} at end {taper.end}" in words and slope in words
        in_controls = (
            str(taper.end) in str(shown(at["tapers"])).replace("both-ends", "1 2") and shown(at["taper_leg"]) == taper.leg
            and shown(at["left"]) == exact(taper.width_left)
            and (shown(at["run"]) if taper.run is not None else shown(at["angle"])) == exact(taper.run if taper.run is not None else taper.angle)
        )  # fmt: skip
        assert in_words or in_controls, (taper, words)
    for leg in "AB":
        at["hole_leg"].value = leg
        holes, kind = part.holes_in(leg), shown(at["holes"])
        if kind == "none":
            assert not holes
        elif kind == "row":
            first, pitch = (Fraction(at[name].value) for name in ("first", "pitch"))
            row = [(exact(first + n * pitch), shown(at["height"])) for n in range(shown(at["hole_count"]))]
            assert row == [(exact(hole.x), exact(hole.y)) for hole in holes]
            assert {hole.diameter for hole in holes} == {shown(at["diameter"])} and not any(hole.flush for hole in holes)
        else:
            for hole in holes:
                assert f"{exact(hole.diameter)}{' flush' if hole.flush else ''} at {exact(hole.x)}, {exact(hole.y)} from the heel" in words
    for feature in (*part.copes, *part.corners):
        assert f"leg {feature.leg} at end {feature.end}" in words and exact(feature.radius) in words
    for claim, word in ((part.one_piece, "one piece"), (part.later, "later"), (part.priority, "priority"), (part.note, part.note or "-")):
        assert not claim or word in words
    assert own.value == part  # to look at the other leg's holes changes nothing


@pytest.mark.parametrize("seed", range(6))
def test_what_the_bench_shows_of_a_random_job_is_what_the_job_says(seed, tmp_path):
    job = random_job(random.Random(f"bench {seed}"), tmp_path / "random.toml")
    bench = builders_bench.Bench()
    bench.job_file.value = str(tmp_path / "random.toml")
    bench.open.click()
    assert "✓" in bench.opened.value, bench.opened.value
    assert bench.shop == job.shop  # kerf 5/16 stays 5/16
    assert (shown(bench.kerf), shown(bench.allowance)) == (exact(job.shop.kerf), exact(job.shop.allowance))
    for number in (job.shop.grain, job.shop.usable_minimum, job.shop.hand_minimum):
        assert exact(number) in bench.opened.value
    for part in job.parts:
        bench.parts.value = part.id
        assert bench.part == part
        check_shown(bench.own, part)
        assert bench.own.kept.value == "" or bench.own.kept in bench.what_if.children


@pytest.mark.parametrize("seed", range(6))
def test_what_lesson_12_shows_of_a_random_job_is_what_the_job_says(seed, tmp_path):
    job = random_job(random.Random(f"lesson {seed}"), tmp_path / "random.toml")
    work = make_part.Work()
    work.file.value = str(tmp_path / "random.toml")
    work.open.click()
    assert "✓" in work.opened.value, work.opened.value
    assert work.shop == job.shop and exact(job.shop.kerf) in work.saw_words.value
    for part in job.parts:
        work.which.buttons.value = part.id
        assert work.part == part
        check_shown(work.own, part)
    work.file.value = ""
    work.open.click()  # back to the demo's shop: the range is the control's own again
    assert work.shop == demo_job().shop and work.kerf.values == make_part.KERFS
    work.kerf.entry.value = "5/16"
    assert work.kerf.value == demo_job().shop.kerf and "outside 0 to 1/4" in work.kerf.trouble


def test_what_is_kept_stays_when_something_else_is_changed(tmp_path):
    rng, kept = random.Random(2), 0
    for number in range(80):
        part = random_part(rng, number)
        own = OwnPart(part)
        own.controls["name"].value = "Another name"
        if own.value is None:
            continue  # a run longer than the part, say: the sentence stands there
        kept += bool(not_shown(part, part, own.values))
        for field in ("section", "tapers", "holes", "copes", "corners", "one_piece", "later", "priority", "note", "quantity", "length"):
            assert getattr(own.value, field) == getattr(part, field), field
    assert kept > 20


def test_the_holes_of_each_leg_are_shown_and_edited():
    """The door hinge bracket has a row of one in each leg: 3/16, 11/16 from the heel."""
    own, part = OwnPart(demo_part("C1L")), demo_part("C1L")
    for leg in "AB":
        own.controls["hole_leg"].value = leg
        at = {name: shown(own.controls[name]) for name in ("holes", "height", "diameter", "hole_count", "first")}
        holes = part.holes_in(leg)
        assert at == {"holes": "row", "height": "11/16", "diameter": Fraction(3, 16), "hole_count": len(holes), "first": exact(holes[0].x)}
    own.controls["height"].value = Fraction(3, 4)  # leg B's
    assert {hole.y for hole in own.value.holes_in("B")} == {Fraction(3, 4)} and own.value.holes_in("A") == part.holes_in("A")


def test_uneven_and_flush_holes_stay_until_a_row_is_chosen():
    holes = [Hole("A", 1, "1/2", "1/8"), Hole("A", 2, "5/8", "1/8"), Hole("B", 1, "1/2", "1/8", flush=True)]
    part = Part("U1", "Uneven", Section(1, 1, "1/8"), "6061-T6", 6, holes=holes)
    own = OwnPart(part)
    for leg in "AB":
        own.controls["hole_leg"].value = leg
        assert own.controls["holes"].value == "as-it-came" and "stay as they came" in own.controls["height"].reason
    assert "1/8 flush at 1, 1/2 from the heel" in own.kept.value
    own.controls["length"].value = Fraction(7)
    assert own.value.holes == part.holes
    own.controls["holes"].value = "row"  # leg B's
    assert own.value.holes_in("A") == part.holes_in("A") and not own.value.holes_in("B")[0].flush
    own.controls["holes"].value = "as-it-came"
    assert own.value.holes == part.holes


def test_a_part_that_the_controls_would_refuse_is_shown_as_it_came():
    part = Part("R1", "Long run", Section(1, 1, "1/8"), "6061-T6", 1, [Taper("A", 1, 0, run=3)])
    work = make_part.Work()
    work.own.value = part
    assert work.part == part and "As it came: The taper at end 1 runs 3" in work.own.told.value
    work.own.controls["quantity"].value = 2
    assert work.own.value is None and work.part == part


# --- dead controls ----------------------------------------------------------------------------------------
def every_word(box: widgets.Widget) -> str:
    """All that stands on a page: the text, the pictures, and what the entries and buttons say."""
    found = []
    for child in getattr(box, "children", ()):
        found.append(every_word(child))
    if isinstance(box, (widgets.HTML, widgets.HTMLMath, widgets.Text)):
        found.append(box.value)
    return " ".join(found)


def controls_of(page) -> dict[str, object]:
    own = {f"own {name}": control for name, control in page.own.controls.items()}
    more = {name: getattr(page, name) for name in ("kerf", "allowance", "view", "variant", "which", "preview") if isinstance(getattr(page, name, None), ChoiceControl | FractionControl)}
    return own | more


def look(page, own: str) -> str:
    """What stands on a page, without the control that is moved; the wording of the others counts."""
    boxes = [page.what_if, page.compare] if hasattr(page, "what_if") else [page.describe, page.predict, page.everything]
    moved = controls_of(page)[own]
    return re.sub(r"\s+", " ", " ".join(every_word_but(box, moved) for box in boxes))


def every_word_but(box, moved) -> str:
    if box is moved:
        return ""
    words = " ".join(every_word_but(child, moved) for child in getattr(box, "children", ()))
    return f"{words} {box.value}" if isinstance(box, (widgets.HTML, widgets.HTMLMath, widgets.Text)) else words


STATES = {
    "bracket": {}, "no taper": {"own tapers": "none"}, "by angle": {"own slope": "angle"}, "leg without holes": {"own holes": "none"},
    "one hole": {"own holes": "row", "own hole_count": 1}, "a row": {"own holes": "row", "own hole_count": 3, "own pitch": Fraction(1)},
    "as it came": {"own tapers": "as-it-came"},
}  # fmt: skip


def dead(page, name: str) -> bool:
    """Whether a control does nothing: moved to each of its corners nothing on the page is another."""
    control = controls_of(page)[name]
    start, before = control.value, look(page, name)
    changed = False
    for value in corners(control):
        if value != start:
            control.value = value
            changed = changed or look(page, name) != before
    control.value = start
    return not changed


@pytest.mark.parametrize("state", STATES)
@pytest.mark.parametrize("make", [builders_bench.Bench, make_part.Work], ids=["bench", "lesson 12"])
def test_a_control_that_does_nothing_is_disabled_and_says_why(make, state):
    page = make()
    for name, value in STATES[state].items():
        controls_of(page)[name].value = value
    for name, control in controls_of(page).items():
        disabled = {leaf.disabled for leaf in leaves(control)}
        assert len(disabled) == 1, name
        reason = getattr(control, "reason", "")
        assert disabled == {bool(reason)}, name
        if reason:
            assert escape(reason) in every_word(control), name  # to be read beside the control
        if make is builders_bench.Bench or name not in ("view", "preview", "which"):  # pressed by nobody while they are disabled
            assert dead(page, name) == bool(reason), (name, reason)


def test_a_control_that_works_again_is_enabled():
    own = OwnPart(demo_part("C1L"))
    angle, run = own.controls["angle"], own.controls["run"]
    assert angle.entry.disabled and angle.slider.layout.display == "none" and not run.entry.disabled
    own.controls["slope"].value = "angle"
    assert not angle.entry.disabled and angle.slider.layout.display == "" and run.reason == "the angle gives the slope"
    assert HoleRow().kind == "none"


# --- the job's limits ---------------------------------------------------------------------------------------
@pytest.mark.parametrize("limits", ["inch", "1/32", "ISO 2768-1 f"])
def test_the_pages_and_what_they_print_hold_a_part_to_the_limits_of_its_job(tmp_path, monkeypatch, limits):
    """A part in mm in a job in inches: the page, its preview and its pack say what the job's own card says, not what is usual for mm."""
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path))
    part = Part(
        "M1", "Bracket", Section(30 * MM, 30 * MM, 3 * MM, fillet=3 * MM), "6061-T6", 87 * MM,
        [Taper("A", 1, 11 * MM, run=33 * MM)], [Hole("B", 22 * MM, 15 * MM, 4 * MM)], unit="mm",
    )  # fmt: skip
    job = Job("Mixed", Shop(), [part], "in", Limits.named(limits))
    save_job(job, tmp_path / "mixed.toml")
    wanted = [[in_mm(fine, v) for v in (want.value, want.low, want.high)] for want in wanted_readings(part, job.limits)]
    edge = in_mm(limits_words, part, job.limits)

    work = make_part.Work()
    work.file.value = "mixed.toml"
    work.open.click()
    work.which.buttons.value = "M1"
    work.ask()
    for box in work.asked:
        box.entry.value = "1"
        commit(box)
    table = html.unescape(work.table.value)
    for value, low, high in wanted:
        assert f"{value}, from {low} to {high}" in table
    assert edge in table
    work.preview.value = work.preview.buttons.value = "check-print"
    assert job.limits.words.split(",")[0] in html.unescape(work.paper.value)

    bench = builders_bench.Bench()
    bench.job_file.value = "mixed.toml"
    bench.open.click()
    assert bench.limits == work.limits == job.limits and edge in html.unescape(bench.table.value)
    told = []
    monkeypatch.setattr("anglelib.paper.pack.make_pack", lambda job, *more, **named: told.append(job) or (_ for _ in ()).throw(BenchError("stop")))
    for page in (work, bench):
        page.packing.make.click()
        page.saving.file.value = f"own-{len(told)}"
        page.saving.save.click()
    assert [one.limits for one in told] == [job.limits, job.limits]
    assert all(read_job(tmp_path / f"own-{n}.toml").limits == job.limits for n in (1, 2))


def in_mm(say, *words):
    with writing("mm"):
        return say(*words)
