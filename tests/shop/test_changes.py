"""A product that changed: what changed, who used it, and what a large change asks of them until they have shown it."""

import datetime as dt
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.formula import Row
from quizkit.pack.model import Pack

if TYPE_CHECKING:
    from conftest import Floor

BY = dt.date(2026, 3, 1)


def _shelf(pack: Pack, *, gone: str = "", **prices: int) -> Pack:
    """The same pack with other prices, and a material gone."""
    rows = tuple(_priced(row, prices) for row in pack.shelf.rows if row.name != gone)
    return replace(pack, shelf=replace(pack.shelf, rows=rows))


def _priced(row: Row, prices: dict[str, int]) -> Row:
    if row.name not in prices:
        return row
    fields = tuple((name, Fraction(prices[row.name]) if name == "price" else value) for name, value in row.fields)
    return replace(row, fields=fields)


def _changed(floor: "Floor", **prices: int) -> deeds.ChangeView:
    """Publish a shelf with other prices; the latest change."""
    deeds.publish(floor.shop, _shelf(floor.pack, **prices), floor.manager, now=floor.later(days=1))
    return deeds.changes(floor.shop, floor.trainer, now=floor.now)[0]


def _mark(floor: "Floor", change: deeds.ChangeView, size: str, until: dt.date | None = None) -> None:
    deeds.mark_change(floor.shop, floor.trainer, change.number, size, now=floor.later(minutes=1), until=until)


def _lines(floor: "Floor", person: int) -> str:
    return " ".join(line.text for line in deeds.today(floor.shop, person, now=floor.now).lines)


def _again(floor: "Floor") -> str:
    return deeds.cell(floor.shop, floor.trainer, floor.ann, "pairing", now=floor.now).again


def test_the_first_shelf_is_no_change(floor: "Floor") -> None:
    assert deeds.changes(floor.shop, floor.trainer, now=floor.now) == () and deeds.unmarked(floor.shop) == 0


def test_a_change_tells_its_fields_and_who_was_signed_off_with_it(floor: "Floor") -> None:
    floor.clear(floor.ann)
    change = _changed(floor, Alder=52)
    assert (change.material, change.kind, change.size) == ("Alder", "changed", "")
    assert [(one.title, one.before, one.after) for one in change.fields] == [("price", "$46.00", "$52.00")]
    assert [(one.name, one.skill) for one in change.people] == [("Ann Bly", "pairing")]
    assert deeds.unmarked(floor.shop) == 1


def test_a_small_change_asks_nobody(floor: "Floor") -> None:
    floor.clear(floor.ann)
    _mark(floor, _changed(floor, Alder=52), "small")
    assert "has changed" not in _lines(floor, floor.ann) and deeds.unmarked(floor.shop) == 0


def test_a_large_change_asks_for_a_short_check_and_a_new_sheet_until_both_are_done(floor: "Floor") -> None:
    floor.clear(floor.ann)
    _mark(floor, _changed(floor, Alder=52), "large", BY)
    assert "Alder has changed" in _lines(floor, floor.ann) and "has changed" not in _lines(floor, floor.ben)
    waits = deeds.waiting(floor.shop, floor.trainer, now=floor.now).sheets
    assert [(one.person, one.skill, one.until) for one in waits] == [(floor.ann, "pairing", BY)]
    assert waits[0].why == "Alder has changed: short check and sheet by 1 Mar 2026" == _again(floor)

    form = floor.pass_check(floor.ann, "pairing")
    assert floor.shop.get("form", form)["kind"] == "difference" and floor.word(floor.ann) == "cleared"
    (asked,) = deeds.changes(floor.shop, floor.trainer, now=floor.now)[0].people
    assert (asked.checked, asked.shown) == (True, False)
    assert "Alder has changed" in _lines(floor, floor.ann)
    assert _again(floor) == "Alder has changed: sheet by 1 Mar 2026"

    deeds.sign_sheet(floor.shop, floor.trainer, floor.filled(floor.ann), now=floor.later(minutes=5))
    (asked,) = deeds.changes(floor.shop, floor.trainer, now=floor.now)[0].people
    assert (asked.checked, asked.shown, asked.overdue) == (True, True, False)
    assert "has changed" not in _lines(floor, floor.ann)
    assert deeds.waiting(floor.shop, floor.trainer, now=floor.now).sheets == () and _again(floor) == ""


def test_a_large_change_moves_no_date_and_says_when_it_is_overdue(floor: "Floor") -> None:
    floor.clear(floor.ann)
    before = floor.standing(floor.ann)
    _mark(floor, _changed(floor, Alder=52), "large", BY)
    floor.now = dt.datetime(2026, 3, 2, 18, 0, tzinfo=dt.UTC)
    assert floor.standing(floor.ann) == before
    (asked,) = deeds.changes(floor.shop, floor.trainer, now=floor.now)[0].people
    assert asked.overdue


def test_who_took_the_material_up_after_the_change_is_not_asked(floor: "Floor") -> None:
    change = _changed(floor, Alder=52)
    floor.later(minutes=5)
    floor.clear(floor.ann)
    _mark(floor, change, "large", BY)
    assert "has changed" not in _lines(floor, floor.ann)


def test_a_sheet_of_the_same_day_but_before_the_change_is_one_with_the_old_product(floor: "Floor") -> None:
    floor.clear(floor.ann)
    deeds.publish(floor.shop, _shelf(floor.pack, Alder=52), floor.manager, now=floor.later(minutes=5))
    (change,) = deeds.changes(floor.shop, floor.trainer, now=floor.now)
    assert [one.name for one in change.people] == ["Ann Bly"]
    _mark(floor, change, "large", BY)
    assert "Alder has changed" in _lines(floor, floor.ann)


def test_a_paper_sheet_entered_late_shows_nothing_of_the_new_product(floor: "Floor") -> None:
    floor.clear(floor.ann)
    old_day = floor.now.date()
    _mark(floor, _changed(floor, Alder=52), "large", BY)
    floor.pass_check(floor.ann, "pairing")
    late = floor.filled(floor.ann, seen_on=old_day, late=True, photo=b"\xff\xd8\xff paper")
    deeds.sign_sheet(floor.shop, floor.trainer, late, now=floor.later(minutes=5))
    assert "Alder has changed" in _lines(floor, floor.ann)


def test_the_latest_mark_counts(floor: "Floor") -> None:
    floor.clear(floor.ann)
    change = _changed(floor, Alder=52)
    _mark(floor, change, "large", BY)
    _mark(floor, change, "small")
    assert "has changed" not in _lines(floor, floor.ann)
    (told,) = deeds.changes(floor.shop, floor.trainer, now=floor.now)
    assert (told.size, told.people) == ("small", ())


def test_a_new_and_a_gone_material_are_told_and_cannot_be_large(floor: "Floor") -> None:
    deeds.publish(floor.shop, _shelf(floor.pack, gone="Birch"), floor.manager, now=floor.later(days=1))
    deeds.publish(floor.shop, floor.pack, floor.manager, now=floor.later(days=1))
    told = deeds.changes(floor.shop, floor.trainer, now=floor.now)
    assert [(one.material, one.kind) for one in told] == [("Birch", "new"), ("Birch", "gone")]
    for change in told:
        with pytest.raises(deeds.Refusal):
            _mark(floor, change, "large", BY)
        _mark(floor, change, "small")
    assert deeds.unmarked(floor.shop) == 0


def test_a_large_change_needs_its_day_and_only_trainers_mark(floor: "Floor") -> None:
    change = _changed(floor, Alder=52)
    for until in (None, floor.now.date() - dt.timedelta(days=2)):
        with pytest.raises(deeds.Refusal):
            _mark(floor, change, "large", until)
    _mark(floor, change, "large", dt.date(2026, 1, 6))
    _mark(floor, change, "small")
    for size, number in (("huge", change.number), ("small", 10**9)):
        with pytest.raises(deeds.Unknown):
            deeds.mark_change(floor.shop, floor.trainer, number, size, now=floor.now, until=BY)
    with pytest.raises(deeds.Forbidden):
        deeds.mark_change(floor.shop, floor.ann, change.number, "small", now=floor.now)
    with pytest.raises(deeds.Forbidden):
        deeds.changes(floor.shop, floor.ann, now=floor.now)
    assert floor.shop.count("product_mark") == 2
