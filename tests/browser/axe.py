"""What axe-core finds on a page, of every weight and on all of it."""

from __future__ import annotations


def barriers(page) -> list[str]:
    """A rule and where it is broken, each."""
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page).response["violations"]
    return [f"{broken['impact']} {broken['id']}: {node['html'][:160]}" for broken in found for node in broken["nodes"][:4]]
