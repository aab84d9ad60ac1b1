"""How far practice has brought a person, topic by topic, and which question helps most next."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from quizkit.pack.model import Module, Pack, Question
from quizkit.quiz.mastery import Mastery, mastery
from quizkit.quiz.walk import keyed, shuffled
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import for_practice, scheme_of, settings
from quizkit.shop.standings import record_of
from quizkit.shop.terms import stretch
from quizkit.standing.standing import standing_of
from quizkit.words import _

TENTHS = 10


@dataclass(frozen=True, slots=True)
class TopicState:
    """Where somebody is with a topic."""

    topic: str
    mastery: Mastery

    def word(self, now: dt.datetime) -> str:
        """ "solid", "shaky", "due" or "not yet shown"."""
        if not self.mastery.met:
            return "not yet shown"
        if not self.mastery.solid:
            return "shaky"
        return "due" if self.mastery.due is not None and self.mastery.due <= now else "solid"


def topic_states(shop: Shop, person: int, module: Module, ends: dt.date | None) -> tuple[TopicState, ...]:
    """Where a person is with each topic of a module that practice can reach.

    `ends` is the last day of the clearance in it, None for who has none: a refresher comes before that.
    """
    lapse = dt.datetime.combine(ends, dt.time(), dt.UTC) if ends else None
    topics = {one.id: one.topic for one in module.questions}
    scheme = settings(shop).practice
    gaps = [stretch(gap) for gap in scheme.again]
    answers: dict[str, list[tuple[dt.datetime, bool]]] = {one.topic: [] for one in for_practice(module)}
    for row in shop.rows("practice", person=person, skill=module.scheme.skill):
        answers.get(topics.get(row["question"], ""), []).append((row["recorded_at"], is_right(row)))
    return tuple(TopicState(topic, mastery(own, scheme, gaps, lapse)) for topic, own in answers.items())


def is_right(row: Stored) -> bool:
    """Whether an answer on record earned every mark."""
    return bool(row["marks"] == row["out_of"])


def missed(shop: Shop, person: int, skill: str) -> tuple[str, ...]:
    """The questions that a person last answered wrong, longest ago first."""
    last: dict[str, bool] = {}
    for row in shop.rows("practice", person=person, skill=skill):
        last.pop(row["question"], None)
        last[row["question"]] = is_right(row)
    return tuple(question for question, right in last.items() if not right)


def weakest(shop: Shop, person: int, module: Module, pool: Sequence[Question], now: dt.datetime) -> Question:
    """The question that helps most next: one missed before, else one of the weakest topic, those met least first.

    The one just practised comes again only where there is no other.
    """
    rows = shop.rows("practice", person=person, skill=module.scheme.skill)
    just = rows[-1]["question"] if rows else ""
    others = [one for one in pool if one.id != just] or list(pool)
    by_id = {one.id: one for one in others}
    for name in missed(shop, person, module.scheme.skill):
        if name in by_id:
            return by_id[name]
    own = standing_of(record_of(shop, person, now), scheme_of(shop), module.scheme.skill)
    ends = own.until if own.clear else None
    states = {state.topic: state for state in topic_states(shop, person, module, ends)}
    met = Counter(row["question"] for row in rows)
    mixed = shuffled(others, keyed("practice", person, module.id, len(rows)))
    return min(mixed, key=lambda one: (_urgency(states[one.topic], now), met[one.id]))


def _urgency(state: TopicState, now: dt.datetime) -> tuple[bool, float]:
    """Shaky topics by their estimate, then due ones, then the rest."""
    word = state.word(now)
    return word == "solid", state.mastery.known if word != "due" else 1.0


def why_asked(shop: Shop, pack: Pack, draw: Stored) -> str:
    """Why a question was put in front of somebody, in words."""
    before = [
        row for row in shop.rows("practice", person=draw["person"], skill=draw["skill"]) if row["id"] < draw["id"]
    ]
    same = [row for row in before if row["question"] == draw["question"]]
    if same and not is_right(same[-1]):
        return _("You missed this one before. Here it is with new numbers.")
    if not before:
        return _("A first one.")
    return _("New numbers for one you know.") if same else _("One you have not met yet.")


def tenths(shop: Shop, person: int, module: Module, ends: dt.date | None, now: dt.datetime) -> tuple[int, int, int]:
    """A module's scale in tenths: solid, shaky or due again, not yet shown; they add up to ten."""
    states = topic_states(shop, person, module, ends)
    if not states:
        return 0, 0, TENTHS
    words = [state.word(now) for state in states]
    solid = round(TENTHS * words.count("solid") / len(words) + 1e-9)
    due = round(TENTHS * (words.count("due") + words.count("shaky")) / len(words))
    solid, due = min(solid, TENTHS), min(due, TENTHS - min(solid, TENTHS))
    return solid, due, TENTHS - solid - due
