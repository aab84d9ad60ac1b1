"""A real server in a process of its own, and browsers that ask it, for the benches and the tests that need them."""

import http.client
import re
import subprocess
import sys
import urllib.parse
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
CONTENT = ROOT / "tests" / "shop" / "content"
"""A small shop: a check of four questions in `ppe` that needs nothing before it."""
PIN = "2795"
PHRASE = "nine grey anvils hum"
PEOPLE = """
import sys, datetime as dt
import quizkit
from quizkit import shop as deeds
from quizkit.shop import secret
secret.COST = 4
now = dt.datetime.now(dt.UTC)
with deeds.open_shop(sys.argv[1], create=True) as shop:
    deeds.publish(shop, quizkit.compile_content(sys.argv[2]), None, now=now)
    boss = deeds.add_person(
        shop, name="Boss", role="manager", site="north", secret="nine grey anvils hum", by=None, now=now)
    for number in range(int(sys.argv[3])):
        deeds.add_person(
            shop, name=f"Number {number}", role="apprentice", site="north", secret="2795", by=boss, now=now)
"""


def make(path: Path, people: int) -> None:
    """A shop file with a manager (number 1) and so many apprentices (from number 2), whose slow hash is quick."""
    subprocess.run([sys.executable, "-c", PEOPLE, str(path), str(CONTENT), str(people)], check=True, cwd=ROOT)


class Trainee:
    """One browser over one connection that stays open."""

    def __init__(self, address: str) -> None:
        self.cookies: dict[str, str] = {}
        self.token = ""
        self.at(address)

    def at(self, address: str) -> None:
        """Turn to a server, with the cookies and the token that are there."""
        self.conn = http.client.HTTPConnection(urllib.parse.urlsplit(address).netloc, timeout=60)

    def ask(self, way: str, path: str, fields: Mapping[str, str] | None = None) -> tuple[int, str, str]:
        """Status, address to go on to, and body of one request."""
        heads = {"Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        body = None
        if fields is not None:
            body = urllib.parse.urlencode({"token": self.token, **fields})
            heads["Content-Type"] = "application/x-www-form-urlencoded"
        self.conn.request(way, path, body, heads)
        answer = self.conn.getresponse()
        text = answer.read().decode()
        for cookie in answer.headers.get_all("Set-Cookie") or ():
            name, _equals, value = cookie.split(";")[0].partition("=")
            self.cookies[name] = value
        if found := re.search(r'name="token" value="(\w+)"', text):
            self.token = found[1]
        return answer.status, answer.headers.get("Location", ""), text

    def enter(self, person: int, secret: str = PIN) -> None:
        """Sign in."""
        self.ask("GET", f"/sign-in/{person}")
        status, _on, text = self.ask("POST", f"/sign-in/{person}", {"secret": secret})
        assert status == 303, text


@contextmanager
def running(*command: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """A command that serves, as a process of its own: the process, and the address that it says. Killed at the end."""
    process = subprocess.Popen([sys.executable, *command], stdout=subprocess.PIPE, text=True, cwd=ROOT)
    assert process.stdout is not None
    try:
        found = None
        while found is None:
            line = process.stdout.readline()
            assert line, "the server ended"
            found = re.search(r"http://\S+", line)
        yield process, found[0]
    finally:
        process.kill()
        process.wait()
        process.stdout.close()


def served(path: Path) -> tuple[str, ...]:
    """The words that serve a shop file."""
    return ("-c", "from quizkit.cli import main; main()", "serve", "--shop", str(path), "--port", "0")
