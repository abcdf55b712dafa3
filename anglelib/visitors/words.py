"""What the owner of a shared course and its visitors are told."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from anglelib.visitors.addresses import ALONE, At
from anglelib.visitors.code import grouped

TITLE = "Making parts from aluminium angle"
LIST_LEAD = (
    "Choose a page, then read, move and answer. Your answers stay on that page and are gone when you leave it; "
    "nothing that you do here changes the computer that it comes from."
)
LESSONS_HEAD, BESIDE_HEAD = "Lessons", "Beside the lessons"
DOOR_TITLE = "This course is shared with a workshop"
DOOR = "Point the camera at the square on the wall or on the screen, or type the letters that stand beside it."
DOOR_LABEL, DOOR_BUTTON, DOOR_WRONG = "Code", "Open", "These are not the letters of today: the code changes each time the course is shared."
NOWHERE_TITLE, NOWHERE = "There is no such page", "The pages of the course are listed here:"
TO_LIST = "All pages"
FULL_TITLE = "All places are taken"
FULL = "{} pages are open, and this computer bears no more at once. One is free as soon as somebody closes a page. Until then, look on with a neighbour."
AGAIN = "Try again"
ENDED = "The Python behind this page has stopped, so nothing on it moves any more. Load the page again to begin it anew."
NO_CODE_LIBRARY = "What draws the code for phones (segno) is not installed: run the README's first command line again."
NOT_STARTED = "The pages for the workshop could not be started. Start the course again; if it happens again, start it without --share."
STOPPED = "The pages for the workshop have stopped, yours go on. To share again, stop the course with Ctrl-C and start it again."
def cannot_start(path: Path) -> str:
    """No visitor's page gets its Python."""
    return f"Python does not start for a visitor's page. What it says is in {path}; your own pages are not touched by it."


STRANGE = (
    "Something that no control sends came from a visitor's page, and was left out; nothing was changed by it. It is said once. "
    "If it is nobody's mistake, end the sharing with Ctrl-C: the next start has another code."
)
WALL_TITLE = "The course on your phone"
WALL_SCAN = "Point the camera at the square."
WALL_TYPE = "Or type the address, then the code:"
WALL_NETWORK = "The phone must be on the workshop's own network. Nothing is installed, and nobody is asked for a name."
WALL_UNTIL = "This sheet holds until the course is stopped; the next time has another code."
WALL_OWNER = "For you alone, not printed:"
SQUARE_NAME = "The square that opens {} with its code"


def note(minutes: int) -> str:
    """What stands at the head of a visitor's page."""
    return (
        "*A shared page: your answers stay on it, and are gone when you leave it or load it again. Nothing is saved or printed here. "
        f"After {minutes} minutes without a touch its Python stops, and the page says so; load it again then.*"
    )


def who(at: At, most: int) -> str:
    """Who can come, and what they can do."""
    comes = (
        f"Only this computer reaches it, for a look at what visitors see, {most} pages at once at most."
        if at.connection == ALONE
        else f"Whoever has the code and is on the network of {at.connection} opens lessons, {most} pages at once at most."
    )
    return (
        f"{comes} Visitors read and answer; they run no code, see none of your files and change nothing of yours. "
        "Their answers stay on their own pages."
    )


NETWORK = (
    "Share on the workshop's own network only, never on one that strangers use (a hotel's, a café's, one for guests): what is "
    "sent is not encrypted, and everybody on that network could read it, the code too."
)
END = "To end it, press Ctrl-C in the window of the command. The next start has another code."


def reach(port: int) -> str:
    """What to look at when a phone finds nothing."""
    return (
        "A phone finds nothing? It must be on the same network; a network for guests often keeps its devices apart; "
        f"and this computer's firewall must let others in at port {port}."
    )


def others(rest: Sequence[At]) -> str:
    """The other addresses of the computer; "" where there are none."""
    if not rest:
        return ""
    named = ", ".join(f"{at.address} ({at.connection})" for at in rest)
    return f"This computer has other addresses, too: {named}. If the phones are there, start again and name it: --address {rest[0].address}"


def address_and_code(url: str, code: str) -> str:
    """What is typed where no camera is at hand."""
    return f"{url}   code {grouped(code)}"
