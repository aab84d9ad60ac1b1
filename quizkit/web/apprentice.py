"""Today's ticket, modules and lessons, practice, and the check."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from flask import Blueprint, Response, request

from quizkit import shop as deeds
from quizkit.shop import Asked, Press, QuestionView, Refusal
from quizkit.web import answers, reckon
from quizkit.web.bench import TEACHING, me, now, onward, person, said, shop, show
from quizkit.web.doors import Kept, put_back, signed_in

area = Blueprint("apprentice", __name__)


def address(press: Press | None) -> str:
    """Where a press of the ticket leads."""
    if press is None:
        return ""
    return {
        "check": f"/check/form/{press.form}" if press.form else f"/module/{press.skill}#check",
        "practice": f"/module/{press.skill}#practice",
        "lesson": f"/lesson/{press.lesson}",
        "result": f"/check/form/{press.form}/result",
        "sheet": "/sheets",
    }.get(press.kind, f"/module/{press.skill}")


@area.get("/")
@signed_in()
def today() -> Any:
    """Today's ticket; for who teaches, what waits for them comes before what they learn themselves."""
    who = person()
    others = deeds.waiting(shop(), me(), now=now()) if who is not None and who.role in TEACHING else None
    unmarked = deeds.unmarked(shop()) if others else 0
    view = deeds.today(shop(), me(), now=now())
    return show("today.html", here="/", today=view, others=others, unmarked=unmarked, address=address)


@area.get("/module/<module>")
@signed_in()
def module(module: str) -> Any:
    """One module: lessons, practice, and the check with why it waits."""
    return show("module.html", view=deeds.module_view(shop(), me(), module, now=now()))


@area.get("/lesson/<module>/<lesson>")
@signed_in()
def lesson(module: str, lesson: str) -> Any:
    """A lesson with its cautions, pictures and questions in place."""
    view = deeds.lesson_view(shop(), me(), module, f"{module}/{lesson}", now=now())
    return show("lesson.html", view=view)


@area.post("/lesson/<module>/<lesson>/read")
@signed_in()
def lesson_read(module: str, lesson: str) -> Any:
    """Mark a lesson as read and go on."""
    name = f"{module}/{lesson}"
    deeds.lesson_read(shop(), me(), module, name, now=now())
    after = deeds.lesson_view(shop(), me(), module, name, now=now()).after
    return onward(f"/lesson/{after}" if after else f"/module/{module}")


@area.get("/lesson/<module>/image/<path:name>")
@signed_in()
def lesson_image(module: str, name: str) -> Any:
    """An image beside a lesson."""
    data, mime = deeds.lesson_image(shop(), module, name)
    return Response(data, mimetype=mime)


@area.post("/practise/<skill>")
@signed_in()
def practise(skill: str) -> Any:
    """Draw the next question of a skill, or the one that was asked for."""
    asked = deeds.practise(shop(), me(), skill, now=now(), question=request.form.get("question", ""))
    return onward(f"/practice/{asked.draw}")


@area.route("/practice/<draw>", methods=["GET", "POST"])
@signed_in()
def practice(draw: str) -> Any:
    """A practice question; after the answer the verdict, the feedback and the working."""
    view = deeds.practice_view(shop(), me(), draw, now=now())
    if request.method == "POST":
        given = answers.typed(request.form.to_dict(flat=False), view.question.parts)
        pocket = reckon.pressed(request.form)
        if pocket is not None and isinstance(view, Asked):
            kept = replace(view, question=deeds.with_typed(view.question, given))
            return show("practice.html", view=kept, asked=True, filled=_filled(kept.question), address=address,
                        pocket=pocket)  # fmt: skip
        told = deeds.answer_practice(shop(), me(), draw, given, now=now())
        if told.unread:
            return show("practice.html", 422, view=told, asked=True, filled=_filled(told.question), address=address)
        return onward(f"/practice/{draw}")
    asked = isinstance(view, Asked)
    return show("practice.html", view=view, asked=asked, filled=_filled(view.question), address=address)


@area.post("/check/<skill>")
@signed_in()
def start_check(skill: str) -> Any:
    """Start the check of a skill, or go on with the open one."""
    form = deeds.start_check(shop(), me(), skill, now=now())
    return onward(f"/check/form/{form}")


@area.get("/check/form/<int:form>")
@signed_in()
def go_on(form: int) -> Any:
    """Back to the question that was left, or to the list."""
    item = deeds.next_item(shop(), me(), form, now=now())
    count = len(deeds.check_list(shop(), me(), form, now=now()).rows)
    return onward(f"/check/form/{form}/{item}" if item <= count else f"/check/form/{form}/list")


@area.route("/check/form/<int:form>/<int:item>", methods=["GET", "POST"])
@signed_in()
def check_item(form: int, item: int) -> Any:
    """One question of a check; nothing is told but that the answer was written down."""
    if request.method == "POST":
        pocket = reckon.pressed(request.form)
        if pocket is not None:
            return _pocket(form, item, pocket)
        return _answered(form, item)
    view = deeds.check_item(shop(), me(), form, item, now=now())
    return show("check.html", view=view, filled=_filled(view.question))


def _answered(form: int, item: int) -> Any:
    """Write an answer down and go on: to the next one without an answer, or wherever was pressed.

    Whoever goes elsewhere takes nothing along that is lost: what stands in the boxes is written down as it is.
    """
    sent = request.form.to_dict(flat=False)
    written = deeds.answer_item(shop(), me(), form, item, partial(answers.typed, sent), now=now())
    then = request.form.get("then", "")
    if written.unread and not then:
        view = deeds.check_item(shop(), me(), form, item, now=now())
        if any(answers.typed(sent, view.question.parts).values()):
            return onward(f"/check/form/{form}/{item}")
        told = replace(view, question=deeds.with_typed(view.question, {}, dict(written.unread)))
        return show("check.html", 422, view=told, filled=_filled(told.question))
    where = {"list": written.items + 1, "before": item - 1, "later": item + 1}.get(then, written.next)
    return onward(f"/check/form/{form}/{where if 0 < where <= written.items else 'list'}")


@area.get("/check/form/<int:form>/list")
@signed_in()
def check_list(form: int) -> Any:
    """All answers before handing in, critical numbers read back."""
    return show("check_list.html", view=deeds.check_list(shop(), me(), form, now=now()), fault="")


@area.post("/check/form/<int:form>/hand-in")
@signed_in()
def hand_in(form: int) -> Any:
    """Hand the check in; twice is once."""
    try:
        deeds.hand_in(shop(), me(), form, now=now(), sure=request.form.get("sure") == "yes")
    except Refusal as error:
        view = deeds.check_list(shop(), me(), form, now=now())
        return show("check_list.html", 409, view=view, fault=said(error))
    return onward(f"/check/form/{form}/result")


@area.get("/check/form/<int:form>/result")
@signed_in()
def result(form: int) -> Any:
    """The result by topic, with the working of what went wrong."""
    view = deeds.result(shop(), me(), form, now=now())
    who = person()
    return show("result.html", view=view, own=who is not None and who.person == view.person)


@area.post("/appeal")
@signed_in()
def appeal() -> Any:
    """Ask for a second look at a result or a sheet, by somebody else."""
    about = request.form.get("about", "")
    deeds.appeal(shop(), me(), about, request.form.get("words", ""), now=now())
    return onward(f"/check/form/{about.removeprefix('form:')}/result" if about.startswith("form:") else "/")


@put_back(r"/practice/(\d{1,12})")
def _practice_again(draw: str, fields: Kept) -> Any:
    """A practice question that a session ran out on, with what was typed; answered meanwhile, its result."""
    view = deeds.practice_view(shop(), me(), draw, now=now())
    if not isinstance(view, Asked):
        return onward(f"/practice/{draw}")
    kept = replace(view, question=_typed_again(view.question, fields))
    return show("practice.html", view=kept, asked=True, filled=_filled(kept.question), address=address, back=True)


@put_back(r"/check/form/(\d{1,12})/(\d{1,3})")
def _check_again(form: str, item: str, fields: Kept) -> Any:
    """A question of a check that a session ran out on, with what was typed in its boxes."""
    view = deeds.check_item(shop(), me(), int(form), int(item), now=now())
    kept = replace(view, question=_typed_again(view.question, fields))
    return show("check.html", view=kept, filled=_filled(kept.question), back=True)


def _typed_again(view: QuestionView, fields: Kept) -> QuestionView:
    sent: dict[str, list[str]] = {}
    for name, value in fields:
        sent.setdefault(name, []).append(value)
    return deeds.with_typed(view, answers.typed(sent, view.parts))


def _pocket(form: int, item: int, pocket: reckon.Pocket) -> Any:
    """The question of a check with the result of the calculator, and with what was typed so far in its boxes."""
    view = deeds.check_item(shop(), me(), form, item, now=now())
    given = answers.typed(request.form.to_dict(flat=False), view.question.parts)
    kept = replace(view, question=deeds.with_typed(view.question, given))
    return show("check.html", view=kept, filled=_filled(kept.question), pocket=pocket)


def _filled(view: QuestionView) -> dict[str, dict[int, str]]:
    return {part.name: {} if part.kind == "number" else answers.boxes(part) for part in view.parts}
