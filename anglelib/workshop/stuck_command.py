"""``python -m anglelib stuck``: where a class is stuck, by question and mistake, from the learners' answer files.

Nothing is changed and nothing is sent. Exit codes: 0, counted; 2, a folder has to be put right.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

from anglelib.drawing.letters import text_width
from anglelib.lines import Parser, say, wrapped
from anglelib.workshop.who_is_stuck import QuestionCount, Stuck, look


def main(arguments: Sequence[str]) -> int:
    """What the words after ``stuck`` ask for; raises BenchError for a folder that is none."""
    parser = Parser(
        prog="python -m anglelib stuck",
        description="Where a class is stuck: each question, how many have it right, which mistakes how many made. No grades, no names.",
        epilog="A folder is one learner's, or one that holds the learners' folders, such as a hub's share. Links are not followed.",
    )
    parser.add_argument("folders", nargs="+", metavar="FOLDER", help="the folder with the learners' folders")
    parser.add_argument("--all", action="store_true", help="also the questions that everybody has right")
    asked = parser.parse_args(arguments)
    found = look(asked.folders)
    say("\n".join(lines(found, everything=asked.all)))
    for sentence in found.trouble:  # whose file it is stands in its path: for the instructor, not for the projector
        say(sentence, sys.stderr)
    return 0


def lines(found: Stuck, everything: bool = False) -> list[str]:
    """The counts in words; nobody is named."""
    said = wrapped(found.sentence)
    for count in found.questions:
        if everything or count.stuck or count.mistakes:
            said += ["", *wrapped(f"{count.lesson[:2]}  {shortened(count)}", "", "    ")]
            said += wrapped(numbers(count), "    ")
            said += [line for name, n in count.mistakes for line in wrapped(f"{n} x {name}", "    ", "        ")]
    if found.strange:
        said += ["", *wrapped(found.strange_words)]
    if found.to_say:
        said += ["", "To say to the class", *wrapped(found.to_say, "  ")]
    return said


def numbers(count: QuestionCount) -> str:
    """How many have it right by now."""
    return f"{count.right} of {count.learners} have it right by now, in {count.tries} answers."


def shortened(count: QuestionCount, width: float = 250.0) -> str:
    """What is asked, its first words."""
    text = count.prompt
    while text_width(text, 3.5) > width:
        text = text.rsplit(" ", 1)[0] if " " in text else text[:-10]
    return text if text == count.prompt else f"{text} ..."
