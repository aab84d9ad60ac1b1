"""Whatever is sent or handed over: a clear page or message, never a fault (the long run: `tests.bench.fuzz`)."""

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from tests.bench import fuzz

FEW = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


@FEW
@given(st.binary(max_size=400))
def test_any_request_is_answered_with_a_page(data: bytes) -> None:
    fuzz.pages(data)


@FEW
@given(st.binary(max_size=300) | st.text(max_size=200).map(str.encode))
@example(b"name,role,site\nA,apprentice,north\n")
def test_any_list_is_read_or_told(data: bytes) -> None:
    fuzz.lists(data)


@FEW
@given(st.binary(max_size=300) | st.recursive(st.none() | st.text(), st.lists).map(lambda value: repr(value).encode()))
@example(b'{"proof": {"proofValue": "z"}}')
def test_any_certificate_file_is_told(data: bytes) -> None:
    fuzz.certificates(data)


@FEW
@given(st.binary(min_size=4, max_size=60))
def test_a_shop_file_with_any_bytes_changed_is_told(data: bytes) -> None:
    fuzz.files(data)


def test_a_fault_would_be_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    there = fuzz.shop()
    monkeypatch.setitem(there.app.view_functions, "doors.roster", lambda: 1 / 0)
    monkeypatch.setattr(there, "rules", tuple(rule for rule in there.rules if rule.endpoint == "doors.roster"))
    with pytest.raises(AssertionError, match="500"):
        fuzz.pages(b"")
