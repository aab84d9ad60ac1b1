"""Fixture cases: what is typed into the small content folder, and every word that its author is then told.

A file of `cases/` holds cases of the form: a heading with the title, fences with what is put into the folder, and a
fence `told` with the whole output, without the one warning that the small folder has of itself. In the fences'
info strings: `file PATH` its text; `bytes PATH` its bytes, with Python's escapes; `repeat PATH` a count and a text;
`link PATH` where a link leads; `folder PATH` a folder of that name; `gone PATH` a file taken away.
"""

import re
import shutil
from pathlib import Path

import pytest

from quizkit.authoring.content import compile_folder

CASE = re.compile(r"^# (.+?)\n(.*?)(?=^# |\Z)", re.M | re.S)
FENCE = re.compile(r"^(~{3,}) (\w+)(?: (\S+))?\n(.*?)^\1\n", re.M | re.S)
FENCED = re.compile(r"^(~{3,}) .*?^\1\n", re.M | re.S)


def _cases() -> list[tuple[str, list[tuple[str, str, str]]]]:
    found = []
    for path in sorted((Path(__file__).parent / "cases").glob("*.md")):
        text = path.read_text(encoding="utf-8")
        headings = [at.start() for at in re.finditer(r"^# ", text, re.M) if not _within(text, at.start())]
        for start, end in zip(headings, [*headings[1:], len(text)], strict=True):
            title, body = text[start:end].split("\n", 1)
            fences = [(fence[2], fence[3] or "", fence[4]) for fence in FENCE.finditer(body)]
            found.append((f"{path.stem}: {title.removeprefix('# ')}", fences))
    return found


def _within(text: str, place: int) -> bool:
    return any(fence.start() < place < fence.end() for fence in FENCED.finditer(text))


def put(folder: Path, what: str, path: str, body: str) -> None:
    """One fence of a case into the folder."""
    file = folder / path
    file.parent.mkdir(parents=True, exist_ok=True)
    match what:
        case "file":
            file.write_text(body, encoding="utf-8")
        case "bytes":
            file.write_bytes(body.rstrip("\n").encode().decode("unicode_escape").encode("latin-1"))
        case "repeat":
            count, text = body.rstrip("\n").split(" ", 1)
            file.write_text(int(count) * text, encoding="utf-8")
        case "link":
            file.unlink(missing_ok=True)
            file.symlink_to(body.strip())
        case "folder":
            file.unlink(missing_ok=True)
            file.mkdir()
        case "gone":
            file.unlink() if file.is_file() else shutil.rmtree(file)
        case _:
            raise AssertionError(f"no such fence: {what}")


CASES = _cases()


@pytest.mark.parametrize(("title", "fences"), CASES, ids=[title for title, _fences in CASES])
def test_the_author_is_told_this_and_nothing_else(folder: Path, title: str, fences: list[tuple[str, str, str]]) -> None:
    own = {str(problem) for problem in compile_folder(folder).problems}
    for what, path, body in fences[:-1]:
        put(folder, what, path, body)
    told = [str(problem) for problem in compile_folder(folder).problems]
    assert fences[-1][0] == "told"
    assert "\n".join(one for one in told if one not in own) + "\n" == fences[-1][2]
