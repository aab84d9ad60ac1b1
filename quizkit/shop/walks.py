"""Which numbers a person meets next in a question: practice, check and paper share one walk."""

from __future__ import annotations

import datetime as dt
from collections import Counter

from quizkit.pack.model import Pack, Question
from quizkit.pack.variant import numbers
from quizkit.quiz.walk import next_variant
from quizkit.shop.asking import question_hash, stands_on
from quizkit.shop.handle import Shop
from quizkit.shop.whose import forms_of


def next_for(shop: Shop, pack: Pack, person: int | None, question: Question, day: dt.date) -> int | None:
    """The next variant of a question for a person; None where the shop stocks nothing that any variant asks about.

    Blank papers, for nobody in particular (`person` None), have a walk of their own: no two are alike until all
    variants are used.
    """
    key = question_hash(question)
    forms = forms_of(shop, person)
    used = Counter(row["variant"] for row in shop.rows("draw", person=person, question_hash=key))
    used += Counter(row["variant"] for row in shop.rows("form_item", form=forms, question_hash=key))
    return next_variant(
        str(person), key, numbers(question), used, lambda number: stands_on(pack, question, number, day)
    )
