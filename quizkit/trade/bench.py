"""A sum worked at the bench on its own numbers, with working, words and refusals.

At the bench more is refused than in a lesson: values that no scale, gauge or tape can show are read again first.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from quizkit.arith import ArithError, Num
from quizkit.trade.declare import Sum
from quizkit.trade.typed import Typed, read
from quizkit.trade.working import result_text, result_unit, steps
from quizkit.units import MONEY, Unit, UnitError, unit
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class Bench:
    """What the bench is told: either a result with its working, or why there is no number."""

    sum: Sum
    result: str = ""
    """The result in words and digits; empty where the sum was refused or a question is still open."""
    value: Num = None
    """The result in the coherent base, unrounded; None where there is none."""
    steps: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    """What the result means, in words."""
    refused: str = ""
    """Why there is no number, and what to do instead."""
    open: tuple[str, ...] = ()
    """Questions that come first, since no number tells them; answer each in `answers`."""
    cautions: tuple[str, ...] = ()


def read_all(one: Sum, texts: Sequence[str]) -> tuple[Typed, ...]:
    """Read the typed values of a sum in order.

    Raises KindError for a wrong count, UnitError (naming the argument) for what cannot be read.
    """
    one.count(len(texts))
    values = []
    for index, text in enumerate(texts):
        name, word = one.argument(index)
        try:
            values.append(read(word, text))
        except UnitError as error:
            raise UnitError(f"{name}: {error.what}", error.mend, error.nearest) from None
    return tuple(values)


def bench(one: Sum, values: Sequence[Typed], *, into: str = "", answers: Sequence[bool] = ()) -> Bench:
    """Work a sum out for typed values; `into` asks for a unit, `answers` are yes or no to the sum's questions in order.

    Raises KindError for values of the wrong kind or count, UnitError for an `into` of another kind than the result.
    """
    kind = one.kind([value.kind for value in values])
    told = unit(into) if into else None
    if told is not None and told.kind != kind:
        what = _("the result is {kind}, and '{unit}' is no unit of that").format(kind=kind, unit=into)
        raise UnitError(what, _("leave the unit out, or name one of that kind"))
    cautions = tuple(_(text) for text in one.cautions)
    if len(answers) < len(one.asks):
        return Bench(one, open=tuple(_(asked.text) for asked in one.asks), cautions=cautions)
    words = next((_(asked.words) for asked, yes in zip(one.asks, answers, strict=False) if yes), None)
    try:
        words = words or _misread(one, values)
        result = None if words else one.function(*(value.value for value in values))
    except ArithError as error:
        words = str(error)
    if words:
        return Bench(one, refused=words, cautions=cautions)
    return _told(one, values, result, told, cautions)


def _told(one: Sum, values: Sequence[Typed], result: Num, told: Unit | None, cautions: tuple[str, ...]) -> Bench:
    kind = one.kind([value.kind for value in values])
    target = told or result_unit(one, kind, values)
    text, rounded = result_text(result, target)
    return Bench(
        one,
        result=f"≈ {text}" if rounded else text,
        value=result,
        steps=steps(one, values, result, kind, target),
        says=tuple(_(remark.words) for remark in one.says if remark.when(result)),
        cautions=cautions,
    )


def _misread(one: Sum, values: Sequence[Typed]) -> str | None:
    """Why these values cannot have been read right, in words; None where they can."""
    for index, value in enumerate(values):
        if not value.kind.special and value.kind != MONEY and value.value < 0:
            return _("{name} is below 0: read it again.").format(name=one.argument(index)[0].replace("_", " "))
    numbers = [value.value for value in values]
    return next((_(sense.words) for sense in one.senses if sense.when(*numbers)), None)
