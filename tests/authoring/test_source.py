"""Reading the files that come from a shop's computer."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.authoring.cache import Cache
from quizkit.authoring.diagnostics import Spot
from quizkit.authoring.source import LONGEST_LINE, Stretch, source_of


def codes(problems):
    return [(p.code, p.spot.line, p.spot.column) for p in problems]


def test_a_byte_order_mark_and_carriage_returns_are_dropped_and_tabs_kept():
    source, problems = source_of("a.md", b"\xef\xbb\xbf# One\r\n\ttwo\rthree\r\n")
    assert problems == ()
    assert source.lines == ("# One", "\ttwo", "three")


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (b"ok\nm\xc3\xbc\xff", ("F03", 2, 3)),
        (b"\xef\xbb\xbfok\r\n\xff", ("F03", 2, 1)),
        (b"\xff\xfea\x00", ("F03", 1, 1)),
        (b"a\nb\xc2\xb5\x00c", ("F04", 2, 3)),
        (b"a\n\x1b[31m", ("F04", 2, 1)),
        (b"a\n" + b"x" * 5_000_000, ("F05", 2, LONGEST_LINE + 1)),
    ],
)
def test_what_is_no_plain_text_is_told_at_its_line_in_characters(data, expected):
    source, problems = source_of("a.md", data)
    assert source is None
    assert codes(problems) == [expected]


def test_a_link_out_of_the_folder_is_refused_and_one_inside_is_read(tmp_path: Path):
    (tmp_path / "secret.md").write_text("secret")
    folder = tmp_path / "content"
    folder.mkdir()
    (folder / "out.md").symlink_to(tmp_path / "secret.md")
    (folder / "one.md").write_text("one")
    (folder / "in.md").symlink_to(folder / "one.md")
    (folder / "round.md").symlink_to(folder / "round.md")
    assert codes(Cache().source(folder, "out.md")[1]) == [("F01", 1, 1)]
    assert Cache().source(folder, "in.md")[0].lines == ("one",)
    assert codes(Cache().source(folder, "round.md")[1]) == [("F02", 1, 1)]
    assert codes(Cache().source(folder, "none.md")[1]) == [("F08", 1, 1)]
    assert codes(Cache().source(folder, ".")[1]) == [("F02", 1, 1)]


@given(st.binary(max_size=300))
def test_any_bytes_give_a_source_or_a_reason(data):
    source, problems = source_of("a.md", data)
    assert (source is None) == bool(problems)


@given(st.text(alphabet="ab\n é", max_size=40), st.data())
def test_a_cut_of_a_stretch_stands_where_its_characters_stand(text, data):
    lines = ("xx" + text).split("\n")
    start = data.draw(st.integers(0, len(text)))
    piece = Stretch(text, 1, 3).cut(start)
    assert lines[piece.line - 1][piece.column - 1 :] == text[start:].split("\n")[0]
    assert piece.spot().line == Spot(piece.line).line
