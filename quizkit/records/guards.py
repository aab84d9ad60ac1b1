"""Triggers that keep a table insert-only, whatever program opens the file."""

from __future__ import annotations


def guards(table: str, *keys: tuple[str, ...]) -> tuple[str, ...]:
    """Three triggers for a table: no UPDATE, no DELETE, no INSERT over a row that is there.

    The last stops INSERT OR REPLACE from a plain connection, which fires no delete trigger. `keys` are the groups of
    columns by which a row could be replaced: its primary key, and each of its UNIQUE groups.
    """
    same = " OR ".join(_same(columns) for columns in keys)
    return (
        f"CREATE TRIGGER {table}_stays BEFORE UPDATE ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} is never changed'); END",
        f"CREATE TRIGGER {table}_kept BEFORE DELETE ON {table} "
        f"BEGIN SELECT RAISE(ABORT, '{table} is never deleted'); END",
        f"CREATE TRIGGER {table}_once BEFORE INSERT ON {table} WHEN EXISTS (SELECT 1 FROM {table} WHERE {same}) "
        f"BEGIN SELECT RAISE(ABORT, '{table} is never replaced'); END",
    )


def _same(columns: tuple[str, ...]) -> str:
    return "(" + " AND ".join(f"{column} = NEW.{column}" for column in columns) + ")"
