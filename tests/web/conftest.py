"""A shop of the real content with a few people, behind the real app; each test gets its own copy of the file."""

import datetime as dt
import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

import quizkit
from quizkit import shop as deeds
from quizkit.demo.answers import right
from quizkit.web import create_app
from tests.web.lived import LATER, PHRASE, PIN, SMALL, START, live

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="session", autouse=True)
def quick_hash() -> Iterator[None]:
    """The slow hash at its cheapest: what it is worth is shown by its own tests."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("quizkit.shop.secret.COST", 4)
        yield


@dataclass
class People:
    """The numbers of who works in the shop, by what they are."""

    manager: int
    trainer: int
    apprentice: int
    other: int
    technician: int


@dataclass
class Bench:
    """The app over a shop's file, its people, and a clock that goes on by hand."""

    path: Path
    people: People
    pack: quizkit.Pack
    now: dt.datetime = START
    app: Flask = field(init=False)

    def __post_init__(self) -> None:
        self.app = create_app(self.path, secret=b"a secret of the tests, 32 bytes.", now=lambda: self.now)

    def later(self, **stretch: float) -> None:
        """Let time pass."""
        self.now += dt.timedelta(**stretch)

    def browser(self, role: str = "") -> "Browser":
        """A browser; of somebody who is signed in, where a role is named."""
        opened = Browser(self.app.test_client())
        if role:
            number = getattr(self.people, role)
            secret = PHRASE if role in ("manager", "trainer") else PIN
            assert opened.post(f"/sign-in/{number}", secret=secret).status_code == 303
        return opened

    def shop(self) -> deeds.Shop:
        """The shop's file, open; close it."""
        return deeds.open_shop(self.path)

    def pass_check(self, person: int, skill: str) -> int:
        """Let somebody take a check and pass it; the number of its form."""
        with self.shop() as shop:
            form = deeds.start_check(shop, person, skill, now=self.now)
            for row in deeds.check_list(shop, person, form, now=self.now).rows:
                view = deeds.check_item(shop, person, form, row.item, now=self.now)
                deeds.answer_item(shop, person, form, row.item, right(self.pack, view.question), now=self.now)
            deeds.hand_in(shop, person, form, now=self.now)
        return form


class Browser:
    """A client that carries the token of its last page, as a person's browser does."""

    def __init__(self, client: FlaskClient) -> None:
        self.client = client
        self.page = ""
        self.get("/sign-in/1")

    def get(self, address: str, **more: object) -> TestResponse:
        return self._seen(self.client.get(address, **more))  # type: ignore[arg-type]

    def post(self, address: str, fields: dict[str, object] | None = None, /, **more: object) -> TestResponse:
        """Send a form; the token is taken from the page that was seen last."""
        return self._seen(self.client.post(address, data={"token": self.token(), **(fields or {}), **more}))

    def key(self) -> str:
        """The token of the session."""
        cookie = self.client.get_cookie("key")
        return cookie.value if cookie else ""

    def token(self) -> str:
        found = re.search(r'name="token" value="([0-9a-f]+)"', self.page)
        return found[1] if found else ""

    def _seen(self, answer: TestResponse) -> TestResponse:
        if answer.mimetype == "text/html" and 'name="token"' in answer.text:
            self.page = answer.text
        return answer


@pytest.fixture(scope="session")
def pack() -> quizkit.Pack:
    return quizkit.compile_content(CONTENT)


@pytest.fixture(scope="session")
def made(pack: quizkit.Pack, tmp_path_factory: pytest.TempPathFactory, quick_hash: None) -> tuple[Path, People]:
    """The shop's file as it stands before each test."""
    path = tmp_path_factory.mktemp("made") / "shop.db"
    with deeds.open_shop(path, create=True) as shop:
        deeds.publish(shop, pack, None, now=START)
        manager = deeds.add_person(
            shop, name="Mo Hale", role="manager", site="north", secret=PHRASE, by=None, now=START
        )
        numbers = [
            deeds.add_person(shop, name=name, role=role, site=site, secret=secret, by=manager, now=START)
            for name, role, site, secret in (
                ("Tess Orr", "trainer", "north", PHRASE),
                ("Ann Bly", "apprentice", "north", PIN),
                ("Zoe Ray", "apprentice", "south", PIN),
                ("Ben Cray", "technician", "south", PIN),
            )
        ]
    return path, People(manager, *numbers)


@pytest.fixture
def bench(made: tuple[Path, People], pack: quizkit.Pack, tmp_path: Path) -> Bench:
    path = tmp_path / "shop.db"
    for file in made[0].parent.iterdir():
        shutil.copy(file, tmp_path / file.name)
    return Bench(path, made[1], pack)


@dataclass
class Lived:
    """A small shop in which everything has happened once; the numbers of the rows by what they are."""

    path: Path
    pack: quizkit.Pack
    people: People
    forms: dict[str, int]
    rows: dict[str, int]

    def bench_now(self) -> dt.datetime:
        """The moment at which the shop stands."""
        return LATER

    def bench_shop(self) -> deeds.Shop:
        """The shop itself, to read in; close it."""
        return deeds.open_shop(self.path)

    def bench(self, folder: Path) -> Bench:
        """The app over a copy of this shop in a folder."""
        for file in self.path.parent.iterdir():
            shutil.copy(file, folder / file.name)
        return Bench(folder / "shop.db", self.people, self.pack, LATER)


@pytest.fixture(scope="session")
def lived(tmp_path_factory: pytest.TempPathFactory, quick_hash: None) -> Lived:
    """The shop of `tests/web/lived.py`, made once."""
    path = tmp_path_factory.mktemp("lived") / "shop.db"
    pack = quizkit.compile_content(SMALL)
    people, forms, rows = live(path, pack)
    return Lived(path, pack, People(**people), forms, rows)
