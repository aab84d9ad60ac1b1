"""Every skill that the settings name is taught by exactly one module."""

from __future__ import annotations

from collections.abc import Iterator

from quizkit.authoring.diagnostics import Diagnostic
from quizkit.authoring.files import ContentRead
from quizkit.authoring.keys import Path, at, places
from quizkit.authoring.nearest import did_you_mean
from quizkit.authoring.source import Source
from quizkit.words import _


def check(content: ContentRead) -> Iterator[Diagnostic]:
    """Tell unknown skills in shop.toml and module.toml, and a skill of two modules."""
    known: dict[str, str] = {}
    for module in content.modules:
        if module.scheme is None or module.toml is None or not module.scheme.skill:
            continue
        if module.scheme.skill in known:
            what = _("the skill '{skill}' is taught by '{module}' already").format(
                skill=module.scheme.skill, module=known[module.scheme.skill]
            )
            yield module.toml.problem("M05", at(module.toml, ("skill",)), what, _("one module a skill"))
        known.setdefault(module.scheme.skill, module.id)
    if any(module.scheme is None or not module.scheme.skill for module in content.modules):
        return  # its skill is not known, so no other can be called unknown
    for source, path, skill in _named(content):
        if skill not in known:
            what = _("no module teaches the skill '{skill}'").format(skill=skill)
            yield source.problem("M04", at(source, path), what, did_you_mean(skill, known))


def _named(content: ContentRead) -> Iterator[tuple[Source, Path, str]]:
    for module in content.modules:
        if module.scheme is not None and module.toml is not None:
            for skill in module.scheme.needs:
                yield module.toml, ("needs",), skill
    scheme, shop = content.scheme, content.shop
    if scheme is None or shop is None:
        return
    for skill, _period in scheme.valid:
        yield shop, ("valid", skill), skill
    for site in scheme.sites:
        for skill, _count in site.cover:
            path = ("sites", site.id, "cover", skill)
            yield shop, path if path in places(shop.lines) else ("cover", skill), skill
    for job in scheme.jobs:
        for skill in job.skills:
            yield shop, ("jobs", job.id, "skills"), skill
    for certificate in scheme.certificates:
        for skill in certificate.skills:
            yield shop, ("certificates", certificate.id, "skills"), skill
    if scheme.first:
        yield shop, ("first",), scheme.first
