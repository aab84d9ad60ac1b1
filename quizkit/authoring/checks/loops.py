"""Skills that need each other could never be begun."""

from __future__ import annotations

from collections.abc import Iterator

from quizkit.authoring.diagnostics import Diagnostic
from quizkit.authoring.files import ContentRead
from quizkit.authoring.keys import at
from quizkit.words import _


def check(content: ContentRead) -> Iterator[Diagnostic]:
    """Tell each module that needs itself by way of its needs."""
    needs = {module.scheme.skill: module.scheme.needs for module in content.modules if module.scheme is not None}
    for module in content.modules:
        if module.scheme is None or module.toml is None:
            continue
        way = _way_back(module.scheme.skill, needs)
        if way:
            what = _("this skill needs itself: {way}").format(way=" → ".join(way))
            yield module.toml.problem("M07", at(module.toml, ("needs",)), what, _("take one of the needs away"))


def _way_back(skill: str, needs: dict[str, tuple[str, ...]]) -> list[str]:
    """The shortest way from a skill through its needs back to itself; empty where there is none."""
    ways = [[skill, need] for need in needs.get(skill, ())]
    seen: set[str] = set()
    while ways:
        way = ways.pop(0)
        if way[-1] == skill:
            return way
        if way[-1] not in seen:
            seen.add(way[-1])
            ways += [[*way, need] for need in needs.get(way[-1], ())]
    return []
