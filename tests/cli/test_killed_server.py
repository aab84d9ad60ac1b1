"""A server that is killed while people answer loses nothing that it told them (long run: `tests.bench.crash`)."""

import random
from pathlib import Path

import pytest

from tests.bench.crash import Told, kills, lost


@pytest.fixture(scope="module")
def killed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Told]:
    """The file that three kills left, and what was told before them."""
    folder = tmp_path_factory.mktemp("killed")
    return folder / "shop.db", kills(folder, 3, seed=random.randrange(1 << 30))


def test_no_answer_that_was_told_is_lost_by_a_kill(killed: tuple[Path, Told]) -> None:
    path, told = killed
    assert told.forms and lost(path, told) == []


@pytest.mark.parametrize(
    "told", [Told(answers={(1, 1, "12 ppm")}), Told(handed={1}), Told(practice={1}), Told(forms={10**6})]
)
def test_what_is_not_there_would_be_missed(killed: tuple[Path, Told], told: Told) -> None:
    assert lost(killed[0], told) != []
