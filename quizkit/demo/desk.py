"""Half a year of tickets and stock in the invented shop: what was used, counted and billed, and a month with a gap."""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Iterator
from fractions import Fraction

from quizkit import shop as deeds
from quizkit.demo.cast import FIRST_TRAINER, MANAGER, MATERIAL, SECOND_TRAINER
from quizkit.demo.lives import Life, Story
from quizkit.units import PLAIN, show

HALF_A_YEAR = 183
"""Days ago that the tickets begin."""
MONTHS = 6
"""Months, before the present one, that are counted and saved."""
GAP = 3
"""How many months ago readings were skipped."""
FULL = 200
"""Millilitres in a cartridge of the adhesive, as the invented shelf has it."""
SKIPPED = 50
"""Millilitres that were written down without a look at the scale."""
NORTH = (("Jonas Pell", HALF_A_YEAR), ("Ruth Adeyo", 160))
"""Who bonds in the north bay, and since how many days."""
LEARNER = ("Lena Fisk", 105)
"""Who stands beside, and since how many days."""
SEALED = 74
"""Days ago that a seam was sealed by somebody who had not been signed off for it."""


def desk(story: Story) -> list[Life]:
    """The lives at the desk: tickets and stock of the north bay, and one ticket of the south bay."""
    return [_north(story), _south(story)]


def _north(story: Story) -> Life:
    """Day by day: a delivery at the start of a month, jobs, the count on its last working day, the saving after it."""
    chance = random.Random("tickets of the north bay")
    left = Fraction(5)
    counted = set(_last_days(story.today))
    first = min(counted)
    yield _at(story, first, 18)
    _count(story, left, first)
    number = 2040
    for day in _working_days(first + dt.timedelta(days=1), story.today):
        if day.day <= 7 and day.weekday() == 0:
            yield _at(story, day, 8)
            _receive(story, day)
            left += 4
        if _first_working_day(day) == day and _month_before(day) > first:
            yield _at(story, day, 9)
            _save(story, day)
        if day.weekday() in (1, 3) and (story.today - day).days <= HALF_A_YEAR:
            number += 1
            yield _at(story, day, 15, chance.randrange(50))
            skipped = _months_between(day, story.today) == GAP and number % 3 != 0
            left -= _job(story, day, f"T-{number}", skipped, chance)
        if day in counted:
            yield _at(story, day, 18)
            _count(story, left, day)


def _south(story: Story) -> Life:
    """A seam that was sealed alone, by somebody who had been signed off for its ratio and not for its bead."""
    moment = story.at(SEALED, 14)
    yield moment
    uses = [deeds.Use("Garth sealer", "G-311", "G-312", "20 to 75 mL", nozzles=1)]
    who = story.people["Caleb Strand"]
    deeds.record_job(
        story.shop, story.people[SECOND_TRAINER], ticket="T-3007", job="seal-a-seam", person=who, uses=uses, now=moment
    )


def _job(story: Story, day: dt.date, ticket: str, skipped: bool, chance: random.Random) -> Fraction:
    """Write a bonded panel down, with or without a look at the scale, and give the cartridges that it truly took."""
    ago = (story.today - day).days
    names = [name for name, since in NORTH if ago <= since]
    who = names[chance.randrange(len(names))]
    start, used = 5 * chance.randrange(2, 15), 5 * chance.randrange(12, 23)
    typed = f"{SKIPPED} mL" if skipped else f"{start} to {start + used} mL"
    lot = _lot(day)
    beside = story.people[LEARNER[0]] if ago <= LEARNER[1] and chance.random() < 0.25 else None
    deeds.record_job(
        story.shop,
        story.people[FIRST_TRAINER],
        ticket=ticket,
        job="bond-quarter-panel",
        person=story.people[who],
        beside=beside,
        uses=[deeds.Use(MATERIAL, f"K-{lot}", f"H-{lot}", typed, nozzles=1 + chance.randrange(2))],
        now=_at(story, day, 16),
    )
    return Fraction(used, FULL)


def _receive(story: Story, day: dt.date) -> None:
    lot = f"K-{day:%y%m}"
    deeds.receive_stock(story.shop, story.people[FIRST_TRAINER], MATERIAL, "4", now=_at(story, day, 8), lot=lot)


def _lot(day: dt.date) -> str:
    """The lot of a day: that of the last delivery, named by its month."""
    first = day.replace(day=1)
    came = first + dt.timedelta(days=-first.weekday() % 7)
    return f"{day if day >= came else _month_before(day):%y%m}"


def _count(story: Story, left: Fraction, day: dt.date) -> None:
    """Count by eye, to a tenth of a cartridge."""
    typed = show(Fraction(round(left * 10), 10), PLAIN)
    deeds.count_stock(story.shop, story.people[FIRST_TRAINER], MATERIAL, typed, now=_at(story, day, 18))


def _save(story: Story, day: dt.date) -> None:
    month = f"{_month_before(day):%Y-%m}"
    deeds.save_month(story.shop, story.people[MANAGER], month, now=_at(story, day, 9), site="north")


def _at(story: Story, day: dt.date, hour: int, minute: int = 0) -> dt.datetime:
    return dt.datetime.combine(day, dt.time(hour, minute), story.zone).astimezone(dt.UTC)


def _working_days(first: dt.date, end: dt.date) -> Iterator[dt.date]:
    """The days from Monday to Friday, from the first up to the day before the end."""
    for at in range((end - first).days):
        day = first + dt.timedelta(days=at)
        if day.weekday() < 5:
            yield day


def _first_working_day(day: dt.date) -> dt.date:
    """The first day from Monday to Friday of a day's month."""
    return next(_working_days(day.replace(day=1), day.replace(day=8)))


def _month_before(day: dt.date) -> dt.date:
    """The first day of the month before a day's."""
    return (day.replace(day=1) - dt.timedelta(days=1)).replace(day=1)


def _last_days(today: dt.date) -> Iterator[dt.date]:
    """The last working day of each of the months before, one more than are saved."""
    day = today.replace(day=1)
    for _month in range(MONTHS + 1):
        day -= dt.timedelta(days=1)
        yield day - dt.timedelta(days=max(0, day.weekday() - 4))
        day = day.replace(day=1)


def _months_between(day: dt.date, today: dt.date) -> int:
    return (today.year - day.year) * 12 + today.month - day.month
