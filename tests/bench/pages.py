"""First byte of every page of the invented shop, beside a small file of the same server: `python -m tests.bench.pages`.

Each page of the table that the browser tests share, from its first seat, over one connection that stays open; the
median of several turns. No aim: the figures show which page has grown slow.
"""

import contextlib
import datetime as dt
import http.client
import statistics
import tempfile
import time
import urllib.parse
from pathlib import Path

from quizkit import shop as deeds
from quizkit.demo.cast import CAST
from quizkit.web.bench import KEY
from tests.bench.measure import shown
from tests.browser.house import SEATS, House, open_house
from tests.browser.places import PLACES

TURNS = 7
FLOOR = "/static/mark.svg"


def first_byte(conn: http.client.HTTPConnection, address: str, cookie: str) -> tuple[float, int]:
    """Seconds until the first byte of an answer, and how many bytes came in all."""
    begun = time.perf_counter()
    conn.request("GET", address, headers={"Cookie": cookie} if cookie else {})
    answer = conn.getresponse()
    answer.read(1)
    took = time.perf_counter() - begun
    return took, 1 + len(answer.read())


def keys(house: House) -> dict[str, str]:
    """The cookie of each seat."""
    found = {"nobody": ""}
    with deeds.open_shop(house.path) as shop:
        for role, name in SEATS.items():
            for member in CAST:
                if member.name == name:
                    person, now = deeds.roster(shop, name)[0].person, dt.datetime.now(dt.UTC)
                    signed = deeds.sign_in(shop, person, member.secret, address=f"bench-{role}", now=now)
                    found[role] = f"{KEY}={signed.token}"
    return found


def main() -> None:
    """Print a line for each page."""
    with contextlib.ExitStack() as open_now:
        house = open_now.enter_context(open_house(Path(open_now.enter_context(tempfile.TemporaryDirectory()))))
        cookies = keys(house)
        conn = http.client.HTTPConnection(urllib.parse.urlsplit(house.address).netloc, timeout=60)
        open_now.callback(conn.close)
        floor = statistics.median(first_byte(conn, FLOOR, "")[0] for _turn in range(5 * TURNS))
        print(f"{FLOOR:34} {shown(floor)}")
        for place in PLACES:
            if place.status == 200 and place.then is None:
                turns = [first_byte(conn, place.at(house.facts), cookies[place.seats[0]]) for _turn in range(TURNS)]
                took = statistics.median(seconds for seconds, _size in turns)
                print(f"{place.name:34} {shown(took)}  {took / floor:5.1f} × the file  {turns[0][1] / 1024:6.1f} KB")


if __name__ == "__main__":
    main()
