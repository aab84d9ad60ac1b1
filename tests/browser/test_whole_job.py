"""The whole job in a real browser, from nothing but what `quizkit demo` prints.

An apprentice learns and passes a check, a trainer signs, the manager sees it and prints a certificate.
"""

import csv
import datetime as dt
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from quizkit import shop as deeds
from quizkit.demo.answers import right, wrong
from quizkit.shop import QuestionView

CLI = [sys.executable, "-c", "from quizkit.cli import main; main()"]
TABLET = {"width": 820, "height": 1180}
APPRENTICE, TRAINER, MANAGER = "Lena Fisk", "Tomas Brandt", "Ines Varga"


@dataclass(frozen=True)
class Demo:
    """The running demo: where it is, its file, and the sign-ins as printed."""

    address: str
    path: Path
    secrets: dict[str, str]

    def number(self, name: str) -> int:
        with deeds.open_shop(self.path) as shop:
            return deeds.roster(shop, name)[0].person

    def in_check(self, person: int) -> tuple[int, int, QuestionView]:
        """The open form of a person, the item that comes next and its question."""
        with deeds.open_shop(self.path) as shop:
            form = next(item.open_form for item in deeds.shelf(shop, person, now=_now()) if item.open_form)
            item = deeds.next_item(shop, person, form, now=_now())
            return form, item, deeds.check_item(shop, person, form, item, now=_now()).question

    def answers(self, question: QuestionView, wrongly: bool = False) -> dict[str, str]:
        with deeds.open_shop(self.path) as shop:
            return (wrong if wrongly else right)(deeds.current_pack(shop), question)


def _now() -> dt.datetime:
    return dt.datetime.now(dt.UTC)


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[Demo]:
    command = [*CLI, "demo", "--into", str(tmp_path), "--port", "0", "--no-open"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:
        assert process.stdout is not None
        said = ""
        for line in process.stdout:
            said += line
            if "http://" in line:
                break
        try:
            secrets = dict(re.findall(r"^  (\S+ \S+) .*(?:PIN|passphrase): (.+)$", said, re.M))
            yield Demo(said.split()[-1], tmp_path / "shop.db", secrets)
        finally:
            process.send_signal(signal.SIGINT)
            process.communicate(timeout=60)


@pytest.fixture
def page(browser: Browser, demo: Demo) -> Iterator[Page]:
    seat = browser.new_context(viewport=TABLET, base_url=demo.address)
    seat.set_default_timeout(15_000)
    yield seat.new_page()
    seat.close()


def sign_in(page: Page, demo: Demo, name: str) -> None:
    page.goto("/")
    page.get_by_label("Find your name").fill(name.split()[0].lower())
    page.get_by_role("button", name="Find").click()
    page.get_by_role("link", name=re.compile(f"That is me ?: {name}")).click()
    page.get_by_label(re.compile("PIN|passphrase")).fill(demo.secrets[name])
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("heading", name=re.compile("^Today,"))).to_be_visible()


def sign_out(page: Page) -> None:
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("heading", name="Who are you?")).to_be_visible()


def fill(page: Page, question: QuestionView, typed: dict[str, str]) -> None:
    """Put an answer into the boxes of a question as a person does."""
    for part in question.parts:
        name, text = f"part.{part.name}", typed[part.name]
        if part.kind == "number":
            page.locator(f'input[name="{name}"]').fill(text)
        elif part.kind == "choice":
            for number in text.split(", "):
                page.locator(f'input[name="{name}"][value="{number}"]').check()
        elif part.kind == "order":
            for place, number in enumerate(text.split(), 1):
                page.locator(f'select[name="{name}.{number}"]').select_option(str(place))
        else:
            for number, letter in re.findall(r"(\d+)([a-z])", text):
                page.locator(f'select[name="{name}.{number}"]').select_option(letter)


def test_lessons_a_check_a_sheet_the_matrix_and_a_certificate(page: Page, demo: Demo) -> None:
    learn(page, demo)
    take_the_check(page, demo)
    sign_the_sheet(page, demo)
    see_who_may(page, demo)
    print_the_certificate(page, demo)


def learn(page: Page, demo: Demo) -> None:
    """Today's ticket, what waits and why, a lesson, and a question in it with new numbers each time."""
    page.goto("/")
    page.get_by_role("link", name=re.compile(f"That is me ?: {APPRENTICE}")).click()
    page.get_by_label(re.compile("Your PIN")).fill("0000")
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("alert")).to_be_visible()
    sign_in(page, demo, APPRENTICE)

    page.get_by_role("link", name=re.compile("^Balancing")).click()
    expect(page.get_by_text("Ratio pairing comes first")).to_be_visible()
    page.goto("/")
    page.get_by_role("link", name=re.compile("^Bead and volume")).click()
    page.locator("#page").get_by_role("link").nth(0).click()
    expect(page.locator("article.ticket h1")).to_be_visible()

    numeric = page.locator(".lesson-question", has_not=page.locator("ol.options")).first
    numeric.get_by_role("button", name="Answer it").click()
    page.get_by_label("Your answer").first.fill("1 banana")
    page.get_by_role("button", name="Answer", exact=True).click()
    expect(page.get_by_text("Not read yet")).to_be_visible()
    assert page.get_by_label("Your answer").first.input_value() == "1 banana"
    for box in page.get_by_label("Your answer").all():
        box.fill("987654")
    page.get_by_role("button", name="Answer", exact=True).click()
    expect(page.get_by_role("heading", name="How it is worked")).to_be_visible()
    expect(page.get_by_text("Right is:").first).to_be_visible()
    before = page.locator(".ask .words").inner_text()
    page.get_by_role("button", name="This one with new numbers").click()
    expect(page.get_by_role("button", name="Answer", exact=True)).to_be_visible()
    assert page.locator(".ask .words").inner_text().split("\n")[0] != before.split("\n")[0]


def take_the_check(page: Page, demo: Demo) -> None:
    """Leave halfway, come back to the same question, hand in with one wrong; nothing is told before."""
    lena = demo.number(APPRENTICE)
    page.goto("/module/bead-volume")
    page.get_by_role("button", name="Start the check").click()
    expect(page.get_by_role("button", name="Write it down")).to_be_visible()
    page.get_by_role("button", name="Write it down").click()
    form, item, _question = demo.in_check(lena)
    assert item == 1, "an empty answer is no answer"
    left = 0
    slipped = False
    while True:
        page.goto(f"/check/form/{form}")
        if page.url.endswith("/list"):
            break
        form, item, question = demo.in_check(lena)
        assert page.url.endswith(f"/check/form/{form}/{item}")
        if item == 4 and not left:
            left = item
            sign_out(page)
            sign_in(page, demo, APPRENTICE)
            page.get_by_role("link", name=re.compile("Go on")).first.click()
            expect(page).to_have_url(re.compile(f"/check/form/{form}/4$"))
        wrongly = not slipped and not question.critical and question.parts[0].kind == "number"
        slipped = slipped or wrongly
        fill(page, question, demo.answers(question, wrongly))
        page.get_by_role("button", name="Write it down").click()
        page.wait_for_url(lambda url, was=item: not url.endswith(f"/{was}"))
        assert page.locator(".verdict, .working").count() == 0
    assert left and slipped
    page.get_by_role("button", name="Hand it in").click()
    expect(page.get_by_role("heading", name=re.compile("Bead and volume: passed"))).to_be_visible()
    expect(page.get_by_role("heading", name="By topic")).to_be_visible()
    expect(page.locator(".working")).to_have_count(1)
    marks = page.get_by_text(re.compile(r"^\d+ of \d+ marks$")).inner_text()
    page.goto(f"/check/form/{form}/list")
    if page.get_by_role("button", name="Hand it in").count():
        page.get_by_role("button", name="Hand it in").click()
    page.goto(f"/check/form/{form}/result")
    assert page.get_by_text(re.compile(r"^\d+ of \d+ marks$")).inner_text() == marks
    sign_out(page)


def sign_the_sheet(page: Page, demo: Demo) -> None:
    """Two weighed shots are judged as typed; the sheet is signed; another one is refused with a note."""
    sign_in(page, demo, TRAINER)
    page.get_by_role("link", name="Sheets").click()
    page.get_by_role("link", name=re.compile(f"Open the sheet ?: {APPRENTICE}, Ratio pairing")).click()
    page.get_by_role("radio", name=re.compile("Keel adhesive")).check()
    for step in page.locator('input[name="seen"]').all():
        step.check()
    page.locator('input[name="measure.shot_a"]').fill("30")
    page.locator('input[name="measure.shot_b"]').fill("20")
    page.locator('input[name="measure.scale_step"]').fill("0.1")
    page.get_by_label("With which instrument").fill("scale 2, 0.1 g")
    page.get_by_role("button", name="Work out what was measured").click()
    expect(page.locator("#judged .verdict.wrong")).to_have_count(1)
    page.locator('input[name="measure.shot_a"]').fill(demo_shot(demo))
    page.get_by_role("button", name="Work out what was measured").click()
    expect(page.locator("#judged .verdict.right")).to_have_count(2)
    page.get_by_role("button", name="Sign it").click()
    expect(page.get_by_role("heading", name="Ratio pairing, signed off")).to_be_visible()
    expect(page.locator("dt:text-is('Signed by') + dd")).to_contain_text(TRAINER)

    page.get_by_role("link", name="To the sheets").click()
    page.get_by_role("link", name=re.compile(f"Open the sheet ?: {APPRENTICE}, Bead and volume")).click()
    page.get_by_role("radio", name=re.compile("Keel adhesive")).check()
    page.get_by_text("It was not done right").click()
    page.get_by_label("What was not right").fill("The bead was laid dry on one side. Practice the fillet again.")
    page.get_by_role("button", name="Refuse the sign-off").click()
    expect(page.get_by_role("heading", name="Bead and volume, sign-off refused")).to_be_visible()

    page.goto(f"/sheets/{demo.number(TRAINER)}/ppe")
    expect(page.get_by_text("You may not sign this one.")).to_be_visible()
    expect(page.get_by_role("button", name="Sign it")).to_have_count(0)
    sign_out(page)


def demo_shot(demo: Demo) -> str:
    """Side A of a pair of shots with 20 g of side B, of the adhesive as the shelf has it."""
    from quizkit.demo.measured import measured

    with deeds.open_shop(demo.path) as shop:
        row = next(row for row in deeds.current_pack(shop).shelf.rows if row.name == "Keel adhesive")
    return measured("ratio-pairing", row)["shot_a"]


def see_who_may(page: Page, demo: Demo) -> None:
    """The matrix and its cell down to the sheet, cover, the morning question, and the same as CSV."""
    sign_in(page, demo, MANAGER)
    page.goto(f"/sheets/{demo.number(APPRENTICE)}/ratio-pairing")
    expect(page.get_by_text("You may not sign this one.")).to_be_visible()
    page.get_by_role("link", name="Matrix", exact=True).click()
    row = page.locator(".matrix tr", has_text=APPRENTICE)
    heads = page.locator(".matrix thead th").all_inner_texts()
    cell = row.locator("td").nth(heads.index("Ratio pairing") - 1)
    expect(cell).to_contain_text("cleared")
    shown = [" ".join(text.split()) for text in row.locator("td").all_inner_texts()]
    cell.get_by_role("link").click()
    expect(page.get_by_text("What is on record")).to_be_visible()
    expect(page.get_by_text(f"by {TRAINER}").first).to_be_visible()
    page.get_by_role("link", name="The sheet").first.click()
    expect(page.get_by_role("heading", name="Ratio pairing, signed off")).to_be_visible()

    page.get_by_role("link", name="Cover", exact=True).click()
    expect(page.get_by_text(re.compile(r"\d+ cleared, 2 wanted")).first).to_be_visible()
    page.get_by_role("link", name="Jobs today").click()
    page.get_by_label("Kind of job").select_option(label="Bond a quarter panel")
    page.get_by_role("button", name=re.compile("Who|Show")).first.click()
    alone = page.locator("#page ul.lines").first
    expect(alone).to_contain_text("Ruth Adeyo")
    expect(alone).not_to_contain_text(APPRENTICE)

    done = subprocess.run(
        [*CLI, "matrix", "--shop", str(demo.path), "--format", "csv"], capture_output=True, text=True, check=True
    )
    listed = next(line for line in csv.DictReader(done.stdout.splitlines()) if APPRENTICE in line.values())
    assert len(shown) == len(heads) - 1 == 7
    for head, text in zip(heads[1:], shown, strict=True):
        assert listed[head].split()[0] == text.split()[0].lower()


def print_the_certificate(page: Page, demo: Demo) -> None:
    """The certificate of who holds its skills, on one printed page."""
    page.get_by_role("link", name="Office").click()
    page.locator("#page").get_by_role("link", name=re.compile("Certificates")).click()
    page.get_by_role("link", name=re.compile("Ruth Adeyo ?, Two-part bonding")).click()
    expect(page.get_by_role("heading", name="Two-part bonding")).to_be_visible()
    expect(page.get_by_text("Issued by")).to_be_visible()
    page.emulate_media(media="print")
    expect(page.get_by_role("navigation")).to_have_count(0)
    expect(page.get_by_text("Two-part bonding").first).to_be_visible()
    assert page.pdf(format="A4").count(b"/Type /Page\n") == 1
