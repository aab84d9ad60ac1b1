"""A real file of records with two rows or more in every table of evidence, and the means to tamper with it."""

import datetime as dt
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from quizkit.records import Records, add_person, keep_photo, keep_text, open_records, store_pack

NOW = dt.datetime(2026, 11, 25, 8, tzinfo=dt.UTC)
DAY = NOW.date()


def fill(records: Records, number: int, now: dt.datetime) -> None:
    """One deed that adds a row to every table of evidence."""
    with records.transaction(now):
        pack = store_pack(records, b'{"pack":%d}' % number)
        boss = add_person(
            records,
            name=f"Máire {number}",
            role="manager",
            site="north",
            language="en",
            secret="scrypt$",
            seen_on=DAY,
            done_by=None,
        )

        def add(table: str, **values: Any) -> int:
            return records.add(table, seen_on=DAY, done_by=boss, **values)

        def note(text: str, person: int | None = boss) -> str:
            return keep_text(records, f"{text} {number}", person=person)

        asked = {
            "question": "beads/share",
            "question_hash": "ab" * 32,
            "variant": 3,
            "ordering": "[2,1]",
        }
        marked = {
            "typed": '{"answer":"2½ turns"}',
            "givens": '{"total":"180"}',
            "verdict": '{"answer":"right"}',
            "marks": "1/2",
            "out_of": "1",
            "marking": "1",
        }
        who = {"person": boss, "skill": "beads"}
        publication = add("publication", pack=pack, title="Shop", changes="[]")
        draw = add("draw", **who, **asked, pack=pack)
        add("practice", draw=draw, **who, **asked, **marked, pack=pack)
        form = add(
            "form",
            **who,
            kind="full",
            pack=pack,
            language="en",
            help="read aloud",
            helper=note("Read by Ann"),
            site="north",
            zone="Europe/Dublin",
            closes_at=now + dt.timedelta(hours=4),
            paper=False,
            note=note("asked for more time"),
        )
        add("form_item", form=form, item=1, **asked, critical=True)
        add("answer", form=form, item=1, **marked, unread=False, pack=pack)
        result = add(
            "result",
            form=form,
            **who,
            kind="full",
            passed=True,
            critical_missed=False,
            marks="21",
            out_of="24",
            pass_mark="20",
            by_itself=False,
            valid_until=dt.date(2027, 11, 25),
            terms='{"lapsing":30}',
        )
        add("talk", **who, form=form, note=note("practised shares"))
        add("lift", **who, form=form, note=note("reader was broken"))
        entitlement = add(
            "entitlement", **who, starts=DAY, until=dt.date(2028, 1, 1), founding=True, basis=note("maker's course")
        )
        sheet = add(
            "sheet",
            **who,
            outcome="observed",
            material="m1",
            family="epoxy",
            ratio="2:1",
            pack=pack,
            seen="[1,2]",
            measures='{"shot":"9.6 g"}',
            judged='{"shot":true}',
            instrument="scale 4, 0.1 g",
            late=False,
            observer=boss,
            entitlement=entitlement,
            founding=True,
            ticket="T-1",
            valid_until=dt.date(2027, 11, 25),
            terms="{}",
            note=note("steady hand"),
            photo=keep_photo(records, b"\x89PNG%d" % number, "image/png", person=boss),
        )
        add(
            "signature",
            sheet=sheet,
            person=boss,
            entitlement=entitlement,
            founding=True,
            valid_until=dt.date(2027, 11, 25),
            terms="{}",
        )
        add("entitlement_end", entitlement=entitlement, person=boss, note=note("moved"))
        withdrawal = add("withdrawal", **who, note=note("bond failed"))
        add("withdrawal_end", withdrawal=withdrawal, person=boss, restores=True, note=note("trained again"))
        add(
            "outside_proof",
            person=boss,
            kind="fit test",
            until=dt.date(2027, 1, 1),
            detail="half mask, M",
            paper_seen_by=boss,
        )
        appeal = add("appeal", person=boss, form=form, sheet=sheet, note=note("the scale was off"))
        add("appeal_answer", appeal=appeal, person=boss, upheld=True, note=note("it was"))
        add(
            "remark",
            result=result,
            form=form,
            person=boss,
            item=1,
            question="beads/share",
            old_pack=pack,
            new_pack=pack,
            old_marks="1/2",
            new_marks="1",
            passed=True,
            critical_missed=False,
            signed=True,
            note=note("wrong givens"),
        )
        add("strike", of_table="sheet", of_row=sheet, person=boss, note=note("wrong person"))
        certificate = add(
            "certificate",
            person=boss,
            set_id="bonder",
            skills='["beads"]',
            valid_until=dt.date(2027, 11, 25),
            head="cd" * 32,
            pack=pack,
        )
        add("certificate_end", certificate=certificate, person=boss, note=note("in error"))
        job = add(
            "job", ticket="T-1", kind="panel", person=boss, beside=boss, site="north", done_on=DAY, billed="23.40"
        )
        add("job_use", job=job, material="m1", lot_a="A1", lot_b="B1", used="35", nozzles=2, billed="14.50")
        add(
            "stock",
            what="counted",
            material="m1",
            site="north",
            amount="4.5",
            lot="A1",
            person=None,
            note=note("back shelf", None),
        )
        add("month", month="2026-10", site="north", figures="[]")
        change = add("product_change", publication=publication, material="m1", old_row="{}", new_row="{}")
        add("product_mark", product_change=change, size="large", until=dt.date(2027, 1, 1))
        add("pin_reset", person=boss, way="person", note=note("forgotten"))
        add("admin", deed="setting", person=boss, name=note("Máire"), role="manager", site="north", detail="zone")
        records.put("person", number=boss, name=f"Máire {number}")
        add("admin", deed="renamed", person=boss, name=keep_text(records, f"Máire {number}", person=boss))


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a filled shop file, made once; tests copy it."""
    folder = tmp_path_factory.mktemp("records")
    with open_records(folder / "shop.db", create=True) as records:
        for number in range(2):
            fill(records, number, NOW + dt.timedelta(minutes=number))
    return folder


@pytest.fixture
def shop(made: Path, tmp_path: Path) -> Path:
    """A filled shop file of one's own, with its key."""
    shutil.copytree(made, tmp_path / "shop")
    return tmp_path / "shop" / "shop.db"


@pytest.fixture
def tamper() -> Callable[..., Iterator[sqlite3.Connection]]:
    """A plain connection to a file whose triggers are dropped, and put back as they were afterwards."""

    class Tamper:
        def __init__(self, path: Path) -> None:
            self.path = path

        def __enter__(self) -> sqlite3.Connection:
            self.conn = sqlite3.connect(self.path, isolation_level=None)
            self.conn.execute("BEGIN")
            text = "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"
            self.triggers = self.conn.execute(text).fetchall()
            for name, _sql in self.triggers:
                self.conn.execute(f"DROP TRIGGER {name}")
            self.conn.execute("PRAGMA ignore_check_constraints = ON")
            return self.conn

        def __exit__(self, *about: object) -> None:
            for _name, sql in self.triggers:
                self.conn.execute(sql)
            self.conn.execute("COMMIT")
            self.conn.close()

    return Tamper  # type: ignore[return-value]


def reseal(conn: sqlite3.Connection, first: int) -> None:
    """Seal the chain anew from a row on, as somebody would who knows how it is done: even the tip then fits."""
    from quizkit.records.schema import shapes
    from quizkit.records.seal import START, seal

    found = {}
    for shape in shapes(conn).values():
        if shape.evidence:
            for row in conn.execute(f"SELECT id, seal, {', '.join(shape.sealed)} FROM {shape.name}"):
                found[row[0]] = (shape, row)
    before = found[first - 1][1][1] if first > 1 else START
    for number in range(first, max(found) + 1):
        shape, row = found[number]
        before = seal(before, shape.name, shape.sealed, row[2:])
        conn.execute(f"UPDATE {shape.name} SET seal = ? WHERE id = ?", (before, number))
    conn.execute("UPDATE tip SET position = ?, seal = ?", (max(found), before))


@pytest.fixture
def sealed_anew() -> Callable[[sqlite3.Connection, int], None]:
    """Seals a chain anew from a row on."""
    return reseal


@pytest.fixture
def count_rows() -> Callable[[Path, str], int]:
    """How many rows a table has, asked of the file itself."""

    def count(path: Path, table: str) -> int:
        with closing(sqlite3.connect(path)) as conn:
            return int(conn.execute(f"SELECT count(*) FROM {table}").fetchone()[0])

    return count
