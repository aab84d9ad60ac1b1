"""`quizkit deed`: grants, proofs, withdrawals, waits, talks, appeals at the machine, each with its row or refusal."""

import datetime as dt
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result

from quizkit import shop as deeds

Run = Callable[..., Result]
SHELF = """# The shelf

| name  | family   | ratio         | price ($) |
| ----- | -------- | ------------- | --------- |
| Alder | adhesive | 2:1 by volume | $46.00    |
"""


@dataclass
class Desk:
    """A shop with a manager (1), a trainer (2) and an apprentice (3), and the command that works on it."""

    run: Run
    path: Path

    def deed(self, *words: object) -> Result:
        return self.run("deed", words[0], *words[1:], "--shop", self.path)

    def done(self, *words: object) -> int:
        """A deed that goes; the number of its row."""
        done = self.deed(*words)
        assert done.exit_code == 0, done.output
        return int(re.search(r"row (\d+)", done.output)[1])  # type: ignore[index]

    def refused(self, *words: object) -> str:
        """A deed that is refused in words, with nothing written."""
        with deeds.open_shop(self.path) as shop:
            before = shop.records.head()
        done = self.deed(*words)
        assert done.exit_code == 1 and "Traceback" not in done.output, done.output
        with deeds.open_shop(self.path) as shop:
            assert shop.records.head() == before
        return done.output

    def fail(self) -> int:
        """Bo takes the check and fails it; the number of the form."""
        now = dt.datetime.now(dt.UTC)
        with deeds.open_shop(self.path) as shop:
            form = deeds.start_check(shop, 3, "pairing", now=now)
            deeds.answer_item(shop, 3, form, 1, {"answer": "0.001"}, now=now)
            deeds.hand_in(shop, 3, form, now=now)
        return form

    def row(self, table: str) -> Mapping[str, Any]:
        with deeds.open_shop(self.path) as shop:
            found = shop.row(table)
        assert found is not None
        return found


@pytest.fixture
def desk(run: Run, content: Path, tmp_path: Path) -> Desk:
    settings = content / "shop.toml"
    settings.write_text(settings.read_text() + '[proofs.fit-test]\ntitle = "Fit test"\nvalid = "12 months"\n')
    (content / "shelf.md").write_text(SHELF)
    path = tmp_path / "shop.db"
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    run("person", "add", "--shop", path, "--name", "Tess Orr", "--role", "trainer", "--by", 1)
    run("person", "add", "--shop", path, "--name", "Bo Strand", "--by", 1)
    return Desk(run, path)


def test_a_right_to_sign_is_granted_listed_and_ended(desk: Desk) -> None:
    assert "cannot be entitled" in desk.refused("grant", "Tess Orr", "pairing", "--by", "Ada Lind")
    grant = ("grant", "Tess Orr", "pairing", "--founding", "--basis", "course of the maker", "--by", "Ada Lind")
    number = desk.done(*grant)
    assert re.search(rf"{number}  Tess Orr .* in force", desk.deed("rights").output)
    assert "Only a manager" in desk.refused("end", number, "--reason", "moved", "--by", "Tess Orr")
    desk.done("end", number, "--reason", "moved", "--by", 1)
    assert "not in force" in desk.deed("rights").output
    assert "ended already" in desk.refused("end", number, "--reason", "again", "--by", 1)


def test_a_proof_is_seen(desk: Desk) -> None:
    desk.done("proof", "Bo Strand", "fit-test", "--seen-on", "2026-01-05", "--by", "Tess Orr")
    assert (desk.row("outside_proof")["until"] - dt.date(2026, 1, 5)).days == 365
    assert "no outside proof" in desk.refused("proof", 3, "driving", "--by", 2)
    assert "still to come" in desk.refused("proof", 3, "fit-test", "--seen-on", "2999-01-01", "--by", 2)
    assert desk.deed("proof", 3, "fit-test", "--until", "soon", "--by", 2).exit_code == 2


def test_a_clearance_is_withdrawn_and_given_back(desk: Desk) -> None:
    assert "No withdrawal stands" in desk.refused("give-back", 3, "pairing", "--reason", "x", "--by", 1)
    desk.done("withdraw", "Bo Strand", "pairing", "--reason", "the bond failed", "--by", "Tess Orr")
    assert "withdrawn already" in desk.refused("withdraw", 3, "pairing", "--reason", "again", "--by", 2)
    desk.done("give-back", 3, "pairing", "--reason", "it was the lot", "--counts-again", "--by", 1)
    assert desk.row("withdrawal_end")["restores"] is True
    assert "no skill" in desk.refused("withdraw", 3, "parking", "--reason", "x", "--by", 2)


def test_a_wait_is_lifted_and_a_talk_recorded_before_the_next_check(desk: Desk) -> None:
    assert "no failed check" in desk.refused("lift", 3, "pairing", "--reason", "x", "--by", 2)
    desk.fail()
    desk.done("lift", "Bo Strand", "pairing", "--reason", "the tablet died", "--by", 2)
    desk.fail()
    desk.done("lift", 3, "pairing", "--reason", "again", "--by", 2)
    desk.done("talk", 3, "pairing", "--practiced", "ten shots on the scale", "--by", 2)
    assert desk.row("talk")["note"] == "ten shots on the scale"
    desk.fail()


def test_an_appeal_is_listed_and_answered(desk: Desk) -> None:
    form = desk.fail()
    with deeds.open_shop(desk.path) as shop:
        number = deeds.appeal(shop, 3, f"form:{form}", "I read it twice", now=dt.datetime.now(dt.UTC))
    assert "I read it twice" in desk.deed("appeals").output
    assert desk.deed("answer", number, "perhaps", "--words", "looked at", "--by", 2).exit_code == 2
    desk.done("answer", number, "turned-down", "--words", "looked at", "--by", "Tess Orr")
    assert desk.row("appeal_answer")["upheld"] is False and "I read it twice" not in desk.deed("appeals").output
    assert "has been answered" in desk.refused("answer", number, "upheld", "--words", "x", "--by", 1)


def test_a_wrong_row_is_struck(desk: Desk) -> None:
    proof = desk.done("proof", 3, "fit-test", "--by", 2)
    desk.done("strike", f"outside_proof:{proof}", "--reason", "somebody else's paper", "--by", 1)
    assert "struck already" in desk.refused("strike", f"outside_proof:{proof}", "--reason", "x", "--by", 1)
    assert "no such row" in desk.refused("strike", "person:3", "--reason", "x", "--by", 1)


def test_a_change_of_product_is_listed_and_marked(desk: Desk) -> None:
    with deeds.open_shop(desk.path) as shop:
        pack = deeds.current_pack(shop)
        (row,) = pack.shelf.rows
        fields = tuple((name, value + 4 if isinstance(value, Fraction) else value) for name, value in row.fields)
        dearer = replace(pack, shelf=replace(pack.shelf, rows=(replace(row, fields=fields),)))
        deeds.publish(shop, dearer, 1, now=dt.datetime.now(dt.UTC))
    number = int(re.search(r"^ *(\d+)  .*Alder", desk.deed("changes").output, re.MULTILINE)[1])  # type: ignore[index]
    assert "needs the day" in desk.refused("mark", number, "large", "--by", 2)
    desk.done("mark", number, "large", "--until", "2999-01-01", "--by", 2)
    assert "large" in desk.deed("changes").output


@pytest.mark.parametrize("by", ["Nobody Here", "99", "Bo Strand"])
def test_who_does_it_must_be_somebody_who_may(desk: Desk, by: str) -> None:
    desk.refused("withdraw", "Tess Orr", "pairing", "--reason", "x", "--by", by)
