"""Files to take away, and a list of people that comes in whole or not at all."""

import csv
import io
import json
import re
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING

from openpyxl import load_workbook

from quizkit import shop as deeds
from quizkit.exchange.checking import check
from quizkit.exchange.keys import public_of

if TYPE_CHECKING:
    from conftest import Bench, Lived


def test_every_file_stands_on_one_page(bench: "Bench") -> None:
    browser = bench.browser("manager")
    page = browser.get("/files").text
    for address in re.findall(r'class="press quiet" href="(/[^"]+)"', page):
        status = browser.get(address).status_code
        assert status == 200 or (address, status) == ("/lapses.ics", 409), address
    assert "/everything.zip" not in bench.browser("trainer").get("/files").text


def test_the_matrix_is_narrowed_down_in_its_file_as_on_its_page(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    assert 'href="/matrix.csv?site=north"' in browser.get("/matrix/?site=north").text
    made = browser.get("/matrix.csv?site=north")
    assert made.headers["Content-Disposition"] == 'attachment; filename="matrix-2026-11-02.csv"'
    rows = list(csv.reader(io.StringIO(made.data.decode("utf-8-sig"), newline="")))
    assert {row[0] for row in rows[1:]} == {"Ann Bly", "Mo Hale", "Tess Orr"}
    sheet = load_workbook(io.BytesIO(browser.get("/matrix.xlsx?site=north").data)).active
    assert sheet is not None and sheet.max_row == 4
    assert "Ann Bly" in browser.get("/matrix.txt?site=north").text
    assert browser.get("/matrix.odt").status_code == 404
    assert browser.get("/matrix.csv?skill=parking").status_code == 404


def test_cover_is_given_for_the_site_and_the_people_away(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    made = browser.get(f"/cover.csv?site=south&away={bench.people.technician}")
    rows = list(csv.reader(io.StringIO(made.data.decode("utf-8-sig"), newline="")))
    assert {row[0] for row in rows[1:]} == {"South bay"} and len(rows[0]) == 6 + 26
    assert browser.get("/cover.xlsx").data.startswith(b"PK") and browser.get("/cover.odt").status_code == 404


def test_lapses_come_as_a_calendar_or_are_said_not_to_be(bench: "Bench", lived: "Lived", tmp_path: Path) -> None:
    nothing = bench.browser("trainer").get("/lapses.ics")
    assert nothing.status_code == 409 and "Nothing lapses" in nothing.text
    (tmp_path / "lived").mkdir()
    made = lived.bench(tmp_path / "lived").browser("trainer").get("/lapses.ics")
    assert (made.status_code, made.mimetype) == (200, "text/calendar")
    assert b"DTSTART;VALUE=DATE:20271103" in made.data


def test_a_certificate_comes_as_a_file_that_its_key_proves(lived: "Lived", tmp_path: Path) -> None:
    bench = lived.bench(tmp_path)
    number, withdrawal = lived.rows["certificate"], lived.rows["withdrawal"]
    browser = bench.browser("apprentice")
    assert browser.get(f"/certificates/{number}/file").status_code == 409, "a skill was withdrawn"
    with bench.shop() as shop:
        deeds.end_withdrawal(shop, bench.people.manager, withdrawal, "Seen again.", now=bench.now, restores=True)
    page = browser.get(f"/certificates/{number}").text
    assert f'href="/certificates/{number}/file"' in page
    assert "public key" in page and "quizkit certificate key" not in page, "that is done at the machine"
    told = bench.browser("manager").get(f"/certificates/{number}").text
    assert "<code>quizkit certificate key --shop shop.db</code>" in told
    made = browser.get(f"/certificates/{number}/file")
    assert made.status_code == 200 and made.headers["Content-Disposition"].endswith(f'"certificate-{number}.json"')
    with bench.shop() as shop:
        public = public_of(deeds.signing_key(shop))
        holder = deeds.certificate(shop, bench.people.manager, number, now=bench.now).holder
    assert check(made.data, public, now=bench.now, holder=holder).good
    changed = json.dumps(json.loads(made.data) | {"validUntil": "2999-01-01T00:00:00Z"}).encode()
    assert check(changed, public, now=bench.now).state == "changed"
    assert bench.browser("other").get(f"/certificates/{number}/file").status_code == 403


def test_everything_comes_in_one_zip(bench: "Bench") -> None:
    made = bench.browser("manager").get("/everything.zip")
    with zipfile.ZipFile(io.BytesIO(made.data)) as zipped:
        assert {"people.csv", "answer.csv", "sheet.csv"} <= set(zipped.namelist())
        assert "Ann Bly" in zipped.read("people.csv").decode("utf-8-sig")


def _sent(bench: "Bench", text: str) -> tuple[int, str]:
    browser = bench.browser("manager")
    assert 'href="/people/import"' in browser.get("/people").text
    browser.get("/people/import")
    answer = browser.post("/people/import", {"list": (io.BytesIO(text.encode()), "people.csv")})
    return answer.status_code, answer.text


def test_a_list_of_people_comes_in_with_what_they_sign_in_with(bench: "Bench") -> None:
    status, page = _sent(bench, "name,role,site,secret\nUma Lee,apprentice,north,\nVic Orr,technician,south,8520\n")
    assert status == 200 and "2 people were added" in page and "8520" in page
    pin = re.search(r'Uma Lee</th><td class="num">(\d+)</td><td class="num">(\d+)</td>', page)
    assert pin is not None
    with bench.shop() as shop:
        deeds.sign_in(shop, int(pin[1]), pin[2], address="bench", now=bench.now)


def test_a_list_with_a_wrong_line_adds_nobody_and_names_the_line(bench: "Bench") -> None:
    for text, words in (
        ("name,role,site\nUma Lee,apprentice,north\nAnn Bly,apprentice,north\n", "Line 3"),
        ("name,role,site\nUma Lee,pilot,north\n", "Line 2"),
        ("name,role\nUma Lee,apprentice\n", "site"),
        ("", "no file was chosen"),
        ("\x00\x01\x02", "written down"),
    ):
        status, page = _sent(bench, text)
        assert status == 409 and words.lower() in page.lower(), text
        with bench.shop() as shop:
            assert all(one.name != "Uma Lee" for one in deeds.people(shop))


def test_a_list_without_a_file_is_told(bench: "Bench") -> None:
    browser = bench.browser("manager")
    browser.get("/people/import")
    assert browser.post("/people/import").status_code == 409
