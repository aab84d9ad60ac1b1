"""Seals are computed as the documentation of `seal` says, checked with hashlib and a library for RFC 8785."""

import hashlib
from typing import Any

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from quizkit.records.seal import START, canonical, seal

NAMES = st.text("abcdefghijklmnopqrstuvwxyz_", min_size=1, max_size=8)
TEXTS = st.text(st.characters(exclude_categories=["Cs"]))
WHOLE = st.integers(-(2**53) + 1, 2**53 - 1)


def columns(row: dict[str, Any]) -> tuple[tuple[str, ...], tuple[Any, ...]]:
    names = tuple(sorted(row))
    return names, tuple(row[name] for name in names)


@given(st.dictionaries(NAMES, TEXTS | WHOLE | st.none()))
def test_the_bytes_of_a_row_are_those_of_rfc_8785(row: dict[str, Any]) -> None:
    """Outside check: the rfc8785 package (computed)."""
    full = {name: value for name, value in row.items() if value is not None}
    assert canonical(*columns(row)).encode() == rfc8785.dumps(full)


def test_a_seal_is_sha256_over_the_seal_before_the_table_and_the_row() -> None:
    text = "0" * 64 + "\ntalk\n" + '{"id":1,"note":"né\\n"}'
    found = seal(START, "talk", ("id", "note", "person"), (1, "né\n", None))
    assert found == hashlib.sha256(text.encode()).hexdigest()


@given(st.dictionaries(NAMES, TEXTS | WHOLE), st.dictionaries(NAMES, TEXTS | WHOLE))
def test_two_rows_share_their_bytes_only_if_they_are_the_same(one: dict[str, Any], other: dict[str, Any]) -> None:
    assert (canonical(*columns(one)) == canonical(*columns(other))) == (one == other)


@pytest.mark.parametrize("value", ["\ud800", "\udcff"])
def test_text_that_cannot_be_written_has_no_seal(value: Any) -> None:
    with pytest.raises(ValueError):
        seal(START, "talk", ("note",), (value,))


@pytest.mark.parametrize("value", [b"5", 5.0, "5", True])
def test_a_value_of_another_type_gives_another_seal(value: Any) -> None:
    assert seal(START, "talk", ("note",), (value,)) != seal(START, "talk", ("note",), (5,))
