"""What is kept of a read is given again only while nobody has changed the file, whoever writes and however it ends."""

from dataclasses import replace
from pathlib import Path

import pytest

from quizkit import shop as deeds
from quizkit.pack.model import Pack
from quizkit.shop import Refusal, Unknown
from quizkit.shop.forms import drawn, form_of
from quizkit.shop.packs import current_hash
from quizkit.shop.people import here, person_view
from quizkit.shop.secret import kept
from tests.shop.conftest import PHRASE, PIN, START


def test_what_another_connection_writes_is_seen_at_once(floor) -> None:
    assert here(floor.shop, floor.ann).site == "north"
    before = current_hash(floor.shop)
    with deeds.open_shop(floor.path) as other:
        deeds.change_person(other, floor.ann, site="south", by=floor.manager, now=floor.later(minutes=1))
        other_pack = replace(floor.pack, scheme=replace(floor.pack.scheme, name="Another name"))
        deeds.publish(other, other_pack, floor.manager, now=floor.later(minutes=1))
    assert here(floor.shop, floor.ann).site == "south"
    assert current_hash(floor.shop) != before
    with deeds.open_shop(floor.path) as other:
        deeds.leave(other, floor.ann, by=floor.manager, now=floor.later(minutes=1))
    with pytest.raises(Refusal, match="left"):
        here(floor.shop, floor.ann)


def test_who_comes_in_is_read_anew_with_the_pack_in_force(floor) -> None:
    """Person and pack come along with the session, and are those of this moment, whoever wrote them."""
    token = deeds.sign_in(floor.shop, floor.ann, PIN, address="tablet", now=floor.now).token
    before = current_hash(floor.shop)
    with deeds.open_shop(floor.path) as other:
        deeds.change_person(other, floor.ann, site="south", role="technician", by=floor.manager, now=floor.now)
        other_pack = replace(floor.pack, scheme=replace(floor.pack.scheme, name="Another name"))
        deeds.publish(other, other_pack, floor.manager, now=floor.now)
    view = deeds.session(floor.shop, token, now=floor.now)
    assert view is not None and (view.person, view.site, view.role) == (floor.ann, "south", "technician")
    assert current_hash(floor.shop) != before
    assert person_view(floor.shop, floor.ann) == view
    with deeds.open_shop(floor.path) as other:
        assert (current_hash(other), person_view(other, floor.ann)) == (current_hash(floor.shop), view)
        deeds.leave(other, floor.ann, by=floor.manager, now=floor.now)
    assert deeds.session(floor.shop, token, now=floor.now) is None


def test_somebody_may_come_in_before_anything_is_published(tmp_path: Path) -> None:
    with deeds.open_shop(tmp_path / "new.db", create=True) as shop:
        with shop.deed(START):
            shop.records.put("person", name="Bo", role="manager", site="north", language="en", secret=kept(PHRASE))
        token = deeds.sign_in(shop, 1, PHRASE, address="tablet", now=START).token
        view = deeds.session(shop, token, now=START)
        assert view is not None and (view.name, view.site_title) == ("Bo", "north")
        with pytest.raises(Refusal, match="published"):
            current_hash(shop)


def test_what_was_read_in_a_deed_that_was_undone_is_forgotten(floor) -> None:
    """SQLite's count of changes does not go back with an undone deed; without another sign the read would stay."""
    before, name = current_hash(floor.shop), person_view(floor.shop, floor.ann).name
    other_pack = replace(floor.pack, scheme=replace(floor.pack.scheme, name="Another name"))
    with pytest.raises(ZeroDivisionError), floor.shop.deed(floor.later(minutes=1)):
        deeds.publish(floor.shop, other_pack, floor.manager, now=floor.now)
        deeds.rename_person(floor.shop, floor.ann, "Ann Other", by=floor.manager, now=floor.now)
        assert current_hash(floor.shop) != before
        assert person_view(floor.shop, floor.ann).name == "Ann Other"
        raise ZeroDivisionError
    assert current_hash(floor.shop) == before
    assert person_view(floor.shop, floor.ann).name == name


def test_the_questions_of_a_form_are_those_of_its_own_file(floor, tmp_path: Path, pack: Pack) -> None:
    """Another shop's form of the same number, drawn for somebody else, is not taken for this one's."""
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    with deeds.open_shop(tmp_path / "other.db", create=True) as other:
        deeds.publish(other, pack, None, now=floor.now)
        boss = deeds.add_person(
            other, name="Bo", role="manager", site="north", secret="nine grey anvils hum", by=None, now=floor.now
        )
        for name in ("Ada", "Bea", "Cid"):
            deeds.add_person(other, name=name, role="apprentice", site="north", secret="2795", by=boss, now=floor.now)
        theirs = deeds.start_check(other, 4, "ppe", now=floor.now)
        assert theirs == form
        assert form_of(floor.shop, form) == floor.shop.get("form", form)
        assert form_of(other, theirs) == other.get("form", theirs) != form_of(floor.shop, form)
        mine = drawn(floor.shop, form_of(floor.shop, form))
        their_own = drawn(other, form_of(other, theirs))
        stored = {row["item"]: row for row in other.rows("form_item", form=theirs)}
    assert their_own == stored
    assert mine == {row["item"]: row for row in floor.shop.rows("form_item", form=form)}
    assert mine != their_own


def test_who_helped_with_a_check_is_not_kept_past_the_erasure(floor) -> None:
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now, help="read aloud", helper="Cousin Flo")
    assert [form_of(floor.shop, form)["helper"] for _read in range(2)] == ["Cousin Flo"] * 2
    with deeds.open_shop(floor.path) as other:
        deeds.leave(other, floor.ann, by=floor.manager, now=floor.later(minutes=1))
    assert form_of(floor.shop, form)["helper"] == "(erased)"


@pytest.mark.parametrize("number", [0, -1, 1, 1 << 62, 1 << 63, -(1 << 63), 10**30])
def test_a_number_that_is_no_form_is_unknown(floor, number: int) -> None:
    with pytest.raises(Unknown, match="no such record"):
        form_of(floor.shop, number)
