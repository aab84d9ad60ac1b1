"""Jobs done out of a list, a line a material: all of them are written down, or none and why."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quizkit.shop.amounts import field, read_day
from quizkit.shop.handle import Shop
from quizkit.shop.joining import RowProblem
from quizkit.shop.packs import current_pack, settings
from quizkit.shop.people import person_named, trainer
from quizkit.shop.refusal import Refusal
from quizkit.shop.tickets import ReadyJob, Use, ready_job, write_job
from quizkit.words import _

Line = tuple[int, Mapping[str, str]]


@dataclass(frozen=True, slots=True)
class JobsAdded:
    """The numbers of the jobs that were written down; with any problem there are none."""

    numbers: tuple[int, ...]
    problems: tuple[RowProblem, ...]


def record_jobs(shop: Shop, rows: Sequence[Mapping[str, str]], *, by: int, now: dt.datetime) -> JobsAdded:
    """Write down every job of a list, or none if a line is wrong; for trainers and managers.

    Columns: ticket, job, person, beside, day, site, material, lot a, lot b, used, billed, nozzles, charge. Lines with
    the same ticket, job, person and day are one job with several materials; its charge stands in its first line. The
    numbers of the problems count the rows from 1.
    """
    trainer(shop, by)
    with shop.deed(now):
        ready, problems = list[ReadyJob](), list[RowProblem]()
        for lines in _jobs(rows):
            try:
                one = _ready(shop, by, lines, now, problems)
                if one in ready:
                    raise Refusal(_("This very job stands in the list twice"), _("take one of them out"))
                ready += [one] if one is not None else []
            except Refusal as refusal:
                problems.append(RowProblem(lines[0][0], refusal.what, refusal.mend))
        if problems:
            return JobsAdded((), tuple(sorted(problems, key=lambda one: one.row)))
        return JobsAdded(tuple(write_job(shop, by, one) for one in ready), ())


def _jobs(rows: Sequence[Mapping[str, str]]) -> list[list[Line]]:
    """The lines of each job, in the order in which the jobs begin."""
    found: dict[tuple[str, ...], list[Line]] = {}
    for number, row in enumerate(rows, 1):
        key = tuple(field(row, name).casefold() for name in ("ticket", "job", "person", "day"))
        found.setdefault(key, []).append((number, row))
    return list(found.values())


def _ready(shop: Shop, by: int, lines: Sequence[Line], now: dt.datetime, problems: list[RowProblem]) -> ReadyJob | None:
    """A job of the list, read; None where one of its lines was told as a problem."""
    first, uses = lines[0][1], list[Use]()
    for number, row in lines:
        try:
            uses.append(_use(row))
        except Refusal as refusal:
            problems.append(RowProblem(number, refusal.what, refusal.mend))
    if len(uses) < len(lines):
        return None
    typed, beside = field(first, "day"), field(first, "beside")
    return ready_job(
        shop,
        by,
        ticket=field(first, "ticket"),
        job=_kind(shop, field(first, "job")),
        person=person_named(shop, field(first, "person")),
        uses=uses,
        now=now,
        beside=person_named(shop, beside) if beside else None,
        done_on=read_day(current_pack(shop), typed) if typed else None,
        site=field(first, "site"),
        billed=field(first, "charge"),
    )


def _use(row: Mapping[str, str]) -> Use:
    nozzles = field(row, "nozzles") or "0"
    if not (nozzles.isascii() and nozzles.isdigit() and len(nozzles) < 4):
        raise Refusal(_("'{text}' is no count of nozzles").format(text=nozzles[:20]), _("type a whole number"))
    return Use(
        material=field(row, "material"),
        lot_a=field(row, "lot a"),
        lot_b=field(row, "lot b"),
        used=field(row, "used"),
        billed=field(row, "billed"),
        nozzles=int(nozzles),
    )


def _kind(shop: Shop, typed: str) -> str:
    """A kind of job by its id or its title, as typed; what is neither is left to be refused."""
    known = {one.title.casefold(): one.id for one in settings(shop).jobs}
    return known.get(typed.casefold(), typed)
