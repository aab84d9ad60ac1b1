"""Compiled content: frozen, exact, without a trace of how it was typed.

Numbers are fractions in the coherent base of `units` (m, kg, s, K; a temperature point in K; money in whole
currency; a percent as its fraction; a date as its day count). Formulas are kept as
text; `formula` reads them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING

from quizkit.formula import Given
from quizkit.pack.nodes import Element, Node, walk
from quizkit.pack.scheme import ModuleScheme, Scheme
from quizkit.pack.shelf import Shelf
from quizkit.scoring.reading import USUAL, Style
from quizkit.scoring.tolerance import Tolerance

if TYPE_CHECKING:
    from quizkit.pack.variant import Arrangement, Numbers, Variant

Nodes = tuple[Node, ...]
LATER = {"later": True}
"""Marks a field that came after packs had been published: where it is as usual it is not written, so that an older pack
reads as it was, keeps its bytes and its hash, and gives the marks that it gave."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A known wrong method, and what is said to whoever makes it."""

    formula: str
    feedback: Nodes
    plain: bool = False
    """Whether it comes out as a plain number, taken in the asked unit."""


@dataclass(frozen=True, slots=True)
class Numeric:
    """A part that asks for a number.

    `unit` is the symbol of the asked unit; the numbers of `tolerance` and `shown` are in it. `plausible` bounds the
    right answer in the coherent base. `shown` is the step at which the right answer is shown, None for an exact
    one; where no step is asked the proof finds it.
    """

    name: str
    ask: Nodes
    formula: str
    unit: str
    tolerance: Tolerance
    date: bool = False
    plausible: tuple[Fraction, Fraction] | None = None
    critical: bool = False
    slips: tuple[Slip, ...] = ()
    working: Nodes = ()
    shown: Fraction | None = None
    fraction: bool = False
    """Whether the step was written as a fraction, so that answers are shown as one."""
    turned: bool = field(default=False, metadata=LATER)
    """Whether the question tells the right answer in another unit: to turn one unit into the other is what it asks, and
    the asked unit alone answers."""


@dataclass(frozen=True, slots=True)
class Option:
    """One option of a choice: right always, never, or where the condition `when` holds ("" for none)."""

    text: Nodes
    right: bool
    when: str = ""
    feedback: Nodes = ()


@dataclass(frozen=True, slots=True)
class Choice:
    """A part that asks to choose; all and only the right options earn its mark."""

    name: str
    ask: Nodes
    options: tuple[Option, ...]
    critical: bool = False
    working: Nodes = ()

    @property
    def several(self) -> bool:
        """Whether more than one option may be right."""
        return sum(option.right and not option.when for option in self.options) > 1


@dataclass(frozen=True, slots=True)
class Order:
    """A part that asks to put in order; the items stand in the right one."""

    name: str
    items: tuple[Nodes, ...]
    critical: bool = False
    working: Nodes = ()


@dataclass(frozen=True, slots=True)
class Match:
    """A part that asks which goes with which; each pair stands together."""

    name: str
    pairs: tuple[tuple[Nodes, Nodes], ...]
    critical: bool = False
    working: Nodes = ()


Part = Numeric | Choice | Order | Match


@dataclass(frozen=True, slots=True)
class Question:
    """A question with all its variants.

    `id` is "module/question". `use` is "practice", "check" or "" for both. `left_out` holds the numbers of the
    points of the grid that are no variants, as runs (first, count) in order.
    """

    id: str
    topic: str
    prompt: Nodes
    parts: tuple[Part, ...]
    givens: tuple[Given, ...] = ()
    where: tuple[str, ...] = ()
    critical: bool = False
    use: str = ""
    working: Nodes = ()
    sources: Nodes = ()
    left_out: tuple[tuple[int, int], ...] = ()

    @property
    def numbers(self) -> Numbers:
        """The numbers of its variants that stand."""
        from quizkit.pack.variant import numbers

        return numbers(self)

    def variant(self, number: int, arrangement: Arrangement | None = None, style: Style = USUAL) -> Variant:
        """The variant of that number. Raises NoSuchVariant for a hole or outside the grid.

        `arrangement` gives for a part the authored places (from 0) of its options in the order in which they are
        shown; without it they stand as authored.
        """
        from quizkit.pack.variant import Variant

        return Variant(self, number, arrangement or {}, style)

    def __hash__(self) -> int:
        """By its id alone: cheap, and two versions of one question are still told apart by equality."""
        return hash(self.id)

    def part(self, name: str) -> Part | None:
        """The part of that name, or None."""
        return next((part for part in self.parts if part.name == name), None)


@dataclass(frozen=True, slots=True)
class Lesson:
    """One page of a module. `id` is "module/lesson", the lesson's file without its ending.

    `title` is its first heading, which `body` leaves out. Links to other lessons are relative addresses without an
    ending ("2-by-weight", "../ppe/1-air"), images stand under "image/". `body` holds, beside the tags of HTML, our own
    elements: `caution`, `source`, `figure` (attributes `name` and `arg`, one an argument), and `question` (attribute
    `id`) where a question stands.
    """

    id: str
    title: str
    body: Nodes

    @property
    def questions(self) -> tuple[str, ...]:
        """The full ids of its questions, in order."""
        return tuple(node.get("id") for node in walk(self.body) if isinstance(node, Element) and node.tag == "question")


@dataclass(frozen=True, slots=True)
class Step:
    """A step that the trainer must see; a critical one not seen cannot be signed."""

    text: Nodes
    critical: bool = False


@dataclass(frozen=True, slots=True)
class Measure:
    """A value that is measured: its name in formulas, its unit's symbol, and what it is."""

    name: str
    unit: str
    what: Nodes


@dataclass(frozen=True, slots=True)
class Judge:
    """A limit on measured values: the formula must lie between `low` and `high`, either None for open."""

    name: str
    formula: str
    unit: str
    low: Fraction | None
    high: Fraction | None
    feedback: Nodes


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a trainer observes against. `materials` names the shelf rows that may be used; empty for no material."""

    title: str
    body: Nodes
    materials: tuple[str, ...]
    steps: tuple[Step, ...]
    measures: tuple[Measure, ...]
    judges: tuple[Judge, ...]


@dataclass(frozen=True, slots=True)
class Image:
    """A picture beside a lesson: its path below the module's folder, its media type, its bytes in base 64."""

    path: str
    mime: str
    data: str


@dataclass(frozen=True, slots=True)
class Rating:
    """One judge's chances, from 0 to 1, that someone who only just should pass gets a question right."""

    judge: str
    chances: tuple[tuple[str, Fraction], ...]
    """By full id of the question."""


@dataclass(frozen=True, slots=True)
class Module:
    """One skill's course."""

    id: str
    scheme: ModuleScheme
    lessons: tuple[Lesson, ...]
    questions: tuple[Question, ...]
    sheet: Sheet | None = None
    images: tuple[Image, ...] = ()
    ratings: tuple[Rating, ...] = ()


@dataclass(frozen=True, slots=True)
class Pack:
    """All compiled content of a shop."""

    scheme: Scheme
    shelf: Shelf
    modules: tuple[Module, ...]
    _index: dict[str, Question] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_index", {question.id: question for question in self.questions()})

    def questions(self) -> Iterator[Question]:
        """Every question, module by module."""
        for module in self.modules:
            yield from module.questions

    def question(self, id: str) -> Question:
        """The question of that full id. Raises KeyError where there is none."""
        return self._index[id]

    @property
    def style(self) -> Style:
        """How the shop writes numbers, money and dates."""
        return Style(self.scheme.mark, self.scheme.currency, self.scheme.dates)

    def module(self, id: str) -> Module:
        """The module of that id. Raises KeyError where there is none."""
        for module in self.modules:
            if module.id == id:
                return module
        raise KeyError(id)
