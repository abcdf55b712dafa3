"""Every plan there is, for small jobs: an oracle that shares no code with the planner.

Blanks are put into usable lengths in every possible way; the best by the four levels, written out
here a second time in plain Fractions, is what the planner must reach.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import combinations_with_replacement, groupby, product

from anglelib.stock.rack import Rack, Stick


def sound(stick, kerf):
    """(from, to, freed by a cut, the last blank needs no room for its cut) of each usable length of a stick.

    It needs none where its end is the stick's own, square and sound, and where the blade runs into a dent or into what is trimmed off.
    """
    edges, start, freed = [], stick.trim_1, stick.trim_1 > 0
    end = stick.length - stick.trim_2
    for a, b in sorted(stick.dents):
        if a > start:
            edges.append((start, min(a, end), freed, True))
            start = max(b, a + kerf)
        else:
            start = max(start, b)
        freed = True
    edges.append((start, end, freed, stick.far_end_good or stick.trim_2 > 0))
    return [edge for edge in edges if edge[0] < edge[1]]


def pieces_wanted(job, section, alloy):
    """The blanks of one section and alloy, first claim first: (length, part)."""
    found = [
        (part.length + 2 * job.shop.allowance, part, n)
        for part in job.parts
        if part.alloy == alloy and part.section in (section, section.swapped())
        for n in range(part.quantity)
    ]
    found.sort(key=lambda item: (-item[1].claim, -item[1].priority, -item[0], item[1].id, item[2]))
    return [(length, part) for length, part, _ in found]


def by_claim(assignment, wanted):
    """What is made, the first claim first: of blanks with equal claims as many as can be, then those first listed."""
    made = []
    for _, equal in groupby(zip(wanted, assignment), key=lambda item: (item[0][1].claim, item[0][1].priority, item[0][0])):
        bits = tuple(at is not None for _, at in equal)
        made.append((sum(bits), bits))
    return tuple(made)


def value(assignment, wanted, places, shop):
    """The four levels of one assignment (a place or None for each blank); larger is better.

    Cuts are counted by usable length, one that frees its near end and one a blank; a scratch that one cut takes away for both its sides counts twice.
    """
    left, opened, touched, cuts, scrap = [], set(), set(), 0, Fraction(0)
    for n, (stick, (a, b, freed, _)) in enumerate(places):
        mine = [length for (length, _), at in zip(wanted, assignment) if at == n]
        room = b - a
        used = sum(mine) + len(mine) * shop.kerf
        rest = max(Fraction(0), room - used)
        worth = rest if rest >= shop.usable_minimum else Fraction(0)
        left.append(int(worth / shop.grain))
        if mine:
            touched.add(stick.id)
            if not stick.remnant:
                opened.add(stick.id)
            unsawn = b == stick.length and stick.far_end_good  # the last blank ends where the stick does
            cuts += len(mine) + (1 if freed else 0) - (1 if used > room and unsawn else 0)
            scrap += room - sum(mine) - worth
    return by_claim(assignment, wanted), tuple(sorted(left, reverse=True)), -len(opened), -len(touched), -cuts, -scrap


def best(job, rack, section, alloy):
    """The best value of any plan for one section and alloy."""
    shop = job.shop
    wanted = pieces_wanted(job, section, alloy)
    places = [
        (stick, edge)
        for stick in rack.sticks
        if stick.alloy == alloy and not stick.hands_off and stick.section in (section, section.swapped())
        for edge in sound(stick, shop.kerf)
    ]

    def may(part, place):
        return part.only_stick in ("", place[0].id) and place[0].id not in part.not_from

    def fits(lengths, edge):
        a, b, _, unsawn = edge
        n = len(lengths)
        return sum(lengths) + (n - 1 if unsawn else n) * shop.kerf <= b - a

    champion = None
    keys = [(part.claim, part.priority, length) for length, part in wanted]
    loads = [[] for _ in places]
    chosen: list = []

    def go(k):
        nonlocal champion
        if k == len(wanted):
            found = value(chosen, wanted, places, shop)
            if champion is None or found > champion:
                champion = found
            return
        if champion is not None:
            # what is made already cannot be better than the champion
            if k and keys[k] != keys[k - 1] and by_claim(chosen, wanted[:k]) < champion[0][: len(set(keys[:k]))]:
                return
        length, part = wanted[k]
        for n, place in enumerate(places):
            if may(part, place):
                loads[n].append(length)
                if fits(loads[n], place[1]):
                    chosen.append(n)
                    go(k + 1)
                    chosen.pop()
                loads[n].pop()
        chosen.append(None)
        go(k + 1)
        chosen.pop()

    go(0)
    return champion


def reached(group, job, rack):
    """The value of a plan's group, from where its blanks lie."""
    shop = job.shop
    wanted = pieces_wanted(job, group.section, group.alloy)
    places, spots = [], {}
    for planned in group.sticks:
        stick = rack.stick(planned.stick.id)
        for edge in sound(stick, shop.kerf):
            for placed in (*planned.placed, *planned.held):
                if edge[0] <= placed.start < edge[1]:
                    spots.setdefault(placed.blank.part.id, []).append(len(places))
            places.append((stick, edge))
    assignment = []
    for part_id, blanks in groupby(wanted, key=lambda item: item[1].id):
        found = spots.get(part_id, [])
        number = len(list(blanks))
        assignment += found + [None] * (number - len(found))
    return value(assignment, wanted, places, shop)


# --- what if ---------------------------------------------------------------------------------------
def places_of(job, rack, section, alloy):
    """Every usable length that may serve: (stick, edge)."""
    return [
        (stick, edge)
        for stick in rack.sticks
        if stick.alloy == alloy and not stick.hands_off and stick.section in (section, section.swapped())
        for edge in sound(stick, job.shop.kerf)
    ]


def every(job, rack, section, alloy):
    """Every plan there is of one section and alloy: (assignment, blanks wanted, places)."""
    wanted, places = pieces_wanted(job, section, alloy), places_of(job, rack, section, alloy)
    for assignment in product([None, *range(len(places))], repeat=len(wanted)):
        if holds(assignment, wanted, places, job.shop.kerf):
            yield assignment, wanted, places


def holds(assignment, wanted, places, kerf):
    """Whether every usable length holds what an assignment puts there."""
    for n, (stick, (a, b, _, unsawn)) in enumerate(places):
        mine = [(length, part) for (length, part), at in zip(wanted, assignment) if at == n]
        if any(part.only_stick not in ("", stick.id) or stick.id in part.not_from for _, part in mine):
            return False
        if mine and sum(length for length, _ in mine) + (len(mine) - (1 if unsawn else 0)) * kerf > b - a:
            return False
    return True


def met(top):
    """Of each claim, in order, whether a value meets it."""
    return [bit for _, equal in top[0] for bit in equal]


def how_many(top):
    """How many blanks a value makes, of how many."""
    return sum(met(top)), len(met(top))


def scratched(job, rack, section, alloy):
    """Whether a stick that may serve has a dent no wider than the blade, and two usable lengths."""
    sticks = {stick.id: stick for stick, _ in places_of(job, rack, section, alloy)}.values()
    return any(any(b - a <= job.shop.kerf for a, b in stick.dents) and len(sound(stick, job.shop.kerf)) > 1 for stick in sticks)


def all_fit(job, rack, section, alloy):
    """Whether every blank of one section and alloy can be made."""
    top = best(job, rack, section, alloy)
    return top is None or all(all(bits) for _, bits in top[0])


def staying(assignment, wanted, places, before):
    """How many blanks stay where they were: ``before`` counts (stick id, blank length, stick named for it)."""
    now = Counter((places[at][0].id, length, part.only_stick) for (length, part), at in zip(wanted, assignment) if at is not None)
    return sum((now & before).values())


def least_changed(job, rack, section, alloy, before):
    """(levels 1 and 2, blanks that stay, level 3, cuts) of the plan that changes least among those that are best."""
    champion = None
    for assignment, wanted, places in every(job, rack, section, alloy):
        made, left, opened, touched, cuts, _ = value(assignment, wanted, places, job.shop)
        found = (made, left, staying(assignment, wanted, places, before), opened, touched, cuts)
        if champion is None or found > champion:
            champion = found
    return champion


def smallest(job, rack, section, alloy, lengths, trims, most):
    """The smallest purchase, by trying all of at most ``most`` sticks: (inches, sticks), or None."""
    choices = sorted((sum(bought), len(bought), bought) for n in range(most + 1) for bought in combinations_with_replacement(sorted(lengths), n))
    for total, number, bought in choices:
        new = [Stick(f"X-{n}", section, alloy, length, *trims) for n, length in enumerate(bought)]
        if all_fit(job, Rack([*rack.sticks, *new]), section, alloy):
            return total, number
    return None
