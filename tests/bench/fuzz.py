"""Anything at all, sent everywhere: `python -m tests.bench.fuzz [--minutes 10] [--only TARGET]`.

Each target takes bytes and makes of them what comes from outside: requests with forms, cookies, numbers and photos;
lists to import; certificate files; the bytes of the shop's file. It raises where something answers with a fault of its
own in place of a clear page or message. The long run uses atheris, which looks for new paths through the code, where
that is installed, and hypothesis with many more examples where not; the tests use hypothesis with few.
"""

import argparse
import importlib.util
import io
import logging
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from click.testing import CliRunner
from flask import Flask

import quizkit
from quizkit.cli import main as command
from quizkit.exchange.checking import check
from quizkit.exchange.desk import read_jobs, read_stock
from quizkit.exchange.people import read_people
from quizkit.records import RecordsError, key_path, load_key, open_records, verify_file
from quizkit.shop import secret
from quizkit.web import create_app
from tests.web.lived import LATER, PHRASE, PIN, SMALL, live

TEXTS = (
    *("", "0", "1", "-1", "2", "17", "99999999999999999999", "1e999", "NaN", "½", "٣", "①", "12 mL", "1:0", "0/0"),
    *("2026-11-25", "2026-02-30", "0001-01-01", "9999-12-31", "2027-09-28", "2026-11", "9999-12", "0000-00", "24:00"),
    *("ppe", "pairing", "north", "south", "Alder", "start", "bond", "fit-test", "manager", "apprentice", "yes", "no"),
    *("sign", "park", "refuse", "observe", "drop", "judge", "place", "name", "leave", "secret", "large", "small"),
    *("form:1", "sheet:1", "form:", ":", "sheet:99999999999999999999", "job:1", "stock:x", "result:9", "now", "then"),
    *(PIN, PHRASE, "8642", "' OR 1=1 --", "<script>alert(1)</script>", "../../etc/passwd", "%00", "{{ 7*7 }}", "\x00"),
    *(
        "a" * 201,
        "9" * 400,
        "ä" * 90,
        "\u202e\u200b\ufeff",
        "\U0001f600",
        "\r\n",
        "csv",
        "xlsx",
        "json",
        "1, 3",
        "1b 2a",
    ),
)
NAMES = """about again amount as as_of away basis beside billed charge copies counted_on day detail do done_on find
    form founding instrument into job kept kind known late left list lot lot_a lot_b lower material
    measure.a measure.b measure.step month name new nozzles note old on part.answer part.answer.1
    part.answer.2 person practised question reason restores role row secret seen seen_on set sheet shelf
    site size skill spared starts sum sure then ticket token until upheld used variant weeks what whole
    words v.0 v.1 v.2 rows ask.1 1.part.answer answer.1"""
FIELDS = tuple(NAMES.split())
WAYS = ("GET", "POST", "HEAD", "PUT", "OPTIONS", "DELETE", "PROPFIND")
ROLES = ("", "apprentice", "other", "technician", "trainer", "manager")
PHOTOS = (b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xe0", b"GIF89a", b"<svg onload=alert(1)>", b"")


class Source:
    """Bytes taken as choices, numbers and texts; what is used up gives zeros."""

    def __init__(self, data: bytes) -> None:
        self.data = io.BytesIO(data)

    def number(self, below: int) -> int:
        """A number under `below`."""
        return int.from_bytes(self.data.read(2), "big") % below

    def one(self, of: tuple[Any, ...]) -> Any:
        """One of several."""
        return of[self.number(len(of))]

    def text(self) -> str:
        """A text: one that has bitten before, or any."""
        if self.number(4):
            return str(self.one(TEXTS))
        return self.data.read(self.number(40)).decode("utf-8", "replace")

    def rest(self) -> bytes:
        """All that is left."""
        return self.data.read()


class Shop:
    """The shop that is asked: its file as it was made, what each person's browser holds, and the app over a copy."""

    def __init__(self, folder: Path) -> None:
        secret.COST = 4
        self.folder = folder
        self.made, self.path = folder / "made.db", folder / "shop.db"
        people, forms, rows = live(self.made, quizkit.compile_content(SMALL))
        self.numbers = tuple({*people.values(), *forms.values(), *rows.values(), 0, 999, 2**63, 10**30})
        shutil.copy(key_path(self.made), key_path(self.path))
        shutil.copy(self.made, self.path)
        self.app: Flask = create_app(self.path, secret=b"s" * 32, now=lambda: LATER)
        self.rules = tuple(sorted(self.app.url_map.iter_rules(), key=str))
        self.cookies = {role: self._enter(people[role]) if role else {} for role in ROLES}
        self._close()
        shutil.copy(self.path, self.made)
        self.head = verify_file(self.made).head.seal

    def _enter(self, person: int) -> dict[str, str]:
        client = self.app.test_client()
        page = client.get(f"/sign-in/{person}").text
        token = re.search(r'name="token" value="(\w+)"', page)
        secret = PHRASE if "passphrase" in page else PIN
        client.post(f"/sign-in/{person}", data={"token": token[1] if token else "", "secret": secret})
        found = {name: cookie.value for name in ("seat", "key") if (cookie := client.get_cookie(name))}
        return {**found, "token": token[1] if token else ""}

    def _close(self) -> None:
        kept = self.app.extensions["shops"]
        while kept:
            kept.pop().close()

    def fresh(self) -> None:
        """Put the file back as it was made."""
        self._close()
        for end in ("-wal", "-shm"):
            self.path.with_name(self.path.name + end).unlink(missing_ok=True)
        shutil.copy(self.made, self.path)


_SHOP: list[Shop] = []


def shop() -> Shop:
    """The one shop of this process."""
    if not _SHOP:
        logging.getLogger("quizkit.web").setLevel(logging.CRITICAL)
        _SHOP.append(Shop(Path(tempfile.mkdtemp(prefix="quizkit-fuzz-", dir=os.environ.get("QUIZKIT_FUZZ_IN")))))
    return _SHOP[0]


def pages(data: bytes) -> None:
    """Up to four requests of one person: any address, method, form, query, cookies and file."""
    source, there = Source(data), shop()
    there.fresh()
    held = there.cookies[source.one(ROLES)]
    client = there.app.test_client()
    for name in ("seat", "key"):
        if name in held and source.number(12):
            client.set_cookie(name, held[name])
        elif source.number(2):
            client.set_cookie(name, source.text())
    for _turn in range(1 + source.number(4)):
        rule, way = source.one(there.rules), source.one(WAYS) if source.number(4) == 0 else source.one(WAYS[:2])
        address = re.sub(r"<(?:(\w+):)?\w+>", lambda found: _part(source, found[1], there), str(rule))
        fields: dict[str, Any] = {str(source.one(FIELDS)): source.text() for _field in range(source.number(8))}
        query = {str(source.one(FIELDS)): source.text() for _field in range(source.number(4))}
        if source.number(10):
            fields["token"] = held.get("token", "")
        if source.number(3) == 0:
            body = source.one(PHOTOS) + source.data.read(source.number(60))
            fields[source.one(("photo", "list", "file"))] = (io.BytesIO(body), source.text() or "x")
        client_way = {"GET": None, "HEAD": None}.get(way, fields)
        answer = client.open(address, method=way, query_string=query, data=client_way)
        where = f"{way} {address} {query} {fields}"
        assert answer.status_code != 500 and answer.status_code != 503, f"{answer.status_code}: {where}"
        assert b"Traceback" not in answer.data, where
    there._close()
    found = verify_file(there.path, there.head)
    assert found.proven, found.broken and found.broken.words()


def _part(source: Source, kind: str | None, there: Shop) -> str:
    if kind == "int" and source.number(8):
        return str(source.one(there.numbers))
    if source.number(3):
        return str(
            source.one(("ppe", "pairing", "1-air", "share", "tax", "2026-11", *there.numbers[:6], "place", "csv"))
        )
    return re.sub(r"[/?#]", "", source.text()) or "x"


def lists(data: bytes) -> None:
    """A list of people, jobs or stock from a spreadsheet: read, or told line by line; at the command line too."""
    for read in (read_people, read_jobs, read_stock):
        found = read(data)
        assert not (found.rows and found.problems)
        assert all(one.what and one.mend for one in found.problems)
    there = shop()
    there.fresh()
    (there.folder / "list.csv").write_bytes(data)
    _told("person", "import", "--shop", there.path, there.folder / "list.csv", "--by", "1")


def certificates(data: bytes) -> None:
    """A certificate file: valid, or in words why not."""
    there = shop()
    public = load_key(key_path(there.path)).public_key().public_bytes_raw()
    assert check(data, public, now=LATER).words
    (there.folder / "certificate.json").write_bytes(data)
    _told("certificate", "check", there.folder / "certificate.json", "--key", public.hex())


def files(data: bytes) -> None:
    """The shop's file with bytes of it changed, cut or grown: it opens as sound, or it is said what is wrong."""
    source, there = Source(data), shop()
    body = bytearray(there.made.read_bytes())
    for _turn in range(1 + source.number(6)):
        at, what = (source.number(1 << 16) << 6 | source.number(64)) % len(body), source.number(4)
        if what == 0:
            body[at] ^= 1 + source.number(255)
        elif what == 1:
            piece = source.data.read(source.number(200))
            body[at : at + len(piece)] = piece
        elif what == 2:
            body[at:] = b""
        else:
            body[source.number(100)] = source.number(256)
        if not body:
            break
    path = there.folder / "bitten.db"
    for end in ("", "-wal", "-shm", "-journal"):
        path.with_name(path.name + end).unlink(missing_ok=True)
    path.write_bytes(body)
    try:
        with open_records(path) as records:
            records.rows("answer")
    except RecordsError as error:
        assert error.what
    try:
        verify_file(path, there.head)
    except RecordsError as error:
        assert error.what
    _told("records", "verify", "--shop", path)


def _told(*words: object) -> None:
    """A command ends with its status and words, never with a traceback."""
    done = CliRunner().invoke(command, [str(word) for word in words])
    fault = done.exception
    assert fault is None or isinstance(fault, SystemExit), f"{words}: {fault!r}"
    assert done.exit_code in (0, 1, 2) and done.output.strip()


TARGETS: dict[str, Callable[[bytes], None]] = {
    "pages": pages,
    "lists": lists,
    "certificates": certificates,
    "files": files,
}


def hunt(name: str, seconds: float) -> int:
    """Look with hypothesis for so long; how many examples were tried."""
    from hypothesis import HealthCheck, given, settings
    from hypothesis import strategies as st

    tried, end = 0, time.perf_counter() + seconds

    @settings(max_examples=2000, deadline=None, database=None, suppress_health_check=list(HealthCheck))
    @given(st.binary(max_size=600))
    def look(data: bytes) -> None:
        nonlocal tried
        if time.perf_counter() < end:
            tried += 1
            TARGETS[name](data)

    while time.perf_counter() < end:
        look()
    return tried


PATHS = """
import importlib, pkgutil, sys
import atheris
with atheris.instrument_imports(include=["quizkit"]):
    import quizkit
    for module in pkgutil.walk_packages(quizkit.__path__, "quizkit."):
        importlib.import_module(module.name)
from tests.bench import fuzz
fuzz.shop()
atheris.Setup([sys.argv[0], f"-max_total_time={sys.argv[2]}", "-max_len=600", "-timeout=60"], fuzz.TARGETS[sys.argv[1]])
atheris.Fuzz()
"""
"""What looks at one target with atheris, in a process of its own: only our own code is watched for new paths."""


def hunt_paths(name: str, seconds: float) -> int:
    """Look with atheris for so long; how many inputs were tried. Raises AssertionError with what it found."""
    words = [sys.executable, "-c", PATHS, name, str(int(seconds))]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-4000:]
    found = re.findall(r"Done (\d+) runs", done.stderr)
    return int(found[-1]) if found else 0


def main() -> None:
    """The long run over all targets."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--minutes", type=float, default=10)
    asked.add_argument("--only", choices=tuple(TARGETS))
    given = asked.parse_args()
    names = (given.only,) if given.only else tuple(TARGETS)
    seconds = given.minutes * 60 / len(names)
    engine, look = ("hypothesis", hunt)
    if importlib.util.find_spec("atheris") is not None:
        engine, look = ("atheris", hunt_paths)
    for name in names:
        print(f"{name}: {look(name, seconds)} inputs by {engine} in {seconds:.0f} s, no fault", flush=True)


if __name__ == "__main__":
    main()
