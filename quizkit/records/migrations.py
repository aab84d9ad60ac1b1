"""The numbered steps that make and change the tables. The text of a step that a shop has applied never changes.

A later step may make tables and indexes, and add columns without a default to a table of evidence; it never rewrites
one (`transform` would drop its triggers, and a changed row breaks its seal).
"""

from __future__ import annotations

import sqlite3
from pathlib import Path

from sqlite_utils import Database, Migrations

from quizkit.records.guards import guards

SQL = Path(__file__).parent / "sql"
STEPS = Migrations("records")

EVIDENCE = (
    "publication",
    "draw",
    "practice",
    "form",
    "form_item",
    "answer",
    "result",
    "talk",
    "lift",
    "entitlement",
    "entitlement_end",
    "sheet",
    "signature",
    "withdrawal",
    "withdrawal_end",
    "outside_proof",
    "appeal",
    "appeal_answer",
    "remark",
    "strike",
    "certificate",
    "certificate_end",
    "job",
    "job_use",
    "stock",
    "month",
    "product_change",
    "product_mark",
    "pin_reset",
    "admin",
)
"""The tables of evidence that step 0002 makes."""

UNIQUE = {"form_item": (("form", "item"),), "result": (("form",),)}
"""The groups of columns by which a row of evidence could be replaced, besides its number."""


@STEPS(name="0001")
def people_and_packs(db: Database) -> None:
    """People, what may be erased, packs, and the tip of the chain."""
    run(db, (SQL / "0001.sql").read_text(encoding="utf-8"))
    for statement in guards("pack", ("hash",)):
        db.conn.execute(statement)


@STEPS(name="0002")
def evidence(db: Database) -> None:
    """One table for each kind of evidence, with its guards."""
    run(db, (SQL / "0002.sql").read_text(encoding="utf-8"))
    for table in EVIDENCE:
        for statement in guards(table, ("id",), *UNIQUE.get(table, ())):
            db.conn.execute(statement)


@STEPS(name="0003")
def indexes(db: Database) -> None:
    """The indexes."""
    run(db, (SQL / "0003.sql").read_text(encoding="utf-8"))


def run(db: Database, script: str) -> None:
    """Execute the statements of a script one by one, inside the transaction that is open (`executescript` ends it)."""
    statement = ""
    for line in script.splitlines(keepends=True):
        statement += line
        if sqlite3.complete_statement(statement):
            db.conn.execute(statement)
            statement = ""
