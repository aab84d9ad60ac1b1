"""Certificates: whether a person holds a set of skills, and to which day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.standing.reasons import N_, Reason
from quizkit.standing.record import Record
from quizkit.standing.scheme import Certificate, Scheme
from quizkit.standing.standing import Standing, standing_of


@dataclass(frozen=True, slots=True)
class Holding:
    """A person and a set of skills: every part's standing, what is missing, and the earliest end of the parts."""

    person: str
    certificate: Certificate
    parts: tuple[Standing, ...]
    missing: tuple[Reason, ...]
    until: dt.date | None

    @property
    def complete(self) -> bool:
        """Whether a certificate may be issued."""
        return not self.missing


def holding_of(found: Record, scheme: Scheme, certificate: str) -> Holding:
    """How a person stands with a certificate on the record's day. Raises SchemeError where there is no such set."""
    asked = scheme.certificate(certificate)
    parts = tuple(standing_of(found, scheme, skill) for skill in asked.skills)
    missing = tuple(
        Reason(N_("{name} is not cleared"), (("name", scheme.skill_title(part.skill)),), part.until)
        for part in parts
        if not part.clear
    )
    ends = [part.holds_until for part in parts if part.holds_until is not None]
    return Holding(found.person, asked, parts, missing, min(ends) if ends and not missing else None)
