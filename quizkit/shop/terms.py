"""The shop's settings as standing reads them: its scheme, and the terms that a row keeps from the day it arises."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from quizkit.pack.scheme import ModuleScheme, Period, Scheme
from quizkit.standing import scheme as plain
from quizkit.standing.dates import Term
from quizkit.standing.events import Terms

MINUTES_A_QUESTION = 2
"""What a renewal is planned with: nobody reads the lessons again, everybody works its questions."""


def term(period: Period) -> Term:
    """A period in whole months and days; hours round up to days."""
    count = period.count
    match period.unit:
        case "hours":
            return Term(days=-(-count // 24))
        case "days":
            return Term(days=count)
        case "weeks":
            return Term(days=7 * count)
        case "months":
            return Term(months=count)
        case "years":
            return Term(months=12 * count)


def stretch(period: Period) -> dt.timedelta:
    """A period on the clock, for waits and open checks; a month counts 30 days, a year 365."""
    hours = {"hours": 1, "days": 24, "weeks": 168, "months": 720, "years": 8760}[period.unit]
    return dt.timedelta(hours=hours * period.count)


def valid_for(scheme: Scheme, module: ModuleScheme) -> Term:
    """How long a clearance in a module's skill holds: as the shop says, else as the module does."""
    return term(dict(scheme.valid).get(module.skill, module.check.valid))


def terms_of(scheme: Scheme, module: ModuleScheme) -> Terms:
    """The terms of today, to be kept with a row of this module's skill."""
    return Terms(valid_for(scheme, module), scheme.pair_within, scheme.lapsing)


def standing_scheme(scheme: Scheme, modules: Iterable[ModuleScheme]) -> plain.Scheme:
    """What standing asks of a shop, from the settings of the shop and its modules."""
    return plain.Scheme(
        skills=tuple(_skill(scheme, module) for module in modules),
        first=scheme.first,
        lapsing=scheme.lapsing,
        pair_within=scheme.pair_within,
        proofs=tuple((proof.id, proof.title) for proof in scheme.proofs),
        jobs=tuple(plain.Job(job.id, job.title, job.skills, job.family, job.ratio, job.proofs) for job in scheme.jobs),
        certificates=tuple(plain.Certificate(one.id, one.title, one.skills, one.says) for one in scheme.certificates),
        cover=tuple((site.id, skill, count) for site in scheme.sites for skill, count in site.cover),
    )


def _skill(scheme: Scheme, module: ModuleScheme) -> plain.Skill:
    return plain.Skill(
        id=module.skill,
        title=module.title,
        needs=module.needs,
        proofs=module.proofs,
        practical=module.practical,
        valid=valid_for(scheme, module),
        minutes=module.minutes,
        sheet_minutes=module.sheet_minutes,
        renewal_minutes=MINUTES_A_QUESTION * sum(count for _topic, count in module.check.renewal),
    )


def terms_text(terms: Terms) -> dict[str, int]:
    """Terms as plain numbers, for a row."""
    return {
        "months": terms.valid.months,
        "days": terms.valid.days,
        "pair_within": terms.pair_within,
        "lapsing": terms.lapsing,
    }


def terms_from(plain_terms: dict[str, int]) -> Terms:
    """Terms out of a row."""
    valid = Term(plain_terms["months"], plain_terms["days"])
    return Terms(valid, plain_terms["pair_within"], plain_terms["lapsing"])
