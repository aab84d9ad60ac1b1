"""The model as JSON and back: exact numbers as text, keys sorted, the same bytes on every machine.

The types of the model are the schema: every dataclass is an object of its fields, a tuple is a list, and where a
field may hold one of several dataclasses the object says which under "is".
"""

from __future__ import annotations

import datetime
import hashlib
import json
import types
from collections import OrderedDict
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from quizkit.formula import Formula, RatioValue, Row, parse
from quizkit.pack.model import Image, Lesson, Module, Pack, Question
from quizkit.pack.nodes import Element
from quizkit.units import Unit, unit

T = TypeVar("T")


def to_json(value: Any) -> bytes:
    """A part of the model as canonical JSON in UTF-8."""
    return b"".join(_pieces(value))


def _pieces(value: Any) -> Iterator[bytes]:
    """Canonical JSON piece by piece; large parts are made once an object."""
    match value:
        case Pack() | Module():
            kind: Any = type(value)
            sign = b"{"
            for name in sorted(("is", *_fields(kind))):
                yield sign + json.dumps(name).encode() + b":"
                yield from (json.dumps(kind.__name__).encode(),) if name == "is" else _pieces(getattr(value, name))
                sign = b","
            yield b"}"
        case tuple() if value and isinstance(value[0], Module | Question | Lesson | Image):
            sign = b"["
            for item in value:
                yield sign
                yield from _pieces(item) if isinstance(item, Module) else (text_of(item),)
                sign = b","
            yield b"]"
        case Question() | Lesson() | Image():
            yield text_of(value)
        case _:
            yield _dumped(value)


def _dumped(value: Any) -> bytes:
    return json.dumps(plain(value), ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()


_KEPT: OrderedDict[int, tuple[Any, bytes]] = OrderedDict()
_MOST_KEPT = 20_000


def text_of(value: Question | Lesson | Image) -> bytes:
    """The canonical JSON of an object, remembered by its identity: frozen objects never change, equality is dear."""
    known = _KEPT.get(id(value))
    if known is not None and known[0] is value:
        return known[1]
    text = _dumped(value)
    remember(value, text)
    return text


def remember(value: Question | Lesson | Image, text: bytes) -> None:
    """Keep the canonical JSON of an object that another process has made of its like."""
    _KEPT[id(value)] = (value, text)
    if len(_KEPT) > _MOST_KEPT:
        _KEPT.popitem(last=False)


def from_json(kind: type[T], data: bytes | str) -> T:
    """The part of the model that some JSON holds. Raises ValueError, KeyError or TypeError for anything else."""
    return built(kind, json.loads(data))  # type: ignore[no-any-return]


def sha256(value: Any) -> str:
    """The SHA-256 of the canonical JSON of a part of the model, in hexadecimal."""
    return hashlib.sha256(to_json(value)).hexdigest()


def plain(value: Any) -> Any:
    """A value of the model as plain lists, objects and text."""
    kind: Any = type(value)
    if kind in _PLAIN_ALREADY:
        return value
    if kind is tuple:
        return [item if type(item) in _PLAIN_ALREADY else plain(item) for item in value]
    leaf = _PLAIN_LEAVES.get(kind)
    if leaf is not None:
        return leaf(value)
    found = {"is": kind.__name__, **{name: plain(getattr(value, name)) for name in _fields(kind)}}
    for name, usual in _later(kind).items():
        if found[name] == usual:
            del found[name]
    return found


def _plain_element(element: Element) -> Any:
    children = [child if isinstance(child, str) else _plain_element(child) for child in element.children]
    return [element.tag, list(map(list, element.attrs)), children]


def _plain_row(row: Row) -> Any:
    return [row.name, [[name, _value(cell)] for name, cell in row.fields]]


_PLAIN_ALREADY = frozenset((str, int, bool, type(None)))
_PLAIN_LEAVES: dict[type, Callable[[Any], Any]] = {
    Element: _plain_element,
    Fraction: str,
    datetime.date: datetime.date.isoformat,
    Unit: lambda unit: unit.symbol,
    Formula: lambda formula: formula.text,
    Row: _plain_row,
}


def _value(value: Any) -> Any:
    """A cell of the shelf, with a word for its sort."""
    match value:
        case Fraction():
            return ["number", str(value)]
        case datetime.date():
            return ["date", value.isoformat()]
        case RatioValue():
            return ["ratio", str(value.a), str(value.b), value.basis]
        case _:
            return ["text", value]


def _cell(plain: Any) -> Any:
    match plain:
        case ["number", text]:
            return Fraction(text)
        case ["date", text]:
            return datetime.date.fromisoformat(text)
        case ["ratio", a, b, basis]:
            return RatioValue(Fraction(a), Fraction(b), basis)
        case ["text", text]:
            return str(text)
    raise ValueError(plain)


@lru_cache(maxsize=128)
def _fields(kind: Any) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind) if field.init)


@lru_cache(maxsize=128)
def _later(kind: Any) -> dict[str, Any]:
    """The fields that older packs do not have, each with what it is there."""
    return {field.name: field.default for field in fields(kind) if "later" in field.metadata}


@lru_cache(maxsize=128)
def _hints(kind: Any) -> dict[str, Any]:
    hints = get_type_hints(kind)
    return {name: hints[name] for name in _fields(kind)}


def built(kind: Any, value: Any) -> Any:
    """A value of the model from plain lists, objects and text, by its type."""
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        return _one_of(get_args(kind), value)
    if origin is tuple:
        inner = get_args(kind)
        if len(inner) == 2 and inner[1] is Ellipsis:
            return tuple([built(inner[0], item) for item in value])
        return tuple([built(part, item) for part, item in zip(inner, value, strict=True)])
    if origin is Literal:
        if value not in get_args(kind):
            raise ValueError(value)
        return value
    leaf = _LEAVES.get(kind)
    if leaf is not None:
        return leaf(value)
    hints = _hints(kind)
    if not _later(kind).keys() <= value.keys():
        hints = {name: hint for name, hint in hints.items() if name in value or name not in _later(kind)}
    return kind(**{name: built(hint, value[name]) for name, hint in hints.items()})


def _one_of(kinds: tuple[Any, ...], value: Any) -> Any:
    if value is None:
        return None
    if isinstance(value, dict):
        return built(next(kind for kind in kinds if getattr(kind, "__name__", "") == value["is"]), value)
    if isinstance(value, list):
        tuples = [kind for kind in kinds if get_origin(kind) is tuple]
        return built(tuples[0], value) if tuples else _element(value)
    if datetime.date in kinds and Fraction in kinds:
        return datetime.date.fromisoformat(value) if value[4:5] == "-" and value.count("-") == 2 else Fraction(value)
    (kind,) = (kind for kind in kinds if kind is not type(None) and not (is_dataclass(kind) and kind is not Unit))
    return built(kind, value)


def _element(value: Any) -> Element:
    tag, attrs, children = value
    inside = tuple(child if isinstance(child, str) else _element(child) for child in children)
    return Element(tag, tuple((key, text) for key, text in attrs), inside)


def _row(value: Any) -> Row:
    name, cells = value
    return Row(name, tuple((field, _cell(cell)) for field, cell in cells))


def _exactly(kind: type) -> Any:
    def check(value: Any) -> Any:
        if type(value) is not kind:
            raise TypeError(value)
        return value

    return check


_LEAVES: dict[Any, Any] = {
    str: _exactly(str),
    int: _exactly(int),
    bool: _exactly(bool),
    Fraction: Fraction,
    datetime.date: datetime.date.fromisoformat,
    Unit: unit,
    Formula: parse,
    Element: _element,
    Row: _row,
}
