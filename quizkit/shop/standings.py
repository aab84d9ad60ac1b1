"""Where people are with their skills, as the faces show it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from quizkit.pack.shown import day as day_words
from quizkit.shop.evidence import events
from quizkit.shop.handle import Shop
from quizkit.shop.packs import scheme_of
from quizkit.shop.people import day_at, person_view
from quizkit.standing.reasons import Reason, joined
from quizkit.standing.record import Record, record
from quizkit.standing.standing import ALLOWS, Standing, standing_of
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class EndorsementView:
    """The family and ratio that somebody may use alone, and until when."""

    family: str
    ratio: str
    until: dt.date


@dataclass(frozen=True, slots=True)
class StandingView:
    """A standing: its word (the stamp), since and to when, what it allows, and the line under the stamp.

    `ends` is the last day of it as things are: a need or a proof that runs out earlier ends it earlier. `sheet_to_come`
    says that a check is passed and that a trainer has yet to watch and sign.
    """

    word: str
    since: dt.date | None
    ends: dt.date | None
    may: str
    note: str
    endorsements: tuple[EndorsementView, ...]
    because: tuple[str, ...]
    sheet_to_come: bool = False

    @property
    def clear(self) -> bool:
        """Whether the person counts as cleared."""
        return self.word in ("cleared", "lapsing")


def record_of(shop: Shop, person: int, now: dt.datetime) -> Record:
    """A person's evidence worked out for every skill, for today at their site."""
    day = day_at(shop, person_view(shop, person), now)
    return record(events(shop, person), scheme_of(shop), str(person), day)


def standings(shop: Shop, person: int, now: dt.datetime) -> Mapping[str, Standing]:
    """A person's standing in every skill of the shop, today at their site."""
    found, scheme = record_of(shop, person, now), scheme_of(shop)
    return {skill: standing_of(found, scheme, skill) for skill in scheme.by_id}


def standing_view(one: Standing) -> StandingView:
    """A standing as faces show it."""
    return StandingView(
        word=one.word,
        since=one.since,
        ends=one.holds_until or one.until,
        may=_(ALLOWS[one.may]),
        note=_note(one),
        endorsements=tuple(EndorsementView(each.family, each.ratio, each.until) for each in one.endorsements),
        because=joined(one.because),
        sheet_to_come=_sheet_to_come(one),
    )


def _sheet_to_come(one: Standing) -> bool:
    """Whether a check waits for its sheet: its one reason then turns on the last day for that sheet."""
    days = {reason.day for reason in one.because} - {None}
    return one.word == "check passed" and one.until in days


def _note(one: Standing) -> str:
    """The line under a stamp."""
    why = ", ".join(joined(one.because))
    match one.word:
        case "cleared" | "lapsing":
            text = _until(one)
            return f"{text}, {why}" if why else text
        case "lapsed":
            text = _("since {day}").format(day=day_words(one.since)) if one.since else ""
            return ", ".join(part for part in (text, why) if part)
        case "check passed":
            return _("sheet by {day}").format(day=day_words(one.until)) if one.until and _sheet_to_come(one) else why
        case "withdrawn":
            return "; ".join(_withdrawn(reason) for reason in one.because)
        case "learning":
            return why or _("beside someone")
        case _:
            return why


def _withdrawn(reason: Reason) -> str:
    """Since when and why; the stamp above has the word."""
    why = dict(reason.names).get("reason", "") or reason.words()
    return _("since {day}: {why}").format(day=day_words(reason.day), why=why) if reason.day else why


def _until(one: Standing) -> str:
    last = one.holds_until or one.until
    return _("to {day}").format(day=day_words(last)) if last else ""
