"""Questions in front of their trainer: how they were answered, and each with its key."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, request

from quizkit import shop as deeds
from quizkit.web import answers
from quizkit.web.bench import TEACHING, me, now, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.typed import whole, words

area = Blueprint("questions", __name__)


@area.get("/questions")
@signed_in(*TEACHING)
def modules() -> Any:
    """The modules whose questions can be looked at."""
    return show("questions.html", here="/office", modules=deeds.current_pack(shop()).modules)


@area.get("/questions/<skill>")
@signed_in(*TEACHING)
def statistics(skill: str) -> Any:
    """How the questions of a skill's check were answered: words where people are few, figures and a chart above."""
    view = deeds.question_statistics(shop(), me(), skill, now=now())
    return show("statistics.html", here="/office", view=view)


@area.get("/questions/<module>/<question>")
@signed_in(*TEACHING)
def preview(module: str, question: str) -> Any:
    """A question with any of its numbers: key, slips, feedback and working; an answer can be tried, nothing is kept."""
    name, number = f"{module}/{question}", whole(request.args, "variant")
    view = deeds.preview(shop(), me(), name, number, now=now())
    typed = answers.typed(request.args.to_dict(flat=False), view.question.parts)
    if any(typed.values()):
        view = deeds.preview(shop(), me(), name, number, now=now(), typed=typed)
    filled = {part.name: {} if part.kind == "number" else answers.boxes(part) for part in view.question.parts}
    return show("preview.html", here="/office", view=view, filled=filled)


@area.route("/questions/<module>/<question>/earlier", methods=["GET", "POST"])
@signed_in(*TEACHING)
def earlier(module: str, question: str) -> Any:
    """What the question as it is now would change in the checks handed in; applied with one press, signed where it
    lowers a result.
    """
    name = f"{module}/{question}"
    done = None
    if request.method == "POST":
        sign = words(request.form, "reason", 2000) if request.form.get("lower") == "yes" else ""
        if request.form.get("lower") == "yes" and not sign:
            view = deeds.correction(shop(), me(), name, now=now())
            return show("earlier.html", 409, here="/office", view=view, done=None, fault=True)
        done = deeds.remark_question(shop(), me(), name, deeds.current_pack(shop()), now=now(), sign=sign)
    view = deeds.correction(shop(), me(), name, now=now())
    return show("earlier.html", here="/office", view=view, done=done, fault=False)
