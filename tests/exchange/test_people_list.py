"""A list of people is read whole, or every line that is wrong is named."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.exchange.people import PeopleRead, read_people


def test_a_list_is_read_with_capitals_blank_lines_and_the_mark_of_a_spreadsheet() -> None:
    read = read_people(
        '\ufeffName,Role,Site\r\nAda Lind,apprentice,north\r\n\r\n"Bo, the Tall",trainer,south\r\n'.encode()
    )
    assert read.problems == ()
    assert [row["name"] for row in read.rows] == ["Ada Lind", "Bo, the Tall"]
    assert read.lines == (2, 4)
    assert read.rows[0]["secret"] == ""


@pytest.mark.parametrize("mark", [";", "\t", ","])
def test_the_mark_between_cells_is_found(mark: str) -> None:
    text = mark.join(("site", "name", "role", "secret")) + "\n" + mark.join(("north", "Ada", "apprentice", "4711"))
    assert read_people(text.encode()).rows == (
        {"name": "Ada", "role": "apprentice", "site": "north", "secret": "4711"},
    )


def test_utf_16_as_some_spreadsheets_save_it_is_read() -> None:
    assert read_people("name\trole\tsite\nZoë\ttrainer\tnorth".encode("utf-16")).rows[0]["name"] == "Zoë"


@pytest.mark.parametrize(
    ("data", "row", "word"),
    [
        (b"", 0, "empty"),
        (b"\xff\x00zz\xd8", 0, ""),
        (b"name,role,site\nAda,\xe9,north", 2, "UTF-8"),
        (b"name,role\nAda,apprentice", 1, "site"),
        (b"name,role,site,age\nAda,apprentice,north,3", 1, "age"),
        (b"name,role,site,name\nAda,apprentice,north,Ada", 1, "twice"),
        (b"name,role,site\nAda,,north", 2, "role"),
        (b"name,role,site\nLind, Ada,apprentice,north", 2, "more cells"),
        (b'name,role,site\n"Ada,apprentice,north', 0, "CSV"),
        (b"name,role,site\n", 0, "nobody"),
        (b"name,role,site\nA\0da,apprentice,north", 2, "text"),
    ],
)
def test_a_mistake_names_its_line_and_nobody_is_taken(data: bytes, row: int, word: str) -> None:
    read = read_people(data)
    assert read.rows == ()
    assert any(word in problem.what and problem.row in (row, 1) and problem.mend for problem in read.problems)


@given(st.binary(max_size=200) | st.text(alphabet=',;\t"\n\rnamerolsit', max_size=120).map(str.encode))
def test_no_bytes_break_it(data: bytes) -> None:
    read = read_people(data)
    assert isinstance(read, PeopleRead) and bool(read.rows) != bool(read.problems)
