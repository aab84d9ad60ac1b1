"""A folder of content becomes a pack, or everything that is wrong with it is told at once."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quizkit.authoring.cache import Cache
from quizkit.authoring.content import ContentError, compile_content, compile_folder
from quizkit.pack.codec import to_json
from tests.bench.lessons import make

ROOT = Path(__file__).parents[2]
LESSON = "ratio-pairing/1-shares.md"


def codes(compiled):
    return [(p.code, p.path, p.spot.line) for p in compiled.problems]


def spoil(folder, path, old, new):
    file = folder / path
    text = file.read_text()
    assert old in text
    file.write_text(text.replace(old, new))


def test_the_small_folder_compiles_with_a_warning_of_its_short_check_alone(folder):
    compiled = compile_folder(folder)
    assert codes(compiled) == [("M10", "ratio-pairing/module.toml", 9)]
    (module,) = compiled.pack.modules
    assert [lesson.title for lesson in module.lessons] == ["Each side has its share", "More"]
    assert module.sheet.materials == ("Keel",)
    assert compiled.pack.question("ratio-pairing/hardener-share").parts[0].shown.denominator == 10


@pytest.mark.parametrize(
    ("path", "old", "new", "expected"),
    [
        ("shop.toml", "zone", "zone_", [("S02", 2), ("S05", 1)]),
        ("shop.toml", "zone", '[cover]\nbalancing = 1\n[x]\n"zone"', [("M04", 3), ("S02", 4), ("S05", 1)]),
        ("shop.toml", "zone", 'first = "ppe"\nzone', [("M04", 2)]),
        ("ratio-pairing/module.toml", "practical", 'needs = ["ratio-pairing"]\npractical', [("M07", 3)]),
        ("ratio-pairing/module.toml", "practical", 'proofs = ["fit-test"]\npractical', [("M06", 3)]),
        ("ratio-pairing/module.toml", "shares = 1", "shares = 2", [("M09", 10)]),
        ("ratio-pairing/module.toml", "practical = true", "", [("M13", 1)]),
        ("ratio-pairing/2-more.md", "Topic: order", "Topic: order\nTopic: order", [("Q04", 5)]),
        ("ratio-pairing/2-more.md", "Use: practice", "Use: check", [("Q19", 4)]),
        ("ratio-pairing/2-more.md", "first-step", "hardener-share", [("Q18", 3)]),
        (LESSON, "2-more.md", "3-more.md", [("K04", 7)]),
        (LESSON, "[link](2-more.md)", "![picture](a.png)", [("K04", 7)]),
        (LESSON, "Some words, and", "Figure: `pressure_gage(85, 120)`\n\nSome words, and", [("K02", 7)]),
        (LESSON, "# Each", "Each", [("K03", 1)]),
        (LESSON, "Some words", "| a | b |\n\nSome words", [("T01", 7)]),
        (LESSON, "Some words", "| a | b |\n|-|-|\n| c | d |\nSome words", [("T02", 10)]),
        (LESSON, "hardener_for(filler, ratio)", "hardener_for(filer, ratio)", [("Q22", 20)]),
        ("ratio-pairing/signoff.md", "adhesive", "sealer", [("J04", 3)]),
        ("ratio-pairing/signoff.md", "at most", "under", [("J03", 13)]),
        ("ratio-pairing/signoff.md", "| used ", "| mL ", [("G09", 11), ("Q22", 13)]),
        ("shelf.md", "10:1 by volume", "10:1", [("G04", 6)]),
    ],
)
def test_one_mistake_is_told_at_its_line_and_nothing_else_looks_wrong(folder, path, old, new, expected):
    spoil(folder, path, old, new)
    told = [(code, line) for code, _path, line in codes(compile_folder(folder)) if code != "M10"]
    assert sorted(told) == sorted(expected)


def test_all_problems_of_all_files_come_in_one_run_in_order(folder):
    spoil(folder, LESSON, "in mL", "in mm")
    spoil(folder, "ratio-pairing/2-more.md", "- [x] Gloves", "- [ ] Gloves")
    spoil(folder, "shop.toml", "zone", "zzz")
    with pytest.raises(ContentError) as caught:
        compile_content(folder)
    assert [(p.code, p.path) for p in caught.value.problems if p.severity == "error"] == [
        ("Q21", LESSON),
        ("C02", "ratio-pairing/2-more.md"),
        ("S02", "shop.toml"),
    ]


def test_an_example_is_shown_as_the_notation_shows_it(folder):
    spoil(folder, LESSON, "`hardener_for(filler, ratio)` in mL", "`filler * 2` in mm")
    (problem, *_rest) = compile_folder(folder).problems
    assert str(problem).split("\n") == [
        "ratio-pairing/1-shares.md:20:10: error Q21 unit-mismatch: "
        "this formula is a volume (mL), the answer wants a length (mm)",
        "   20 | Answer: `filler * 2` in mm, within 2 %",
        "      |          ^^^^^^^^^^",
        "   mend: divide by a cross-section, such as round_area(width)",
    ]


def test_what_has_an_error_can_be_held_out_and_is_listed(folder):
    spoil(folder, LESSON, "in mL", "in mm")
    compiled = compile_folder(folder, hold_out=True)
    assert compiled.held_out == ("ratio-pairing/hardener-share",)
    (module,) = compiled.pack.modules
    assert [question.id for question in module.questions] == ["ratio-pairing/first-step"]
    assert module.lessons[0].questions == ()


def test_a_question_whose_material_is_not_stocked_is_left_out_with_a_notice(folder):
    spoil(folder, LESSON, "| ratio  | 10:1 by volume          |", "| row | shelf where family is foam |")
    spoil(folder, LESSON, "`ratio`", "`row.ratio`")
    spoil(folder, LESSON, "`hardener_for(filler, ratio)`", "`hardener_for(filler, row.ratio)`")
    spoil(folder, LESSON, "`filler * ratio.a`", "`filler * row.ratio.a`")
    spoil(folder, LESSON, "`ratio.a`", "`row.ratio.a`")
    compiled = compile_folder(folder)
    assert {code for code, *_ in codes(compiled)} >= {"G10", "M15"}
    assert compiled.pack is not None
    assert [question.id for question in compiled.pack.questions()] == ["ratio-pairing/first-step"]


@pytest.mark.parametrize("name", ["shop.toml", LESSON, "ratio-pairing/module.toml", "shelf.md"])
@pytest.mark.parametrize("data", [b"", b"\xff\xfe", b"a\x00b", b"\xef\xbb\xbf", b"x" * 5_000_000, b"\r\r\r", b"\t\t"])
def test_a_file_of_rubbish_is_told_and_never_a_traceback(folder, name, data):
    (folder / name).write_bytes(data)
    compiled = compile_folder(folder)
    assert compiled.pack is not None or any(p.path == name for p in compiled.problems)


def test_a_missing_folder_is_told(tmp_path):
    assert [p.code for p in compile_folder(tmp_path / "none").problems] == ["F08"]
    assert "M03" in [p.code for p in compile_folder(tmp_path).problems]


def test_a_byte_order_mark_and_carriage_returns_change_nothing(folder):
    clean = to_json(compile_folder(folder).pack)
    for file in folder.rglob("*.md"):
        file.write_bytes(b"\xef\xbb\xbf" + file.read_bytes().replace(b"\n", b"\r\n"))
    assert to_json(compile_folder(folder).pack) == clean


def test_a_picture_beside_a_lesson_travels_in_the_pack(folder):
    spoil(folder, LESSON, "[link](2-more.md)", "![picture](a.png)")
    (folder / "ratio-pairing" / "a.png").write_bytes(b"\x89PNG rest")
    (module,) = compile_folder(folder).pack.modules
    assert [(image.path, image.mime) for image in module.images] == [("a.png", "image/png")]
    assert '"src","image/a.png"' in to_json(module).decode()


def test_ratings_of_judges_are_read(folder):
    (folder / "ratio-pairing" / "judges.csv").write_text("question,Ann,Bo\nhardener-share,0.8,0.7\n")
    (module,) = compile_folder(folder).pack.modules
    assert [(r.judge, str(r.chances[0][1])) for r in module.ratings] == [("Ann", "4/5"), ("Bo", "7/10")]
    (folder / "ratio-pairing" / "judges.csv").write_text("question,Ann\nhardener-shar,0.8\nfirst-step,2\n")
    assert [(c, line) for c, _p, line in codes(compile_folder(folder)) if c == "M08"] == [("M08", 2), ("M08", 3)]


SCRIPT = """
import sys
from quizkit.authoring.content import compile_content
from quizkit.pack.codec import sha256
print(sha256(compile_content(sys.argv[1])))
"""


def test_the_same_content_gives_the_same_bytes_from_any_folder_and_hash_seed(folder, tmp_path):
    hashes = set()
    other = shutil.copytree(folder, tmp_path / "elsewhere")
    for seed, place in (("1", folder), ("77", other)):
        done = subprocess.run(
            [sys.executable, "-c", SCRIPT, str(place)],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
            cwd=tmp_path,
            capture_output=True,
            text=True,
        )
        assert not done.stderr
        hashes.add(done.stdout)
    assert len(hashes) == 1


# the cache


def test_a_touched_lesson_redoes_its_changed_block_alone(folder, tmp_path):
    cache = Cache()
    compile_folder(folder, cache)
    for text in ("Hardener burns the skin badly.", "Hardener burns the eyes."):
        before = cache.made
        spoil(folder, LESSON, (folder / LESSON).read_text().split("**What hurts.** ")[1].split("\n")[0], text)
        compile_folder(folder, cache)
        assert cache.made == before + 1


def test_the_next_process_finds_what_this_one_compiled(folder, tmp_path):
    compile_folder(folder, Cache(tmp_path / "cache"))
    second = Cache(tmp_path / "cache")
    compiled = compile_folder(folder, second)
    assert second.made == 0
    assert to_json(compiled.pack) == to_json(compile_folder(folder).pack)


def test_a_spoiled_cache_is_passed_over(folder, tmp_path):
    compile_folder(folder, Cache(tmp_path / "cache"))
    files = sorted((tmp_path / "cache").rglob("*.json"))
    files[0].write_bytes(b"rubbish")
    files[1].write_bytes(files[1].read_bytes().replace(b"e", b"a", 3))
    second = Cache(tmp_path / "cache")
    compiled = compile_folder(folder, second)
    assert second.made == 2
    assert to_json(compiled.pack) == to_json(compile_folder(folder).pack)


EDITS = [
    "60 mL",
    "filler",
    "`ratio`",
    ":::\n",
    "Slip:",
    "shelf where family is filler",
    "within 2 %",
    "\n\n",
    "# T\n",
    "10:1",
]


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.tuples(st.sampled_from([LESSON, "shelf.md"]), st.floats(0, 1), st.sampled_from(EDITS)), max_size=4))
def test_a_compile_with_a_cache_is_a_clean_compile_after_any_edits(folder, edits):
    originals = {path: (folder / path).read_text() for path in (LESSON, "shelf.md")}
    cache = Cache()
    for path, where, text in edits:
        old = (folder / path).read_text()
        at = int(where * len(old))
        (folder / path).write_text(old[:at] + text + old[at + 5 :])
        cached, clean = compile_folder(folder, cache), compile_folder(folder)
        assert cached.problems == clean.problems
        assert cached.pack == clean.pack
    for path, text in originals.items():
        (folder / path).write_text(text)


# much content, odd content


def test_ten_thousand_files_are_compiled_and_told(folder):
    for number in range(3, 10_003):
        (folder / "ratio-pairing" / f"{number}-x.md").write_text(f"# Lesson {number}\n")
    (folder / "ratio-pairing" / "77-x.md").write_text("No title.\n")
    compiled = compile_folder(folder)
    assert [problem.code for problem in compiled.problems if problem.severity == "error"] == ["K03"]
    (folder / "ratio-pairing" / "77-x.md").write_text("# Title\n")
    pack = compile_folder(folder).pack
    assert len(pack.modules[0].lessons) == 10_002
    assert [lesson.id for lesson in pack.modules[0].lessons[8:11]] == [f"ratio-pairing/{n}-x" for n in (9, 10, 11)]


def test_all_processors_give_what_one_gives(tmp_path, monkeypatch):
    folder = make(tmp_path / "content", 70)
    lesson = next(path for path in sorted(folder.glob("*/*.md")) if "\nAnswer" in path.read_text())
    lesson.write_text(re.sub(r"(\nAnswer[^:]*: `)", r"\1nonsense * ", lesson.read_text(), count=1))
    monkeypatch.setattr("quizkit.authoring.content.processors", lambda: 3)
    kept = Cache(tmp_path / "cache")
    spread = compile_folder(folder, kept, hold_out=True)
    monkeypatch.setattr("quizkit.authoring.content.processors", lambda: 1)
    alone = compile_folder(folder, hold_out=True)
    again = compile_folder(folder, Cache(tmp_path / "cache"), hold_out=True)
    assert kept.made > 400
    assert spread.problems == alone.problems == again.problems
    assert to_json(spread.pack) == to_json(alone.pack) == to_json(again.pack)
    assert any(problem.severity == "error" for problem in alone.problems)


def test_tabs_and_trailing_blanks_change_no_number(folder):
    plain = compile_folder(folder).pack.question("ratio-pairing/hardener-share")
    text = (folder / LESSON).read_text()
    text = text.replace("| filler | ", "|\tfiller\t|\t").replace("Topic: shares", "Topic:\tshares  ")
    (folder / LESSON).write_text(text.replace("Answer: ", "Answer:\t").replace(":::\n", ":::\t\n"))
    tabbed = compile_folder(folder).pack.question("ratio-pairing/hardener-share")
    assert (tabbed.givens, tabbed.parts, tabbed.topic) == (plain.givens, plain.parts, plain.topic)


def test_a_block_that_is_never_closed_harms_no_neighbour(folder):
    spoil(folder, LESSON, "burns the skin.\n:::\n", "burns the skin.\n")
    compiled = compile_folder(folder, hold_out=True)
    assert [(c, line) for c, path, line in codes(compiled) if path == LESSON] == [("B02", 8)]
    assert {question.id for question in compiled.pack.questions()} == {
        "ratio-pairing/hardener-share",
        "ratio-pairing/first-step",
    }


def test_a_quote_of_ratings_that_is_never_closed_ends_with_its_line(folder):
    (folder / "ratio-pairing" / "judges.csv").write_text('question,"Ann\n' + 'hardener-share,"0.8\n' * 9000)
    told = [(p.spot.line, p.what) for p in compile_folder(folder).problems if p.code == "M08"]
    assert len(told) == 8999 and told[0] == (3, "'hardener-share' is rated twice")
