"""A story: one person's evidence, told by days from a first one."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, field

import pytest

from quizkit.standing.dates import Term
from quizkit.standing.events import (
    CheckResult,
    Event,
    Form,
    Outcome,
    OutsideProof,
    Practice,
    Remark,
    Sheet,
    Struck,
    Withdrawal,
    WithdrawalEnd,
)
from quizkit.standing.scheme import Certificate, Job, Scheme, Skill
from quizkit.standing.standing import Standing, standing

DAY_0 = dt.date(2025, 1, 1)


def at(days: int) -> dt.date:
    return DAY_0 + dt.timedelta(days=days)


@dataclass
class Story:
    """Rows in the order told; each method returns the id of its row."""

    scheme: Scheme
    rows: list[Event] = field(default_factory=list)
    person: str = "ama"

    def _base(self, day: int, moment: str = "") -> dict[str, object]:
        clock = dt.datetime.fromisoformat(f"{at(day)}T{moment or '12:00'}+00:00")
        known: dict[str, object] = {"id": f"r{len(self.rows)}", "person": self.person, "seen_on": at(day)}
        return {**known, "recorded_at": clock, "moment": clock if moment else None}

    def _tell(self, row: Event) -> str:
        self.rows.append(row)
        return row.id

    def practice(self, day: int, skill: str = "beads") -> str:
        return self._tell(Practice(**self._base(day), skill=skill))

    def check(
        self,
        day: int,
        skill: str = "beads",
        passed: bool = True,
        critical: bool = False,
        form: Form = "full",
        moment: str = "",
    ) -> str:
        base = self._base(day, moment)
        return self._tell(
            CheckResult(**base, skill=skill, passed=passed and not critical, critical_missed=critical, form=form)
        )

    def sheet(
        self,
        day: int,
        skill: str = "beads",
        outcome: Outcome = "signed",
        family: str = "adhesive",
        ratio: str = "2:1 by volume",
        signed_by: str = "zoe",
        moment: str = "",
    ) -> str:
        base = self._base(day, moment)
        return self._tell(Sheet(**base, skill=skill, outcome=outcome, family=family, ratio=ratio, signed_by=signed_by))

    def pair(self, day: int, skill: str = "beads", form: Form = "full") -> None:
        self.check(day, skill, form=form)
        self.sheet(day, skill)

    def withdraw(
        self, day: int, skill: str = "beads", reason: str = "off-ratio shots on a ticket", moment: str = ""
    ) -> str:
        return self._tell(Withdrawal(**self._base(day, moment), skill=skill, reason=reason))

    def end_withdrawal(self, day: int, withdrawal: str, restores: bool = False) -> str:
        row = WithdrawalEnd(**self._base(day), withdrawal=withdrawal, reason="trained again", restores=restores)
        return self._tell(row)

    def proof(self, day: int, until: int, kind: str = "fit-test") -> str:
        return self._tell(OutsideProof(**self._base(day), kind=kind, until=at(until)))

    def remark(self, day: int, check: str, passed: bool, signed_by: str = "") -> str:
        return self._tell(Remark(**self._base(day), check=check, passed=passed, signed_by=signed_by))

    def strike(self, day: int, row: str) -> str:
        return self._tell(Struck(**self._base(day), row=row, reason="entered for the wrong person"))

    def on(self, day: int, skill: str = "beads") -> Standing:
        return standing(self.rows, self.scheme, self.person, skill, at(day))

    def word(self, day: int, skill: str = "beads") -> str:
        return self.on(day, skill).word


@pytest.fixture(scope="session")
def scheme() -> Scheme:
    """Three skills: `ppe` (no sheet), `beads` (a sheet), and `bonding` that needs both and a fit test."""
    year = Term(days=365)
    return Scheme(
        skills=(
            Skill("ppe", year, "PPE"),
            Skill("beads", year, "Beads", practical=True),
            Skill("bonding", year, "Bonding", needs=("ppe", "beads"), proofs=("fit-test",), practical=True),
        ),
        first="ppe",
        lapsing=60,
        pair_within=90,
        proofs=(("fit-test", "Fit test"),),
        jobs=(
            Job("panel", "Bond a panel", ("beads", "bonding"), "adhesive", "2:1 by volume", ("fit-test",)),
            Job("seal", "Seal a seam", ("beads",)),
        ),
        certificates=(Certificate("both", "Both", ("ppe", "beads"), "has shown both"),),
        cover=(("north", "beads", 2), ("north", "ppe", 1)),
    )


@pytest.fixture
def story(scheme: Scheme) -> Story:
    return Story(scheme)


@pytest.fixture
def stories(scheme: Scheme) -> Callable[[str], Story]:
    """Stories of other people under the same scheme."""
    return lambda person: Story(scheme, person=person)
