"""`quizkit compile --watch`: each save is compiled, and only what is new is said."""

import signal
import subprocess
import sys
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


def test_a_save_is_compiled_and_only_what_changed_is_said(content: Path, tmp_path: Path) -> None:
    lesson = content / "pairing/1-shares.md"
    good = lesson.read_text()
    code = "from quizkit.cli import main; main()"
    command = [sys.executable, "-u", "-c", code, "compile", str(content), "--into", str(tmp_path / "b"), "--watch"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        until(process.stdout, "37 variants proven")
        save(lesson, good.replace("hardener_for(filler", "hardener_for(filer"))
        assert "pairing/1-shares.md:15:" in until(process.stdout, "mend:")
        save(lesson, good)
        said = until(process.stdout, "37 variants proven")
        assert "mended" in said and "1-shares.md" not in said
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=60)
    assert process.returncode == 0
