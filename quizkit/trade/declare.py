"""What a sum of the trade is, and `@sum`, which declares one.

A body is written once: it sees values in the coherent base (m, kg, s, K, whole currency, turns, ppm, dBA; a share is a
fraction; a ratio has `.a` and `.b`) as exact fractions, floats or arrays, and does not branch on them. What it must not
answer is declared as a refusal beside it, so that arrays and single numbers refuse alike.
"""

import inspect
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from quizkit.arith import ArithError, Num, is_array
from quizkit.trade.kinds import argument_kind, gives_kind
from quizkit.units import Kind, KindError
from quizkit.words import _

Body = Callable[..., Num]


def _has_array(value: Num) -> bool:
    """Whether a value is an array, or a ratio of arrays."""
    return is_array(value, getattr(value, "a", 0), getattr(value, "b", 0))


def N_(text: str) -> str:
    """Marks a text for the catalogue where it is declared; it is looked up when it is shown."""
    return text


class Refused(ArithError):
    """A sum that must not be answered for these values; the text says why and what to do instead."""


@dataclass(frozen=True, slots=True)
class Remark:
    """Words that hold where `when` gives 1: of the values for a refusal or misreading, of the result for a meaning."""

    when: Body
    words: str


@dataclass(frozen=True, slots=True)
class Question:
    """Something that no number tells: where the bench answers yes, the sum ends in `words` and gives no number."""

    text: str
    words: str


@dataclass(frozen=True, slots=True)
class Sum:
    """One sum of the trade. Texts are English and pass through the catalogue when they are shown."""

    name: str
    title: str
    """What it tells, in one line."""
    formula: str
    """As a person writes it, with the names of the arguments."""
    takes: tuple[tuple[str, str], ...]
    """(argument, kind word) in order, the repeated group once."""
    gives: str
    """The kind word of the result."""
    body: Body
    """The bare arithmetic, without refusals."""
    repeats: int = 0
    """How many of the last arguments repeat as a group; 0 for none."""
    irrational: bool = False
    """Comes out as a float (π, a root, a broken power): an answer needs a tolerance."""
    dated: bool = False
    """Takes or gives `datetime.date`, one at a time, no arrays."""
    stepped: Fraction | None = None
    """Rounds, counts up or picks a class inside, so that its result is a whole multiple of this: near a step an array
    of floats may land on the other side."""
    subtracts: bool = False
    """Takes one value from another inside: what floats leave of equals may be 0 in truth, or a division by it."""
    cautions: tuple[str, ...] = ()
    source: str = ""
    refusals: tuple[Remark, ...] = ()
    """Where the sum must not be answered at all; holds in lessons and at the bench, for arrays too."""
    senses: tuple[Remark, ...] = ()
    """Where values typed at the bench must have been read wrong; lessons may use them in wrong methods."""
    says: tuple[Remark, ...] = ()
    """What a result means, in words."""
    asks: tuple[Question, ...] = ()
    works: tuple[tuple[str, ...], ...] = ()
    """Units that the working is done in: for metric values, then for inches where that differs; () is as typed."""
    into: tuple[str, ...] = ()
    """Units that a result is told in if nobody asks: for metric values, then for inches where that differs."""

    def argument(self, index: int) -> tuple[str, str]:
        """(name, kind word) of the argument at a place, counting from 0, repeats unrolled; IndexError past the end."""
        if index < len(self.takes) or not self.repeats:
            return self.takes[index]
        first = len(self.takes) - self.repeats
        return self.takes[first + (index - first) % self.repeats]

    def kind(self, argument_kinds: Sequence[Kind]) -> Kind:
        """The kind of the result for arguments of these kinds.

        Raises KindError (with the place of the argument) for a wrong count or kind.
        """
        self.count(len(argument_kinds))
        arguments = [self.argument(index) for index in range(len(argument_kinds))]
        ratios = [kind for kind in argument_kinds if kind.special.startswith("ratio by")]
        bound: dict[str, Kind] = {"ratio": ratios[0]} if ratios else {}
        for index, ((name, word), got) in enumerate(zip(arguments, argument_kinds, strict=True)):
            if self.repeats and (index - len(self.takes)) % self.repeats == 0:
                bound.pop("exposure each", None)
            try:
                argument_kind(word, got, bound)
            except KindError as error:
                what = _("{name} in {sum}: {what}").format(name=name, sum=self.name, what=error.what)
                raise KindError(what, error.mend, index) from error
        return gives_kind(self.gives, bound)

    def refuses(self, *values: Num) -> str | None:
        """Why the sum must not be answered for these single values, in words; None where it may."""
        return next((_(one.words) for one in self.refusals if one.when(*values)), None)

    def function(self, *values: Num) -> Num:
        """The result in the coherent base.

        Raises Refused where the sum must not answer and ArithError where it has no answer; in an array such places are
        nan (or infinite).
        """
        if any(_has_array(value) for value in values if type(value) is not Fraction):
            return self._of_arrays(values)
        words = self.refuses(*values)
        if words is not None:
            raise Refused(words)
        try:
            return self.body(*values)
        except (ZeroDivisionError, OverflowError) as error:
            raise ArithError(
                _("This would divide by zero or end in a number too large: read the values again.")
            ) from error

    def _of_arrays(self, values: tuple[Num, ...]) -> Num:
        import numpy as np

        with np.errstate(all="ignore"):
            result = self.body(*values)
            for one in self.refusals:
                result = np.where(one.when(*values), np.nan, result)
        return result

    def count(self, count: int) -> None:
        """KindError unless the sum takes so many values."""
        least = len(self.takes)
        if count == least or (self.repeats and count > least and (count - least) % self.repeats == 0):
            return
        names = ", ".join(name for name, _word in self.takes) + (", …" if self.repeats else "")
        what = _("{sum} takes {names}, not {count} values").format(sum=self.name, names=names, count=count)
        raise KindError(what, _("write {sum}({names})").format(sum=self.name, names=names))


REGISTERED: dict[str, Sum] = {}

When = tuple[Body, str]
METRIC = ("cm", "cm²", "mL", "g", "s", "mL/s", "cm/s", "g/mL", "$/cm")
INCH = ("in", "in²", "in³", "s", "in³/s", "in/s", "$/in")


def sum(
    *,
    gives: str,
    repeats: int = 0,
    irrational: bool = False,
    dated: bool = False,
    stepped: Fraction | int | None = None,
    subtracts: bool = False,
    cautions: tuple[str, ...] = (),
    refuses: tuple[When, ...] = (),
    senses: tuple[When, ...] = (),
    says: tuple[When, ...] = (),
    asks: tuple[tuple[str, str], ...] = (),
    works: tuple[tuple[str, ...], ...] = (),
    into: tuple[str, ...] = (),
    **takes: str,
) -> Callable[[Body], Body]:
    """Declare a sum: the kind word of each argument in order, and what it gives. Registers it and returns its guard.

    Title, `Formula:` and `Source:` come from the docstring; a sum without one of them does not import.
    """

    def declare(body: Body) -> Body:
        title, formula, source = _from_docstring(body)
        one = Sum(
            name=body.__name__,
            title=title,
            formula=formula,
            takes=tuple(takes.items()),
            gives=gives,
            body=body,
            repeats=repeats,
            irrational=irrational,
            dated=dated,
            stepped=None if stepped is None else Fraction(stepped),
            subtracts=subtracts,
            cautions=cautions,
            source=source,
            refusals=tuple(Remark(*pair) for pair in refuses),
            senses=tuple(Remark(*pair) for pair in senses),
            says=tuple(Remark(*pair) for pair in says),
            asks=tuple(Question(*pair) for pair in asks),
            works=works,
            into=into,
        )
        REGISTERED[one.name] = one
        return one.function

    return declare


def _from_docstring(body: Body) -> tuple[str, str, str]:
    title, *rest = (inspect.getdoc(body) or "").split("\n\n")
    labelled: dict[str, str] = {}
    for paragraph in rest:
        label, _colon, text = paragraph.partition(": ")
        labelled[label] = " ".join(text.split())
    return " ".join(title.split()).rstrip("."), labelled["Formula"], labelled["Source"]
