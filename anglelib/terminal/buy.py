"""``python -m anglelib buy``: what to buy for a job, on the terminal and as a sheet; and what came, taken onto the rack.

The purchase is kept beside the job as the plan is, so that what came is said by the lines of its sheet. Exit codes: 0, with it everything
can be made; 3, something cannot be bought; 2, the input has to be put right, and nothing was written.
"""

from __future__ import annotations

import argparse
import datetime
import re
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import NoReturn

from anglelib.errors import BenchError, PlanError, StorageError
from anglelib.files.journal import read_journal
from anglelib.files.offers_file import ENDING
from anglelib.files.pairing import plan_home, read_both
from anglelib.files.plan_file import read_plan
from anglelib.files.purchase_file import KeptPurchase, purchase_path, purchases_beside, read_purchase, render_purchase, write_purchase
from anglelib.files.rack_of_plan import name_beside, remember
from anglelib.files.rack_record import change_record
from anglelib.job import Job
from anglelib.lengths import exact, several, writing
from anglelib.lines import Parser, columns, say, wrapped
from anglelib.names import check_text
from anglelib.paper.commands import SHORT, Bar, ask_other_jobs, other_jobs
from anglelib.paper.page import PAPERS, paper
from anglelib.paper.plan_in_hand import noticed
from anglelib.stock.equal_sticks import runs
from anglelib.stock.in_hand import WELCOME, differences
from anglelib.stock.offers import Offer, Offers
from anglelib.stock.purchase_words import held_short
from anglelib.stock.rack import MOST_LOT_CHARACTERS
from anglelib.stock.record import Record
from anglelib.stock.several_jobs import own_parts
from anglelib.stock.to_buy import ToBuy, came, earlier, have_come, still_to_come, taken_back, to_buy, with_what_comes, without_what_came
from anglelib.stock.to_buy_words import CAUTION, ONE_PIECE, example, near_misses, of_section, serves, total
from anglelib.stock.versions import job_version
from anglelib.stock.wording import and_, and_more
from anglelib.storage import shown, write_text
from anglelib.terminal import asked as read_as
from anglelib.terminal.clock import LATE, Clock
from anglelib.terminal.command import seconds_typed
from anglelib.whole_sets import refuse_folder, write_set

PDF_NAME, CSV_NAME = "stock-to-buy.pdf", "stock-to-buy.csv"
ALL = "all"
CHECKING = 4.0
"""Work for the question whether what came is enough, about seconds of one core."""
_COUNTED = re.compile(r"\s*(\d{1,4})\s*[x×*]\s*(.+)", re.IGNORECASE)


def main(arguments: Sequence[str]) -> int:
    """What the words after ``buy`` ask for; raises BenchError for what a person can put right."""
    asked = _read(arguments)
    own = asked.job is not None
    hold, beside = other_jobs(asked, "buy")
    job_file, rack_file = read_as.files(asked.job, asked.rack, asked.together, "buy")
    if asked.out:
        refuse_folder(asked.out)
    job, record = read_both(job_file, rack_file, hold, beside)
    if own and noticed(rack_file).ids:
        job, record = read_both(job_file, rack_file, hold, beside)
    home = plan_home(job_file, beside) if own else ""
    if home and asked.rack:
        remember(home, rack_file)
    with writing(job.unit):
        if asked.lot is not None and not asked.bought:
            raise BenchError("A lot or heat number is that of what came: say what did, too, like --bought 1 --lot H4711.")
        if asked.bought or asked.undo:
            if not own:
                raise BenchError("What came is taken onto your own rack: python -m anglelib buy JOB RACK --bought 1.")
            return _mark(asked, job, record, home, rack_file)
        return _show(asked, job, record, home, rack_file)


def _read(arguments: Sequence[str]) -> argparse.Namespace:
    parser = Parser(
        prog="python -m anglelib buy",
        description="What to buy so that a whole job can be made, over all its sections: least money where the lengths have prices, else least metal; what is proven of it. A job that is held keeps its metal, and nothing is bought for it.",
        epilog="Exit code 0: with it everything can be made; 3: something cannot be bought; 2: something has to be put right first.",
    )
    parser.add_argument("job", nargs="?", help="the job file (TOML); without files the demo kit")
    parser.add_argument("rack", nargs="?", help="the rack file (CSV); once a plan or a purchase is in hand, its own is known")
    parser.add_argument("--offers", default="", metavar="FILE", help=f"the lengths that a supplier has, with prices (CSV; default: RACK{ENDING} beside the rack, where it is there)")
    parser.add_argument("--lengths", default="", metavar="LIST", help=(
        f"lengths that are sold of every section, instead of a list of offers; without both {read_as.SOLD['in']}, of a job in mm {read_as.SOLD['mm']}"))
    parser.add_argument("--within", type=seconds_typed, metavar="SECONDS", help="be done after so many seconds, with what is proven by then")
    parser.add_argument("--anew", action="store_true", help="another purchase in the place of one that is on its way")
    parser.add_argument("--out", default="", metavar="DIR", help=f"print it: {PDF_NAME} and {CSV_NAME} in this folder")
    parser.add_argument("--paper", default="letter", choices=sorted(PAPERS), help="the paper (default: letter, which an A4 printer can print too)")
    ask_other_jobs(parser.add_argument_group("several jobs, one rack"))
    came_ = parser.add_argument_group("what came, taken onto the rack")
    came_.add_argument("--bought", action="append", metavar="LINES", help=(
        'lines of the sheet that have come as they stand there (1, or 1,3, or all); where others came, say how long ("1: 95 7/8, 96", "2: 2 x 72")'))
    came_.add_argument("--lot", metavar="HEAT", help="the lot or heat number of what has come, as its mark or certificate has it; of several say each with its own lines")
    came_.add_argument("--undo", action="append", metavar="LINES", help="a line, or one stick (or row of equal ones) by its id, was said by mistake to have come")
    return parser.parse_args(arguments)


# --- what to buy -----------------------------------------------------------------------------------------------
def _show(asked: argparse.Namespace, job: Job, record: Record, job_file: str, rack_file: str) -> int:
    clock, before = Clock(asked.within), ""
    kept = _kept(job_file, asked.anew)
    lengths, offers = read_as.sold(asked.lengths, asked.offers, rack_file, job.unit)
    on_its_way = kept is not None and not asked.anew and _on_its_way(kept.purchase, record)
    wanted = _wanted(record, job)
    if wanted is None:
        say(f"{job.name}: everything is marked as made; nothing need be bought.")
        return 0
    if on_its_way:
        assert kept is not None
        purchase = kept.purchase
        if asked.lengths or asked.offers:
            raise BenchError(f"Purchase {purchase.number} is on its way, and was made of other offers perhaps: to make another in its place, add --anew.")
    else:
        purchase = _made(wanted, job, record, lengths, offers, clock, kept)
        if not purchase.sections:
            said = [f"{job.name}: nothing need be bought: everything can be made from the rack.", *held_short(purchase.short)]
            say("\n".join(line for sentence in said for line in wrapped(sentence)))
            return 0
        before = _replaced(kept, purchase, record)
        kept = _keep(job_file, purchase, kept, rack_file)
    say("\n".join(_lines(purchase, job, record, offers, f"{_since(purchase, on_its_way)}{before}", on_its_way)))
    if look := _beside(job_file, record):
        say("\n".join(["", *look]))
    if asked.out:
        _print(asked, job, purchase, job_file, kept, rack_file)
    if clock.over:
        say("\n".join(["", *wrapped(LATE)]))
    lacking = [reason.part_id for section in purchase.sections for reason in section.not_for_sale]
    return SHORT if any(job.held_for(part_id) is None for part_id in lacking) else 0


def _wanted(record: Record, job: Job) -> Job | None:
    """What is still to be made, with what is held for others; None where only that is left."""
    wanted = record.still_wanted(job)
    return None if wanted is None or all(job.held_for(part.id) is not None for part in wanted.parts) else wanted


def _kept(job_file: str, anew: bool) -> KeptPurchase | None:
    if not job_file:
        return None
    try:
        return read_purchase(job_file)
    except BenchError:
        if not anew:
            raise
        path = purchase_path(job_file)
        path.replace(path.with_name(path.name + ".unreadable"))  # nothing is thrown away
        return None


def _on_its_way(purchase: ToBuy, record: Record) -> bool:
    """Whether a purchase was printed, or has come in part, and more of it is to come."""
    return bool(purchase.sent or have_come(purchase, record)) and bool(still_to_come(purchase, record))


def _made(wanted: Job, job: Job, record: Record, lengths: Sequence[Fraction], offers: Offers | None, clock: Clock, kept: KeptPurchase | None) -> ToBuy:
    from anglelib.stock.bought_for import bought_for
    from anglelib.stock.planner import plan
    from anglelib.stock.purchase import smallest_purchase

    old = kept.purchase if kept is not None else None
    without = without_what_came(old, record)
    now = _shown("looking what the held jobs need", lambda: bought_for(wanted, without, seconds=clock.left(0.3)))
    found = _shown("looking for what to buy", lambda: smallest_purchase(now.job, record.rack, lengths, offers=offers, seconds=clock.left(0.7)))
    planned = _shown("planning with what is bought", lambda: plan(now.job, found.rack, seconds=clock.left()))
    return to_buy(found, planned, own_parts(job), datetime.date.today().isoformat(), len(record.bought), now.short, earlier(old, record))


def _keep(job_file: str, purchase: ToBuy, kept: KeptPurchase | None, rack_file: str) -> KeptPurchase | None:
    if not job_file:
        return None
    if kept is not None and kept.purchase.number == purchase.number:
        return kept  # it may be printed already
    try:
        return write_purchase(job_file, purchase, kept, name_beside(job_file, rack_file))
    except StorageError as error:
        say(f"The purchase could not be kept: {error} What comes is then written into the rack by hand.", sys.stderr)
        return None


def _print(asked: argparse.Namespace, job: Job, purchase: ToBuy, job_file: str, kept: KeptPurchase | None, rack_file: str) -> None:
    """The sheet and its lines as CSV; a purchase that is printed counts as on its way."""
    from anglelib.drawing.pdf import pdf
    from anglelib.paper.buy_pages import TITLE, bought_csv, buy_pages

    on, today = paper(asked.paper), datetime.date.today()
    pages = buy_pages(purchase, on)
    about = f"{purchase.job_version}, purchase {purchase.number}"
    sheets = [page.sheet(on, job.name, today.isoformat(), n, len(pages), about) for n, page in enumerate(pages, 1)]
    content = pdf(sheets, f"{TITLE}: {job.name}", date=today, subject=total(purchase), bookmarks={0: TITLE})
    listed = bought_csv(purchase)
    rack = name_beside(job_file, rack_file) if job_file else ""
    sent = write_purchase(job_file, replace(purchase, sent=today.isoformat()), kept, rack) if job_file else None
    try:
        written = write_set(Path(asked.out), {PDF_NAME: content, CSV_NAME: (listed if listed.isascii() else "\ufeff" + listed).encode("utf-8")})
    except BaseException:
        if sent is not None:
            write_text(purchase_path(job_file), render_purchase(purchase, rack), sent.source)
        raise
    say("\n".join(["", f"The sheet: {written[0]}", f"Its lines as a table: {written[1]}"]))


def _shown(words: str, do: Callable):
    bar = Bar(sys.stderr)
    try:
        bar(0.0, words)
        return do()
    finally:
        bar.close()


# --- what is said ------------------------------------------------------------------------------------------------
def _lines(purchase: ToBuy, job: Job, record: Record, offers: Offers | None, since: str, on_its_way: bool) -> list[str]:
    here, missing = have_come(purchase, record), still_to_come(purchase, record)
    lines = wrapped(f"{purchase.job_name}: to buy. Purchase {purchase.number}{since}.")
    if on_its_way and purchase.job_version != job_version(own_parts(job)):
        lines += wrapped("The job is another since it was made: whether it is still what is wanted, a new one says (--anew).")
    for section in purchase.sections:
        title = f"{section.section.size}, {section.alloy}"
        shown_ = wrapped(title) if columns() else [title]
        lines += ["", *shown_, "-" * max(map(len, shown_))]
        for line in section.lines:
            money = f", {purchase.money(line.price)} each, {purchase.money(line.sum)}" if line.price is not None else ""
            lines += wrapped(f"{line.number:3}  {line.count} x {exact(line.length)}{money}; for {serves(line)}{_come(line.number, here, missing)}", "", "     ")
        lines += [said for words in (of_section(section, purchase), near_misses(section, offers)) if words for said in wrapped(words, "  ")]
    return [*lines, "", *[line for said in (total(purchase), *held_short(purchase.short), ONE_PIECE, CAUTION) for line in wrapped(said)]]


def _since(purchase: ToBuy, on_its_way: bool) -> str:
    if not on_its_way:
        return ""
    return f" of {purchase.sent or purchase.made_on}, as it is on its way; to make another in its place, add --anew"


def _replaced(kept: KeptPurchase | None, purchase: ToBuy, record: Record) -> str:
    """What a new purchase takes the place of."""
    if kept is None or kept.purchase.number == purchase.number or not still_to_come(kept.purchase, record):
        return ""
    old = kept.purchase
    if not _on_its_way(old, record):
        return f". It takes the place of {old.number}, which was not printed"
    lines = [str(number) for number in still_to_come(old, record)]
    return f". It takes the place of {old.number}, of which line{'s' if len(lines) > 1 else ''} {and_(lines)} had not come: tell the supplier"


def _beside(job_file: str, record: Record) -> list[str]:
    """Other purchases for one of these jobs of which something is still to come."""
    others = [(file, other) for file, other in purchases_beside(job_file) if _on_its_way(other, record)] if job_file else []
    return [line for file, other in others for line in wrapped(
        f"LOOK: purchase {other.number} ({file}), for {other.job_name}, is on its way too: what it is still to bring is not reckoned with here.")]  # fmt: skip


def _come(number: int, here: dict[int, tuple[str, ...]], missing: dict[int, int]) -> str:
    if number not in here:
        return ""
    return f"; come: {and_more(runs(here[number]))}{f', {missing[number]} still to come' if number in missing else ''}"


# --- what came --------------------------------------------------------------------------------------------------
def _mark(asked: argparse.Namespace, job: Job, before: Record, home: str, rack_file: str) -> int:
    kept = read_purchase(home)
    if kept is None and (others := purchases_beside(home)):
        raise PlanError(f"No purchase is kept for {shown(home)}, but {others[0][0]} is: name its jobs as they were named when it was made (--together).")
    if kept is None:
        raise PlanError(f"No purchase is kept for {shown(home)} (there is no {shown(purchase_path(home))}): make it first, with buy JOB RACK{_others(asked)}.")
    lot = _lot(asked.lot)
    purchase, today = kept.purchase, datetime.date.today().isoformat()
    back = [which for words in asked.undo or () for which in _undone(words)]
    given = [found for words in asked.bought or () for found in _bought(words, purchase, job.unit)]

    def change(record: Record) -> Record:
        for which in back:
            record = taken_back(record, purchase, which)
        named = _names_given(rack_file)
        for number, lengths in given:
            if number is None:
                if not purchase.lines:
                    raise PlanError(f"Purchase {purchase.number} has no line: nothing is on its way.")
                if not still_to_come(purchase, record):
                    raise PlanError(f"All of purchase {purchase.number} has come already: to make another, buy JOB RACK.")
                for line in still_to_come(purchase, record):
                    record = came(record, purchase, line, None, today, lot, named)
            else:
                record = came(record, purchase, number, lengths, today, lot, named)
        return record

    said = "; ".join([*(f"not bought {words}" for words in asked.undo or ()), *(f"bought {words}" for words in asked.bought or ())])
    after = change_record(rack_file, change, f"{said}{f', lot {lot}' if lot else ''} (purchase {purchase.number})")
    lines = [*_gone(before, after), *_here(purchase, before, after)]
    lines += _enough(purchase, job, after)
    lines += _plan_in_hand(home, job, after)
    undo = and_more(list(dict.fromkeys(str(one.line) for one in after.bought if one not in before.bought)))
    lines.append(f"Saved in {shown(rack_file)}." + (f" Said by mistake? The same command with --undo {undo.replace(' ', '')}." if undo else ""))
    say("\n".join(line for sentence in lines for line in wrapped(sentence, "", "  ")))
    return 0


def _names_given(rack_file: str) -> list[str]:
    """The names of sticks on the rack as its journal has them, their rows' too: of one that was renamed since the old one is not given again."""
    journal = read_journal(rack_file)
    rows = journal.rows() if journal is not None else {}
    return [name for stick_id, cells in rows.items() if cells is not None for name in (stick_id, cells.get("one_of", "")) if name]


def _lot(text: str | None) -> str:
    """A lot or heat number as it is typed; BenchError for one that cannot be written."""
    if text is None:
        return ""
    if not text.strip():
        raise BenchError("No lot or heat number is given: write it as it stands on the stick, like --lot H4711, or leave --lot out.")
    return check_text(text.strip(), "lot or heat number", BenchError, MOST_LOT_CHARACTERS)


def _others(asked: argparse.Namespace) -> str:
    """The other jobs as they were named."""
    return "".join(f" --{name} {' '.join(found)}" for name, found in (("hold", asked.hold), ("together", asked.together)) if found)


def _undone(words: str) -> list[int | str]:
    return [int(word) if word.isascii() and word.isdigit() and len(word) < 5 else word for word in (w.strip() for w in words.split(",")) if word]


def _bought(words: str, purchase: ToBuy, unit: str) -> list[tuple[int | None, list[Fraction] | None]]:
    """The lines that came, each with the lengths that came (None: as it stands); None for all that is still to come."""
    if words.strip().lower() == ALL:
        return [(None, None)]
    head, colon, rest = words.partition(":")
    if not colon:
        return [(_number(word, purchase), None) for word in words.split(",") if word.strip()] or _no_line(words)
    counts, texts = [], []
    for item in rest.split(","):
        found = _COUNTED.fullmatch(item)
        counts.append(int(found[1]) if found else 1)
        texts.append(found[2] if found else item)
    came_ = several(",".join(texts), unit, what=f"length that came of line {head.strip()[:8]}")
    if not came_ or len(came_) != len(counts) or 0 in counts:
        raise PlanError(f'How long what came is does not stand behind line {head.strip()[:8]}: write it like --bought "{example()}", or with how many before it.')
    return [(_number(head, purchase), [length for count, length in zip(counts, came_) for _ in range(count)])]


def _number(word: str, purchase: ToBuy) -> int:
    word = word.strip()
    if not (word.isascii() and word.isdigit() and len(word) < 5):
        return _no_line(word)
    return purchase.line(int(word)).number


def _no_line(word: str) -> NoReturn:
    raise PlanError(f'"{word[:40]}" is no line of the purchase: write its number as on the sheet, like --bought 1, or --bought all.')


def _gone(before: Record, after: Record) -> list[str]:
    gone = [one.stick_id for one in before.bought if one not in after.bought]
    return [f"Taken back: {and_more(runs(gone))} {'is' if len(gone) == 1 else 'are'} not on the rack."] if gone else []


def _here(purchase: ToBuy, before: Record, after: Record) -> list[str]:
    new = {one.stick_id for one in after.bought} - {one.stick_id for one in before.bought}
    said = []
    for line in purchase.lines:
        ours = [after.rack.stick(name) for name in have_come(purchase, after).get(line.number, ()) if name in new]
        equal: dict[tuple[str, Fraction], list[str]] = {}
        for stick in ours:
            equal.setdefault((stick.one_of or stick.id, stick.length), []).append(stick.id)
        if ours:
            named = and_([f"{and_(runs(ids))} ({exact(length)}{' each' if len(ids) > 1 else ''})" for (_, length), ids in equal.items()])
            lot = f", lot {ours[0].lot}" if ours[0].lot else ""
            said.append(f"Line {line.number}, {line.section.size}: on the rack as {named}{lot}. Where its own mark says {line.alloy}, write the id on it.")
    missing = still_to_come(purchase, after)
    if new and missing:
        said.append(f"Still to come: {and_([f'{count} of line {number}' for number, count in missing.items()])}.")
    return said


def _enough(purchase: ToBuy, job: Job, after: Record) -> list[str]:
    """Whether everything can be made with what came and what is still to come."""
    from anglelib.stock import purchase_words as words
    from anglelib.stock.bought_for import bought_for
    from anglelib.stock.purchase import smallest_purchase

    wanted, rack = _wanted(after, job), with_what_comes(purchase, after)
    if wanted is None or not purchase.lines:
        return []
    now = bought_for(wanted, without_what_came(purchase, after))
    wanted = now.job
    sold = Offers(tuple(Offer(line.section, line.alloy, line.length) for line in purchase.lines))
    found = _shown("looking whether it is enough", lambda: smallest_purchase(wanted, rack, offers=sold, budget=CHECKING))
    known = {reason.part_id: reason.missing for section in purchase.sections for reason in section.not_for_sale}
    lacking = [group for group in found.needing if group.bought or any(reason.missing > known.get(reason.part_id, 0) for reason in group.not_for_sale)]
    if lacking:
        said = [f"{group.section.size}, {group.alloy}: {words.group(group)}" for group in lacking]
        return ["What came is not enough, or not proven to be.", *said, "To buy the rest: buy JOB RACK --anew."]
    when = "once the rest has come" if still_to_come(purchase, after) else "now"
    return [f"Everything{f' but {and_(list(known))}' if known else ''} can be made from the rack {when}.", *held_short(now.short)]


def _plan_in_hand(home: str, job: Job, after: Record) -> list[str]:
    """What the plan that is kept does not know of."""
    try:
        kept = read_plan(home, job)
    except BenchError:
        return []
    news = [one.about for one in differences(kept.hand, job, after) if one.id in WELCOME] if kept is not None else []
    return [f"Plan {kept.hand.number} is in hand and was made without {and_more(news)}: to plan with what came, plan JOB RACK --anew."] if kept is not None and news else []
