"""A small shop in which everything has happened once, for the tests of the pages and the long run of the fuzzing."""

import datetime as dt
from pathlib import Path

import quizkit
from quizkit import shop as deeds
from quizkit.demo.answers import right

SMALL = Path(__file__).parents[1] / "shop" / "content"
START = dt.datetime(2026, 11, 2, 16, 0, tzinfo=dt.UTC)
LATER = START + dt.timedelta(days=330)
"""When this shop stands: Ann's protection is lapsing, its renewal open."""
PIN = "2795"
PHRASE = "nine grey anvils hum"
PEOPLE = (
    ("Tess Orr", "trainer", "north", PHRASE),
    ("Ann <b>Bly</b>", "apprentice", "north", PIN),
    ("Zoe Ray", "apprentice", "south", PIN),
    ("Ben Cray", "technician", "south", PIN),
)

Numbers = dict[str, int]


def live(path: Path, pack: quizkit.Pack) -> tuple[Numbers, Numbers, Numbers]:
    """Make the shop at `path`: the numbers of its people by what they are, of forms and of other rows by theirs.

    Ann (`apprentice`) has taken and begun checks, has a sheet with a photo, a certificate, an entitled trainer, an
    appeal and a withdrawal; Zoe (`other`) has failed twice.
    """
    with deeds.open_shop(path, create=True) as shop:
        deeds.publish(shop, pack, None, now=START)
        boss = deeds.add_person(shop, name="Mo Hale", role="manager", site="north", secret=PHRASE, by=None, now=START)
        tess, ann, zoe, ben = (
            deeds.add_person(shop, name=name, role=role, site=site, secret=secret, by=boss, now=START)
            for name, role, site, secret in PEOPLE
        )

        def check(person: int, skill: str, now: dt.datetime, passes: bool = True) -> int:
            form = deeds.start_check(shop, person, skill, now=now)
            for item in range(1, deeds.check_item(shop, person, form, 1, now=now).items + 1):
                view = deeds.check_item(shop, person, form, item, now=now).question
                typed = right(pack, view) if passes else {part.name: "3" for part in view.parts}
                deeds.answer_item(shop, person, form, item, typed, now=now)
            return deeds.hand_in(shop, person, form, now=now, sure=True)

        forms = {"ppe": check(ann, "ppe", START), "pairing": check(ann, "pairing", START)}
        rows = {
            "entitlement": deeds.grant(shop, boss, tess, "pairing", now=START, founding=True, basis="Course papers"),
            "sheet": deeds.sign_sheet(
                shop,
                tess,
                deeds.SheetInput(
                    ann,
                    "pairing",
                    "Alder",
                    frozenset({1, 2, 3}),
                    {"a": "46.3", "b": "20", "step": "0.1"},
                    "scale 4, 0.1 g",
                    seen_on=START.date(),
                    note="Steady. <script>alert(1)</script>",
                    photo=b"\x89PNG\r\n\x1a\n" + b"\0" * 40,
                    late=True,
                ),
                now=START,
            ),
        }
        rows["certificate"] = deeds.issue_certificate(shop, boss, ann, "start", now=START)
        for day in (0, 3):
            check(zoe, "ppe", START + dt.timedelta(days=day), passes=False)
        week = START + dt.timedelta(days=7)
        deeds.see_proof(shop, tess, ann, "fit-test", None, now=week, detail="half mask <i>M</i>")
        rows["appeal"] = deeds.appeal(shop, ann, f"form:{forms['ppe']}", "Two <b>answers</b> fit", now=week)
        rows["withdrawal"] = deeds.withdraw(shop, tess, ann, "pairing", "Bond <u>failed</u>", now=LATER)
        uses = [deeds.Use("Alder", "44<i>71</i>", "4472", "30 to 115 mL", nozzles=2)]
        rows["ticket"] = deeds.record_job(
            shop, tess, ticket="T-<b>118</b>", job="bond", person=ann, beside=ben, uses=uses, now=LATER
        )
        rows["stock"] = deeds.scrap_stock(shop, tess, "Alder", "1/2", now=LATER, note="Spilled <b>out</b>")
        rows["paper"] = deeds.paper_form(shop, tess, None, "ppe", now=LATER).number
        rows["draw"] = int(deeds.practise(shop, ann, "ppe", now=LATER).draw)
        forms["open"] = deeds.start_check(shop, ann, "ppe", now=LATER)
    numbers = {"manager": boss, "trainer": tess, "apprentice": ann, "other": zoe, "technician": ben}
    return numbers, forms, rows
