"""Questions in front of their trainer: how they were answered."""

from __future__ import annotations

from typing import Any

from flask import Blueprint

from quizkit import shop as deeds
from quizkit.web.bench import TEACHING, me, now, shop, show
from quizkit.web.doors import signed_in

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
