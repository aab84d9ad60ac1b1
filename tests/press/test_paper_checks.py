"""Checks on paper: every part has its room to write, and no key stands on the page that is filled in."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from quizkit.pack.model import Pack
from quizkit.press.paper import press_papers
from quizkit.shop.asking import arrangement, question_view, variant_of


@dataclass(frozen=True)
class Drawn:
    number: int
    title: str
    pass_mark: str
    items: tuple[Any, ...]
    key: tuple[tuple[tuple[str, str], ...], ...]


@pytest.fixture
def papers(pack: Pack) -> list[Drawn]:
    made = []
    for number in (7, 8):
        variants = [variant_of(pack, one.id, 0, arrangement(one, number)) for one in pack.questions()]
        key = tuple(tuple((part.name, one.right(part.name)) for part in one.parts) for one in variants)
        made.append(Drawn(number, "Ratio pairing", "3 of 4", tuple(question_view(pack, one) for one in variants), key))
    return made


def test_a_check_has_room_for_every_answer_and_shows_none(pack: Pack, papers: list[Drawn], tmp_path: Path) -> None:
    checks, marking = press_papers(pack, papers, tmp_path)
    page = checks.read_text().replace("\u00a0", " ")
    assert (checks.name, marking.name) == ("check-7.html", "marking-7.html")
    assert page.count('<article class="copy">') == 2 and "check 8" in page
    for words in ("60 mL", "the &lt;thin&gt;", "Write the numbers in the right order", "3 of 4", "<svg"):
        assert words in page
    assert "6.0 mL" not in page and "Right" not in page


def test_the_marking_sheet_holds_the_key_of_each_copy(pack: Pack, papers: list[Drawn], tmp_path: Path) -> None:
    _checks, marking = press_papers(pack, papers, tmp_path)
    page = marking.read_text()
    assert page.count("6.0 mL") == 2 and "shows the right answers" in page
    for paper in papers:
        assert all(right in page for parts in paper.key for _name, right in parts)
