"""`quizkit compile --watch`: each save is compiled, and only what is new is said."""

import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO


def save(path: Path, text: str) -> None:
    """Put a file in place at once, as editors that keep a copy do."""
    beside = path.with_suffix(".new")
    beside.write_text(text)
    beside.replace(path)


def until(out: IO[str], word: str) -> str:
    said = ""
    for line in out:
        said += line
        if word in line:
            return said
    raise AssertionError(said)


@contextmanager
def watched(content: Path, into: Path) -> Iterator[IO[str]]:
    """What a watch says of a folder; it is stopped at the end as a person stops it."""
    code = "from quizkit.cli import main; main()"
    command = [sys.executable, "-u", "-c", code, "compile", str(content), "--into", str(into), "--watch"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        try:
            until(process.stdout, "variants proven")
            yield process.stdout
        finally:
            process.send_signal(signal.SIGINT)
            process.communicate(timeout=60)
    assert process.returncode == 0


def test_a_save_is_compiled_and_only_what_changed_is_said(content: Path, tmp_path: Path) -> None:
    lesson = content / "pairing/1-shares.md"
    good = lesson.read_text()
    with watched(content, tmp_path / "b") as out:
        save(lesson, good.replace("hardener_for(filler", "hardener_for(filer"))
        assert "pairing/1-shares.md:15:" in until(out, "mend:")
        save(lesson, good)
        said = until(out, "37 variants proven")
        assert "1 mended" in said and "1-shares.md" not in said


def test_what_moved_or_went_with_its_file_is_not_said_to_be_mended(content: Path, tmp_path: Path) -> None:
    good = (content / "pairing/1-shares.md").read_text().replace("question share", "question more")
    more = content / "pairing/2-more.md"
    bad = good.replace("hardener_for(filler", "hardener_for(filer")
    with watched(content, tmp_path / "b") as out:
        save(more, bad)
        assert "2-more.md:15:" in until(out, "mend:")
        save(more, "Now a line above.\n" + bad)
        assert "2-more.md:16:" in until(out, "mend:")
        save(more, bad.replace("(filer", "(filr"))
        said = until(out, "mend:")
        more.unlink()
        assert "mended" not in said + until(out, " 37 variants proven")


def test_what_a_new_mistake_only_hides_is_not_said_to_be_mended(content: Path, tmp_path: Path) -> None:
    lesson = content / "pairing/1-shares.md"
    good = lesson.read_text()
    bad = good.replace("hardener_for(filler", "hardener_for(filer")
    with watched(content, tmp_path / "b") as out:
        save(lesson, bad)
        until(out, "mend:")
        save(lesson, bad.replace("common practice\n:::", "common practice\n"))
        said = until(out, "the check takes 1 question") + until(out, "mend:")
        assert "never closed" in said and "filer" not in said
        save(lesson, good)
        assert "mended" not in until(out, "37 variants proven").replace("2 mended", "", 1), "block and check"
