"""A text as we keep it: our own small tree, frozen, without any parser behind it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Element:
    """A piece of a text: a tag, its attributes in a fixed order, and what stands inside."""

    tag: str
    attrs: tuple[tuple[str, str], ...] = ()
    children: tuple[Node, ...] = ()

    def get(self, name: str, default: str = "") -> str:
        """The attribute of that name, or the default."""
        return next((value for key, value in self.attrs if key == name), default)


Node = str | Element


def walk(nodes: Iterable[Node]) -> Iterator[Node]:
    """Every node of a text, parents before their children, in reading order."""
    for node in nodes:
        yield node
        if isinstance(node, Element):
            yield from walk(node.children)


def plain(nodes: Iterable[Node]) -> str:
    """The words of a text alone, pieces of a block parted by a space; for titles, search and reading grades."""
    return " ".join("".join(node if isinstance(node, str) else " " * _parts(node) for node in walk(nodes)).split())


def _parts(element: Element) -> bool:
    """Whether an element keeps the words before it apart from those after it."""
    return element.tag not in {"em", "strong", "code", "a", "value"}
