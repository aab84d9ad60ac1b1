"""`quizkit sheet`: who waits, what a sheet asks for, and signing, refusing and observing with nothing half written."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.testing import Result

import quizkit
from quizkit import shop as deeds

CONTENT = Path(__file__).parents[1] / "shop/content"
PHRASE = "nine grey anvils hum"
FILLED = (
    "--material", "Alder", "--seen", "1,2", "--measure", "a=46.3", "--measure", "b=20.0", "--measure", "step=0.1",
    "--instrument", "scale 2, 0.1 g",
)  # fmt: skip


@dataclass
class Bench:
    """A shop where Tess (entitled) and Vic (not) are trainers, and Ann and Ben are to be seen."""

    run: Callable[..., Result]
    path: Path

    def sheet(self, *words: object, typed: str = "") -> Result:
        return self.run("sheet", *words, "--shop", self.path, typed=typed)

    def outcomes(self) -> list[str]:
        with quizkit.open_shop(self.path) as shop:
            return [row["outcome"] for row in shop.rows("sheet")]

    def signatures(self) -> int:
        with quizkit.open_shop(self.path) as shop:
            return len(shop.rows("signature"))


@pytest.fixture
def bench(run: Callable[..., Result], tmp_path: Path) -> Bench:
    path, now = tmp_path / "shop.db", dt.datetime.now(dt.UTC)
    with deeds.open_shop(path, create=True) as shop:
        deeds.publish(shop, quizkit.compile_content(CONTENT), None, now=now)
        boss = deeds.add_person(shop, name="Mo", role="manager", site="north", secret=PHRASE, by=None, now=now)
        for name, role, secret in (
            ("Tess", "trainer", PHRASE),
            ("Vic", "trainer", PHRASE),
            ("Ann", "apprentice", "2795"),
            ("Ben", "apprentice", "2795"),
        ):
            deeds.add_person(shop, name=name, role=role, site="north", secret=secret, by=boss, now=now)
        deeds.grant(shop, boss, 2, "pairing", now=now, basis="Papers seen.", founding=True)
    return Bench(run, path)


def test_a_blank_sheet_tells_what_to_type(bench: Bench) -> None:
    told = bench.sheet("blank", "Ann", "pairing", "--by", "Tess").output
    assert "Both sides level." in told and "must be seen" in told
    assert "--measure step=…" in told and "Materials: Alder, Birch" in told
    assert "Not yours to sign" not in told
    assert "Not yours to sign" in bench.sheet("blank", "Ann", "pairing", "--by", "Vic").output


def test_a_sheet_is_signed_with_the_passphrase_and_not_without(bench: Bench) -> None:
    wrong = bench.sheet("sign", "Ann", "pairing", *FILLED, "--by", "Tess", "--secret", "not the passphrase")
    assert wrong.exit_code == 1 and bench.outcomes() == []
    done = bench.sheet("sign", "Ann", "pairing", *FILLED, "--by", "Tess", typed=f"{PHRASE}\n")
    assert done.exit_code == 0 and "Signed: sheet" in done.output and PHRASE not in done.output
    assert bench.outcomes() == ["signed"]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("--seen", "1"), "step 2 must be seen and was not"),
        (("--measure", "a=40"), "it should be between -5 % and 5 %"),
        (("--seen", "1;2"), "write the numbers like 1,2,3"),
        (("--measure", "a"), "write it like shot_a=46.3"),
        (("--measure", "weight=3"), "the sheet has: a, b, step"),
        (("--material", "Oak"), "no material is picked"),
        (("--by", "Vic"), "You may not sign this sheet"),
        (("--by", "Nobody"), "Nobody"),
    ],
)
def test_what_is_lacking_or_mistyped_is_told_and_nothing_is_written(
    bench: Bench, change: tuple[str, str], said: str
) -> None:
    done = bench.sheet("sign", "Ann", "pairing", *FILLED, "--by", "Tess", *change, "--secret", PHRASE)
    assert done.exit_code == 1 and said in done.output, done.output
    assert bench.outcomes() == []


def test_a_refusal_is_kept_with_its_reason(bench: Bench) -> None:
    words = ("--reason", "Ports were not wiped.", "--material", "Alder", "--by", "Tess")
    assert bench.sheet("refuse", "Ann", "pairing", *words).exit_code == 0
    assert bench.outcomes() == ["refused"]


def test_observed_sheets_wait_and_one_passphrase_signs_them_all_or_none(bench: Bench) -> None:
    for name in ("Ann", "Ben"):
        done = bench.sheet("observe", name, "pairing", *FILLED, "--by", "Tess")
        assert done.exit_code == 0, done.output
    listed = bench.sheet("waiting", "--by", "Tess").output
    assert listed.count("to be signed") == 2
    assert bench.sheet("waiting", "--by", "Vic").output.count("not yours to sign") == 2
    with quizkit.open_shop(bench.path) as shop:
        first, second = (row["id"] for row in shop.rows("sheet"))
    missed = bench.sheet("sign-observed", first, second, 4711, "--by", "Tess", "--secret", PHRASE)
    assert missed.exit_code == 1 and bench.signatures() == 0
    assert bench.sheet("sign-observed", first, second, "--by", "Tess", "--secret", PHRASE).exit_code == 0
    assert bench.signatures() == 2


def test_a_paper_sheet_is_entered_late_with_its_photo_only(bench: Bench, tmp_path: Path) -> None:
    late = (dt.datetime.now(dt.UTC) - dt.timedelta(days=3)).date().isoformat()
    words = ("sign", "Ann", "pairing", *FILLED, "--by", "Tess", "--secret", PHRASE, "--seen-on", late)
    done = bench.sheet(*words)
    assert done.exit_code == 1 and bench.outcomes() == []
    (tmp_path / "note.txt").write_text("no photo")
    assert bench.sheet(*words, "--photo", tmp_path / "note.txt").exit_code == 1 and bench.outcomes() == []
