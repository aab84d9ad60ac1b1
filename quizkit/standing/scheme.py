"""What a shop asks for: its skills with what they need, kinds of job, certificates, and the cover it wants."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from quizkit.standing.dates import Term
from quizkit.words import _


class SchemeError(ValueError):
    """A scheme that cannot be worked with; the text says what is wrong and how to mend it."""


@dataclass(frozen=True, slots=True)
class Skill:
    """One skill. `minutes` (the module), `sheet_minutes` and `renewal_minutes` are for the plan."""

    id: str
    valid: Term
    title: str = ""
    needs: tuple[str, ...] = ()
    proofs: tuple[str, ...] = ()
    practical: bool = False
    minutes: int = 25
    sheet_minutes: int = 30
    renewal_minutes: int = 15


@dataclass(frozen=True, slots=True)
class Job:
    """A kind of job: skills, an endorsed family and ratio (empty for any), and outside proofs."""

    id: str
    title: str = ""
    skills: tuple[str, ...] = ()
    family: str = ""
    ratio: str = ""
    proofs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Certificate:
    """A set of skills that a certificate states."""

    id: str
    title: str = ""
    skills: tuple[str, ...] = ()
    says: str = ""


@dataclass(frozen=True, slots=True)
class Scheme:
    """All that standing asks of a shop. `lapsing` and `pair_within` are days; `cover` is (site, skill, people wanted).

    Raises SchemeError on a name that nothing explains, one said twice, or needs that run in a circle.
    """

    skills: tuple[Skill, ...]
    first: str = ""
    lapsing: int = 60
    pair_within: int = 90
    proofs: tuple[tuple[str, str], ...] = ()
    jobs: tuple[Job, ...] = ()
    certificates: tuple[Certificate, ...] = ()
    cover: tuple[tuple[str, str, int], ...] = ()
    by_id: Mapping[str, Skill] = field(init=False, repr=False, compare=False)
    lines: Mapping[str, tuple[str, ...]] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        named = {skill.id: skill for skill in self.skills}
        if len(named) != len(self.skills):
            raise SchemeError(_("two skills have the same id: give each its own"))
        object.__setattr__(self, "by_id", MappingProxyType(named))
        for skill in _asked(self):
            if skill not in named:
                raise SchemeError(_("there is no skill '{skill}': name one of the modules' skills").format(skill=skill))
        object.__setattr__(self, "lines", MappingProxyType({skill: _line(self, skill) for skill in named}))

    def skill(self, name: str) -> Skill:
        """A skill by its id. Raises SchemeError where there is none."""
        try:
            return self.by_id[name]
        except KeyError:
            known = ", ".join(self.by_id)
            text = _("there is no skill '{name}'; the shop has: {known}").format(name=name, known=known)
            raise SchemeError(text) from None

    def with_needs(self, name: str) -> tuple[str, ...]:
        """A skill and all it needs, directly or not, what is needed first. Raises SchemeError where there is none."""
        return self.lines[self.skill(name).id]

    def job(self, name: str) -> Job:
        """A kind of job by its id. Raises SchemeError where there is none."""
        for job in self.jobs:
            if job.id == name:
                return job
        known = ", ".join(job.id for job in self.jobs)
        raise SchemeError(_("there is no kind of job '{name}'; the shop has: {known}").format(name=name, known=known))

    def certificate(self, name: str) -> Certificate:
        """A set of skills by its id. Raises SchemeError where there is none."""
        for certificate in self.certificates:
            if certificate.id == name:
                return certificate
        known = ", ".join(certificate.id for certificate in self.certificates)
        raise SchemeError(_("there is no certificate '{name}'; the shop has: {known}").format(name=name, known=known))

    def skill_title(self, name: str) -> str:
        """What people call a skill."""
        return self.skill(name).title or name

    def proof_title(self, kind: str) -> str:
        """What people call a kind of outside proof."""
        return dict(self.proofs).get(kind) or kind

    def wanted(self, site: str, skill: str) -> int:
        """How many cleared people a site wants for a skill; 0 where nothing is said."""
        return sum(count for place, name, count in self.cover if place == site and name == skill)


def _asked(scheme: Scheme) -> Iterable[str]:
    """Every skill that some other line of the scheme names."""
    for skill in scheme.skills:
        yield from skill.needs
    for job in scheme.jobs:
        yield from job.skills
    for certificate in scheme.certificates:
        yield from certificate.skills
    yield from (name for _site, name, _count in scheme.cover)
    if scheme.first:
        yield scheme.first


def _line(scheme: Scheme, name: str) -> tuple[str, ...]:
    done: dict[str, None] = {}
    _visit(scheme, name, done, ())
    return tuple(done)


def _visit(scheme: Scheme, name: str, done: dict[str, None], path: tuple[str, ...]) -> None:
    if name in path:
        circle = " → ".join((*path[path.index(name) :], name))
        raise SchemeError(_("these skills need each other in a circle: {circle}").format(circle=circle))
    if name in done:
        return
    for need in scheme.skill(name).needs:
        _visit(scheme, need, done, (*path, name))
    done[name] = None
