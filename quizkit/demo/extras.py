"""What else happened in the invented shop: certificates, a withdrawal, an appeal, tickets and stock."""

from __future__ import annotations

from quizkit import shop as deeds
from quizkit.demo.cast import CAST, MANAGER, SECOND_TRAINER, Course
from quizkit.demo.desk import desk
from quizkit.demo.lives import Life, Story, sheet_input

HOLDER = "Ruth Adeyo"
"""Who holds certificates."""


def extras(story: Story) -> list[Life]:
    """The lives beside those of the courses."""
    return [
        _certificate(story, "bonding", 158),
        _certificate(story, "materials", 136),
        _withdrawal(story),
        _appeal(story),
        _observed(story),
        *desk(story),
    ]


def _certificate(story: Story, name: str, ago: int) -> Life:
    moment = story.at(ago, 11)
    yield moment
    deeds.issue_certificate(story.shop, story.people[MANAGER], story.people[HOLDER], name, now=moment)


def _withdrawal(story: Story) -> Life:
    moment = story.at(16, 16)
    yield moment
    reason = "Left an open tube of peroxide paste beside the heater, for the second time."
    deeds.withdraw(
        story.shop, story.people[SECOND_TRAINER], story.people["Caleb Strand"], "storage", reason, now=moment
    )


def _appeal(story: Story) -> Life:
    moment = story.at(6, 12)
    yield moment
    form = story.forms["Marco Teel", "ratio-pairing"]
    words = "The label of the material was hard to read on the tablet. I would have had the ratio right."
    deeds.appeal(story.shop, story.people["Marco Teel"], f"form:{form}", words, now=moment)


def _observed(story: Story) -> Life:
    """A cleared helper watched a bond; it waits for a trainer's signature."""
    moment = story.at(3, 15)
    yield moment
    member = next(one for one in CAST if one.name == "Marco Teel")
    filled = sheet_input(story, member, Course("bead-volume", 3, by=HOLDER), moment)
    deeds.observe_sheet(story.shop, story.people[HOLDER], filled, now=moment)
