"""Splitting a lesson at its `:::` lines."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.authoring.blocks import split
from quizkit.authoring.source import Source


def pieces(text):
    blocks, problems = split(Source("a.md", tuple(text.split("\n"))))
    return [(b.kind, b.id, b.line, len(b.lines), b.whole) for b in blocks], [(p.code, p.spot.line) for p in problems]


def test_texts_and_blocks_come_in_order_with_their_lines():
    found, problems = pieces("# One\n\n::: caution\nHot\n:::\n::: question a-b\nQ\n:::\nEnd")
    assert problems == []
    assert found == [
        ("text", "", 1, 2, True),
        ("caution", "", 3, 2, True),
        ("question", "a-b", 6, 2, True),
        ("text", "", 9, 1, True),
    ]


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        ("::: question a\nQ", [("B01", 1)]),
        ("::: question a\nQ\n::: caution\nC\n:::", [("B02", 3)]),
        ("text\n:::", [("B03", 2)]),
        ("  ::: caution", [("B04", 1)]),
        ("> ::: caution", [("B04", 1)]),
        ("- :::", [("B04", 1)]),
        ("::: questoin a\nQ\n:::", [("B05", 1)]),
        (":::caution\nC", [("B06", 1)]),
        ("::: caution now\nC\n:::", [("B06", 1)]),
        ("::: question A\nQ\n:::", [("B07", 1)]),
        ("::: question\nQ\n:::", [("B07", 1)]),
        ("```\n::: caution\n```", []),
        ("~~~~ md\n::: caution\n~~~\n:::\n~~~~", []),
        ("- ```\n  code\n  ```\n\n::: caution\nC\n:::", []),
        ("```\n::: question a\nQ\n:::", [("B08", 1)]),
    ],
)
def test_each_mistake_of_a_block_line_is_told_at_its_line(text, problems):
    assert pieces(text)[1] == problems


def test_a_fence_that_is_never_closed_hides_no_block():
    found, _problems = pieces("```\n::: question a\nQ\n:::")
    assert [(kind, name) for kind, name, *_ in found] == [("text", ""), ("question", "a")]


def test_a_block_cut_short_by_the_next_leaves_the_next_whole():
    found, _problems = pieces("::: question a\nQ\n::: question b\nQ\n:::")
    assert [(name, whole) for _kind, name, _line, _count, whole in found] == [("a", False), ("b", True)]


@given(
    st.lists(st.sampled_from([":::", "::: question a", "::: x", "```", "- ```", "text", "", " :::", "~~~", "> ```"]))
)
def test_blocks_never_overlap_and_keep_their_lines(lines):
    source = Source("a.md", tuple(lines) or ("",))
    blocks, _problems = split(source)
    end = 0
    for block in blocks:
        assert block.line > end
        assert source.lines[block.line - 1 : block.line - 1 + len(block.lines)] == block.lines
        end = block.line + len(block.lines) - 1
