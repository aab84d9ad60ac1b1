"""Markdown into our own nodes, with the place of every code span and cell."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from quizkit.authoring.markdown import _Builder, _parsed, _simple, block_nodes, chunks, inline_nodes, plain_code
from quizkit.authoring.source import Stretch
from quizkit.authoring.spans import code_spans, parted
from quizkit.pack.html import render
from quizkit.pack.nodes import Element


def html(text):
    return render(block_nodes(Stretch(text)))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("# One *two*", "<h1>One <em>two</em></h1>\n"),
        ("a\nb  \nc", "<p>a\nb<br>c</p>\n"),
        ("- a\n- b", "<ul>\n<li>a</li>\n<li>b</li>\n</ul>\n".replace("<ul>\n", "<ul>")),
        ("3. a", '<ol start="3"><li>a</li>\n</ol>\n'),
        ("<b>x</b> & y", "<p>&lt;b&gt;x&lt;/b&gt; &amp; y</p>\n"),
        ("[a](javascript:alert(1))", "<p>[a](javascript:alert(1))</p>\n"),
        ("![a *b*](c.png)", '<p><img src="c.png" alt="a *b*"></p>\n'),
        ("```\na < b\n```", "<pre><code>a &lt; b\n</code></pre>\n"),
        ("a -- b", "<p>a -- b</p>\n"),
        ("---", "<hr>\n"),
    ],
)
def test_each_form_becomes_its_html(text, expected):
    assert html(text) == expected


def test_a_table_keeps_its_alignment():
    assert '<td class="right">1</td>' in html("| a | b |\n| - | -: |\n| x | 1 |")


def places(text, line=1, column=1):
    found = []

    def code(inner):
        found.append((inner.text, inner.line, inner.column))
        return ""

    block_nodes(Stretch(text, line, column), code)
    return found


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a `b` and `c`", [("b", 1, 4), ("c", 1, 12)]),
        ("one\n  two `b`", [("b", 2, 8)]),
        ("# h `b` #", [("b", 1, 6)]),
        ("- x\n- y `b`", [("b", 2, 6)]),
        ("> y `b`\n> `c`", [("b", 1, 6), ("c", 2, 4)]),
        ("| a | `b` |\n| - | - |\n| `c` | x \\| `d` |", [("b", 1, 8), ("c", 3, 4), ("d", 3, 15)]),
        ("x `` a ` b `` `c`", [("a ` b", 1, 6), ("c", 1, 16)]),
        ("\\`a `b`", [("b", 1, 6)]),
        ("*a `b`*", [("b", 1, 5)]),
    ],
)
def test_a_code_span_knows_its_line_and_column(text, expected):
    assert places(text) == expected


def test_a_text_that_begins_within_a_line_keeps_its_column():
    assert places("a `b`\n`c`", 7, 10) == [("b", 7, 13), ("c", 8, 2)]


def test_the_cells_of_a_table_know_their_places():
    table = chunks(Stretch("x\n\n| Given | Drawn from |\n|--|--|\n| a | `b \\| c` |\n| d |", 5))[1].table()
    assert table.titles == ("given", "drawn from")
    assert [(c.text, c.line, c.column) for row in table.rows for c in row] == [
        ("a", 9, 3),
        ("`b \\| c`", 9, 7),
        ("d", 10, 3),
    ]


def test_the_items_of_a_list_know_their_places():
    items = chunks(Stretch("- [x] a\n  more\n- b"))[0].items()
    assert [(item.text, item.line, item.column) for item in items] == [("[x] a\n  more", 1, 3), ("b", 3, 3)]


def test_feedback_follows_the_first_dash_outside_backticks():
    before, after = parted(Stretch("`a -- b` – c -- d", 3, 5))
    assert (before.text, after.text, after.column) == ("`a -- b`", "c -- d", 16)
    assert parted(Stretch("a--b"))[1] is None


def test_a_lone_backtick_is_found():
    assert code_spans(Stretch("`a` `b"))[1] == 4


def test_deep_nesting_and_long_text_come_to_an_end():
    assert block_nodes(Stretch(">" * 3000 + "x"))
    assert inline_nodes(Stretch("[" * 5000 + "*" * 3000))


@given(st.text(alphabet="ab`*_[]()|\\\n -#>1.~!<&\t", max_size=80))
def test_any_text_becomes_nodes_whose_code_spans_stand_where_they_say(text):
    lines = text.split("\n")

    def code(inner):
        assert 1 <= inner.line <= len(lines)
        assert 1 <= inner.column <= len(lines[inner.line - 1]) + 1
        return Element("code", (), (inner.text,))

    assert isinstance(render(block_nodes(Stretch(text), code)), str)


PIECES = st.sampled_from(
    (
        *("a", "b", "1", " ", ".", ":", "|", "-", "(", ")", "{", "~", "'", '"', "#", "\n", "  \n", "\n  ", "°", "÷"),
        *("`a`", "`a * b_c`", "` x `", "`a\nb`", "`", "``", "`` ` ``", "\\", "\\`", "*", "_", "**", "[", "]"),
        *("_a_", "*a*", "[a](b)", "![a](b)", "&amp;", "&", "<b>", "<", "https://a.b"),
    )
)


@given(st.lists(PIECES, max_size=12).map("".join))
def test_words_and_code_alone_read_as_the_whole_of_markdown_reads_them(text: str) -> None:
    builder = _Builder(Stretch(text), plain_code, {})
    plain = builder.plain(Stretch(text))
    if plain is not None:
        assert plain == builder.marked(text, Stretch(text))


def test_most_texts_of_questions_are_words_and_code_alone() -> None:
    for text in ("A quarter takes `filler` of filler.\nHow much?", "`a` ÷ `b` = `answer`", "That splits the total."):
        assert _Builder(Stretch(text), plain_code, {}).plain(Stretch(text)) is not None


LINES = st.sampled_from(
    (
        *("How much?", "`a` is *it*", "(see below)", "A  ", "", " ", "    code", "```", "[r]: /x", "a [r] b", "x | y"),
        *(
            "| a | b |",
            "| - | :-: |",
            "| `c` | \\| d |",
            "| e |",
            "|-|",
            "|",
            "||",
            "- x",
            "- [x] `a`",
            "- [ ] (b)",
            "1. y",
            "---",
            "===",
            "> q",
        ),
    )
)


@example("- x\n\n- [x] `a`")
@example("- x\nA  ")
@example("| a | b |\n|-|")
@given(st.lists(LINES, max_size=10).map("\n".join))
def test_what_is_plain_to_see_is_what_the_parser_sees(text: str) -> None:
    simple = _simple(Stretch(text, 3, 2))
    if simple is not None:
        with_parser = _parsed(Stretch(text, 3, 2))
        assert [(one.kind, one.body.strip()) for one in simple] == [(one.kind, one.body.strip()) for one in with_parser]
        lists = [(one, other) for one, other in zip(simple, with_parser, strict=True) if one.kind == "bullet_list"]
        assert all(one.items() == other.items() for one, other in lists)
        assert [one.nodes() for one in simple] == [one.nodes() for one in with_parser]


def test_prompts_with_their_givens_are_plain_to_see() -> None:
    text = "A quarter takes `filler`.\nHow much?\n\n| Given | Drawn from |\n| - | - |\n| filler | 60 mL, 80 mL |"
    assert [one.kind for one in _simple(Stretch(text)) or ()] == ["paragraph", "table"]
