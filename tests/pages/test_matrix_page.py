"""The matrix of a large shop: 200 people, 40 skills, every note as long as they come, and still a light page."""

import datetime as dt
import gzip
import random

from quizkit.pages import page
from quizkit.shop import CoverCell, Filters, MatrixRow, MatrixView, SkillHead, StandingView

PEOPLE, SKILLS = 200, 40
DAY = dt.date(2026, 11, 25)
LOOK = {
    "language": "en", "shop": "Two Bays Refinish", "static": "/static/", "links": [], "person": "Ines Varga",
    "token": "t", "invented": True,
}  # fmt: skip
NOTES = {
    "cleared": ("to 18 Sep 2027", "to 29 Dec 2026, because of Fit test", "to 14 May 2027, because of Protect yourself"),
    "lapsing": ("to 14 Jan 2027",),
    "lapsed": ("since 5 Nov 2026, because of Protect yourself", "since 2 Oct 2026, the clearance has ended"),
    "learning": ("beside someone", "not at the bench yet: Protect yourself must be cleared first"),
    "check passed": ("sheet by 20 Feb 2027",),
    "not started": ("",),
}


def view() -> MatrixView:
    chance = random.Random(8)
    skills = tuple(SkillHead(f"applied-skill-{n}", f"Applied skill number {n}") for n in range(SKILLS))
    rows = tuple(
        MatrixRow(n, f"Firstname{n} Family-Name{n}", "technician", "north", "North bay", tuple(_cells(chance)))
        for n in range(PEOPLE)
    )
    cover = tuple(CoverCell(one.skill, 12, 10, "") for one in skills)
    return MatrixView(DAY, True, "now", "Matrix", skills, rows, cover, Filters("", "", "", "", (), (), (), ()))


def _cells(chance: random.Random) -> list[StandingView]:
    words = chance.choices(list(NOTES), weights=(60, 8, 8, 8, 6, 10), k=SKILLS)
    return [StandingView(word, DAY, dt.date(2027, 9, 28), "", chance.choice(NOTES[word]), (), ()) for word in words]


def test_the_wall_has_every_word_and_day_and_no_reason() -> None:
    html = page("matrix_wall.html", look=LOOK, token="t", view=view(), address="", onward="", more=0)
    assert html.count("<b>") == PEOPLE * SKILLS and html.count("<b>lapsing</b>to 28 Sep 2027") > 100
    assert "<b>lapsed</b>since 25 Nov 2026</td>" in html and "sheet by 20 Feb 2027" in html
    assert "because of" not in html and "the clearance has ended" not in html


def test_the_matrix_of_200_people_and_40_skills_is_a_light_page() -> None:
    html = page("matrix.html", look=LOOK, token="t", view=view(), address="", onward="", more=0).encode()
    assert html.count(b"<td>") == (PEOPLE + 1) * SKILLS
    assert len(html) <= 700 * 1024, len(html)
    assert len(gzip.compress(html, 6)) <= 80 * 1024
