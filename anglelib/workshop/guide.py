"""The instructor's guide as data: for each lesson what to say first, what to ask, what wrong answers reveal, what to give up.

The notebook for the instructor and the guide as PDF are both made from it. What wrong answers reveal
is gathered from the lessons' questions; the minutes in the class are those of the class pack's day.

>>> LESSONS[7].number, LESSONS[7].minutes_in_class
('07', 25)
>>> LESSONS[9].minutes_in_class is None  # at the screen, between two stations
True
>>> print(LESSONS[7].reveals[0])
M12 inside line aimed at the inside corner: Aim it at the vertex-projection mark on the other leg.
"""

from __future__ import annotations

from dataclasses import dataclass

from anglelib.workshop.day import LESSON_MINUTES

AT_HOME = "25 to 40"
"""Minutes of a lesson for one who reads it alone."""


@dataclass(frozen=True)
class LessonGuide:
    """How one lesson is led."""

    number: str
    title: str
    say: str
    ask: str
    reveal: str
    late: str
    materials: str

    @property
    def minutes_in_class(self) -> int | None:
        """Minutes in the class's day; None for a lesson that is done at the screen between stations, or at home."""
        return LESSON_MINUTES.get(self.number)

    @property
    def minutes(self) -> str:
        """Minutes in words."""
        there = f"{self.minutes_in_class} minutes in the class" if self.minutes_in_class else "at the screen between two stations, or at home"
        return f"{there}; {AT_HOME} for one alone"

    @property
    def reveals(self) -> tuple[str, ...]:
        """The mistakes that wrong answers of this lesson carry, with what helps; those that few other lessons show first."""
        from anglelib.workshop.mistake_table import table

        rows = [row for row in table() if self.number in row.lessons]
        rows.sort(key=lambda row: len(row.lessons))
        return tuple(f"{row.id} {row.name}: {row.remedy}" for row in rows)


LESSONS = (
    LessonGuide("00", "Start here",
        "Put your thumb on the heel. Everything today is measured from there and from end 1.",
        "How many places here could somebody call the corner?",
        "Who measures from the inside face is a thickness out on every hole, and no length shows it.",
        "Keep the naming of heel, toe, leg, fillet, end; leave the disc's picture to the briefing at the machine.",
        "an off-cut of angle for each learner"),
    LessonGuide("01", "Identify the stock",
        "Two off-cuts lie before you. They measure the same. One of them must not go into an aircraft.",
        "Which of the two is the kit's section, and what would prove its alloy?",
        "Who trusts weight has not seen that 6061 and 6063 differ by one part in a hundred: only a marking or a certificate is proof.",
        "The vernier. Keep the two off-cuts: one square inside, one with a fillet.",
        "two off-cuts at each table, one square inside and one with a fillet; calipers"),
    LessonGuide("02", "Read the part",
        "Turn it any way you like: a left one never becomes a right one. Try.",
        "I turn this left cleat end for end. Which hand is it now?",
        "Who says the other hand has met turning and mirroring as one thing; laying the two heel to heel parts them.",
        "The parts that are neither.",
        "a left and a right cleat, two check prints of neighbours"),
    LessonGuide("03", "Square an end",
        "Square to one leg is half of it. The other leg has to be asked as well.",
        "Light shows at the toe of leg B only. Which leg is out, and where do you file?",
        "Who files the lit side makes the gap larger: metal comes off where it touches.",
        "The error of the square itself (the flip test); do it at the next break.",
        "a try square, a file, an off-cut sawn out of square on purpose"),
    LessonGuide("04", "Mark along the heel",
        "One datum, running dimensions, no stepping off. The last hole is as good as the first.",
        "Six steps of one inch, each half a line's width long: how far out is the last one?",
        "Who adds the gaps up carries every error on; who forgets the inch of a rule begun at 1 is an inch out, once.",
        "The rule with its ink width; keep stepping off against one datum.",
        "a rule with a worn end, a marker, masking tape on an off-cut"),
    LessonGuide("05", "Kerf and sanding allowance",
        "The line is not where the part ends. It is where you stop sanding.",
        "Where does the saw run: on the line, beside it, and on which side?",
        "Who saws on the keep side loses the whole kerf, and at both ends twice; who saws on the line has nothing left to sand.",
        "The compound setting; keep the blank's sum: length and two allowances; from the stick it takes one kerf more.",
        "a test cut made by the instructor, calipers to measure it"),
    LessonGuide("06", "Taper on the outside face",
        "Run is along the toe. Height is across the leg. The slope is neither.",
        "The plans say run 2 in.: do you lay the rule along the toe or along the slope?",
        "Who lays it along the slope makes the taper too steep; who sets the angle from square has the other angle, 90 minus it.",
        "The angle; two points and a rule are enough at the bench.",
        "a protractor, a rule, the learner's own worksheet"),
    LessonGuide("07", "Taper on the inside face",
        "The saw will go to the vertex. From inside you cannot see it: leg B is in the way.",
        "From the toe mark, where does the inside line go: to the inside corner, or past it?",
        "Who aims at the inside corner leaves a thickness standing at the end; who uses the rule of thumb is right at 45 degrees only.",
        "The line over the fillet; keep the mark on the other leg.",
        "a strip of paper to press into the fillet; the fold sheet of the part"),
    LessonGuide("08", "Order of work",
        "Some mistakes cost a minute, some cost the piece. Order decides which.",
        "Cut to length first, or the taper first?",
        "Who cuts to length first puts a spoiled taper at the price of a whole piece, and holds a short piece at the saw.",
        "The costs; keep: datum first, the harder end first, length last.",
        "the part card, its steps cut into strips, to be laid in order"),
    LessonGuide("09", "Holes and what-if",
        "It fits is not enough. The edge wants two diameters, from the hole's centre.",
        "The hole stays, the taper gets half an inch longer. Which edge is nearest now?",
        "Who measures from the hole's edge has read 1.5 D somewhere; who measures straight across has missed the sloping edge.",
        "All of it: it is a lesson for the screen.",
        "a rivet gauge, a cleat with a hole too near its edge"),
    LessonGuide("10", "Check and diagnose",
        "Length is one reading. Seven readings tell a story, and it is about the work, not about you.",
        "The length is right. What else can be wrong?",
        "Who calls a part good by its length alone passes the other hand, the wrong end and the wrong stock.",
        "The caliper for parts that lie inside their check print.",
        "check prints at 1 : 1, calipers, the inspection sheet"),
    LessonGuide("11", "Plan the stock",
        "Twelve short parts are no reason to open a long stick.",
        "Which part may not be spoiled?",
        "Who takes the first stick that fits cuts up the only stick that was long enough; who takes the longest part first still ends one short.",
        "The plan that breaks; keep the table game, once.",
        "strips of paper cut to length for blanks and for sticks"),
    LessonGuide("12", "Make a part",
        "Your own part, your own numbers, from the section to the shop pack.",
        "What is the first thing that you would get wrong?",
        "Who plans no trial part in scrap has nothing to learn on.",
        "All of it: it is for home.",
        "the kit's plans of each learner, if they bring them"),
)  # fmt: skip


# --- what the research says -----------------------------------------------------------------------------------
@dataclass(frozen=True)
class Evidence:
    """A claim about teaching: its number, where it was read, and what it means for the day."""

    claim: str
    number: str
    source: str
    so: str


EVIDENCE = (
    Evidence("Active learning against lecture", "0.47 standard deviations more; the odds of failing are 1.95 under lecture",
             "Freeman et al. 2014, PNAS 111(23)", "Metal in every hand within the first ten minutes."),
    Evidence("Discovery left alone, and guided", "d = -0.38 and +0.30", "Alfieri et al. 2011, Journal of Educational Psychology 103(1)",
             "A slider without a question teaches less than being told: ask first."),
    Evidence("Watching a demonstration", "no better than not seeing it, unless one predicts first",
             "Crouch et al. 2004, American Journal of Physics 72", "Hands up before you cut, show or reveal."),
    Evidence("Worked examples", "g = 0.48; right ones first, wrong ones after", "Barbieri et al. 2023, Educational Psychology Review 35",
             "Show a part made right, then one with its last step missing, then none; mistakes after that."),
    Evidence("Retrieval practice, transfer", "d = 0.40", "Pan and Rickard 2018", "Open every lesson with three questions of earlier ones, unaided."),
    Evidence("Spatial skill can be trained", "g = 0.47", "Uttal et al. 2013, Psychological Bulletin 139(2)",
             "Who cannot see the hand yet will: turn metal, not words."),
    Evidence("Labels on the drawing, not in a legend", "median d = 1.10", "Mayer and Fiorella", "Point at the word that stands at its line."),
    Evidence("Colour vision deficiency", "up to 8 % of men, 0.5 % of women", "Wong 2011, Nature Methods", "Say the place, never only the colour."),
    Evidence("Ask a question", "every 5 minutes, at least every 10 to 15", "The Carpentries, instructor training", "Each lesson has its question."),
)  # fmt: skip
"""As they were read in these sources or quoted from them; averages over other subjects, not measured on this course."""


# --- demonstrations with a vote ---------------------------------------------------------------------------
@dataclass(frozen=True)
class Demonstration:
    """A picture of a lesson that is shown after a vote: the lesson's module and function, and what is done in metal beside it."""

    title: str
    lesson: str
    module: str
    function: str
    metal: str


DEMONSTRATIONS = (
    Demonstration("From where is it measured?", "00", "start_here", "corner", "A rule at the heel, then at the inside corner, on one off-cut."),
    Demonstration("Turned end for end", "02", "read_part", "turning", "Turn a left cleat end for end, beside a right one."),
    Demonstration("Where the light is", "03", "square_end", "light", "Hold the off-cut sawn out of square against the window, square on it."),
    Demonstration("Saw band beside the line", "05", "kerf_and_allowance", "beside_the_line", "Saw one line from both sides; measure both pieces."),
    Demonstration("What the inside corner leaves", "07", "taper_inside", "inside_corner", "Show an off-cut sawn to the inside corner; lay a rule on it."),
    Demonstration("The length is right", "10", "check_and_diagnose", "right_length", "Lay a part of the right length and the wrong hand on its print."),
)
VOTE = (
    "Read the question aloud. One minute alone, nobody speaks. Count hands for each answer and type the counts. If the hands are split, two "
    "minutes with the neighbour, and count again (common practice). Then Reveal; let somebody with the wrong answer say what makes it tempting."
)

# --- the room and the machines -------------------------------------------------------------------------------
PROJECTOR = (
    "Press Projector under any picture: all pages that are open, and those opened afterwards, are drawn for the back of the room. Letters are "
    "3 % of the picture's height, lines 3 dots, at most seven labels (a rack of sticks has more).",
    "Hide the menu and the side bar (View), then enlarge the page with Ctrl and + until one picture fills the screen.",
    "Predict first: the picture keeps its answer until the vote is counted and Commit is pressed.",
    "Press Projector again for the screen. The choice is kept in the folder that the course runs in.",
)
PHONES = (
    "Learners may have the lessons on their own phones: python -m anglelib course --share prints an address, a code and the square that a camera reads, "
    "and has a sheet of them for the wall. Try it with one phone the day before.",
    "Only on the workshop's own network, never on one that strangers use: what is sent is not encrypted. Whoever has the code and is on that network comes in.",
    "A phone reads, moves and answers. It runs no code, sees no file of yours and changes nothing; saving and printing stay with you.",
    "Answers stay on the page that they were given on, and are gone with it: count hands, not files. A page that nobody touches for half an hour stops, and says so.",
    "The computer bears so many pages at once, and says how many; two learners a phone halve that. Ctrl-C ends it, and the next start has another code.",
)
SAFETY = (
    "Before any switch is touched: the briefing sheet is read aloud and signed by each learner. Who has not signed does not go to a machine.",
    "Somebody competent stands at the running machines always, with at most two in sight; if you must leave, they are switched off.",
    "Eyes and ears for everybody in the room, bare hands at saw and sander, no sleeves, rings, cords, loose hair.",
    "The class part is tapered on a piece of at least 10 in.; a cut that leaves under 6 in. in the hand is clamped.",
    "Power off before anything at a machine is set, cleaned or changed; the disc's table as close as runs clear, set again after tilting; the chuck key out.",
    "Aluminium fines are swept dry, with a brush, and kept apart from sparks and steel; never a closed bin of wet fines, never a grey wheel.",
    "Each caution with its source stands on the safety sheet of the pack. Local rules and the machines' manuals come first.",
)
WHO = (
    "The course computes geometry and stock. It approves nothing: for a real aircraft the kit's plans, its maker and a licensed inspector decide.",
    "Answers and readings carry codes, no names, and no grades are made of them.",
)
DAY = (
    "A week before: make the class pack, buy the stock that it lists, print on one printer and measure its check bar.",
    "The day before: cut the pieces, saw two off-cuts a table (one square inside, one with a fillet), one end out of square on purpose, one test cut.",
    "In the day: lessons 00 to 04 first thing, 05 to 07 before lunch, cutting with 08, check prints with 10, 11 as a table game.",
    "Each part is first laid on its check print. Calipers and diagnosis are for those that miss.",
    "After: the readings and the answer files tell what to open the next class with.",
)
