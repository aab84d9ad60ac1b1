"""The calendar of lapses is a legal RFC 5545 file, read back here by its own rules."""

import datetime as dt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.exchange.lapses import Lapse, calendar, escaped, folded

NOW = dt.datetime(2026, 11, 25, 8, 30, tzinfo=dt.timezone(dt.timedelta(hours=-7)))
LAPSE = Lapse("shop/4/ppe", dt.date(2027, 1, 31), "Zoë; 'Protect, yourself' lapses", "one\ntwo \\ three")


def unfolded(data: bytes) -> list[str]:
    """The content lines of a file (RFC 5545, 3.1), each at most 75 octets before it was folded."""
    assert data.endswith(b"\r\n")
    lines = data[:-2].split(b"\r\n")
    assert all(len(line) <= 75 and b"\n" not in line and b"\r" not in line for line in lines)
    assert all(line.decode() is not None for line in lines)
    found: list[str] = []
    for line in lines:
        if line[:1] in (b" ", b"\t"):
            found[-1] += line[1:].decode()
        else:
            found.append(line.decode())
    return found


def plain(value: str) -> str:
    """A text value without its escapes (RFC 5545, 3.3.11)."""
    out, signs = "", iter(value)
    for sign in signs:
        out += {"n": "\n", "N": "\n"}.get(after := next(signs), after) if sign == "\\" else sign
    return out


def test_an_event_says_the_day_and_warns_a_month_before() -> None:
    data = calendar([LAPSE], name="Two Bays", now=NOW)
    assert data is not None
    lines = unfolded(data)
    assert lines[:3] == ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//quizkit//lapses//EN"]
    for line in (
        "DTSTAMP:20261125T153000Z",
        "DTSTART;VALUE=DATE:20270131",
        "TRANSP:TRANSPARENT",
        "CLASS:PRIVATE",
        "TRIGGER:-P30D",
        "ACTION:DISPLAY",
    ):
        assert lines.count(line) == 1, line
    texts = dict(line.split(":", 1) for line in lines[4:10])
    assert plain(texts["SUMMARY"]) == LAPSE.summary
    assert plain(texts["DESCRIPTION"]) == LAPSE.description
    begun = [line[6:] for line in lines if line.startswith("BEGIN:")]
    assert begun == ["VCALENDAR", "VEVENT", "VALARM"]
    assert [line[4:] for line in lines if line.startswith("END:")] == begun[::-1]


def test_a_renewal_moves_its_event_and_two_people_have_two() -> None:
    def uids(*lapses: Lapse) -> list[str]:
        return [line for line in unfolded(calendar(lapses, name="x", now=NOW) or b"") if line.startswith("UID:")]

    later = Lapse(LAPSE.key, dt.date(2028, 1, 31), "later")
    assert uids(LAPSE) == uids(later)
    assert len(set(uids(LAPSE, Lapse("shop/5/ppe", LAPSE.day, "")))) == 2


def test_with_nothing_to_tell_there_is_no_file() -> None:
    assert calendar([], name="Two Bays", now=NOW) is None


@given(st.text(alphabet=st.characters(exclude_categories=("Cs",)), max_size=300))
def test_every_text_comes_back_but_for_control_characters(text: str) -> None:
    line = folded("SUMMARY:" + escaped(text))
    kept = "".join(sign for sign in text.replace("\r\n", "\n") if sign == "\n" or (sign >= " " and sign != "\x7f"))
    assert plain(unfolded(line.encode() + b"\r\n")[0].removeprefix("SUMMARY:")) == kept


def test_the_examples_of_the_standard_fold_to_themselves(standards: Path) -> None:
    examples = sorted((standards / "icalendar").glob("*.ics"))
    assert examples
    for example in examples:
        data = example.read_bytes().replace(b"\r\n", b"\n").rstrip(b"\n").replace(b"\n", b"\r\n") + b"\r\n"
        lines = unfolded(data)
        assert unfolded("".join(folded(line) + "\r\n" for line in lines).encode()) == lines


@pytest.mark.parametrize("length", [74, 75, 76, 149, 150])
def test_a_line_is_folded_only_when_it_must_be(length: int) -> None:
    assert folded("x" * length).count("\r\n ") == max(0, -(-(length - 75) // 74))
