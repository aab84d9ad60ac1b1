"""Our node tree as HTML: a closed list of tags, every text and attribute escaped."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from html import escape

from quizkit.pack.nodes import Element, Node

Fill = Callable[[Element], str]
"""Gives the words (plain text or HTML that is already safe) in place of a `value` or `figure` element."""

_INLINE = frozenset({"code", "em", "strong", "a", "img", "br"})
_BLOCK = frozenset({"p", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "blockquote", "pre", "hr"})
_TABLE = frozenset({"table", "thead", "tbody", "tr", "th", "td"})
TAGS = _INLINE | _BLOCK | _TABLE
"""The tags of HTML that a text can hold; any other element is our own and needs filling."""

_VOID = frozenset({"hr", "br", "img"})
_ATTRS = {"a": ("href", "title"), "img": ("src", "alt", "title"), "ol": ("start",), "th": ("class",), "td": ("class",)}


def render(nodes: Iterable[Node], fill: Fill | None = None) -> str:
    """The nodes as HTML.

    `fill` supplies what our own elements (any tag outside `TAGS`) stand for; without it they vanish.
    """
    pieces: list[str] = []
    for node in nodes:
        _render(node, fill, pieces)
    return "".join(pieces)


def _render(node: Node, fill: Fill | None, pieces: list[str]) -> None:
    if isinstance(node, str):
        pieces.append(escape(node, quote=False))
        return
    if node.tag not in TAGS:
        pieces.append(fill(node) if fill else "")
        return
    end = "" if node.tag in _INLINE else "\n"
    pieces.append(_opening(node))
    if node.tag not in _VOID:
        for child in node.children:
            _render(child, fill, pieces)
        pieces.append(f"</{node.tag}>")
    pieces.append(end)


def _opening(node: Element) -> str:
    allowed = _ATTRS.get(node.tag, ())
    attrs = "".join(f' {key}="{escape(value)}"' for key, value in node.attrs if key in allowed)
    return f"<{node.tag}{attrs}>"
