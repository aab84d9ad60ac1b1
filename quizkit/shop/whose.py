"""Whose a check is: a paper printed for nobody in particular belongs to whoever's result it came back with."""

from __future__ import annotations

from typing import Any

from quizkit.shop.handle import Shop, Stored


def owned(shop: Shop, form: Stored) -> Stored:
    """A form with its person: for a blank paper the one whose result was entered from it, None before that."""
    if form["person"] is not None:
        return form
    result = shop.row("result", form=form["id"])
    return form if result is None else {**form, "person": result["person"]}


def forms_of(shop: Shop, person: int | None, **equals: Any) -> list[int]:
    """The numbers of the forms that a person has met, blank papers that came back from them included, in their order.

    For None: the blank papers, whoever had them. `equals` narrows it by a column of forms and results ("skill").
    """
    own = [row["id"] for row in shop.rows("form", person=person, **equals)]
    if person is None:
        return own
    returned = [row["form"] for row in shop.rows("result", person=person, **equals)]
    return sorted({*own, *returned})
