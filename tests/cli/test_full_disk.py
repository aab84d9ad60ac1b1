"""A real server whose files may not grow any further: it says so on a clear page, and keeps all that it told before."""

import re
import sys
from html import unescape
from pathlib import Path

import pytest

from quizkit.records import verify_file
from tests.bench.crash import BOX, Told, lost
from tests.bench.serving import Trainee, make, running

LIMITED = """
import resource, signal, sys
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
most = int(sys.argv.pop(1))
resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
from quizkit.cli import main
main()
"""


@pytest.mark.skipif(sys.platform != "linux", reason="the limit of a file's size is set as Linux does it")
def test_answers_are_refused_in_words_and_none_that_was_told_is_lost(tmp_path: Path) -> None:
    path = tmp_path / "shop.db"
    make(path, 1)
    most = str(max(path.stat().st_size, 300_000) + 100_000)
    told, refused = Told(), ""
    with running("-c", LIMITED, most, "serve", "--shop", str(path), "--port", "0") as (_server, address):
        trainee = Trainee(address)
        trainee.enter(2)
        _status, form, _text = trainee.ask("POST", "/check/ppe", {})
        item = next(item for item in range(1, 5) if BOX in trainee.ask("GET", f"{form}/{item}")[2])
        for number in range(100, 1000):
            status, onward, text = trainee.ask("POST", f"{form}/{item}", {"part.answer": str(number)})
            if status == 503:
                refused = unescape(text)
                break
            assert status == 303, text
            if not onward.endswith(f"/{item}"):
                told.answers.add((int(form.rsplit("/", 1)[1]), item, str(number)))
        assert re.search("full|did not take", refused) and "Traceback" not in refused
        status, _onward, text = trainee.ask("GET", "/sign-in")
        assert status == 200 and "Number 0" in text
    assert told.answers and lost(path, told) == []
    assert verify_file(path).sound
