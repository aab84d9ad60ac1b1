"""The matrix leaves as people by skills, and each clearance that ends as a lapse."""

import datetime as dt
from dataclasses import dataclass

from quizkit.exchange.matrix import lapses, matrix_plain, matrix_table


@dataclass(frozen=True)
class Cell:
    word: str
    note: str = ""
    since: dt.date | None = None
    ends: dt.date | None = None


@dataclass(frozen=True)
class Head:
    skill: str
    title: str


@dataclass(frozen=True)
class Line:
    person: int
    name: str
    role: str
    site_title: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True)
class Ending:
    person: int
    name: str
    skill: str
    title: str
    day: dt.date
    note: str = ""


@dataclass(frozen=True)
class View:
    title: str
    day: dt.date
    skills: tuple[Head, ...]
    rows: tuple[Line, ...]


END = dt.date(2027, 9, 18)
LAPSED = Cell("lapsed", "since 1 Nov 2026", None, dt.date(2026, 10, 31))
VIEW = View(
    "Two Bays",
    dt.date(2026, 11, 25),
    (Head("ppe", "Protect yourself"), Head("balancing", "Balancing")),
    (
        Line(3, "Ada", "apprentice", "North", (Cell("cleared", "to 18 Sep 2027", None, END), Cell("not started"))),
        Line(4, "Bo", "apprentice", "North", (LAPSED, Cell("lapsing", "", None, END))),
    ),
)


def test_people_stand_down_and_skills_across() -> None:
    table = matrix_table(VIEW)
    assert table.heads[3:] == ("Protect yourself", "Balancing")
    assert table.rows[0] == ("Ada", "apprentice", "North", "cleared to 18 Sep 2027", "not started")


def test_a_terminal_gets_dates_alone_and_no_word_stands_twice() -> None:
    table = matrix_table(VIEW, short=True)
    assert table.rows[1][3:] == ("lapsed", "lapsing 2027-09-18")
    twice = Line(5, "Cy", "apprentice", "North", (Cell("withdrawn", "withdrawn: why"), Cell("not started")))
    assert matrix_table(View("x", VIEW.day, VIEW.skills, (twice,))).rows[0][3] == "withdrawn: why"


def test_a_program_gets_a_row_a_person_and_skill() -> None:
    rows = matrix_plain(VIEW)["standings"]
    assert isinstance(rows, list) and len(rows) == 4
    assert rows[0] == {
        "person": 3,
        "name": "Ada",
        "skill": "ppe",
        "standing": "cleared",
        "since": None,
        "ends": "2027-09-18",
        "note": "to 18 Sep 2027",
    }


def test_a_lapse_says_who_what_and_why() -> None:
    rows = (Ending(3, "Ada", "ppe", "Protect yourself", END, "because of Fit test"), Ending(4, "Bo", "ppe", "P", END))
    own, other = lapses(rows, "shop")
    assert (own.key, own.day, own.summary) == ("shop/3/ppe", END, "Ada: Protect yourself lapses")
    assert own.description == "because of Fit test" and "renewal" in other.description
