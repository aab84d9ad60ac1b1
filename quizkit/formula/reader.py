"""From the text of a formula to its tree, by Python's own reader and a closed list of what may stand in it."""

import ast
import difflib
import keyword
import re
from fractions import Fraction
from functools import lru_cache

from quizkit.formula.bounds import check_size
from quizkit.formula.errors import FormulaError
from quizkit.formula.names import HELPERS, NAME
from quizkit.formula.tokens import LONGEST_FORMULA, Piece, pieces
from quizkit.formula.tree import (
    Call,
    Comparison,
    Every,
    Formula,
    Name,
    Negative,
    Node,
    Numeral,
    Operation,
    Place,
    Text,
)
from quizkit.trade import SUMS
from quizkit.words import _, ngettext

DEEPEST = 30
_SIGNS: dict[type[ast.operator], str] = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Pow: "**"}
_COMPARING: dict[type[ast.cmpop], str] = {
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.Eq: "==",
    ast.NotEq: "!=",
}
_NAME = re.compile(NAME)
_OWN_WORDS = frozenset({"pi", *HELPERS, *SUMS, *keyword.kwlist})
_SAME_LEVEL = ({"+", "-"}, {"*", "/"})


def parse(text: str, slip: bool = False, where: bool = False) -> Formula:
    """Read a formula; with `where` a condition (comparisons joined by `and`), with `slip` a wrong method.

    Columns of what comes out count characters of `text` from 0. Raises FormulaError for anything outside the closed
    list, over 200 characters, 30 levels or a bounded power; nothing is computed.
    """
    return _parsed(text, slip, where)


@lru_cache(maxsize=8192)
def _parsed(text: str, slip: bool, where: bool) -> Formula:
    """The same, remembered however it was asked for: a cache takes `slip=False` for another question than none."""
    if not where and _NAME.fullmatch(text) and text not in _OWN_WORDS and len(text) <= LONGEST_FORMULA:
        return Formula(text, Name((text,), Place(0, len(text))), slip, where)
    flat = text.replace("\n", " ").replace("\t", " ").replace("\r", " ")
    found = pieces(flat)
    if not found:
        raise FormulaError("empty-formula", 0, len(text), _("there is no formula here"), _("write one in backticks"))
    _check_parentheses(found)
    start = found[0].column
    reader = _Reader(flat, start, slip)
    tree = reader.top(_read(_plain(flat, found)[start:], start), where)
    check_size(tree)
    return Formula(text, tree, slip, where)


def _plain(text: str, found: list[Piece]) -> str:
    """The text as Python's reader can take it, character for character: units like `in` are no keywords here."""
    if not any(piece.sort == "text" or keyword.iskeyword(piece.text) for piece in found):
        return text
    signs = list(text)
    for before, piece in zip([None, *found], found, strict=False):
        if piece.sort == "text":
            signs[piece.column + 1 : piece.column + len(piece.text) - 1] = "x" * (len(piece.text) - 2)
        elif before is not None and before.text == "." and keyword.iskeyword(piece.text):
            signs[piece.column] = piece.text[0].swapcase()
    return "".join(signs)


def _read(text: str, start: int) -> ast.expr:
    try:
        read = compile(text, "<formula>", "eval", ast.PyCF_ONLY_AST)
    except SyntaxError as error:
        column = min(max((error.offset or 1) - 1, 0), max(len(text.rstrip()) - 1, 0))
        what = _("the formula breaks off or does not hang together here")
        mend = _("look for a missing or a doubled sign, name or parenthesis")
        raise FormulaError("bad-formula", start + column, 1, what, mend) from None
    assert isinstance(read, ast.Expression)
    return read.body


def _check_parentheses(found: list[Piece]) -> None:
    opened: list[Piece] = []
    for piece in found:
        if piece.text == "(":
            opened.append(piece)
            if len(opened) > DEEPEST:
                raise _too_deep(piece.column, 1)
        elif piece.text == ")":
            if not opened:
                raise FormulaError(
                    "bad-formula", piece.column, 1, _("this parenthesis was not opened"), _("delete it or open it")
                )
            opened.pop()
    if opened:
        raise FormulaError("bad-formula", opened[-1].column, 1, _("this parenthesis is not closed"), _("add a )"))


def _too_deep(column: int, length: int) -> FormulaError:
    return FormulaError(
        "formula-too-deep",
        column,
        length,
        _("this formula is nested too deep"),
        _("at most {n} levels; put a part of it into a computed given").format(n=DEEPEST),
    )


class _Reader:
    """Turns Python's nodes into ours; `start` is the column of the first piece."""

    def __init__(self, text: str, start: int, slip: bool) -> None:
        self.text = text
        self.start = start
        self.slip = slip

    def top(self, node: ast.expr, where: bool) -> Node:
        """The whole formula: a condition or a value."""
        if where:
            return self.condition(node)
        if isinstance(node, ast.Compare | ast.BoolOp):
            what = _("a comparison has no place here")
            raise self.error(node, "bad-formula", what, _("comparisons stand in Where and in '[x if …]' only"))
        return self.value(node, 1)

    def condition(self, node: ast.expr) -> Node:
        """Comparisons joined by `and`."""
        if isinstance(node, ast.BoolOp) and isinstance(node.op, ast.And):
            return Every(tuple(self.comparison(part) for part in node.values), self.place(node))
        return self.comparison(node)

    def comparison(self, node: ast.expr) -> Comparison:
        """One comparison, possibly of more than two sides."""
        if not isinstance(node, ast.Compare):
            what = _("this is no comparison")
            raise self.error(node, "not-a-comparison", what, _("compare two values with < <= > >= == or !="))
        signs = tuple(_COMPARING.get(type(sign), "") for sign in node.ops)
        if "" in signs:
            raise self.error(node, "bad-formula", _("this comparison is not known here"), _("use < <= > >= == !="))
        sides = tuple(self.side(side) for side in (node.left, *node.comparators))
        if any(isinstance(side, Text) for side in sides) and (len(sides) != 2 or signs[0] not in ("==", "!=")):
            what = _("a text is compared with == or != only")
            raise self.error(node, "bad-formula", what, _('write material.family == "filler"'))
        return Comparison(signs, sides, self.place(node))

    def side(self, node: ast.expr) -> Node:
        """One side of a comparison: a value or a text in quotes."""
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            place = self.place(node)
            return Text(self.text[place.column + 1 : place.column + place.length - 1], place)
        return self.value(node, 1)

    def value(self, node: ast.expr, level: int) -> Node:
        """Anything that stands for a value."""
        if level > DEEPEST:
            place = self.place(node)
            raise _too_deep(place.column, place.length)
        match node:
            case ast.Constant():
                return self.numeral(node)
            case ast.Name() | ast.Attribute():
                return self.name(node)
            case ast.UnaryOp(op=ast.USub()):
                return Negative(self.value(node.operand, level + 1), self.place(node))
            case ast.UnaryOp(op=ast.UAdd()):
                return self.value(node.operand, level + 1)
            case ast.BinOp() if type(node.op) in _SIGNS:
                return self.operation(node, level)
            case ast.Call():
                return self.call(node, level)
            case ast.Compare() | ast.BoolOp():
                what = _("a comparison has no value to go on with")
                raise self.error(node, "bad-formula", what, _("at_least(x, y) is 1 or 0 as a value"))
        raise self.error(
            node,
            "bad-formula",
            _("this has no place in a formula"),
            _("formulas have + - * / **, parentheses, names, helpers and sums"),
        )

    def numeral(self, node: ast.Constant) -> Numeral:
        """A number, its value taken from the source text."""
        if isinstance(node.value, bool) or not isinstance(node.value, int | float):
            what = _("a text in quotes has no place here") if isinstance(node.value, str) else _("this is no number")
            raise self.error(node, "bad-formula", what, _("texts are compared in Where only, with == or !="))
        place = self.place(node)
        return Numeral(Fraction(self.text[place.column : place.column + place.length]), place)

    def operation(self, node: ast.BinOp, level: int) -> Operation:
        """Two sides and a sign; a plain chain (a + b + c) counts as one level."""
        sign = _SIGNS[type(node.op)]
        chained = isinstance(node.left, ast.BinOp) and any(
            {sign, _SIGNS.get(type(node.left.op), "")} <= signs for signs in _SAME_LEVEL
        )
        left = self.value(node.left, level if chained else level + 1)
        return Operation(sign, left, self.value(node.right, level + 1), self.place(node))

    def call(self, node: ast.Call, level: int) -> Call:
        """A helper or a sum with its arguments."""
        if not isinstance(node.func, ast.Name):
            what = _("only helpers and sums take parentheses with values")
            raise self.error(node, "bad-formula", what, _("put a sign such as * before the parenthesis"))
        name = node.func.id
        if name not in HELPERS and name not in SUMS:
            mend = nearest_word(name, (*HELPERS, *SUMS)) or _("the guide for authors lists the helpers and the sums")
            what = _("'{name}' is no helper and no sum").format(name=name)
            raise self.error(node.func, "unknown-function", what, mend)
        for argument in node.args:
            if isinstance(argument, ast.Starred):
                raise self.error(argument, "bad-formula", _("this * has nothing on its left"), _("write both sides"))
        if node.keywords:
            raise self.error(node, "bad-formula", _("this ** has nothing on its left"), _("write both sides"))
        self.count(node, name)
        return Call(name, tuple(self.value(argument, level + 1) for argument in node.args), self.place(node))

    def count(self, node: ast.Call, name: str) -> None:
        """Refuse a helper with too few or too many values; sums say it themselves, with their kinds."""
        if name not in HELPERS:
            return
        least, most = HELPERS[name]
        if least <= len(node.args) <= most:
            return
        wanted = str(least) if least == most else _("{least} or more").format(least=least)
        what = ngettext("{name} takes {wanted} value", "{name} takes {wanted} values", least).format(
            name=name, wanted=wanted
        )
        raise self.error(node, "wrong-count", what, _("separate the values with commas"))

    def name(self, node: ast.Name | ast.Attribute) -> Node:
        """A name with its fields, or pi."""
        path: list[str] = []
        part: ast.expr = node
        while isinstance(part, ast.Attribute):
            path.append(part.attr)
            part = part.value
        if not isinstance(part, ast.Name):
            what = _("only a name has fields")
            raise self.error(node, "bad-formula", what, _("write material.price, ratio.a"))
        path = [part.id, *(_unswapped(word) for word in reversed(path))]
        if any(word.startswith("_") for word in path):
            raise self.error(node, "bad-name", _("a name or a field begins with a letter"), _("leave the _ out"))
        if path == ["pi"]:
            return Call("pi", (), self.place(node))
        if path[0] in HELPERS or path[0] in SUMS:
            what = _("{name} wants its values in parentheses").format(name=path[0])
            raise self.error(node, "bad-formula", what, _("write {name}(…)").format(name=path[0]))
        if not _NAME.fullmatch(path[0]):
            what = _("'{name}' cannot be a name").format(name=path[0])
            raise self.error(
                node, "bad-name", what, _("names have small letters, digits and _, and begin with a letter")
            )
        return Name(tuple(path), self.place(node))

    def place(self, node: ast.expr) -> Place:
        """Where a node stands in the text of the author."""
        end = node.end_col_offset or node.col_offset
        return Place(self.start + node.col_offset, end - node.col_offset)

    def error(self, node: ast.expr, code: str, what: str, mend: str) -> FormulaError:
        """A fault at a node."""
        place = self.place(node)
        return FormulaError(code, place.column, place.length, what, mend)


def _unswapped(word: str) -> str:
    """A field as typed: a keyword was given another first letter before Python's reader saw it."""
    other = word[0].swapcase() + word[1:]
    return other if keyword.iskeyword(other) else word


def nearest_word(word: str, known: tuple[str, ...]) -> str:
    """'did you mean …?' for a word close to a known one, else ""."""
    close = difflib.get_close_matches(word, known, n=1, cutoff=0.6)
    return _("did you mean {word}?").format(word=close[0]) if close else ""
