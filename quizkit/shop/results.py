"""The result of a check: by topic, with the working of what went wrong, and what comes next."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from fractions import Fraction

from quizkit.arith import ceil, nearest
from quizkit.pack.model import Module, Pack
from quizkit.pack.variant import Graded
from quizkit.scoring.marks import show_mark
from quizkit.shop import asking
from quizkit.shop.appeals import AppealView, appeals_about
from quizkit.shop.asking import QuestionView, ToldPart
from quizkit.shop.corrections import as_marked
from quizkit.shop.evidence import results_of, row_id
from quizkit.shop.forms import Item, form_of, module_of_form, result_of
from quizkit.shop.gates import Fails, fails_of
from quizkit.shop.handing import close_if_overdue, critical_missed
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import lesson_with, pack_of
from quizkit.shop.people import may_see, person_view
from quizkit.shop.refusal import Refusal
from quizkit.standing.events import CheckResult
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class TopicResult:
    """The marks of one topic; `word` is "solid" at the pass mark or above, else "shaky"."""

    topic: str
    title: str
    marks: str
    out_of: int
    word: str


@dataclass(frozen=True, slots=True)
class Missed:
    """A question that cost marks: what was typed, what it was, how it is worked, where it is taught.

    `critical` is one that fails the check by itself.
    """

    item: int
    critical: bool
    question: QuestionView
    parts: tuple[ToldPart, ...]
    working_html: str
    lesson: str
    lesson_title: str


@dataclass(frozen=True, slots=True)
class ResultView:
    """A check that was handed in, as it counts today. `next` says in words what comes now, `marked_again` what a
    corrected question changed since; what was `missed` begins with the critical ones.
    """

    form: int
    person: int
    name: str
    skill: str
    title: str
    kind: str
    passed: bool
    marks: str
    out_of: int
    pass_mark: str
    share: str
    critical_missed: bool
    handed_in: dt.datetime
    by_itself: bool
    topics: tuple[TopicResult, ...]
    missed: tuple[Missed, ...]
    next: str
    wait_until: dt.datetime | None
    talk_needed: bool
    appealable: bool
    appeals: tuple[AppealView, ...]
    help: str
    helper: str
    marked_again: tuple[str, ...]


def result(shop: Shop, viewer: int, form: int, *, now: dt.datetime) -> ResultView:
    """The result of a check, for the person themselves, a trainer or a manager. Refuses while it is open."""
    stored = form_of(shop, form)
    may_see(shop, viewer, stored["person"])
    close_if_overdue(shop, stored, now)
    row = result_of(shop, form)
    if row is None:
        raise Refusal(_("This check is still open"), _("go on with it and hand it in"))
    module, pack = module_of_form(shop, stored), pack_of(shop, stored["pack"])
    graded = [(one, one.graded()) for one in as_marked(shop, stored)[0].values()]
    marks, out_of = sum((each.marks for _one, each in graded), Fraction(0)), int(row["out_of"])
    missed = [_missed(pack, module, one, each) for one, each in graded if not each.right]
    counts, name = _as_it_counts(shop, row), person_view(shop, stored["person"]).name
    fails = fails_of(shop, module, stored["person"])
    waits = fails.until if fails.last is not None and fails.last["id"] == row["id"] else None
    return ResultView(
        form=form,
        person=stored["person"],
        name=name,
        skill=stored["skill"],
        title=module.scheme.title,
        kind=stored["kind"],
        passed=counts.passed if counts else row["passed"],
        marks=show_mark(marks, pack.scheme.mark),
        out_of=out_of,
        pass_mark=_("{need} of {marks}").format(need=int(ceil(Fraction(row["pass_mark"]) * out_of)), marks=out_of),
        share=f"{int(nearest(100 * marks / out_of, 1)) if out_of else 0} %",
        critical_missed=counts.critical_missed if counts else row["critical_missed"],
        handed_in=row["recorded_at"],
        by_itself=row["by_itself"],
        topics=_topics(graded, pack, Fraction(row["pass_mark"])),
        missed=tuple(sorted(missed, key=lambda one: not one.critical)),
        next=_next(counts, module, fails) if viewer == stored["person"] else _next_of(counts, module, fails, name),
        wait_until=waits if waits is not None and waits > now else None,
        talk_needed=fails.talk_needed,
        appealable=viewer == stored["person"],
        appeals=appeals_about(shop, form=form),
        help=stored["help"] or "",
        helper=stored["helper"],
        marked_again=tuple(_again(one, pack) for one in shop.rows("remark", form=form)),
    )


def _as_it_counts(shop: Shop, row: Stored) -> CheckResult | None:
    """A result with its corrections worked in; None where it was struck."""
    name = row_id("result", row)
    return next((one for one in results_of(shop, row["person"], row["skill"]) if one.id == name), None)


def _again(row: Stored, pack: Pack) -> str:
    text = _("question {item} was marked again: {old} became {new}")
    old, new = (show_mark(Fraction(row[column]), pack.scheme.mark) for column in ("old_marks", "new_marks"))
    return text.format(item=row["item"], old=old, new=new)


def _topics(graded: list[tuple[Item, Graded]], pack: Pack, pass_mark: Fraction) -> tuple[TopicResult, ...]:
    totals: dict[str, tuple[Fraction, int]] = {}
    for one, each in graded:
        marks, out_of = totals.get(one.variant.question.topic, (Fraction(0), 0))
        totals[one.variant.question.topic] = (marks + each.marks, out_of + each.out_of)
    return tuple(
        TopicResult(
            topic,
            topic.replace("-", " "),
            show_mark(marks, pack.scheme.mark),
            out_of,
            "solid" if marks >= pass_mark * out_of else "shaky",
        )
        for topic, (marks, out_of) in totals.items()
    )


def _missed(pack: Pack, module: Module, one: Item, graded: Graded) -> Missed:
    lesson = lesson_with(module, one.variant.question.id)
    return Missed(
        item=one.number,
        critical=critical_missed(one),
        question=asking.question_view(pack, one.variant, one.typed),
        parts=asking.told_parts(one.variant, graded, one.typed),
        working_html=graded.working,
        lesson=lesson.id if lesson else "",
        lesson_title=lesson.title if lesson else "",
    )


def _next(row: CheckResult | None, module: Module, fails: Fails) -> str:
    if row is None:
        return _("This check was struck from the record: it counts no more.")
    if row.passed:
        return (
            _("Now a trainer watches you do it: ask for the sheet.") if module.scheme.practical else _("You are done.")
        )
    text = _("Read again what went wrong below, and practice it.")
    if fails.talk_needed:
        return text + " " + _("Then a trainer talks it over with you before the next check.")
    return text


def _next_of(row: CheckResult | None, module: Module, fails: Fails, name: str) -> str:
    """The same for whoever looks at somebody else's check."""
    if row is None:
        return _("This check was struck from the record: it counts no more.")
    if row.passed:
        return _("Next a trainer watches them do it, on a sheet.") if module.scheme.practical else _("They are done.")
    if fails.talk_needed:
        return _("Talk this over with {name} and write it down. Until then no new check starts.").format(name=name)
    return _("Next they read and practice what went wrong below.")
