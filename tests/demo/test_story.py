"""The invented shop as it stands on its last day: somebody for every standing, and something to do for each role."""

import datetime as dt
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

import quizkit
from quizkit import demo
from quizkit import shop as deeds
from quizkit.authoring.content import compile_folder
from quizkit.exchange.certificate_file import certificate_file
from quizkit.exchange.checking import check
from quizkit.exchange.keys import public_of
from quizkit.pages import page
from quizkit.records import key_path, load_key, verify_file
from quizkit.shop import Shop

NOW = dt.datetime(2026, 11, 25, 16, 30, tzinfo=dt.UTC)


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("demo") / "shop.db"
    demo.make_file(made, quizkit.compile_content(demo.content_folder()), now=NOW)
    return made


@pytest.fixture
def shop(path: Path) -> Iterator[Shop]:
    with quizkit.open_shop(path) as opened:
        yield opened


def number(shop: Shop, name: str) -> int:
    return next(row.person for row in deeds.roster(shop) if row.name == name)


def manager(shop: Shop) -> int:
    return next(row.person for row in deeds.roster(shop) if row.role == "manager")


def test_the_file_stands_alone_and_its_seals_hold(path: Path) -> None:
    assert sorted(one.name for one in path.parent.iterdir()) == ["shop.db", "shop.key"]
    assert verify_file(path).sound


def test_a_manager_two_trainers_and_eight_at_the_bench_share_two_sites(shop: Shop) -> None:
    roles = [row.role for row in deeds.roster(shop)]
    assert [roles.count(role) for role in ("manager", "trainer")] == [1, 2]
    assert roles.count("technician") + roles.count("apprentice") == 8
    assert {row.site for row in deeds.roster(shop)} == {"north", "south"}


def test_every_standing_is_somebodys(shop: Shop) -> None:
    view = deeds.matrix(shop, manager(shop), now=NOW)
    words = {cell.word for row in view.rows for cell in row.cells}
    assert words == {"not started", "learning", "check passed", "cleared", "lapsing", "lapsed", "withdrawn"}


def test_an_apprentice_has_something_to_go_on_with(shop: Shop) -> None:
    press = deeds.today(shop, number(shop, "Sunniva Dale"), now=NOW).press
    assert press is not None and press.kind == "check" and press.form


def test_a_sheet_waits_for_a_trainer_who_may_sign_it(shop: Shop) -> None:
    view = deeds.waiting(shop, number(shop, "Tomas Brandt"), now=NOW)
    assert [(one.name, one.skill, one.entitled) for one in view.sheets] == [("Lena Fisk", "ratio-pairing", True)]
    assert [one.name for one in view.to_sign] == ["Marco Teel"]
    assert [one.name for one in view.talks] == ["Marco Teel"]


def test_somebody_holds_whole_certificates(shop: Shop) -> None:
    sets = deeds.certificate_state(shop, manager(shop), number(shop, "Ruth Adeyo"), now=NOW)
    assert {one.id: one.complete and bool(one.certificate) for one in sets} == {"bonding": True, "materials": True}


def test_it_can_be_made_on_a_sunday_before_dawn(tmp_path: Path) -> None:
    moment = dt.datetime(2026, 3, 1, 7, 5, tzinfo=dt.UTC)
    made = tmp_path / "shop.db"
    demo.make_file(made, quizkit.compile_content(demo.content_folder()), now=moment)
    with quizkit.open_shop(made) as shop:
        press = deeds.today(shop, number(shop, "Sunniva Dale"), now=moment).press
    assert press is not None and press.kind == "check"


def test_a_certificate_of_the_demo_is_checked_offline(path: Path) -> None:
    with quizkit.open_shop(path) as shop:
        made = [one.number for one in deeds.certificates(shop, manager(shop), now=NOW)]
        view = deeds.certificate(shop, manager(shop), made[0], now=NOW)
    key = load_key(key_path(path))
    told = check(certificate_file(view, key, now=NOW), public_of(key), now=NOW, holder="Ruth Adeyo")
    assert told.good and told.skills and told.title == view.title


def test_every_answer_of_the_demo_marks_the_same_again(shop: Shop) -> None:
    report = deeds.remark(shop, now=NOW)
    assert report.checked > 800 and report.differences == ()


def test_every_answer_of_the_demo_marks_the_same_after_all_questions_were_changed(path: Path, tmp_path: Path) -> None:
    """Other prices and densities on the shelf, and each answer ten times as large: the packs of their days decide."""
    content, copy = tmp_path / "content", tmp_path / "shop.db"
    shutil.copytree(demo.content_folder(), content)
    for made in (path, key_path(path)):
        shutil.copy(made, tmp_path / made.name)
    shelf = (content / "shelf.md").read_text(encoding="utf-8")
    (content / "shelf.md").write_text(shelf.replace("$46.00", "$47.50").replace("| 1.10 ", "| 1.15 "), encoding="utf-8")
    for lesson in content.glob("*/[0-9]*.md"):
        text = re.sub(
            r"^(Answer(?: \w+)?: `)([^`]+)(` in )", r"\1(\2) * 10\3", lesson.read_text(encoding="utf-8"), flags=re.M
        )
        lesson.write_text(re.sub(r"^(Plausible|Slip)\b.*\n", "", text, flags=re.M), encoding="utf-8")
    changed = compile_folder(content, hold_out=True).pack
    assert changed is not None
    with quizkit.open_shop(copy) as shop:
        before = deeds.remark(shop, now=NOW)
        deeds.publish(shop, changed, manager(shop), now=NOW)
        after = deeds.remark(shop, now=NOW)
    assert after.differences == () and after.checked == before.checked > 800


def test_half_a_year_of_tickets_and_one_month_in_which_readings_were_skipped(shop: Shop) -> None:
    months = deeds.saved_months(shop, manager(shop), site="north")
    shares = {one.month: one.gap_percent.value for one in months if one.gap_percent is not None}
    assert list(shares) == [f"2026-{month:02}" for month in range(10, 4, -1)]
    assert shares.pop("2026-08") > 0.15 and all(abs(share) < 0.08 for share in shares.values())
    assert 40 < shop.count("job") < 80


def test_no_lot_is_used_before_it_came_in(shop: Shop) -> None:
    came = {row["lot"]: row["seen_on"] for row in shop.rows("stock") if row["lot"]}
    days = {row["id"]: row["done_on"] for row in shop.rows("job")}
    used = [(row["lot_a"], days[row["job"]]) for row in shop.rows("job_use") if row["lot_a"].startswith("K-")]
    early = [(lot, day) for lot, day in used if lot in came and day < came[lot]]
    unknown = [day for lot, day in used if lot not in came]
    assert len(came) >= 6 and not early
    assert all(day < min(came.values()) for day in unknown), "only what stood there before the first delivery"


def test_a_ticket_of_the_demo_is_looked_back_on(shop: Shop) -> None:
    alone = deeds.lookback(shop, manager(shop), now=NOW, ticket="T-2050")
    assert alone.allowed[0].then.startswith("alone") and alone.hands[0].skills
    assert not deeds.lookback(shop, manager(shop), now=NOW, ticket="T-3007").allowed[0].then.startswith("alone")


def test_each_part_of_what_was_asked_is_told_with_its_question(shop: Shop) -> None:
    view = deeds.lookback(shop, manager(shop), now=NOW, ticket="T-2050")
    items = [one for skill in view.hands[0].skills for check in skill.checks for one in check.items]
    several = [one for one in items if len(one.parts) > 1]
    assert len(several) > 5 and all(part.ask for one in several for part in one.parts)
    html = page("paper_lookback.html", view=view, language="en", zone="America/Denver")
    assert "data-values" not in html and all(part.ask.split()[0] in html for one in several for part in one.parts)


def test_a_product_has_changed_and_nobody_has_said_yet_how_much(shop: Shop) -> None:
    (change,) = deeds.changes(shop, manager(shop), now=NOW)
    assert (change.material, change.kind, change.size) == ("Keel adhesive", "changed", "")
    assert [(one.title, one.before, one.after) for one in change.fields] == [("clamp time", "3 h", "4 h")]
    assert len(change.people) > 3 and deeds.unmarked(shop) == 1
