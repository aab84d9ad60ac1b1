"""Whatever happens to a file on a shop's computer: a diagnostic or a pack, never a traceback.

The long run is `QUIZKIT_CASES=20000 python -m pytest tests/authoring/test_mutations.py`.
"""

import os
import re
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from quizkit.authoring.blocks import split
from quizkit.authoring.cache import Cache
from quizkit.authoring.content import compile_folder
from quizkit.authoring.diagnostics import as_json
from quizkit.authoring.lesson import read_block, read_lesson
from quizkit.authoring.settings import module_settings, shop_settings
from quizkit.authoring.sheet import read_sheet
from quizkit.authoring.shelf import read_shelf
from quizkit.authoring.source import source_of
from quizkit.pack.codec import from_json, to_json
from quizkit.pack.model import Pack

CONTENT = Path(__file__).parents[2] / "content"
CASES = int(os.environ.get("QUIZKIT_CASES", "300"))
SHELF = read_shelf(source_of("shelf.md", (CONTENT / "shelf.md").read_bytes())[0])[0]
QUESTIONS = [
    block.encode()
    for path in sorted(CONTENT.glob("*/[0-9]*.md"))
    for block in re.findall(r"^::: question .*?^:::$", path.read_text(encoding="utf-8"), re.M | re.S)
]
LESSONS = [
    b"# Title\n\n::: caution\n**What hurts.** Dust.\n:::\n\nWords and `code`, a [link](b.md).\n\n| a | b |\n| - | - |\n"
    b"| 1 | 2 |\n\n```\n::: x\n```\n\n- a\n- b\n\nFigure: `pressure_gauge(85, 120)`\n\nSource: common practice.\n\n"
]
SALT = [
    *(
        b"|",
        b"`",
        b"``",
        b":::",
        b"::: question x",
        b"\n",
        b"\n\n",
        b" -- ",
        b"- [x] ",
        b"[x if `a > b`]",
        b"\\",
        b"\t",
    ),
    *(
        b"Answer: `1`, within 2 %",
        b"Ask a: ?",
        b"Slip:",
        b"Where: `1 > 2`",
        b"Plausible: 1 to 2",
        b"| Given | Drawn from |",
    ),
    *(
        b"\xff",
        b"\x00",
        b"\xef\xbb\xbf",
        b"\r\n",
        b"\xe2\x80\x94",
        b"9**9**9",
        b"((((((((",
        b"1e400",
        b"0",
        b"-1",
        b" to ",
    ),
    *(
        b" by ",
        b" mL",
        b" by volume",
        b"shelf where ",
        b"= ",
        b"m**9**9**9",
        b"a.b.c.d",
        b"in psi",
        b"\xf0\x9f\x98\x80",
        b"%",
    ),
    *(b"2026-02-30", b"~~~", b"> ", b"1. ", b"{", b"${x}", b"<b>", b"&lt;", b"999999999999999999999", b"/0", b"**"),
]


@st.composite
def mutated(draw: st.DrawFn, seeds: list[bytes]) -> bytes:
    """A file near to one that an author wrote: cut, swapped, repeated, salted."""
    data = draw(st.sampled_from(seeds))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(data)))
        to = min(len(data), at + draw(st.integers(0, 60)))
        match draw(st.sampled_from(["cut", "swap", "repeat", "insert", "lines"])):
            case "cut":
                data = data[:at] + data[to:]
            case "swap":
                data = data[:at] + data[at:to][::-1] + data[to:]
            case "repeat":
                data = data[:to] + data[at:to] * 2 + data[to:]
            case "insert":
                data = data[:at] + draw(st.sampled_from(SALT)) + data[at:]
            case "lines":
                lines = data.split(b"\n")
                one, other = (draw(st.integers(0, len(lines) - 1)) for _ in "ab")
                lines[one], lines[other] = lines[other], lines[one]
                data = b"\n".join(lines)
    return data


def check(problems, source):
    """Every problem stands somewhere in the file, and can be told to people and programs."""
    for problem in problems:
        assert 1 <= problem.spot.line <= len(source.lines) + 1
        assert problem.spot.column >= 1
        assert str(problem)
        if problem.spot.line <= len(source.lines):
            assert problem.source == source.lines[problem.spot.line - 1]
            assert problem.spot.column <= len(problem.source) + 1
    assert as_json(problems)


@settings(max_examples=CASES, deadline=None)
@given(mutated([lesson + question for lesson in LESSONS for question in QUESTIONS]))
def test_a_mutated_lesson_gives_questions_or_problems(data: bytes) -> None:
    source, problems = source_of("m/1.md", data)
    if source is None:
        assert problems
        return
    read = read_lesson(source, "m", split(source), lambda block: read_block("m", block, SHELF))
    check((*read.problems, *(problem for one in read.questions for problem in one.problems)), source)
    for one in read.questions:
        if one.question is None:
            assert one.problems or any(problem.severity == "error" for problem in read.problems)
        elif not any(problem.severity == "error" for problem in one.problems):
            assert one.question.numbers[0] >= 0
            assert one.question.variant(one.question.numbers[0]).prompt is not None


@settings(max_examples=CASES // 3, deadline=None)
@given(mutated([path.read_bytes() for path in sorted(CONTENT.glob("*/signoff.md"))]))
def test_a_mutated_sheet_gives_a_sheet_or_problems(data: bytes) -> None:
    source, problems = source_of("m/signoff.md", data)
    if source is not None:
        sheet, problems = read_sheet(source, SHELF)
        check(problems, source)
        assert sheet is not None or problems


@settings(max_examples=CASES // 3, deadline=None)
@given(mutated([(CONTENT / "shelf.md").read_bytes()]))
def test_a_mutated_shelf_gives_rows_or_problems(data: bytes) -> None:
    source, _problems = source_of("shelf.md", data)
    if source is not None:
        shelf, problems = read_shelf(source)
        check(problems, source)
        assert shelf.rows or problems


@settings(max_examples=CASES // 3, deadline=None)
@given(
    mutated([(CONTENT / "shop.toml").read_bytes(), *(p.read_bytes() for p in sorted(CONTENT.glob("*/module.toml")))])
)
def test_mutated_settings_give_a_scheme_or_problems(data: bytes) -> None:
    source, _problems = source_of("shop.toml", data)
    if source is not None:
        for read in (shop_settings, module_settings):
            scheme, problems = read(source)
            check(problems, source)
            assert scheme is not None or problems


@settings(max_examples=CASES // 10, deadline=None)
@given(data=st.data())
def test_a_folder_with_one_mutated_file_gives_a_pack_or_errors(tmp_path_factory, small, data) -> None:
    folder = tmp_path_factory.mktemp("content")
    for name, text in small.items():
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    name = data.draw(st.sampled_from(sorted(small)))
    (folder / name).write_bytes(data.draw(mutated([small[name].encode()])))
    compiled = compile_folder(folder, Cache(), hold_out=data.draw(st.booleans()))
    errors = [problem for problem in compiled.problems if problem.severity == "error"]
    assert compiled.pack is not None or errors
    if compiled.pack is not None:
        assert from_json(Pack, to_json(compiled.pack)) == compiled.pack
