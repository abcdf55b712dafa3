"""Rules of thumb beside the plan: what each cannot make, and what it leaves.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.stock.rack import Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 100), Stick("S-2", stock, "6061-T6", 60)])
>>> parts = [Part("A1", "Clip", stock, "6061-T6", 30), Part("A2", "Bar", stock, "6061-T6", 58),
...          Part("A3", "Long bar", stock, "6061-T6", 60)]
>>> for result in by_rules(Job("Demo", Shop(), parts), rack)[:2]: print(result.sentence)
Shortest piece that serves, in list order: 2 of 3 pieces, without 1 of A3; the longest piece left is 41 7/8.
Longest part first, from the shortest piece that serves: all 3 pieces; the longest piece left is 9 3/4.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.job import Job
from anglelib.lengths import exact
from anglelib.stock.problem import problems
from anglelib.stock.rack import Rack
from anglelib.stock.rules import RULES


@dataclass(frozen=True)
class RuleResult:
    """What one rule of thumb does with a job: what it cannot make and what it leaves.

    ``missing`` has (part id, how many); ``left`` what remains in whole grains, longest first, of each
    section in the order of the plan's groups; ``longest`` the longest piece left of all [in].
    """

    name: str
    made: int
    wanted: int
    missing: tuple[tuple[str, int], ...]
    left: tuple[tuple[int, ...], ...]
    longest: Fraction

    @property
    def sentence(self) -> str:
        """The result in words."""
        name = self.name[0].upper() + self.name[1:]
        lacking = ", ".join(f"{number} of {part_id}" for part_id, number in self.missing)
        made = f"all {self.made} pieces" if not self.missing else f"{self.made} of {self.wanted} pieces, without {lacking}"
        return f"{name}: {made}; the longest piece left is {exact(self.longest)}."


def by_rules(job: Job, rack: Rack) -> tuple[RuleResult, ...]:
    """The job done by each rule of thumb; the first takes the parts in the order of the list."""
    asked = problems(job, rack)
    row = {part.id: n for n, part in enumerate(job.parts)}
    found = []
    for rule in RULES:
        made, missing, left, longest = 0, {}, [], Fraction(0)
        for problem in asked:
            instance = problem.instance
            listed = sorted(range(len(problem.blanks)), key=lambda n: row[problem.blanks[n].part.id])
            packing = rule.pack(instance, [instance.claims[n] for n in listed])
            left.append(instance.left(packing))
            output = list(instance.output(packing))
            # blanks of one size are alike: those listed first are made
            for n in listed if rule.listed else range(len(problem.blanks)):
                size = instance.claims[n]
                output[size] -= 1
                if output[size] >= 0:
                    made += 1
                else:
                    part_id = problem.blanks[n].part.id
                    missing[part_id] = missing.get(part_id, 0) + 1
            rests = [instance.remains(p, s) * problem.unit for p, s in zip(packing, instance.spaces)]
            longest = max([longest, *rests])
        found.append(RuleResult(rule.name, made, job.pieces, tuple(sorted(missing.items())), tuple(left), longest))
    return tuple(found)
