"""The matrix, its cells, cover and the morning question, on a small shop whose story is told by its deeds."""

import datetime as dt

import pytest

from quizkit import shop as deeds
from quizkit.shop import SheetInput


@pytest.fixture
def told(floor):
    """Ann (north) is cleared in both; Ben (south) passed protection; the trainer signs by a founding grant."""
    deeds.grant(floor.shop, floor.manager, floor.trainer, "pairing", now=floor.now, basis="Papers seen.", founding=True)
    floor.pass_check(floor.ben, "ppe")
    floor.pass_check(floor.ann, "ppe")
    floor.pass_check(floor.ann, "pairing")
    floor.later(days=10)
    measures = {"a": "46.3", "b": "20.0", "step": "0.1"}
    filled = SheetInput(floor.ann, "pairing", "Alder", frozenset({1, 2}), measures, "scale 2, 0.1 g")
    deeds.sign_sheet(floor.shop, floor.trainer, filled, now=floor.now)
    return floor


def words(view: deeds.MatrixView) -> dict[str, list[str]]:
    return {row.name: [cell.word for cell in row.cells] for row in view.rows}


def test_people_down_skills_across_with_cover_below(told) -> None:
    view = deeds.matrix(told.shop, told.manager, now=told.now)
    assert [head.title for head in view.skills] == ["Protection", "Pairing"]
    assert words(view)["Ann Bly"] == ["cleared", "cleared"]
    assert words(view)["Ben Cray"] == ["cleared", "not started"]
    assert [(one.cleared, one.wanted, one.note) for one in view.cover] == [
        (2, 2, ""),
        (1, 4, "North bay: one short; South bay: 2 short"),
    ]
    assert [row.name for row in view.rows if row.entitled] == ["Tess Orr"]


def test_a_site_that_is_short_is_named_though_all_sites_together_have_enough(told) -> None:
    deeds.change_person(told.shop, told.ben, by=told.manager, now=told.now, site="north")
    protection = deeds.matrix(told.shop, told.manager, now=told.now).cover[0]
    assert (protection.cleared, protection.wanted, protection.note) == (2, 2, "South bay: one short")
    alone = deeds.matrix(told.shop, told.manager, now=told.now, site="south").cover[0]
    assert alone.note == "one short", "of one site its name goes without saying"


def test_filters_narrow_rows_and_columns_and_an_unknown_one_is_told(told) -> None:
    assert set(words(deeds.matrix(told.shop, told.manager, now=told.now, site="south"))) == {"Ben Cray"}
    assert set(words(deeds.matrix(told.shop, told.manager, now=told.now, role="apprentice"))) == {"Ann Bly"}
    one = deeds.matrix(told.shop, told.manager, now=told.now, skill="pairing", job="")
    assert [head.skill for head in one.skills] == ["pairing"]
    assert len(deeds.matrix(told.shop, told.manager, now=told.now, job="bond").skills) == 2
    for wrong in ({"skill": "knitting"}, {"job": "knitting"}):
        with pytest.raises(deeds.Unknown):
            deeds.matrix(told.shop, told.manager, now=told.now, **wrong)


def test_an_apprentice_sees_the_own_row_only_and_no_other_cell(told) -> None:
    assert set(words(deeds.matrix(told.shop, told.ann, now=told.now))) == {"Ann Bly"}
    assert deeds.cell(told.shop, told.ann, told.ann, "pairing", now=told.now).chain
    with pytest.raises(deeds.Forbidden):
        deeds.cell(told.shop, told.ann, told.ben, "ppe", now=told.now)
    for view in (deeds.cover, deeds.coming_lapses):
        with pytest.raises(deeds.Forbidden):
            view(told.shop, told.ann, now=told.now)


def test_as_of_a_day_two_ways(told) -> None:
    """A sheet seen on the 6th and entered on the 15th: on the 8th it was not yet known, and now it is."""
    late = SheetInput(
        told.ben,
        "pairing",
        "Alder",
        frozenset({1, 2}),
        {"a": "46.3", "b": "20.0", "step": "0.1"},
        "scale 2, 0.1 g",
        seen_on=dt.date(2026, 1, 6),
        late=True,
        photo=b"\x89PNG\r\n\x1a\n" + b"\0" * 40,
    )
    deeds.sign_sheet(told.shop, told.trainer, late, now=told.now)
    day = dt.date(2026, 1, 8)
    now = deeds.matrix(told.shop, told.manager, now=told.now, as_of=day)
    then = deeds.matrix(told.shop, told.manager, now=told.now, as_of=day, known="then")
    assert words(now)["Ben Cray"] == ["cleared", "learning"], "a sheet without a check"
    assert words(then)["Ben Cray"] == ["cleared", "not started"]
    assert words(now)["Ann Bly"][1] == "check passed", "her sheet was seen later"
    with pytest.raises(deeds.Refusal):
        deeds.matrix(told.shop, told.manager, now=told.now, as_of=dt.date(2026, 2, 1))


def test_a_cell_opens_to_the_chain_of_what_it_rests_on(told) -> None:
    view = deeds.cell(told.shop, told.manager, told.ann, "pairing", now=told.now)
    assert view.standing.word == "cleared" and view.standing.ends == dt.date(2027, 1, 5)
    kinds = {row.kind: row for row in view.chain}
    assert kinds["sheet"].counts and kinds["sheet"].by == "Tess Orr" and "founding" in kinds["sheet"].right
    assert kinds["result"].counts and all(row.seal for row in view.chain)
    assert view.rests_on_founding == ("Tess Orr: Papers seen.",)
    assert view.deeds == ("withdraw",), "the manager has no entitlement"
    assert deeds.cell(told.shop, told.trainer, told.ann, "pairing", now=told.now).deeds == ("sheet", "withdraw")


def test_cover_ahead_falls_with_the_lapse_and_with_who_is_away(told) -> None:
    def row(skill: str, site: str, **more: object) -> deeds.CoverRow:
        view = deeds.cover(told.shop, told.manager, now=told.now, weeks=52, **more)
        return next(each for each in view.rows if (each.skill, each.site) == (skill, site))

    north = row("ppe", "north")
    assert north.cleared == ("Ann Bly",) and north.wanted == 1 and not north.weeks[0].short
    assert north.short_from == dt.date(2027, 1, 6), "the day after the clearance of 5 January ends"
    assert [week.cleared for week in north.weeks][-2:] == [0, 0]
    away = row("ppe", "north", away=[told.ann])
    assert away.cleared == () and away.weeks[0].short
    single = deeds.cover(told.shop, told.manager, now=told.now).single
    assert {(one.site, one.skill) for one in single} == {("north", "ppe"), ("north", "pairing"), ("south", "ppe")}


def test_the_morning_question_wants_skills_endorsement_and_proofs(told) -> None:
    view = deeds.morning(told.shop, told.manager, "bond", now=told.now)
    assert not view.alone
    reasons = {one.name: one.because for one in view.neither}
    assert any("Fit test" in words for words in reasons["Ann Bly"])
    deeds.see_proof(told.shop, told.trainer, told.ann, "fit-test", None, now=told.now)
    view = deeds.morning(told.shop, told.manager, "bond", now=told.now)
    assert [one.name for one in view.alone] == ["Ann Bly"]
    other = deeds.morning(told.shop, told.manager, "bond", now=told.now, material="Birch")
    assert not other.alone, "signed off with 2:1 and not with 10:1"
    with pytest.raises(deeds.Unknown):
        deeds.morning(told.shop, told.manager, "knit", now=told.now)


def test_the_coming_lapses_are_the_first_days_without_cover(told) -> None:
    far = deeds.coming_lapses(told.shop, told.manager, now=told.now, days=400)
    anns = {(one.skill, one.day) for one in far if one.name == "Ann Bly"}
    assert anns == {("ppe", dt.date(2027, 1, 6)), ("pairing", dt.date(2027, 1, 6))}
    assert not deeds.coming_lapses(told.shop, told.manager, now=told.now, days=30)
