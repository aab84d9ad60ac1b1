"""A small shop in a real file: two skills, two sites, a manager, a trainer and two apprentices."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

import pytest

from quizkit import shop as deeds
from quizkit.authoring.content import compile_folder
from quizkit.pack.model import Pack

CONTENT = Path(__file__).parent / "content"
START = dt.datetime(2026, 1, 5, 16, 0, tzinfo=dt.UTC)
PIN = "2795"
PHRASE = "nine grey anvils hum"


@pytest.fixture(scope="session")
def pack() -> Pack:
    compiled = compile_folder(CONTENT)
    assert compiled.pack is not None, [str(problem) for problem in compiled.problems]
    return compiled.pack


@pytest.fixture(scope="session", autouse=True)
def quick_hash() -> Iterator[None]:
    """The slow hash at its cheapest: what it is worth is shown by its own tests."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("quizkit.shop.secret.COST", 4)
        yield


@dataclass
class Floor:
    """The open shop with its people, and a clock that goes on by hand."""

    shop: deeds.Shop
    pack: Pack
    path: Path
    now: dt.datetime = START
    manager: int = 0
    trainer: int = 0
    ann: int = 0
    ben: int = 0
    told: list[str] = field(default_factory=list)

    def later(self, **stretch: float) -> dt.datetime:
        """Let time pass, and give the new moment."""
        self.now += dt.timedelta(**stretch)
        return self.now

    def right(self, asked: deeds.Asked, part: str = "answer") -> str:
        """The right answer to a practice question, as it would be typed."""
        ordering = self.shop.get("draw", asked.draw)["ordering"]
        variant = deeds.variant_of(self.pack, asked.question.question, asked.question.variant, ordering)
        return variant.right(part).removeprefix("≈ ")

    def right_answers(self, form: int, wrong: tuple[int, ...] = ()) -> None:
        """Answer every question of an open check right, but for some."""
        row = self.shop.get("form", form)
        for item in self.shop.rows("form_item", form=form):
            variant = deeds.variant_of(self.pack, item["question"], item["variant"], item["ordering"])
            names = [part.name for part in variant.question.parts]
            answers = {name: variant.right(name).removeprefix("≈ ") for name in names}
            if item["item"] in wrong:
                answers = {name: "3" if right != "3" else "2" for name, right in answers.items()}
            deeds.answer_item(self.shop, row["person"], form, item["item"], answers, now=self.later(seconds=20))

    def filled(self, person: int, skill: str = "pairing", **more: object) -> deeds.SheetInput:
        """A sheet of the bench with every step seen and every value inside its band."""
        values = {"a": "46.3", "b": "20", "step": "0.1"}
        sheet = deeds.SheetInput(person, skill, "Alder", frozenset({1, 2, 3}), values, "scale 4, 0.1 g")
        return replace(sheet, **more)

    def found(self, trainer: int, skill: str = "pairing") -> int:
        """A founding grant for a trainer by the manager; the number of the entitlement."""
        told = {"founding": True, "basis": "course of the maker, 2025"}
        return deeds.grant(self.shop, self.manager, trainer, skill, now=self.now, **told)

    def clear(self, person: int) -> int:
        """Clear a person in both skills, as the founding trainer signs; the number of the sheet."""
        if self.word(person, "ppe") != "cleared":
            self.pass_check(person, "ppe")
        self.pass_check(person, "pairing")
        if not any(one.active for one in deeds.entitlements(self.shop, now=self.now, person=self.trainer)):
            self.found(self.trainer)
        return deeds.sign_sheet(self.shop, self.trainer, self.filled(person), now=self.later(minutes=5))

    def standing(self, person: int, skill: str = "pairing") -> deeds.StandingView:
        """Where a person stands today."""
        row = next(one for one in deeds.shelf(self.shop, person, now=self.now) if one.skill == skill)
        return row.standing

    def word(self, person: int, skill: str = "pairing") -> str:
        """The word of a person's standing today."""
        return self.standing(person, skill).word

    def pass_check(self, person: int, skill: str) -> int:
        """Take a check and pass it; the number of its form."""
        form = deeds.start_check(self.shop, person, skill, now=self.now)
        self.right_answers(form)
        deeds.hand_in(self.shop, person, form, now=self.later(minutes=1))
        return form

    def fail_check(self, person: int, skill: str) -> int:
        """Take a check with every answer wrong; the number of its form."""
        form = deeds.start_check(self.shop, person, skill, now=self.now)
        self.right_answers(form, wrong=tuple(range(1, 50)))
        deeds.hand_in(self.shop, person, form, now=self.later(minutes=1), sure=True)
        return form


@pytest.fixture
def floor(tmp_path: Path, pack: Pack) -> Iterator[Floor]:
    path = tmp_path / "shop.db"
    with deeds.open_shop(path, create=True) as shop:
        made = Floor(shop, pack, path)
        deeds.publish(shop, pack, None, now=made.now)
        made.manager = deeds.add_person(
            shop, name="Mo Hale", role="manager", site="north", secret=PHRASE, by=None, now=made.now
        )
        add = {"by": made.manager, "now": made.now}
        made.trainer = deeds.add_person(shop, name="Tess Orr", role="trainer", site="north", secret=PHRASE, **add)
        made.ann = deeds.add_person(shop, name="Ann Bly", role="apprentice", site="north", secret=PIN, **add)
        made.ben = deeds.add_person(shop, name="Ben Cray", role="technician", site="south", secret=PIN, **add)
        yield made
