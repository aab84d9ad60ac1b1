"""A server that is killed while people answer loses nothing that it told them (long run: `tests.bench.crash`)."""

import random
from pathlib import Path

from tests.bench.crash import Told, kills, lost


def test_no_answer_that_was_told_is_lost_by_a_kill(tmp_path: Path) -> None:
    told = kills(tmp_path, 3, seed=random.randrange(1 << 30))
    assert told.answers and told.forms


def test_an_answer_that_is_not_there_would_be_missed(tmp_path: Path) -> None:
    told = kills(tmp_path, 1)
    assert lost(tmp_path / "shop.db", told) == []
    assert lost(tmp_path / "shop.db", Told(answers={(1, 1, "12 ppm")})) != []
    assert lost(tmp_path / "shop.db", Told(handed={1})) != []
