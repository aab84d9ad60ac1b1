"""`Figure:` lines: a figure's name and what it is drawn from."""

from __future__ import annotations

import re

from quizkit.authoring.nearest import did_you_mean
from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Stretch
from quizkit.authoring.spans import code_spans
from quizkit.authoring.texts import Names, kind_in, read_formula
from quizkit.formula.bounds import constant
from quizkit.pack.figures import FIGURES
from quizkit.pack.nodes import Element
from quizkit.units import NUMBER, unit
from quizkit.words import _

_CALL = re.compile(r"\s*([A-Za-z_][A-Za-z0-9_]*)\s*\((.*)\)\s*", re.S)


def read_figure(notes: Notes, body: Stretch, names: Names | None) -> Element | None:
    """The element of a figure: `figure` with `name` and one `arg` a parameter; None, and told.

    With `names` its arguments are formulas over the givens, where a plain number is in the figure's own unit;
    without, they are plain numbers.
    """
    spans, _stray = code_spans(body)
    if len(spans) != 1 or body.text.strip() != body.text[spans[0].start : spans[0].end]:
        notes.tell("K01", body, _("a figure stands alone, in backticks"), _("write it like `pressure_gauge(85, 120)`"))
        return None
    inner = spans[0].inner
    found = _CALL.fullmatch(inner.text)
    if found is None:
        notes.tell("K01", inner, _("this is no figure"), _("write it like `pressure_gauge(85, 120)`"))
        return None
    name = found[1]
    if name not in FIGURES:
        what = _("there is no figure '{name}'").format(name=name[:60])
        notes.tell("K02", inner.cut(found.start(1), found.end(1)), what, did_you_mean(name, FIGURES))
        return None
    arguments = _arguments(inner.cut(found.start(2), found.end(2)))
    wanted = FIGURES[name]
    if len(arguments) != len(wanted):
        listed = ", ".join(parameter for parameter, _unit in wanted)
        what = _("'{name}' is drawn from {n} values").format(name=name, n=len(wanted))
        notes.tell("K01", inner, what, _("they are, in this order: {words}").format(words=listed or _("none")))
        return None
    texts = [_argument(notes, place, symbol, names) for place, (_p, symbol) in zip(arguments, wanted, strict=True)]
    good = [text for text in texts if text is not None]
    if len(good) < len(texts):
        return None
    return Element("figure", (("name", name), *(("arg", text) for text in good)))


def _arguments(inside: Stretch) -> list[Stretch]:
    """What stands between the commas that are not within parentheses."""
    if not inside.text.strip():
        return []
    pieces, depth, start = [], 0, 0
    for place, sign in enumerate(inside.text):
        depth += (sign == "(") - (sign == ")")
        if sign == "," and depth == 0:
            pieces.append(inside.cut(start, place).strip())
            start = place + 1
    return [*pieces, inside.cut(start).strip()]


def _argument(notes: Notes, place: Stretch, symbol: str, names: Names | None) -> str | None:
    formula = read_formula(notes, place)
    if formula is None:
        return None
    if constant(formula.tree) is not None:
        return formula.text
    if names is None:
        notes.tell("K01", place, _("outside a question a figure is drawn from plain numbers"), _("write a number"))
        return None
    shown = [name for name in formula.names if name in names.parts]
    if shown:
        notes.tell(
            "Q14",
            place,
            _("'{name}' would show the answer before it is given").format(name=shown[0]),
            _("draw a given"),
        )
        return None
    kind = kind_in(notes, place, formula, names, names.kinds)
    wanted = unit(symbol).kind
    if kind is None:
        return None
    if kind not in (wanted, NUMBER):
        what = _("this is {kind}, the figure draws {wanted}").format(kind=str(kind), wanted=str(wanted))
        notes.tell("Q21", place, what, _("draw a value of that kind"))
        return None
    return formula.text
