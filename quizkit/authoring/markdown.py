"""Markdown into our own nodes, with the place of every code span and table cell.

The only module that knows markdown-it; its tokens go no further.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.token import Token

from quizkit.authoring.source import Stretch
from quizkit.authoring.spans import code_spans
from quizkit.authoring.tables import Table, row_cells
from quizkit.pack.nodes import Element, Node

Code = Callable[[Stretch], Node]
"""Makes a node of what stands in a code span."""

_MARKS = re.compile(r"[*_\[<&`]|[ \t]\n|\n[ \t]")
"""What makes more of words than words: emphasis, links, pictures, entities, and blanks at the end of a line."""

_WORDS = re.compile(r"[A-Za-z`(][^|]*")
"""A line that can only be one of a paragraph."""

_ITEM = re.compile(r"- (?:\[[ xX]\] )?[A-Za-z`(][^|]*")
"""A line that can only be one item of a list, an option mostly."""

_BARRED = re.compile(r"\|.*[^\\]\|[ \t]*")
_RULE = re.compile(r"\|(?:[ \t]*:?-+:?[ \t]*\|)+[ \t]*")

_ALIGN = {"text-align:left": "left", "text-align:center": "center", "text-align:right": "right"}


def plain_code(inner: Stretch) -> Node:
    """A code span as it stands."""
    return Element("code", (), (inner.text.replace("\n", " "),))


@lru_cache(maxsize=1)
def _parser() -> MarkdownIt:
    """CommonMark with tables; no raw HTML, no typographer, no links made of bare words."""
    return MarkdownIt("commonmark", {"html": False, "typographer": False, "maxNesting": 40}).enable("table")


@lru_cache(maxsize=1)
def _parser_of_blocks() -> MarkdownIt:
    """The same for blocks alone: what stands within them is read where nodes are made of it, since most never are."""
    parser = MarkdownIt("commonmark", {"html": False, "typographer": False, "maxNesting": 40}).enable("table")
    return parser.disable(["inline", "text_join"])


@dataclass(frozen=True, slots=True)
class Chunk:
    """One block at the top of a text: what it is ("paragraph", "table", "bullet_list", …) and its stretch."""

    kind: str
    body: Stretch
    origin: Stretch
    known: dict[str, Any] = field(default_factory=dict)
    """The addresses that links of this text may refer to."""
    read: tuple[Token, ...] | None = None
    """What the parser made of it; None where its kind was plain to see, and it is read when it is needed."""

    def nodes(self, code: Code = plain_code) -> tuple[Node, ...]:
        """The chunk as nodes; `code` makes a node of each code span."""
        builder = _Builder(self.origin, code, self.known)
        if self.read is None and self.kind == "paragraph":
            words = self.body.strip()
            return (Element("p", (), tuple(builder.inline(words.text, words))),)
        return tuple(builder.build(self.tokens()))

    def tokens(self) -> Sequence[Token]:
        """The parser's tokens, of the blocks alone."""
        return self.read if self.read is not None else _parser_of_blocks().parse(self.body.text)

    def table(self) -> Table:
        """The cells of a table with their places; a line without a bar, which it swallowed, is no row of it."""
        head, _rule, *rows = self.body.text.split("\n")
        width = len(row_cells(Stretch(head)))
        lines = [Stretch(line, self.body.line + number) for number, line in enumerate(rows, 2) if "|" in line]
        cells = [row_cells(line) for line in lines]
        return Table(row_cells(Stretch(head, self.body.line)), tuple(row[:width] for row in cells))

    def items(self) -> tuple[Stretch, ...]:
        """The items of a list, each without its mark."""
        if self.read is None and self.kind == "bullet_list":
            return tuple(self._item(row, row + 1) for row in range(self.body.text.count("\n") + 1))
        spans = [t.map for t in self.tokens() if t.type == "list_item_open" and t.level == 1 and t.map]
        return tuple(self._item(start, end) for start, end in spans)

    def _item(self, start: int, end: int) -> Stretch:
        lines = self.origin.text.split("\n")
        found = re.match(r"[ \t]*(?:[-*+]|\d{1,9}[.)])[ \t]*", lines[start])
        column = found.end() if found else 0
        text = "\n".join((lines[start][column:], *lines[start + 1 : end])).rstrip()
        return Stretch(text, self.origin.line + start, (self.origin.column if start == 0 else 1) + column)


def chunks(text: Stretch) -> tuple[Chunk, ...]:
    """The blocks at the top of a text, in order."""
    simple = _simple(text)
    return simple if simple is not None else _parsed(text)


def _parsed(text: Stretch) -> tuple[Chunk, ...]:
    known: dict[str, Any] = {}
    tokens = _parser_of_blocks().parse(text.text, known)
    lines = text.text.split("\n")
    found: list[Chunk] = []
    start = 0
    for position, token in enumerate(tokens):
        if token.level or token.nesting > 0:
            continue
        group = tuple(tokens[start : position + 1])
        first, last = next((t.map for t in group if t.map), [0, 1])
        body = Stretch("\n".join(lines[first:last]), text.line + first, text.column if first == 0 else 1)
        found.append(Chunk(group[0].type.removesuffix("_open"), body, text, known, group))
        start = position + 1
    return tuple(found)


def _simple(text: Stretch) -> tuple[Chunk, ...] | None:
    """The chunks of a text of paragraphs, tables and plain lists, blank lines between them; None for any other."""
    if "``" in text.text:
        return None
    found: list[Chunk] = []
    lines = text.text.split("\n")
    for blank, group in groupby(range(len(lines)), lambda row: not lines[row].strip()):
        if blank:
            continue
        rows = list(group)
        piece = lines[rows[0] : rows[-1] + 1]
        kind = _plain_kind(piece)
        if not kind or (kind == "bullet_list" and found and found[-1].kind == kind):
            return None
        body = Stretch("\n".join(piece), text.line + rows[0], text.column if rows[0] == 0 else 1)
        found.append(Chunk(kind, body, body))
    return tuple(found)


def _plain_kind(lines: list[str]) -> str:
    """What lines without a blank one between them are for sure; "" where it takes a parser to tell."""
    if all(map(_WORDS.fullmatch, lines)):
        return "paragraph"
    if all(map(_ITEM.fullmatch, lines)):
        return "bullet_list"
    return "table" if _is_table(lines) else ""


def _is_table(lines: list[str]) -> bool:
    """Whether lines are for sure a table: a bar at both ends of each, and a rule with as many cells as the head."""
    if len(lines) < 2 or not all(map(_BARRED.fullmatch, lines)) or not _RULE.fullmatch(lines[1]):
        return False
    return len(row_cells(Stretch(lines[0]))) == len(row_cells(Stretch(lines[1])))


def block_nodes(text: Stretch, code: Code = plain_code) -> tuple[Node, ...]:
    """A text of any number of paragraphs as nodes."""
    return tuple(node for chunk in chunks(text) for node in chunk.nodes(code))


def inline_nodes(text: Stretch, code: Code = plain_code) -> tuple[Node, ...]:
    """A text within a line or a paragraph as nodes."""
    return tuple(_Builder(text, code, {}).inline(text.text, text))


class _Builder:
    """Folds the flat tokens of one text into nodes."""

    def __init__(self, origin: Stretch, code: Code, known: dict[str, Any]) -> None:
        self.origin = origin
        self.known = known
        self.lines = origin.text.split("\n")
        self.code = code
        self.cells: Iterator[Stretch] = iter(())

    def build(self, tokens: Sequence[Token]) -> list[Node]:
        stack: list[list[Node]] = [[]]
        opened: list[Token] = []
        for token in tokens:
            if token.nesting > 0:
                self.enter(token)
                opened.append(token)
                stack.append([])
            elif token.nesting < 0:
                inside = stack.pop()
                stack[-1] += _closed(opened.pop(), inside)
            else:
                stack[-1] += self.leaf(token)
        return stack[0]

    def enter(self, token: Token) -> None:
        if token.type == "tr_open" and token.map:
            row = token.map[0]
            self.cells = iter(row_cells(Stretch(self.lines[row], self.origin.line + row, self.column(row))))

    def column(self, row: int) -> int:
        return self.origin.column if row == 0 else 1

    def leaf(self, token: Token) -> list[Node]:
        if token.type == "inline":
            return self.inline(token.content, self.place(token))
        if token.type in ("fence", "code_block"):
            return [Element("pre", (), (Element("code", (), (token.content,)),))]
        return [Element("hr")] if token.type == "hr" else []

    def place(self, token: Token) -> Stretch:
        """The stretch of an inline token; its content keeps the lines of the source, without their indents."""
        cell = next(self.cells, None)
        if cell is not None:
            return cell
        row = token.map[0] if token.map else 0
        first = token.content.split("\n")[0]
        column = max(0, self.lines[row].find(first)) if row < len(self.lines) else 0
        return Stretch(token.content, self.origin.line + row, self.column(row) + column)

    def inline(self, text: str, place: Stretch) -> list[Node]:
        plain = self.plain(place) if text == place.text else None
        return self.marked(text, place) if plain is None else plain

    def plain(self, place: Stretch) -> list[Node] | None:
        """The nodes of words and code spans alone, as most texts are; None where Markdown has more to say."""
        text = place.text
        if not text or text != text.strip() or "\\" in text or "``" in text:
            return None
        spans, stray = code_spans(place)
        starts, ends = [0, *(span.end for span in spans)], [*(span.start for span in spans), len(text)]
        words = [text[start:end] for start, end in zip(starts, ends, strict=True)]
        if stray is not None or any(_MARKS.search(word) for word in words):
            return None
        nodes: list[Node] = [words[0]] if words[0] else []
        for span, word in zip(spans, words[1:], strict=True):
            nodes.append(self.code(self.located(span.inner, place, text[span.start + 1 : span.end - 1])))
            nodes += [word] if word else []
        return nodes

    def marked(self, text: str, place: Stretch) -> list[Node]:
        (token,) = _parser().parseInline(text, self.known)
        spans, _stray = code_spans(place)
        inners = iter([span.inner for span in spans])
        stack: list[list[Node]] = [[]]
        opened: list[Token] = []
        for child in token.children or ():
            if child.nesting > 0:
                opened.append(child)
                stack.append([])
            elif child.nesting < 0:
                inside = stack.pop()
                stack[-1] += _closed(opened.pop(), inside)
            elif child.type == "code_inline":
                inner = self.located(next(inners, None), place, child.content)
                stack[-1].append(self.code(inner))
            else:
                stack[-1] += _word(child)
        return _joined(stack[0])

    def located(self, inner: Stretch | None, place: Stretch, content: str) -> Stretch:
        """The stretch of a code span on its line in the source: further lines of a text lose their indent."""
        if inner is None or inner.text.split() != content.split():
            return Stretch(content.strip(), place.line, place.column)
        row = inner.line - self.origin.line
        line = self.lines[row] if 0 <= row < len(self.lines) else ""
        shift = self.column(row)
        at = inner.column - shift
        first = inner.text.split("\n")[0]
        if line[at : at + len(first)] != first:
            found = line.find("`" + first)
            at = found + 1 if found >= 0 else max(0, line.find(first))
        return Stretch(inner.text, inner.line, at + shift)


def _closed(token: Token, inside: list[Node]) -> list[Node]:
    """What an opened token becomes with its children; a paragraph of a tight list is its words alone."""
    if token.hidden:
        return inside
    attrs: list[tuple[str, str]] = []
    for key, value in token.attrs.items():
        if key == "style":
            attrs.append(("class", _ALIGN.get(str(value), "left")))
        else:
            attrs.append((key, str(value)))
    return [Element(token.tag, tuple(attrs), tuple(_joined(inside)))]


def _word(child: Token) -> list[Node]:
    if child.type == "image":
        attrs = [("src", str(child.attrs.get("src", ""))), ("alt", child.content)]
        if "title" in child.attrs:
            attrs.append(("title", str(child.attrs["title"])))
        return [Element("img", tuple(attrs))]
    if child.type == "hardbreak":
        return [Element("br")]
    if child.type == "softbreak":
        return ["\n"]
    return [child.content] if child.content else []


def _joined(nodes: list[Node]) -> list[Node]:
    """Neighbouring strings as one."""
    joined: list[Node] = []
    for node in nodes:
        if isinstance(node, str) and joined and isinstance(joined[-1], str):
            joined[-1] += node
        else:
            joined.append(node)
    return joined
