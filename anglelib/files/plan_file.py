"""The plan file: the plan in hand, kept beside its job (my-job.plan.json) from the day on which it is printed.

It is plain JSON: which stick, which pieces in which order, why sticks are not used, what is proven, and the versions of the parts, the
sticks and the rules that it was made of. Its number is computed from what it says, so that a file that was changed by hand, or cut off,
is noticed. It is written whole, and the plan before it is kept as the previous version.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from os import PathLike
from pathlib import Path
from typing import Any

from anglelib.contents_words import PLAN
from anglelib.errors import BenchError, PlanError
from anglelib.files.plan_codec import length_of, made, plain
from anglelib.files.report import FORMAT
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.blank import Blank
from anglelib.stock.in_hand import InHand, PlannedPart
from anglelib.stock.plan import GroupPlan, Plan, Proof, Shortage, StickPlan, Trade
from anglelib.stock.reasons import Reason
from anglelib.stock.versions import part_version, stick_version
from anglelib.storage import Source, read_text, shown, write_text

ENDING = ".plan.json"
UNITS = ("in", "mm")
JOINED = "+"
"""What stands between the names of jobs that are planned together."""
MOST_BYTES = 12_000_000
BY_THE_RULE, RUNNER_UP = "by-the-rule", "runner-up"
"""Which plan of a section was picked."""
WHAT = "The plan in hand, from which cuts are marked. Change the job or the rack and plan again; a change here is noticed and refused."


@dataclass(frozen=True)
class Kept:
    """The plan in hand with its file as it was read."""

    hand: InHand
    source: Source


def beside_job(job_file: str | PathLike, ending: str) -> Path:
    """The file of a job's name with another ending, in the same folder."""
    path = Path(job_file)
    return path.with_name(path.stem + ending)


def plan_path(job_file: str | PathLike) -> Path:
    """Where the plan of a job is kept.

    >>> plan_path("kit/my-job.toml").name
    'my-job.plan.json'
    """
    return beside_job(job_file, ENDING)


@dataclass(frozen=True)
class Beside:
    """A plan of some of the same jobs that is in hand too: its file, its number, the day on which it was printed, the sticks that it cuts."""

    file: str
    number: str
    printed: str
    sticks: tuple[str, ...]


def plans_beside(job_file: str | PathLike) -> tuple[Beside, ...]:
    """The other plans in which one of these jobs is planned, alone or with others (tail.plan.json, tail+wing.plan.json); those that can be read."""
    home = plan_path(job_file)
    jobs = set(home.name.removesuffix(ENDING).split(JOINED))
    found = []
    for path in sorted(home.parent.glob(f"*{ENDING}")):
        if path.name == home.name or not jobs & set(path.name.removesuffix(ENDING).split(JOINED)):
            continue
        try:
            said = json.loads(read_text(path, MOST_BYTES, PLAN).text)
            cut = [stick["stick"]["id"] for group in said["sections"] for stick in group["sticks"] if stick.get("cuts") or stick.get("placed")]
            found.append(Beside(path.name, str(said["number"]), str(said["printed"]), tuple(cut)))
        except (BenchError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
            continue  # whoever marks from it is told
    return tuple(found)


def read_plan(job_file: str | PathLike, job: Job) -> Kept | None:
    """The plan in hand of a job; None where none is kept. Raises BenchError for a file that is none, or not any more what was written."""
    path = plan_path(job_file)
    if not path.exists():
        return None
    source = read_text(path, MOST_BYTES, PLAN)
    return Kept(parse_plan(source.text, job, shown(path)), source)


def write_plan(job_file: str | PathLike, hand: InHand, unused: Sequence[tuple[str, tuple[Reason, ...]]] = (), kept: Kept | None = None) -> Kept:
    """Keep a plan in the place of the one that was ``kept`` so far; raises StorageError, with nothing written."""
    source = write_text(plan_path(job_file), render_plan(hand, unused), kept.source if kept is not None else None)
    return Kept(hand, source)


# --- writing ----------------------------------------------------------------------------------------------
def render_plan(hand: InHand, unused: Sequence[tuple[str, tuple[Reason, ...]]] = ()) -> str:
    """The plan as JSON text; ``unused`` are the sticks that serve no part, with the reasons."""
    said: dict[str, Any] = {
        "what": WHAT, "format": FORMAT, "number": hand.number, "made_on": hand.made_on, "printed": hand.printed,
        "job": {"name": hand.job_name, "id": hand.job_id, "unit": hand.unit}, "rack": hand.rack,
        "rules": plain(hand.shop) | _every(hand.shop) | {"within": hand.within, "interrupted": hand.plan.interrupted, "work": hand.plan.work},
        "parts": [
            {"id": part.id, "name": part.name, "version": part.version, "quantity": part.quantity} | ({"held_for": part.held_for} if part.held_for else {})
            for part in hand.parts
        ],
        "sections": [_group(group) for group in hand.plan.groups],
        "not_used": [{"stick": name, "reasons": plain(reasons)} for name, reasons in unused],
        "earlier": [{"number": number, "same_sticks": list(sticks)} for number, sticks in hand.earlier],
    }  # fmt: skip
    return laid_out(said)


def _every(shop: Shop) -> dict[str, str]:
    return {name: plain(getattr(shop, name)) for name in ("kerf", "allowance", "grain", "usable_minimum", "hand_minimum")}


def _group(group: GroupPlan) -> dict[str, Any]:
    return {
        "section": plain(group.section), "alloy": group.alloy, "left": list(group.left), "proven": plain(group.proofs),
        "short": plain(group.shortages), "sticks": [{"version": stick_version(stick.stick), **plain(stick)} for stick in group.sticks],
        "picked": {"plan": RUNNER_UP, "trade": plain(group.picked)} if group.picked is not None else {"plan": BY_THE_RULE},
    }  # fmt: skip


def laid_out(said: dict[str, Any]) -> str:
    """A plan's JSON as the text of its file."""
    return _laid_out(said) + "\n"


def _laid_out(value: Any, indent: str = "") -> str:
    """JSON with a line for whatever holds no lists or tables of its own."""
    inside = list(value.values()) if isinstance(value, dict) else value
    if not isinstance(value, dict | list) or not any(isinstance(item, dict | list) and item for item in inside):
        return json.dumps(value, ensure_ascii=False)
    if not indent or isinstance(value, list) and isinstance(value[0], dict) or not all(map(_small, inside)):
        more = indent + "  "
        if isinstance(value, dict):
            rows = [f"{more}{json.dumps(key, ensure_ascii=False)}: {_laid_out(item, more)}" for key, item in value.items()]
            return "{\n" + ",\n".join(rows) + f"\n{indent}" + "}"
        return "[\n" + ",\n".join(more + _laid_out(item, more) for item in value) + f"\n{indent}]"
    return json.dumps(value, ensure_ascii=False)


def _small(value: Any) -> bool:
    """Whether a value holds no lists or tables that hold something."""
    if not isinstance(value, dict | list):
        return True
    inside = list(value.values()) if isinstance(value, dict) else value
    return not any(isinstance(item, dict | list) and item for item in inside)


# --- reading ----------------------------------------------------------------------------------------------
def parse_plan(text: str, job: Job, file: str = f"job{ENDING}") -> InHand:
    """The plan in hand from its text. Its parts are the ``job``'s, where they are still what they were."""
    try:
        said = json.loads(text)
        if said["format"] != FORMAT:
            raise PlanError(f"{file} is of format {str(said['format'])[:8]}, and this library reads {FORMAT}: plan anew (--anew).")
        hand = _hand(said, job)
    except PlanError:
        raise
    except (BenchError, ValueError, KeyError, TypeError, AttributeError, RecursionError, AssertionError):
        raise PlanError(f"{file} is no plan file, or only part of one: take its previous version, or plan anew (--anew).") from None
    if hand.number != said.get("number"):
        raise PlanError(
            f"{file} says other things than when it was written (its number is {str(said.get('number'))[:12]}, what it says would be {hand.number}): "
            "take its previous version, or plan anew (--anew)."
        )
    return hand


def _hand(said: dict, job: Job) -> InHand:
    rules = said["rules"]
    shop = made(Shop, {name: rules[name] for name in ("kerf", "allowance", "grain", "usable_minimum", "hand_minimum", "saw") if name in rules or name != "saw"})
    parts = tuple(PlannedPart(p["id"], p["name"], p["version"], p["quantity"], p.get("held_for", "")) for p in said["parts"])
    groups = tuple(_read_group(group, _Parts(parts, job, group)) for group in said["sections"])
    plan = Plan(said["job"]["name"], shop, groups, bool(rules["interrupted"]), float(rules.get("work", 0.0)))
    earlier = tuple((row["number"], tuple(row["same_sticks"])) for row in said["earlier"])
    named = said["job"]
    if named["unit"] not in UNITS:
        raise ValueError(named["unit"])
    made_on, printed = (made(str, text) for text in (said["made_on"], said["printed"]))
    rack = said.get("rack", "")  # a name that is none is asked for again: it costs no mark
    rack = rack if isinstance(rack, str) else ""
    return InHand(plan, named["name"], named["id"], parts, named["unit"], rules["within"], made_on, printed, earlier, rack)


def _read_group(said: dict, parts: _Parts) -> GroupPlan:
    sticks = made(tuple[StickPlan, ...], [{key: value for key, value in stick.items() if key != "version"} for stick in said["sticks"]], parts.blank)
    short, proven = made(tuple[Shortage, ...], said["short"]), made(tuple[Proof, ...], said["proven"])
    pick = said.get("picked", {"plan": BY_THE_RULE})  # older files know of no other
    picked = made(Trade, pick["trade"]) if pick["plan"] == RUNNER_UP else None
    return GroupPlan(parts.section, said["alloy"], sticks, short, made(tuple[int, ...], said["left"]), proven, picked)


class _Parts:
    """The parts of a section of the plan: the job's own while they are what they were, else the little that the plan says of them."""

    def __init__(self, planned: Sequence[PlannedPart], job: Job, group: dict):
        self.section, self.alloy = made(Section, group["section"]), group["alloy"]
        now = {part.id: part for part in job.parts}
        self.known = {part.id: now[part.id] for part in planned if part.id in now and part_version(now[part.id]) == part.version}
        self.names = {part.id: part.name for part in planned}
        self.held = {part.id for part in planned if part.held_for}

    def blank(self, said: dict) -> Blank:
        name, length = said["part"], length_of(said["length"])
        part = self.known.get(name) or Part(name, self.names[name], self.section, self.alloy, length, quantity=max(int(said["number"]), 1), later=name in self.held)
        rough = length_of(said["rough"]) if "rough" in said else Fraction(0)
        return Blank(part, int(said["number"]), length, int(said.get("whole", 0)), str(said.get("pin", "")), rough)
