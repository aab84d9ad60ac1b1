"""One set of numbers of a question: what it shows, what it takes for an answer, what it says of one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from quizkit.formula.values import Value
from quizkit.pack.feedback import spoken
from quizkit.pack.html import render
from quizkit.pack.model import Choice, Match, Numeric, Order, Part, Question
from quizkit.pack.nodes import Node
from quizkit.pack.ready import Ready, asked_unit, ready, true_values
from quizkit.pack.shown import Fill, hint, one_sign, right_answer
from quizkit.scoring.grade import Aim, ChoicePart, Rights, aims, grade
from quizkit.scoring.grade import Part as MarkedPart
from quizkit.scoring.marks import LETTERS, match_mark, order_mark, read_match, read_order, total
from quizkit.scoring.reading import USUAL, Style, Unread
from quizkit.scoring.verdict import RIGHT, WRONG, Target, Verdict

Arrangement = Mapping[str, Sequence[int]]
"""How the options of a part stand: the authored place (from 0) of each, in the order in which they are shown."""


class NoSuchVariant(LookupError):
    """A number that is no variant of a question: outside its grid, or a point that was left out."""


@dataclass(frozen=True, slots=True)
class Numbers:
    """The numbers of the variants that stand, in order: a sequence without the holes, however many there are."""

    size: int
    left_out: tuple[tuple[int, int], ...]

    def __len__(self) -> int:
        return self.size - sum(count for _first, count in self.left_out)

    def __contains__(self, number: object) -> bool:
        return (
            isinstance(number, int)
            and 0 <= number < self.size
            and not any(first <= number < first + count for first, count in self.left_out)
        )

    def __getitem__(self, place: int) -> int:
        """The number at a place, from 0 (or from the end, below 0). Raises IndexError outside."""
        if not -len(self) <= place < len(self):
            raise IndexError(place)
        number = place if place >= 0 else place + len(self)
        for first, count in self.left_out:
            if number < first:
                break
            number += count
        return number

    def __iter__(self) -> Iterator[int]:
        start = 0
        for first, count in (*self.left_out, (self.size, 0)):
            yield from range(start, first)
            start = first + count


def numbers(question: Question) -> Numbers:
    """The variants of a question that stand."""
    return Numbers(ready(question).grid.size, question.left_out)


@dataclass(frozen=True, slots=True)
class ShownPart:
    """A part as a trainee sees it: nothing in it tells the key."""

    name: str
    kind: str
    """"number", "choice", "order" or "match"."""
    ask: str
    """HTML, empty where the prompt asks."""
    unit: str
    hint: str
    """How to round, or that a date is asked."""
    many: bool
    options: tuple[str, ...]
    """HTML of the options, the items, or the left column, as shown."""
    targets: tuple[str, ...]
    """HTML of the right column of a match, as shown; empty else."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A variant without its key."""

    question: str
    number: int
    prompt: str
    parts: tuple[ShownPart, ...]


@dataclass(frozen=True, slots=True)
class PartVerdict:
    """What an answer to one part turned out to be; its words are made when they are read."""

    name: str
    verdict: Verdict
    marks: Fraction
    typed: str
    _variant: Variant = field(repr=False)

    @property
    def outcome(self) -> str:
        """One of "right", "slip", "wrong", "unread"."""
        return self.verdict.outcome

    @property
    def note(self) -> str:
        """The finer verdict, a word of `scoring.verdict.Note`: "carried", "power of ten", …; often empty."""
        return self.verdict.note

    @property
    def why(self) -> str:
        """What was not understood, where it is unread."""
        return self.verdict.why

    @property
    def slips(self) -> tuple[int, ...]:
        """Which slips it equals, from 0."""
        return self.verdict.slips

    @property
    def feedback(self) -> str:
        """HTML: what is said to whoever answered so."""
        return self._variant.feedback(self)

    @property
    def right(self) -> str:
        """The right answer in plain text."""
        return self._variant.right(self.name)


@dataclass(frozen=True, slots=True)
class Graded:
    """The verdict on a whole question: exact marks, and the working."""

    marks: Fraction
    out_of: int
    parts: Mapping[str, PartVerdict]
    _variant: Variant = field(repr=False)

    @property
    def working(self) -> str:
        """How the question is worked, as HTML."""
        return self._variant.working()

    @property
    def unread(self) -> tuple[str, ...]:
        """The parts whose answers were not understood."""
        return tuple(name for name, verdict in self.parts.items() if verdict.outcome == "unread")

    @property
    def right(self) -> bool:
        """Whether every mark was earned."""
        return self.marks == self.out_of


@dataclass(frozen=True, slots=True)
class Variant:
    """A question with one set of numbers. `arrangement` reorders options; without it they stand as authored."""

    question: Question
    number: int
    arrangement: Arrangement = field(default_factory=dict)
    style: Style = USUAL
    values: Mapping[str, Value] = field(init=False)
    """The givens, and the right answers of the parts, by dotted name, in the coherent base."""
    _aims: Mapping[str, Aim] = field(init=False, repr=False)
    """What each part is held against, options by their numbers as shown."""
    _fill: Fill = field(init=False, repr=False)
    _ready: Ready = field(init=False, repr=False)
    _drawn: Mapping[str, Value] = field(init=False, repr=False)
    """The givens alone."""
    _marked: tuple[MarkedPart, ...] = field(init=False, repr=False)
    """The parts that ask for a number or a choice, options as shown."""

    def __post_init__(self) -> None:
        made = ready(self.question)
        if self.number not in Numbers(made.grid.size, self.question.left_out):
            raise NoSuchVariant(f"{self.question.id} has no variant {self.number}")
        values = made.grid.values(self.number)
        found = aims(made.parts, values)
        known = {**values, **true_values(made, found)}
        put = object.__setattr__
        put(self, "values", known)
        put(self, "_drawn", values)
        put(self, "_aims", {part.name: self._as_asked(part, aim) for part, aim in zip(made.parts, found, strict=True)})
        put(self, "_marked", tuple(self._as_shown(part) for part in made.parts))
        put(self, "_fill", Fill(self.question, known, self.style))
        put(self, "_ready", made)

    @property
    def givens(self) -> dict[str, Value]:
        """The drawn and computed givens alone, by dotted name."""
        names = {given.name for given in self.question.givens}
        return {name: value for name, value in self.values.items() if name.split(".")[0] in names}

    @property
    def prompt(self) -> str:
        """What the question says, as HTML."""
        return self.text(self.question.prompt)

    @property
    def parts(self) -> tuple[ShownPart, ...]:
        """What it asks for."""
        return tuple(self._shown(part) for part in self.question.parts)

    def public(self) -> Shown:
        """The variant without its key."""
        return Shown(self.question.id, self.number, self.prompt, self.parts)

    def text(self, nodes: Sequence[Node]) -> str:
        """A text of the question as HTML, with the values of this variant in it."""
        return one_sign(render(nodes, self._fill))

    def right(self, name: str) -> str:
        """The right answer to a part in plain text, as it would be told or typed. Raises KeyError for no part of it."""
        part = self.question.part(name)
        if part is None:
            raise KeyError(name)
        return self._right(part)

    def slip_values(self, name: str) -> tuple[Fraction | None, ...]:
        """What each slip of a numeric part comes to, in the asked unit; None where one has no value."""
        aim = self._aims.get(name)
        return aim.slips if isinstance(aim, Target) else ()

    def grade(self, typed: Mapping[str, str]) -> Graded:
        """The verdict on typed answers, by the names of parts; a part without one is unread. Nothing is rendered."""
        found = grade(self._marked, tuple(self._aims.values()), self._drawn, typed, self.style)
        verdicts = {
            name: PartVerdict(name, verdict, verdict.mark, typed.get(name, ""), self) for name, verdict in found.items()
        }
        for part in self._ready.placed:
            verdicts[part.name] = self._placed(part, typed.get(part.name, ""))
        if len(verdicts) > 1:
            verdicts = {part.name: verdicts[part.name] for part in self.question.parts}
        marks = [verdict.marks for verdict in verdicts.values()]
        return Graded(marks[0] if len(marks) == 1 else total(marks), len(marks), verdicts, self)

    def working(self) -> str:
        """How the question is worked, as HTML."""
        texts = [self.question.working, *(part.working for part in self.question.parts)]
        return "".join(self.text(text) for text in texts if text)

    def arranged(self, name: str, count: int) -> tuple[int, ...]:
        """The authored places of a part's options as they are shown."""
        return tuple(self.arrangement.get(name, range(count)))

    def feedback(self, told: PartVerdict) -> str:
        """What is said to whoever gave an answer to one part, as HTML."""
        part = self.question.part(told.name)
        assert part is not None
        if told.outcome == "unread":
            return ""
        found = told.verdict if isinstance(part, Numeric | Choice) else told.marks
        return spoken(part, found, told.typed, self._options(part), self.text)

    def _as_shown(self, part: MarkedPart) -> MarkedPart:
        if not isinstance(part, ChoicePart):
            return part
        order = self.arranged(part.name, len(part.options))
        return ChoicePart(part.name, tuple(part.options[place] for place in order), part.critical)

    def _as_asked(self, part: MarkedPart, aim: Aim) -> Aim:
        if not isinstance(part, ChoicePart) or not isinstance(aim, Rights):
            return aim
        order = self.arranged(part.name, len(part.options))
        return Rights(frozenset(at for at, place in enumerate(order, 1) if place + 1 in aim.options))

    def _options(self, part: Part) -> tuple[int, ...]:
        return self.arranged(part.name, len(part.options)) if isinstance(part, Choice) else ()

    def _placed(self, part: Order | Match, typed: str) -> PartVerdict:
        if isinstance(part, Order):
            order = self.arranged(part.name, len(part.items))
            read = read_order(typed, len(part.items))
            if isinstance(read, Unread):
                return self._unread(part, read, typed)
            mark = order_mark(tuple(range(len(order))), [order[number - 1] for number in read])
        else:
            targets = self.arranged(part.name, len(part.pairs))
            paired = read_match(typed, len(part.pairs))
            if isinstance(paired, Unread):
                return self._unread(part, paired, typed)
            right = {place + 1: at for at, place in enumerate(targets, 1)}
            mark = match_mark(right, paired)
        return PartVerdict(part.name, RIGHT if mark == 1 else WRONG, mark, typed, self)

    def _unread(self, part: Part, read: Unread, typed: str) -> PartVerdict:
        return PartVerdict(part.name, Verdict("unread", why=read.why), Fraction(0), typed, self)

    def _right(self, part: Part) -> str:
        match part:
            case Numeric():
                aim = self._aims[part.name]
                assert isinstance(aim, Target)
                return right_answer(part, asked_unit(part).to_base(aim.true), self.style)
            case Choice():
                aim = self._aims[part.name]
                assert isinstance(aim, Rights)
                return ", ".join(str(number) for number in sorted(aim.options))
            case Order():
                order = self.arranged(part.name, len(part.items))
                return " ".join(str(order.index(place) + 1) for place in range(len(order)))
            case Match():
                targets = self.arranged(part.name, len(part.pairs))
                return " ".join(f"{place + 1}{LETTERS[targets.index(place)]}" for place in range(len(targets)))

    def _shown(self, part: Part) -> ShownPart:
        ask = self.text(part.ask) if isinstance(part, Numeric | Choice) else ""
        match part:
            case Numeric():
                return ShownPart(part.name, "number", ask, part.unit, hint(part, self.style), False, (), ())
            case Choice():
                order = self.arranged(part.name, len(part.options))
                options = tuple(self.text(part.options[place].text) for place in order)
                return ShownPart(part.name, "choice", ask, "", "", part.several, options, ())
            case Order():
                items = tuple(self.text(part.items[place]) for place in self.arranged(part.name, len(part.items)))
                return ShownPart(part.name, "order", ask, "", "", True, items, ())
            case Match():
                targets = self.arranged(part.name, len(part.pairs))
                left = tuple(self.text(pair[0]) for pair in part.pairs)
                right = tuple(self.text(part.pairs[place][1]) for place in targets)
                return ShownPart(part.name, "match", ask, "", "", True, left, right)
