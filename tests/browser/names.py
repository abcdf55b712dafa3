"""What a page's controls are called where it is heard: each with its role and the groups that it is in, as the browser itself works them out."""

from __future__ import annotations

from collections import Counter
from typing import Any

CONTROLS = {"button", "textbox", "slider", "combobox", "checkbox", "spinbutton", "radio"}


def names(page) -> list[tuple[str, ...]]:
    """Each control of the page: its role, its name, and the names of what it stands in, the outermost first.

    Explained words of the prose are left out: wherever one stands, it says the same.
    """
    words = set(page.evaluate("[...document.querySelectorAll('[data-word]')].map(one => one.textContent.trim())"))
    nodes = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
    by_id = {node["nodeId"]: node for node in nodes}
    found = [(_said(node, "role"), _said(node, "name"), *_around(node, by_id)) for node in nodes if not node["ignored"] and _said(node, "role") in CONTROLS]
    return [one for one in found if len(one) > 2 or one[1] not in words]


def _said(node: dict[str, Any], what: str) -> str:
    return str(node.get(what, {}).get("value", "")).strip()


def _around(node: dict[str, Any], by_id: dict[str, dict[str, Any]]) -> tuple[str, ...]:
    found: list[str] = []
    while (node := by_id.get(node.get("parentId"), {})) != {}:
        if _said(node, "role") in ("group", "radiogroup") and _said(node, "name"):
            found.insert(0, _said(node, "name"))
    return tuple(found)


def alike(found: list[tuple[str, ...]]) -> list[str]:
    """What nobody tells apart by ear: controls without a name, and those of one role and one name in one group."""
    unnamed = [f"no name: {' > '.join((*around, role))}" for role, name, *around in found if not name]
    return unnamed + [f"{count} times: {' > '.join((*around, f'{role} {name}'))}" for (role, name, *around), count in Counter(found).items() if count > 1]
