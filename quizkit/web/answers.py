"""The boxes of a form as typed answers, and typed answers back into boxes."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from quizkit.shop import PartView

Fields = Mapping[str, Sequence[str]]


def typed(fields: Fields, parts: Sequence[PartView]) -> dict[str, str]:
    """The answer of each part as it would be typed in one line: '2.4 mL', '1, 3', '3 1 2 4', '1b 2a 3c'."""
    return {part.name: _one(fields, part) for part in parts}


def _one(fields: Fields, part: PartView) -> str:
    name = f"part.{part.name}"
    if part.kind == "number":
        return _first(fields, name)
    if part.kind == "choice":
        return ", ".join(value.strip()[:3] for value in fields.get(name, ()))
    chosen = [_first(fields, f"{name}.{option.number}")[:3] for option in part.options]
    if part.kind == "match":
        return " ".join(
            f"{option.number}{letter}" for option, letter in zip(part.options, chosen, strict=True) if letter
        )
    if not any(chosen):
        return ""
    places = [
        [option.number for option, place in zip(part.options, chosen, strict=True) if place == str(at)]
        for at in range(1, len(part.options) + 1)
    ]
    return " ".join("+".join(map(str, there)) or "_" for there in places)


def _first(fields: Fields, name: str) -> str:
    return next(iter(fields.get(name, ())), "").strip()


def boxes(part: PartView) -> dict[int, str]:
    """What stood in the boxes of a choice, order or match, read back from the typed line: by the option's number."""
    if part.kind == "choice":
        return {int(number): "on" for number in re.findall(r"\d+", part.typed)}
    if part.kind == "match":
        return {int(number): letter for number, letter in re.findall(r"(\d+) ?([a-z])", part.typed.lower())}
    found: dict[int, str] = {}
    for place, there in enumerate(part.typed.split(), 1):
        found.update({int(number): str(place) for number in re.findall(r"\d+", there)})
    return found
