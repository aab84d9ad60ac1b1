"""What is said to whoever gave an answer: the words of a slip or an option, and those of the finer verdicts."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from html import escape

from quizkit.pack.model import Choice, Match, Nodes, Numeric, Order
from quizkit.scoring.marks import show_mark
from quizkit.scoring.verdict import Verdict
from quizkit.words import _

Text = Callable[[Nodes], str]
"""Renders a text of the question as HTML."""


def spoken(
    part: Numeric | Choice | Order | Match, verdict: Verdict | Fraction, typed: str, order: Sequence[int], text: Text
) -> str:
    """The feedback to an answer as HTML, empty where there is nothing to say.

    `verdict` is the mark itself for an order or pairs; `order` holds the authored places of a choice's options as
    they are shown.
    """
    if isinstance(verdict, Fraction):
        return "" if verdict == 1 else _paragraph(_share(part, verdict))
    if isinstance(part, Choice):
        return _of_choice(part, verdict, typed, order, text)
    assert isinstance(part, Numeric)
    return _of_number(part, verdict, text)


def _of_number(part: Numeric, verdict: Verdict, text: Text) -> str:
    said = [text(part.slips[place].feedback) for place in verdict.slips]
    if len(said) > 1:
        said = [_("Either: {words}").format(words=said[0]), *(_("Or: {words}").format(words=one) for one in said[1:])]
    note = _note(verdict)
    return "".join(f"<p>{one}</p>" for one in said) + (_paragraph(note) if note else "")


def _note(verdict: Verdict) -> str:
    match verdict.note:
        case "rounded finer":
            return _("More figures than asked, and right.")
        case "carried" if verdict.outcome == "right":
            return _("Right with your own earlier value. One mistake costs one mark.")
        case "carried":
            return _("Worked with your own earlier value.")
        case "power of ten":
            return _moved(verdict)
        case "other unit":
            return _("It would be right in {units}. Look at the unit beside the box.").format(units=_fitting(verdict))
        case "rounded too far":
            return _("The way is right, but it is rounded too far.")
        case _:
            return ""


def _moved(verdict: Verdict) -> str:
    size = 10 ** abs(verdict.power)
    words = _("It is {size} times too large.") if verdict.power > 0 else _("It is {size} times too small.")
    said = words.format(size=f"{size:,}".replace(",", " "))
    if verdict.units:
        said += " " + _("It would be right in {units}.").format(units=_fitting(verdict))
    return said


def _fitting(verdict: Verdict) -> str:
    """The units in which the typed number would be right; a plain number has no symbol, so it is called by name."""
    return _(" or ").join(symbol or _("plain numbers") for symbol in verdict.units)


def _of_choice(part: Choice, verdict: Verdict, typed: str, order: Sequence[int], text: Text) -> str:
    if verdict.outcome == "unread":
        return ""
    chosen = [order[int(number) - 1] for number in re.findall(r"[0-9]+", typed)]
    said = [text(part.options[place].feedback) for place in chosen if part.options[place].feedback]
    if verdict.note == "carried":
        said.append(escape(_note(verdict)))
    if verdict.outcome == "wrong" and not said and part.several:
        said.append(escape(_("All the right ones, and only those, earn the mark.")))
    return "".join(f"<p>{one}</p>" for one in said)


def _share(part: Numeric | Choice | Order | Match, mark: Fraction) -> str:
    if isinstance(part, Order):
        count = len(part.items) * (len(part.items) - 1) // 2
        words = _("{right} of {all} pairs of lines stand in the right order.")
    else:
        assert isinstance(part, Match)
        count = len(part.pairs)
        words = _("{right} of {all} pairs are right.")
    return words.format(right=show_mark(mark * count), all=count)


def _paragraph(words: str) -> str:
    return f"<p>{escape(words)}</p>"
