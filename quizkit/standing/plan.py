"""Who next: the cheapest training and renewals that keep the cover a shop wants, person by person, with a day for each.

Why it is enough to look at the last day: no action is needed for whoever holds a skill through that day. Those who
hold it today and lapse on the way hold it throughout if renewed by their own end; those trained anew hold it from the
day they are needed. So a choice that gives cover on the last day gives it on every day before. And a plan that keeps
cover has it on the last day too, where each person who counts has done at least the actions that the choice counts. The
cheapest choice for the last day is therefore the cheapest plan. It looks no further ahead than the shortest validity,
within which nobody has to do the same thing twice.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from quizkit.standing.bounds import Action
from quizkit.standing.cheapest import Bundles, Choice, cheapest
from quizkit.standing.clearance import in_force
from quizkit.standing.cover import HALF_A_YEAR
from quizkit.standing.crew import Crew
from quizkit.standing.dates import after, days_after
from quizkit.standing.reasons import N_, Reason
from quizkit.standing.record import Record, proofs_in_date
from quizkit.standing.scheme import Skill
from quizkit.standing.standing import standing_of

Kind = Literal["train", "renew", "proof"]

LINE = 1
MINUTE = 10_000
"""What a line and a minute cost: fewer minutes come first, of equal plans the one with fewer lines."""


PROOF = "proof "
"""Before an outside proof's kind in an action's name: ids of skills have no space."""


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One thing to do: by whom, for which skill (or outside proof), how long it takes, from when and by which day."""

    person: str
    site: str
    kind: Kind
    name: str
    minutes: int
    start: dt.date
    by: dt.date
    because: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Short:
    """Cover that nobody at the site can give: fewer people than wanted could ever hold the skill."""

    site: str
    skill: str
    wanted: int
    reachable: int


@dataclass(frozen=True, slots=True)
class Plan:
    """The cheapest plan from `on` through a day. `exact`: no cheaper one exists."""

    on: dt.date
    through: dt.date
    lines: tuple[PlanLine, ...]
    short: tuple[Short, ...]
    exact: bool

    @property
    def minutes(self) -> int:
        """The minutes of all lines."""
        return sum(line.minutes for line in self.lines)


@dataclass(frozen=True, slots=True)
class _Doing:
    """What an action would be: its kind and minutes, and the last day that the thing holds without it, if it does."""

    kind: Kind
    minutes: int
    ends: dt.date | None


@dataclass(frozen=True, slots=True)
class _Site:
    """One site: who could hold what by which actions; the last days of those who hold a skill and are left out."""

    name: str
    bundles: Bundles
    doing: Mapping[Action, _Doing]
    leaving: Mapping[str, list[dt.date]]


def plan(
    crew: Crew,
    minutes: Mapping[tuple[str, str], int] | None = None,
    weeks: int = HALF_A_YEAR,
    leave_out: Collection[str] = (),
) -> Plan:
    """The cheapest plan that keeps the cover wanted at each site, or comes nearest where there are too few people.

    `minutes`: what is left to do by (person, skill), where it is not what the skill says. `leave_out`: people who are
    asked for nothing; what they hold counts as long as they hold it.
    """
    through = _through(crew, weeks)
    lines: list[PlanLine] = []
    short: list[Short] = []
    exact = True
    for name in sorted({site for site, _skill, count in crew.scheme.cover if count}):
        site = _site(crew, name, minutes or {}, through, leave_out)
        demand = {}
        for skill, candidates in site.bundles.items():
            wanted = crew.scheme.wanted(name, skill)
            demand[skill] = min(wanted, len(candidates))
            if len(candidates) < wanted:
                short.append(Short(name, skill, wanted, len(candidates)))
        cost = {action: doing.minutes * MINUTE + LINE for action, doing in site.doing.items()}
        choice = cheapest(site.bundles, demand, cost)
        lines += _lines(crew, site, choice, demand)
        exact = exact and choice.exact
    lines.sort(key=lambda line: (line.by, line.person, _turn(crew, line)))
    return Plan(crew.on, through, tuple(lines), tuple(short), exact)


def _turn(crew: Crew, line: PlanLine) -> tuple[int, int, str]:
    """A place in one person's lines of a day: outside proofs, then each skill after all that it needs."""
    if line.kind == "proof":
        return 0, 0, line.name
    return len(crew.scheme.with_needs(line.name)), list(crew.scheme.by_id).index(line.name), line.name


def _through(crew: Crew, weeks: int) -> dt.date:
    """The last day of the plan: so many weeks ahead, or as far as the shortest validity reaches."""
    reach = [after(crew.on, skill.valid) for skill in crew.scheme.skills]
    return min([days_after(crew.on, 7 * weeks - 1), *reach])


def _site(
    crew: Crew, name: str, minutes: Mapping[tuple[str, str], int], through: dt.date, leave_out: Collection[str]
) -> _Site:
    doing: dict[Action, _Doing] = {}
    bundles: dict[str, dict[str, frozenset[Action]]] = {skill: {} for skill in crew.scheme.by_id}
    leaving: dict[str, list[dt.date]] = {skill: [] for skill in crew.scheme.by_id}
    people = [person.id for person in crew.people if person.site == name]
    for person in people:
        own = _own(crew, crew.records[person], minutes, through)
        doing |= own
        barred = {skill for skill in crew.scheme.by_id if crew.standing(person, skill).word == "withdrawn"}
        for skill in crew.scheme.by_id:
            line = crew.scheme.with_needs(skill)
            asked = {*line, *(f"{PROOF}{kind}" for each in line for kind in crew.scheme.skill(each).proofs)}
            bundle = frozenset(action for action in own if action[1] in asked)
            if not barred.isdisjoint(line):
                continue
            if not bundle or person not in leave_out:
                bundles[skill][person] = bundle
            elif _holds(doing, bundle):
                leaving[skill].append(min(doing[action].ends or crew.on for action in bundle))
    wanted = [skill for skill in crew.scheme.by_id if crew.scheme.wanted(name, skill)]
    return _Site(name, {skill: bundles[skill] for skill in wanted}, doing, leaving)


def _own(crew: Crew, found: Record, minutes: Mapping[tuple[str, str], int], through: dt.date) -> dict[Action, _Doing]:
    """All that one person would have to do to hold everything through the last day."""
    doing: dict[Action, _Doing] = {}
    for skill in crew.scheme.skills:
        own = in_force(found.held[skill.id].made, found.on)
        if own is None or own.last < through:
            kind: Kind = "train" if own is None else "renew"
            left = minutes.get((found.person, skill.id), _usual(crew, found, skill, kind))
            doing[found.person, skill.id] = _Doing(kind, left, own.last if own else None)
    for proof in sorted({kind for skill in crew.scheme.skills for kind in skill.proofs}):
        seen = proofs_in_date(found, [proof])
        if not seen or seen[0].until < through:
            doing[found.person, PROOF + proof] = _Doing("proof", 0, seen[0].until if seen else None)
    return doing


def _usual(crew: Crew, found: Record, skill: Skill, kind: Kind) -> int:
    """The minutes that a skill says: for a passed check that waits for its sheet only those of the sheet."""
    sheet = skill.sheet_minutes if skill.practical else 0
    if kind == "renew":
        return skill.renewal_minutes + sheet
    passed = standing_of(found, crew.scheme, skill.id).word == "check passed"
    return sheet if passed else skill.minutes + sheet


def _lines(crew: Crew, site: _Site, choice: Choice, demand: Mapping[str, int]) -> list[PlanLine]:
    """The chosen actions with their days and reasons: what each skill that has nobody to spare asks of them.

    An action that no such skill asks for could be left out, so a cheapest choice has none.
    """
    due: dict[Action, list[tuple[dt.date, Reason]]] = {action: [] for action in choice.actions}
    for skill, candidates in site.bundles.items():
        counted = {who: bundle for who, bundle in candidates.items() if bundle <= choice.actions}
        if len(counted) == demand[skill]:
            for action, day, reason in _asked(crew, site, skill, choice, counted):
                due[action].append((day, reason))
    return [_line(crew, site, action, asked) for action, asked in due.items()]


def _asked(
    crew: Crew, site: _Site, skill: str, choice: Choice, counted: Mapping[str, frozenset[Action]]
) -> Iterator[tuple[Action, dt.date, Reason]]:
    """What one skill asks of the actions: a renewal by its own end, training before the day that would be short."""
    name = ("name", crew.scheme.skill_title(skill))
    fresh = sorted(
        (who for who, bundle in counted.items() if not _holds(site.doing, bundle)),
        key=lambda who: (sum(site.doing[action].minutes for action in counted[who]), who),
    )
    short = dict(zip(fresh, _short_days(crew, site, skill, choice, len(counted)), strict=False))
    for who, bundle in counted.items():
        for action in bundle:
            ends = site.doing[action].ends
            if ends is not None:
                yield action, ends, Reason(N_("{name}: one short without it"), (name,), days_after(ends, 1))
            else:
                day = short[who]
                yield action, max(crew.on, days_after(day, -1)), Reason(N_("{name}: one short"), (name,), day)


def _holds(doing: Mapping[Action, _Doing], bundle: frozenset[Action]) -> bool:
    """Whether nothing in a bundle is to be had anew: the person counts today."""
    return all(doing[action].ends is not None for action in bundle)


def _short_days(crew: Crew, site: _Site, skill: str, choice: Choice, wanted: int) -> list[dt.date]:
    """The first days with one, two, … too few for a skill, when all renewals of the choice are done and no training."""
    ends: list[dt.date | None] = list(site.leaving[skill])
    for bundle in site.bundles[skill].values():
        if _holds(site.doing, bundle):
            ends.append(min((site.doing[action].ends or crew.on for action in bundle - choice.actions), default=None))
    lasting = sum(end is None for end in ends)
    leaving = sorted(days_after(end, 1) for end in ends if end is not None)
    spare = lasting + len(leaving) - wanted
    return [crew.on] * max(0, -spare) + leaving[max(0, spare) :]


def _line(crew: Crew, site: _Site, action: Action, asked: list[tuple[dt.date, Reason]]) -> PlanLine:
    person, what = action
    doing = site.doing[action]
    start = crew.on
    if doing.kind == "renew" and doing.ends is not None:
        start = max(crew.on, days_after(doing.ends, -crew.scheme.lapsing))
    by = min(day for day, _reason in asked)
    reasons = tuple(dict.fromkeys(reason for _day, reason in sorted(asked, key=lambda one: (one[0], one[1].names))))
    return PlanLine(person, site.name, doing.kind, what.removeprefix(PROOF), doing.minutes, start, by, reasons)
