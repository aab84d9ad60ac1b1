"""The secret that ties forms to the browser they were shown in: drawn at the first start, kept beside the file."""

from __future__ import annotations

import os
import secrets
import stat
from pathlib import Path

from quizkit.records.errors import KeyTrouble, said_of_disk
from quizkit.words import _

LENGTH = 32


def secret_path(path: Path) -> Path:
    """Where the secret of the shop file at `path` lies."""
    return path.with_suffix(".secret")


def form_secret(path: Path) -> bytes:
    """The secret of the shop file at `path`, drawn and kept for its owner alone where there is none yet.

    It proves nothing about evidence: where it is lost, pages that were open are loaded again. Raises KeyTrouble where
    it is none, or others may read it; ReadOnly and Full where it cannot be kept.
    """
    where = secret_path(path)
    try:
        mode, kept = where.stat().st_mode, where.read_bytes()
    except FileNotFoundError:
        return _drawn(where)
    except OSError as error:
        what = _("The secret of the forms at {path} cannot be read").format(path=where)
        raise KeyTrouble(what, _("give the program the right to read it")) from error
    if os.name == "posix" and stat.S_IMODE(mode) & 0o077:
        what = _("Others may read the secret of the forms at {path}").format(path=where)
        raise KeyTrouble(what, _("delete the file: a new one is drawn at the next start"))
    if len(kept) != LENGTH:
        what = _("The file at {path} is not the secret of the forms").format(path=where)
        raise KeyTrouble(what, _("delete the file: a new one is drawn at the next start"))
    return kept


def _drawn(where: Path) -> bytes:
    """A new secret, on disk whole or not at all."""
    made = secrets.token_bytes(LENGTH)
    part = where.with_name(f"{where.name}.part")
    with said_of_disk(where):
        handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(handle, "wb") as file:
            file.write(made)
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, where)
    return made
