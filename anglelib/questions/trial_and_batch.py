"""Questions of a job of several parts: trial, dry fit, batch, pairs, the alloy on every piece, ink off before primer.

>>> batch_order().answer[0], pair_check().answer_text
('trial', 'the second is the first in a mirror')
"""

from __future__ import annotations

from anglelib.questions.question import Before, ChoiceQuestion, OrderQuestion, WrongAnswer

BOTH_ONE_HAND, WRONG_ALLOY = "M26", "M24"

BATCH = {
    "batch": "Cut the batch",
    "trial": "Make one trial part in scrap",
    "prime": "Prime",
    "fit": "Try one real part in its place, dry",
    "ink-off": "Take off ink and layout dye",
    "pair": "Lay left and right against each other",
}
"""The operations of a job of several parts, by id, as they are offered."""


def batch_order(id: str = "order-of-a-batch") -> OrderQuestion:
    """From the trial part to the primer."""
    cut, trial, prime, fit, ink, pair = BATCH
    return OrderQuestion(
        id,
        "Six left and six right cleats are to be made. Put the job in order, from the first cut to the primer.",
        BATCH,
        (
            Before(trial, fit, "The trial part is scrap on purpose: it finds a wrong mark before good metal does."),
            Before(trial, cut, "A wrong mark in a batch is wrong twelve times. One trial part in scrap finds it for nothing.", "batch-before-trial"),
            Before(fit, cut, "One dry fit, then the batch: the plans may be right and the place still differ.", "batch-before-fit"),
            Before(cut, pair, "There is no pair to compare before it is cut."),
            Before(pair, prime, "Look at the pairs while a wrong one can still be told by its bare metal and its marks.", BOTH_ONE_HAND),
            Before(ink, prime, "Ink and dye bleed through primer, and it does not hold on them.", "primed-over-ink"),
            Before(pair, ink, "The ink says which leg, end and hand a part is. Compare the pairs first, then take it off.", "ink-off-early"),
        ),
        hints=("What is cheap and finds the most slips comes first.", "The ink goes when nobody needs it any more."),
        working="Trial in scrap, dry fit, batch, pairs, ink, primer.",
    )


def trimmed_at_fitting(id: str = "left-long") -> ChoiceQuestion:
    """Why a part may be left long."""
    return ChoiceQuestion(
        id,
        "The plans say of a brace: trim to fit. Its far end meets a former that may stand 1/16 off. How is it made?",
        {"nominal": "cut to the plans' length", "long": "left long, and trimmed in place", "short": "cut short, to be safe"},
        "long",
        wrong=(
            WrongAnswer("trim-to-fit-missed", "nominal", "Then it fits where the former stands where it is drawn, and nowhere else. Metal that is gone does not come back."),
            WrongAnswer("short-as-safe", "short", "Short is the one thing that cannot be put right."),
        ),
        hints=("Which of the three can still be made right in place?",),
        working="The harder end is finished; the easier one is left long and comes off at the dry fit. Its blank is planned with that length.",
    )


def pair_check(id: str = "pair-check") -> ChoiceQuestion:
    """How a pair is laid together, and what tells two of one hand."""
    return ChoiceQuestion(
        id,
        "A left and a right bracket stand heel to heel, their tapered ends the same way. What shows that they are a pair?",
        {"length": "both have the same length", "alike": "the two lie alike", "mirror": "the second is the first in a mirror"},
        "mirror",
        wrong=(
            WrongAnswer(BOTH_ONE_HAND, "alike", "Two that lie alike are one hand, made twice. The missing one has to be made again."),
            WrongAnswer("length-as-check", "length", "So have two of one hand."),
        ),
        hints=("Put a mirror between the heels.",),
        working="Heel to heel each is what the other shows in a mirror. Checked after the first two, not after the twelfth.",
    )


def write_alloy(id: str = "alloy-before-the-cut") -> ChoiceQuestion:
    """When the alloy is written back."""
    return ChoiceQuestion(
        id,
        "The stick's print, 6061-T6, stands once every foot. A 4 3/4 in. part comes off. When is the alloy written on by hand?",
        {"tag": "when the part is tagged", "before": "before the cut to length, both sides of the line", "after": "after the cut, on the part"},
        "before",
        wrong=(
            WrongAnswer(WRONG_ALLOY, "after", "Then it is known for one of two pieces, if you remember which came from where: the print stays on one side of the cut only."),
            WrongAnswer("alloy-from-memory", "tag", "By then it lies among others that look and weigh the same."),
        ),
        hints=("How many pieces have the print after the cut?",),
        working="After the cut at most one of the two pieces has the print: the other is a stick of unknown alloy.",
    )
