"""Who may sign, one list a person; and certificates, where one that was withdrawn runs to no day."""

from pathlib import Path
from typing import TYPE_CHECKING

from quizkit import shop as deeds

if TYPE_CHECKING:
    from conftest import Bench, Lived


def test_a_person_stands_once_with_all_their_skills_and_what_ended_comes_last(bench: "Bench") -> None:
    trainer, manager = bench.people.trainer, bench.people.manager
    with bench.shop() as shop:
        title = {one.scheme.skill: one.scheme.title for one in deeds.current_pack(shop).modules}
        for skill in ("ppe", "storage", "billing"):
            number = deeds.grant(shop, manager, trainer, skill, now=bench.now, basis="Papers seen.", founding=True)
        deeds.end_entitlement(shop, manager, number, "Moved on.", now=bench.now)
        name = next(one.name for one in deeds.people(shop) if one.person == trainer)
    page = bench.browser("manager").get("/entitlements").text
    held = page.split(f'aria-labelledby="of-{trainer}"')[1].split("</section>")[0]
    assert held.count(f">{name}</h2>") == 1 and f"<strong>{name}" not in page
    places = [held.index(f"<strong>{title[skill]}</strong>") for skill in ("storage", "ppe", "billing")]
    assert places == sorted(places) and held.count("/end") == 2, "newest first, what ended last and not to be ended"


def test_a_withdrawn_certificate_names_no_day_in_the_list(lived: "Lived", tmp_path: Path) -> None:
    bench, number = lived.bench(tmp_path), lived.rows["certificate"]
    browser = bench.browser("manager")
    line = f'href="/certificates/{number}"'
    with bench.shop() as shop:
        if deeds.certificate(shop, bench.people.manager, number, now=bench.now).state != "withdrawn":
            deeds.withdraw_certificate(shop, bench.people.manager, number, "Wrong name", now=bench.now)
    told = browser.get("/certificates").text.split(line)[1].split("</li>")[0]
    assert "withdrawn" in told and "soft" not in told
    assert "was withdrawn.</strong>" in browser.get(f"/certificates/{number}").text
