"""What a formula is made of: a closed list of nodes, each with its place in the text."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias


@dataclass(frozen=True, slots=True)
class Place:
    """Where a node stands in the text of its formula, in characters from 0."""

    column: int
    length: int


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number as typed: `0.1` is one tenth."""

    value: Fraction
    place: Place


@dataclass(frozen=True, slots=True)
class Text:
    """A text in quotes, to compare a text field with."""

    value: str
    place: Place


@dataclass(frozen=True, slots=True)
class Name:
    """A given, an earlier part, a field of one (`material.ratio.a`) or, in a slip, a value in a unit (`p.psi`)."""

    path: tuple[str, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Negative:
    """A minus sign before something."""

    of: "Node"
    place: Place


@dataclass(frozen=True, slots=True)
class Operation:
    """Two sides joined by one of + - * / **."""

    sign: str
    left: "Node"
    right: "Node"
    place: Place


@dataclass(frozen=True, slots=True)
class Call:
    """A helper or a sum of the trade with its arguments."""

    function: str
    arguments: tuple["Node", ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two or more sides with signs of comparison between them: `a < b`, `1 < a <= 5`."""

    signs: tuple[str, ...]
    sides: tuple["Node", ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Every:
    """Comparisons joined by `and`."""

    parts: tuple[Comparison, ...]
    place: Place


Node: TypeAlias = Numeral | Text | Name | Negative | Operation | Call | Comparison | Every


def inside(node: Node) -> tuple[Node, ...]:
    """The nodes right below one."""
    match node:
        case Name() | Numeral() | Text():
            return ()
        case Operation():
            return (node.left, node.right)
        case Call():
            return node.arguments
        case Comparison():
            return node.sides
        case Negative():
            return (node.of,)
        case Every():
            return node.parts


def walk(node: Node) -> Iterator[Node]:
    """A node and everything below it."""
    yield node
    for child in inside(node):
        yield from walk(child)


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula that was read: its text, its tree, and where it may stand."""

    text: str
    tree: Node
    slip: bool = False
    """A wrong method: may take a value as the plain number in a unit (`p.psi`)."""
    where: bool = False
    """A condition: comparisons, joined by `and`."""
    names: tuple[str, ...] = field(init=False, repr=False, compare=False)
    """The givens and earlier parts it uses, each once, in the order of their first use."""
    paths: tuple[str, ...] = field(init=False, repr=False, compare=False)
    """The dotted names as typed, each once, in the order of their first use."""

    def __post_init__(self) -> None:
        paths = [node.path for node in walk(self.tree) if isinstance(node, Name)]
        object.__setattr__(self, "names", tuple(dict.fromkeys([path[0] for path in paths])))
        object.__setattr__(self, "paths", tuple(dict.fromkeys(map(".".join, paths))))
