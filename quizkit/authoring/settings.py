"""`shop.toml` and `module.toml`: every key, what it may hold, and its default."""

from __future__ import annotations

from fractions import Fraction

from quizkit.authoring import values as v
from quizkit.authoring.diagnostics import Diagnostic
from quizkit.authoring.keys import Section, read_toml
from quizkit.authoring.source import Source
from quizkit.pack.scheme import (
    Certificate,
    Check,
    Job,
    ModuleScheme,
    OutsideProof,
    Period,
    Practice,
    Scheme,
    Site,
)
from quizkit.words import _

_COUNT = v.whole(0, 10_000)
_DAYS = v.whole(1, 3_650)
_MINUTES = v.whole(1, 1_000)


def shop_settings(source: Source) -> tuple[Scheme | None, tuple[Diagnostic, ...]]:
    """Read `shop.toml`. A setting that is wrong is told and has its default; None where the file is no TOML."""
    problems: list[Diagnostic] = []
    top = read_toml(source, problems)
    return (_scheme(top) if top else None), tuple(problems)


def _scheme(top: Section) -> Scheme:
    blank = Scheme("")
    zone = top.get("zone", v.zone, blank.zone)
    if "zone" not in top.values:
        top.tell(
            "S05",
            "",
            _("no time zone is set, so days end at midnight UTC"),
            _('add a line like zone = "America/Denver"'),
        )
    cover = _counts(top.table("cover"))
    scheme = Scheme(
        name=top.need("name", v.text, ""),
        currency=top.get("currency", v.currency, blank.currency),
        mark=top.get("mark", v.one_of(".", ","), blank.mark),
        dates=top.get("dates", v.one_of("y-m-d", "m/d/y", "d/m/y"), blank.dates),
        language=top.get("language", v.language, blank.language),
        zone=zone,
        address=top.get("address", v.address, blank.address),
        shelf_is_ours=top.get("shelf_is_ours", v.flag, blank.shelf_is_ours),
        tax=top.get("tax", v.percent, blank.tax),
        tax_by=top.get("tax_by", v.one_of("ticket", "line"), blank.tax_by),
        markup=top.get("markup", v.percent, blank.markup),
        least_charge=top.get("least_charge", v.money, blank.least_charge),
        lapsing=top.get("lapsing", _DAYS, blank.lapsing),
        pair_within=top.get("pair_within", _DAYS, blank.pair_within),
        first=top.get("first", v.name, blank.first),
        few=top.get("few", v.whole(2, 1_000), blank.few),
        keep=top.get("keep", v.validity, blank.keep),
        valid=_periods(top.table("valid")),
        sites=_sites(top, zone, cover),
        proofs=tuple(_proof(key, part) for key, part in top.table("proofs").tables()),
        jobs=tuple(_job(key, part) for key, part in top.table("jobs").tables()),
        certificates=tuple(_certificate(key, part) for key, part in top.table("certificates").tables()),
        practice=_practice(top.table("practice")),
    )
    top.done()
    return scheme


def _counts(section: Section) -> tuple[tuple[str, int], ...]:
    return tuple((key, section.get(key, _COUNT, 0)) for key in section.ids())


def _periods(section: Section) -> tuple[tuple[str, Period], ...]:
    return tuple((key, section.get(key, v.validity, Period(1, "years"))) for key in section.ids())


def _sites(top: Section, zone: str, cover: tuple[tuple[str, int], ...]) -> tuple[Site, ...]:
    found = tuple(_site(key, part, zone, cover) for key, part in top.table("sites").tables())
    return found or (Site("main", str(top.values.get("name", "")), zone, cover),)


def _site(key: str, part: Section, zone: str, cover: tuple[tuple[str, int], ...]) -> Site:
    own = _counts(part.table("cover"))
    site = Site(
        id=key,
        title=part.get("title", v.text, key),
        zone=part.get("zone", v.zone, zone),
        cover=tuple(sorted({**dict(cover), **dict(own)}.items())),
    )
    part.done()
    return site


def _proof(key: str, part: Section) -> OutsideProof:
    valid = part.get("valid", v.validity, Period(1, "days")) if "valid" in part.values else None
    part.known.add("valid")
    proof = OutsideProof(key, part.need("title", v.text, ""), valid, part.get("detail", v.text, ""))
    part.done()
    return proof


def _job(key: str, part: Section) -> Job:
    job = Job(
        id=key,
        title=part.need("title", v.text, ""),
        skills=part.need("skills", v.some_names, ()),
        family=part.get("family", v.text, ""),
        ratio=part.get("ratio", v.ratio, ""),
        proofs=part.get("proofs", v.names, ()),
    )
    part.done()
    return job


def _certificate(key: str, part: Section) -> Certificate:
    certificate = Certificate(
        id=key,
        title=part.need("title", v.text, ""),
        skills=part.need("skills", v.some_names, ()),
        says=part.need("says", v.text, ""),
    )
    part.done()
    return certificate


def _practice(part: Section) -> Practice:
    blank = Practice()
    practice = Practice(
        known=part.get("known", v.chance, blank.known),
        learns=part.get("learns", v.chance, blank.learns),
        slips=part.get("slips", v.chance, blank.slips),
        guesses=part.get("guesses", v.chance, blank.guesses),
        solid=part.get("solid", v.chance, blank.solid),
        again=part.get("again", v.growing, blank.again),
    )
    part.done()
    return practice


def module_settings(source: Source) -> tuple[ModuleScheme | None, tuple[Diagnostic, ...]]:
    """Read one `module.toml`. A setting that is wrong is told and has its default; None where the file is no TOML."""
    problems: list[Diagnostic] = []
    top = read_toml(source, problems)
    return (_module(top) if top else None), tuple(problems)


def _module(top: Section) -> ModuleScheme:
    if "check" not in top.values:
        top.tell("S03", "", _("this file needs a table [check]"), _("add it, with pass_mark, wait, valid and topics"))
        top.known.add("check")
    scheme = ModuleScheme(
        title=top.need("title", v.text, ""),
        skill=top.need("skill", v.name, ""),
        check=_check(top.table("check")) if "check" in top.values else _NO_CHECK,
        needs=top.get("needs", v.names, ()),
        proofs=top.get("proofs", v.names, ()),
        minutes=top.get("minutes", _MINUTES, 25),
        sheet_minutes=top.get("sheet_minutes", _MINUTES, 30),
        practical=top.get("practical", v.flag, False),
    )
    top.done()
    return scheme


_NO_CHECK = Check(Fraction(1), Period(24, "hours"), Period(1, "years"), (), ())


def _check(part: Section) -> Check:
    if "topics" not in part.values:
        part.tell("S03", "", _("[check] needs a table [check.topics]"), _("say how many questions of each topic"))
    topics = _some_counts(part.table("topics"))
    renewal_part = part.table("renewal")
    renewal = _some_counts(renewal_part)
    for key in dict(renewal):
        if topics and key not in dict(topics):
            what = _("the topic '{key}' is not in [check.topics]").format(key=key)
            renewal_part.tell("S04", key, what, _("take it out here, or add it there"))
    check = Check(
        pass_mark=part.need("pass_mark", v.pass_mark, Fraction(1)),
        wait=part.need("wait", v.period, _NO_CHECK.wait),
        valid=part.need("valid", v.validity, _NO_CHECK.valid),
        topics=topics,
        renewal=renewal or tuple((key, (count + 1) // 2) for key, count in topics),
        open_for=part.get("open_for", v.period, Period(48, "hours")),
    )
    part.done()
    return check


def _some_counts(section: Section) -> tuple[tuple[str, int], ...]:
    return tuple((key, section.get(key, v.whole(1, 200), 1)) for key in section.ids())
