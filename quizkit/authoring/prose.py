"""Text outside a question: paragraphs, sources, figures; and what every text is checked for."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from quizkit.authoring.diagnostics import Spot
from quizkit.authoring.figures import read_figure
from quizkit.authoring.labels import Label, Piece
from quizkit.authoring.markdown import Chunk, chunks, inline_nodes
from quizkit.authoring.notes import Notes
from quizkit.pack.model import Nodes
from quizkit.pack.nodes import Element, Node, walk
from quizkit.words import _

_PIPES = re.compile(r" {0,3}\|.*\|")


def read_prose(notes: Notes, pieces: Sequence[Piece]) -> Nodes:
    """The nodes of prose with its sources and figures; other labels are passed over."""
    found: list[Node] = []
    for piece in pieces:
        if not isinstance(piece, Label):
            for chunk in chunks(piece.body):
                check_table(notes, chunk)
                found += chunk.nodes()
        elif piece.word == "Source":
            found.append(source_node(notes, piece))
        elif piece.word == "Figure":
            figure = read_figure(notes, piece.body, None)
            found += [figure] if figure else []
    return tuple(found)


def source_node(notes: Notes, label: Label) -> Element:
    """The `source` element of a `Source:` line."""
    if not label.body.text:
        notes.tell("K05", label.spot, _("this source names nothing"), _("write where it was read"))
    return Element("source", (), inline_nodes(label.body))


def check_table(notes: Notes, chunk: Chunk) -> bool:
    """Tell a line of pipes that became no table, and a line that a table swallowed; false where there is no table."""
    if chunk.kind in ("fence", "code_block"):
        return True
    lines = chunk.body.text.split("\n")
    if chunk.kind == "table":
        for row, line in enumerate(lines):
            if "|" not in line:
                notes.tell(
                    "T02",
                    Spot(chunk.body.line + row, 1, max(1, len(line))),
                    _("this line became a row of the table above it"),
                    _("put a blank line between them"),
                )
        return True
    if "|" not in chunk.body.text or any(token.type == "table_open" for token in chunk.tokens()):
        return True
    for row, line in enumerate(lines):
        if _PIPES.match(line):
            notes.tell(
                "T01",
                Spot(chunk.body.line + row, 1, len(line)),
                _("this line of pipes is no table"),
                _("below its first row a table needs a row like '| --- | --- |' with as many cells"),
            )
            return False
    return True


def split_title(nodes: Nodes) -> tuple[Element | None, Nodes]:
    """The first heading of a text, and the text without it."""
    for place, node in enumerate(nodes):
        if isinstance(node, Element) and re.fullmatch("h[1-6]", node.tag):
            return node, nodes[:place] + nodes[place + 1 :]
    return None, nodes


@dataclass(frozen=True, slots=True)
class Link:
    """A link ("a") or a picture ("img") with its address as typed."""

    tag: str
    address: str


def links_in(nodes: Nodes) -> tuple[Link, ...]:
    """Every link and picture of a text, in order."""
    return tuple(
        Link(node.tag, node.get("src" if node.tag == "img" else "href"))
        for node in walk(nodes)
        if isinstance(node, Element) and node.tag in ("a", "img")
    )


def relinked(nodes: Nodes) -> Nodes:
    """Links to lessons without their '.md', images under 'image/': as relative addresses among pages."""
    return tuple(_relinked(node) if isinstance(node, Element) else node for node in nodes)


def _relinked(element: Element) -> Element:
    attrs = element.attrs
    if element.tag == "a":
        attrs = tuple((key, re.sub(r"\.md(?=#|$)", "", value) if key == "href" else value) for key, value in attrs)
        attrs = attrs if is_relative(element.get("href")) else element.attrs
    elif element.tag == "img":
        attrs = tuple((key, f"image/{value}" if key == "src" else value) for key, value in attrs)
    return replace(element, attrs=attrs, children=relinked(element.children))


def is_relative(address: str) -> bool:
    """Whether an address leads to a file beside or near the one it stands in."""
    return not re.match(r"[a-zA-Z][a-zA-Z0-9+.-]*:|/|#", address)
