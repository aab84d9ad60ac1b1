"""Reading TOML so that every fault of a file is told at once, each at its key."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import lru_cache
from typing import Any, TypeVar

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.nearest import did_you_mean
from quizkit.authoring.source import Source
from quizkit.words import _

T = TypeVar("T")
Path = tuple[str, ...]

_HEADER = re.compile(r"[ \t]*\[\[?([^\[\]#]+)\]")
_KEY = re.compile(r"""[ \t]*((?:[\w-]+|"[^"]*"|'[^']*')(?:[ \t]*\.[ \t]*(?:[\w-]+|"[^"]*"|'[^']*'))*)[ \t]*=""")
_WORD = re.compile(r"""[\w-]+|"[^"]*"|'[^']*'""")
_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")


class BadValue(Exception):
    """A value that a setting cannot take: what is wrong with it, and how to mend it."""

    def __init__(self, what: str, mend: str) -> None:
        super().__init__(what)
        self.what = what
        self.mend = mend


class Section:
    """One table of a TOML file, read key by key.

    Each key is asked for once, with a reader that gives the value or raises `BadValue`; a key that
    nobody asked for is unknown.
    """

    def __init__(self, source: Source, values: Mapping[str, Any], problems: list[Diagnostic], path: Path = ()) -> None:
        self.source = source
        self.values = values
        self.problems = problems
        self.path = path
        self.places = places(source.lines)
        self.known: set[str] = set()

    def spot(self, key: str = "") -> Spot:
        """Where the key stands, or the header of this table, or the top of the file."""
        path = (*self.path, key) if key else self.path
        while path and path not in self.places:
            path = path[:-1]
        return self.places.get(path, Spot())

    def tell(self, code: str, key: str, what: str, mend: str = "") -> None:
        """Add a problem at a key of this table."""
        self.problems.append(self.source.problem(code, self.spot(key), what, mend))

    def get(self, key: str, read: Callable[[Any], T], default: T) -> T:
        """The value of a key through its reader, or the default where it is left out or wrong."""
        self.known.add(key)
        if key not in self.values:
            return default
        try:
            return read(self.values[key])
        except BadValue as bad:
            self.tell("S04", key, _("'{key}' {what}").format(key=key, what=bad.what), bad.mend)
            return default

    def need(self, key: str, read: Callable[[Any], T], default: T) -> T:
        """As `get`, but the key must be there."""
        if key not in self.values:
            where = "[" + ".".join(self.path) + "]" if self.path else _("this file")
            self.tell("S03", "", _("{where} needs '{key}'").format(where=where, key=key), _("add a line for it"))
        return self.get(key, read, default)

    def table(self, key: str) -> Section:
        """The table of that name inside this one; an empty one where it is left out or no table."""
        self.known.add(key)
        value = self.values.get(key, {})
        if not isinstance(value, dict):
            self.tell(
                "S04",
                key,
                _("'{key}' must be a table").format(key=key),
                _("write [{key}] on a line of its own, its keys below").format(key=".".join((*self.path, key))),
            )
            value = {}
        return Section(self.source, value, self.problems, (*self.path, key))

    def tables(self) -> list[tuple[str, Section]]:
        """Every table inside this one, by its id; an id that is none is told and left out."""
        return [(key, self.table(key)) for key in self.ids()]

    def ids(self) -> list[str]:
        """The keys of this table, where all are ids of someone's choice."""
        self.known.update(self.values)
        good = []
        for key in self.values:
            if re.fullmatch(r"[a-z][a-z0-9-]*", key):
                good.append(key)
            else:
                self.tell(
                    "S04",
                    key,
                    _("'{key}' is no id").format(key=key[:60]),
                    _("an id has small letters, digits and dashes, and begins with a letter"),
                )
        return good

    def done(self) -> None:
        """Tell every key that was never asked for."""
        for key in self.values:
            if key not in self.known:
                what = _("there is no setting '{key}' here").format(key=key[:60])
                self.tell("S02", key, what, did_you_mean(key, self.known))


def read_toml(source: Source, problems: list[Diagnostic]) -> Section | None:
    """The top table of a file, or None where it is no TOML. Decimals come as `Decimal`, exactly as typed."""
    try:
        values = tomllib.loads("\n".join(source.lines) + "\n", parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        problems.append(_syntax(source, str(error)))
        return None
    except (RecursionError, ValueError, ArithmeticError):
        problems.append(source.problem("S01", Spot(), _("this file is nested too deep, or holds a number too long")))
        return None
    return Section(source, values, problems)


def _syntax(source: Source, message: str) -> Diagnostic:
    found = _PLACE.search(message)
    spot = Spot(len(source.lines), len(source.lines[-1]) + 1)
    if found and found[1]:
        spot = Spot(int(found[1]), int(found[2]))
    said = _PLACE.sub("", message)
    return source.problem(
        "S01",
        spot,
        _("this is not TOML: {said}").format(said=said[:200]),
        _("a setting is written name = value; words stand in double quotes"),
    )


@lru_cache(maxsize=1024)
def places(lines: tuple[str, ...]) -> dict[Path, Spot]:
    """Where each table header and each key stands, read from the lines."""
    found: dict[Path, Spot] = {}
    table: Path = ()
    for number, line in enumerate(lines, 1):
        header = _HEADER.match(line)
        key = None if header else _KEY.match(line)
        match = header or key
        if match is None:
            continue
        path = tuple(word.strip("\"'") for word in _WORD.findall(match[1]))
        if header:
            table = path
        else:
            path = table + path
        spot = Spot(number, match.start(1) + 1, len(match[1].rstrip()))
        for depth in range(1, len(path) + 1):
            found.setdefault(path[:depth], spot)
        found[path] = spot
    return found


def at(source: Source, path: Path) -> Spot:
    """Where a key of a TOML file stands, or the nearest table around it, or the top of the file."""
    found = places(source.lines)
    while path and path not in found:
        path = path[:-1]
    return found.get(path, Spot())
