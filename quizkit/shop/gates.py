"""What stands before a check: needs, a clearance that still holds, waits that double, a talk after two fails."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.arith import ceil
from quizkit.pack.model import Module, Pack
from quizkit.pack.shown import day as day_words
from quizkit.shop.changes import differs
from quizkit.shop.evidence import results_of
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import for_check, scheme_of
from quizkit.shop.terms import stretch
from quizkit.standing.awaiting import sheet_awaited
from quizkit.standing.dates import days_after, end_of_day
from quizkit.standing.events import CheckResult
from quizkit.standing.gate import check_due
from quizkit.standing.record import Record
from quizkit.standing.standing import standing_of
from quizkit.words import _

TALK_AFTER = 2
"""Failed checks in a row before a trainer must have talked it over."""


@dataclass(frozen=True, slots=True)
class CheckGate:
    """Whether a check may start, and if not why; what it would ask. `open_form` is one not handed in yet
    (or 0), which `closes` by itself.
    """

    may: bool
    why: tuple[str, ...]
    until: dt.datetime | None
    open_form: int
    closes: dt.datetime | None
    items: int
    kind: str
    questions: int
    marks: int
    pass_mark: str
    fails: int
    talk_needed: bool


@dataclass(frozen=True, slots=True)
class Fails:
    """The checks failed in a row: how many, when the wait after the last ends, whether a talk is still owed."""

    count: int
    until: dt.datetime | None
    talk_needed: bool
    last: Stored | None


def fails_of(shop: Shop, module: Module, person: int) -> Fails:
    """The checks of a module that a person failed since the last pass, as they count today: one that was marked again
    and passes, or was struck, is no fail.

    The wait doubles with each; a trainer's lifting after the last one ends it. From the second on a talk recorded
    after the last one is asked for.
    """
    skill, run = module.scheme.skill, list[CheckResult]()
    for row in results_of(shop, person, skill):
        run = [] if row.passed else [*run, row]
    if not run:
        return Fails(0, None, False, None)
    last = shop.get("result", run[-1].id.partition(":")[2])
    begins = run[-1].moment or _day_over(shop, last)
    until: dt.datetime | None = begins + stretch(module.scheme.check.wait) * (1 << min(len(run) - 1, 16))
    if shop.rows("lift", form=last["form"]):
        until = None
    talked = any(row["form"] == last["form"] for row in shop.rows("talk", person=person, skill=skill))
    return Fails(len(run), until, len(run) >= TALK_AFTER and not talked, last)


def _day_over(shop: Shop, result: Stored) -> dt.datetime:
    """When the day of a check on paper was over, or it was entered, if that was sooner: its wait runs from there."""
    entered: dt.datetime = result["recorded_at"]
    return min(entered, end_of_day(result["seen_on"], shop.get("form", result["form"])["zone"]))


def open_form(shop: Shop, person: int, skill: str) -> Stored | None:
    """The form that a person began on the screen and has not handed in, or None; paper lies elsewhere."""
    last = shop.row("form", person=person, skill=skill, paper=False)
    return None if last is None or shop.row("result", form=last["id"]) is not None else last


def kind_of_check(shop: Shop, found: Record, module: Module) -> str:
    """Which check is due: a renewal while lapsing, a difference check where a product changed, else the full one."""
    skill, scheme = module.scheme.skill, scheme_of(shop)
    if check_due(found, scheme, skill).form == "renewal":
        return "renewal"
    change = differs(shop, int(found.person), skill)
    if standing_of(found, scheme, skill).clear and change is not None and not change.checked:
        return "difference"
    return "full"


def topics_of(module: Module, kind: str) -> dict[str, int]:
    """How many questions of each topic a check of a kind asks; a difference check is as long as a renewal."""
    check = module.scheme.check
    return dict(check.topics if kind == "full" else check.renewal)


def reasons(shop: Shop, found: Record, module: Module, fails: Fails, now: dt.datetime) -> tuple[str, ...]:
    """Why a check may not start now, each in words; nothing where it may."""
    scheme, skill = scheme_of(shop), module.scheme.skill
    own = standing_of(found, scheme, skill)
    why = [reason.words() for reason in check_due(found, scheme, skill).waits]
    change = differs(shop, int(found.person), skill)
    if own.word == "withdrawn":
        why.append(_("the clearance is withdrawn: talk to the manager"))
    elif sheet_awaited(found, scheme, skill) is not None:
        why.append(_("the check is passed: a trainer's sheet is next"))
    elif own.word == "check passed":
        why.append(_("the check is passed, and so is the sheet"))
    elif own.word == "cleared" and change is not None and change.checked:
        why.append(_("the short check is passed: a trainer's sheet is next"))
    elif own.word == "cleared" and kind_of_check(shop, found, module) == "full":
        opens = days_after(own.until or found.on, -scheme.lapsing)
        why.append(_("cleared: the renewal opens on {day}").format(day=day_words(opens)))
    if fails.until is not None and fails.until > now:
        why.append(_("the wait after the last check is not over"))
    if fails.talk_needed:
        why.append(_("a trainer talks it over with you first"))
    return tuple(why)


def gate(shop: Shop, pack: Pack, module: Module, person: int, found: Record, now: dt.datetime) -> CheckGate:
    """What stands before a person's next check in a module."""
    fails, current = fails_of(shop, module, person), open_form(shop, person, module.scheme.skill)
    kind = current["kind"] if current else kind_of_check(shop, found, module)
    topics = topics_of(module, kind)
    marks = least_marks(module, topics)
    why = () if current else reasons(shop, found, module, fails, now)
    items = shop.rows("form_item", form=current["id"]) if current else []
    return CheckGate(
        may=not why,
        why=why,
        until=fails.until if fails.until and fails.until > now else None,
        open_form=current["id"] if current else 0,
        closes=current["closes_at"] if current else None,
        items=len(items),
        kind=kind,
        questions=sum(topics.values()),
        marks=marks,
        pass_mark=pass_words(module, marks),
        fails=fails.count,
        talk_needed=fails.talk_needed,
    )


def pass_words(module: Module, marks: int) -> str:
    """What has to be reached: '20 of 24'."""
    need = int(ceil(module.scheme.check.pass_mark * marks))
    return _("{need} of {marks}").format(need=need, marks=marks)


def least_marks(module: Module, topics: dict[str, int]) -> int:
    """The fewest marks that a check with these topics can have."""
    total = 0
    for topic, count in topics.items():
        total += sum(sorted(len(one.parts) for one in for_check(module) if one.topic == topic)[:count])
    return total
