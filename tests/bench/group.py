"""A made group of any size, and what it costs: `python -m tests.bench.group [--people 10 100 1000] [--in FOLDER]`.

The whole group is 2,000 sites, 15,000 people, 40 skills and 5,000,000 answers (`--people 15000`); a smaller one has as
many answers a person. Its rows are sealed evidence like any other, written past the deeds to be made in minutes.
"""

import argparse
import datetime as dt
import json
import shutil
import statistics
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

import quizkit
from quizkit import shop as deeds
from quizkit.pack.model import Module, Pack
from quizkit.records import Records, add_person, verify_file
from quizkit.scoring.verdict import VERSION
from quizkit.shop import asking, secret
from quizkit.shop.terms import terms_of, terms_text
from tests.web.lived import PHRASE, SMALL

SKILLS = 40
TAKEN = 7
"""Skills that each person has gone through."""
ASKED = 24
"""Questions of a check, and as many in practice before it: 336 answers a person."""
PEOPLE_A_SITE = 7.5
BEGUN = dt.datetime(2026, 1, 5, 8, tzinfo=dt.UTC)
YEAR = dt.timedelta(days=330)
TODAY = BEGUN + dt.timedelta(days=340)
BATCH = 100


def content(folder: Path, sites: int) -> Path:
    """A content folder with forty skills and so many sites."""
    shutil.copytree(SMALL, folder)
    toml = folder / "shop.toml"
    text = toml.read_text(encoding="utf-8")
    text = text.replace('[sites.south]\ntitle = "South bay"\nzone = "UTC"\n', "")
    places = "".join(f'[sites.s{number}]\ntitle = "Site {number}"\n\n' for number in range(sites))
    toml.write_text(text.replace("[cover]", f"{places}[cover]"), encoding="utf-8")
    for number in range(1, SKILLS - 1):
        name = f"pairing-{number}"
        shutil.copytree(folder / "pairing", folder / name)
        module = folder / name / "module.toml"
        changed = module.read_text(encoding="utf-8").replace('skill = "pairing"', f'skill = "{name}"')
        module.write_text(changed.replace('title = "Pairing"', f'title = "Pairing {number}"'), encoding="utf-8")
    return folder


@dataclass
class Asked:
    """What rows say about a question of a module, worked out once: what it asked, and a right answer marked."""

    asked: dict[str, Any]
    marked: dict[str, Any]


def _asked(pack: Pack, module: Module) -> list[Asked]:
    found = []
    for question in module.questions:
        for place in range(min(4, len(question.numbers))):
            ordering = asking.arrangement(question, "bench", place)
            variant = asking.variant_of(pack, question.id, question.numbers[place], ordering)
            typed = {part.name: variant.right(part.name).removeprefix("≈ ") for part in question.parts}
            graded = variant.grade(typed)
            told = {"question": question.id, "question_hash": asking.question_hash(question)}
            marked = {
                "typed": _text(typed),
                "givens": _text(asking.givens_row(variant)),
                "verdict": _text(asking.verdict_row(graded)),
                "marks": str(graded.marks),
                "out_of": str(graded.out_of),
                "marking": VERSION,
            }
            found.append(Asked({**told, "variant": variant.number, "ordering": _text(ordering)}, marked))
    return found


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


class Maker:
    """Writes the evidence of one person after another."""

    def __init__(self, records: Records, pack: Pack, hash: str, boss: int, sites: int) -> None:
        self.records, self.pack, self.hash, self.boss, self.sites = records, pack, hash, boss, sites
        self.modules = {module.scheme.skill: module for module in pack.modules}
        self.skills = sorted(self.modules, key=lambda skill: skill != "ppe")
        self.asked = {skill: _asked(pack, self.modules[skill]) for skill in self.skills}
        self.terms = {
            skill: _text(terms_text(terms_of(pack.scheme, self.modules[skill].scheme))) for skill in self.skills
        }
        self.secret = secret.kept("2795")

    def person(self, number: int, day: dt.date) -> int:
        """Somebody who has practised, taken and passed the checks of seven skills, and was seen at the bench in six."""
        site = f"s{number % self.sites}"
        told = {"role": "apprentice", "site": site, "language": "en", "secret": self.secret}
        person = add_person(self.records, name=f"Person {number}", seen_on=day, done_by=self.boss, **told)
        self.add(
            "outside_proof",
            day,
            self.boss,
            person=person,
            kind="fit-test",
            until=day.replace(year=2028),
            paper_seen_by=self.boss,
        )
        others = self.skills[1:]
        taken = [self.skills[0], *(others[(number * 5 + turn * 7) % len(others)] for turn in range(TAKEN - 1))]
        for skill in taken:
            self._skill(person, site, skill, day)
        return person

    def add(self, table: str, day: dt.date, by: int, **values: Any) -> int:
        """One sealed row."""
        return self.records.add(table, seen_on=day, done_by=by, **values)

    def _skill(self, person: int, site: str, skill: str, day: dt.date) -> None:
        asked = self.asked[skill]
        who = {"person": person, "skill": skill}
        for turn in range(ASKED):
            one = asked[turn % len(asked)]
            draw = self.add("draw", day, person, **who, **one.asked, pack=self.hash)
            self.add("practice", day, person, draw=draw, **who, **one.asked, **one.marked, pack=self.hash)
        closes = self.records.moment + dt.timedelta(hours=4)
        where = {"language": "en", "help": None, "helper": None, "site": site, "zone": "UTC", "note": None}
        form = self.add("form", day, person, **who, kind="full", pack=self.hash, closes_at=closes, paper=False, **where)
        for item in range(1, ASKED + 1):
            self.add("form_item", day, person, form=form, item=item, **asked[item % len(asked)].asked, critical=False)
        for item in range(1, ASKED + 1):
            marked = asked[item % len(asked)].marked
            self.add("answer", day, person, form=form, item=item, **marked, unread=False, pack=self.hash)
        practical = self.modules[skill].scheme.practical
        passed = {"kind": "full", "passed": True, "critical_missed": False, "marks": "24", "out_of": "24"}
        ends = None if practical else day.replace(year=day.year + 1)
        more = {"pass_mark": "3/4", "by_itself": False, "valid_until": ends, "terms": self.terms[skill]}
        self.add("result", day, person, form=form, **who, **passed, **more)
        if practical:
            self._sheet(who, skill, day)

    def _sheet(self, who: dict[str, Any], skill: str, day: dt.date) -> None:
        of = {"outcome": "signed", "material": "Alder", "family": "adhesive", "ratio": "2:1 by volume"}
        seen = {"seen": "[1,2,3]", "measures": '{"a":"46.3","b":"20"}', "judged": "[]", "instrument": "scale 4, 0.1 g"}
        none = dict.fromkeys(("observer", "entitlement", "ticket", "valid_until", "note", "photo"))
        more = {"pack": self.hash, "late": False, "founding": False, "terms": self.terms[skill]}
        self.add("sheet", day, self.boss, **who, **of, **seen, **more, **none)


def make(folder: Path, people: int) -> tuple[Path, int, float]:
    """Make a group of so many people: its file, the manager's number, and the seconds that its rows took."""
    sites = max(1, round(people / PEOPLE_A_SITE))
    pack = quizkit.compile_content(content(folder / "content", sites))
    path = folder / "shop.db"
    with deeds.open_shop(path, create=True) as shop:
        hash = deeds.publish(shop, pack, None, now=BEGUN).hash
        boss = deeds.add_person(shop, name="Boss", role="manager", site="s0", secret=PHRASE, by=None, now=BEGUN)
        maker, begun = Maker(shop.records, pack, hash, boss, sites), time.perf_counter()
        for first in range(0, people, BATCH):
            now = BEGUN + YEAR * (first / people)
            with shop.records.transaction(now):
                for number in range(first, min(first + BATCH, people)):
                    maker.person(number, now.date())
        took = time.perf_counter() - begun
        shop.records.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        shop.records.conn.execute("PRAGMA analysis_limit = 1000")
        shop.records.conn.execute("PRAGMA optimize")
    return path, boss, took


def seconds(work: Callable[[], object], times: int = 1) -> float:
    """The median of several runs."""
    found = []
    for _turn in range(times):
        begun = time.perf_counter()
        work()
        found.append(time.perf_counter() - begun)
    return statistics.median(found)


def figures(path: Path, boss: int, people: int) -> dict[str, float]:
    """What the group costs, in seconds; `file` in bytes a person."""
    found: dict[str, float] = {}
    with deeds.open_shop(path) as shop:
        deeds.current_pack(shop)
        few = 1 if people > 5000 else 3
        group = partial(deeds.matrix, shop, boss, now=TODAY)
        found["matrix of a site, first of the day"] = seconds(partial(group, site="s0"))
        found["matrix of a site"] = seconds(partial(group, site="s0"), 3)
        found["matrix of the group, first of the day"] = seconds(group)
        found["matrix of the group"] = seconds(group, 3)
        found["its inputs by bare SQL"] = seconds(lambda: inputs(shop.records), few)
        found["morning question"] = seconds(lambda: deeds.morning(shop, boss, "bond", now=TODAY, site="s0"), 3)
        found["roster, by a name"] = seconds(lambda: deeds.roster(shop, "Person 7"), 3)
        people_asked = [row["number"] for row in shop.rows("person", role="apprentice", newest=True, limit=8)]
        found["sign-in beside the slow hash"] = statistics.median(
            seconds(lambda person=person: deeds.sign_in(shop, person, "2795", address="bench", now=TODAY))  # type: ignore[misc]
            for person in people_asked
        )
        found["ticket of the day"] = seconds(lambda: deeds.today(shop, people_asked[0], now=TODAY), 3)
        found |= _check(shop, people_asked)
        head = shop.records.head()
        for person in people_asked:
            deeds.practise(shop, person, "ppe", now=TODAY)
    found["verify a day"] = seconds(lambda: verify_file(path, after=head), 3)
    found["verify all"] = seconds(lambda: verify_file(path))
    found["file, bytes a person"] = path.stat().st_size / people
    return found


def _check(shop: deeds.Shop, people: list[int]) -> dict[str, float]:
    begun, answered, handed = [], [], []
    for person in people:
        done = {row["skill"] for row in shop.rows("result", person=person)}
        skill = next(name for name in (f"pairing-{number}" for number in range(1, SKILLS - 1)) if name not in done)
        start = time.perf_counter()
        form = deeds.start_check(shop, person, skill, now=TODAY)
        begun.append(time.perf_counter() - start)
        start = time.perf_counter()
        deeds.answer_item(shop, person, form, 1, {"answer": "12 g"}, now=TODAY)
        answered.append(time.perf_counter() - start)
        start = time.perf_counter()
        deeds.hand_in(shop, person, form, now=TODAY, sure=True)
        handed.append(time.perf_counter() - start)
    kinds = {"begin a check": begun, "an answer": answered, "hand in": handed}
    return {name: statistics.median(times) for name, times in kinds.items()}


INPUTS = (
    "SELECT number, name, role, site, left_on FROM person",
    "SELECT id, person, skill, kind, passed, critical_missed, seen_on, recorded_at, terms, form FROM result",
    "SELECT id, closes_at, paper FROM form",
    "SELECT id, person, skill, outcome, material, family, ratio, seen_on, recorded_at, done_by, late, terms FROM sheet",
    "SELECT id, person, kind, until, seen_on, recorded_at, paper_seen_by, detail FROM outside_proof",
    "SELECT min(id), person, skill FROM practice GROUP BY person, skill",
)
"""What the matrix of the group is worked out from."""


def inputs(records: Records) -> int:
    """Read them, and do nothing with them."""
    return sum(len(records.conn.execute(text).fetchall()) for text in INPUTS)


def main() -> None:
    """A table: a line for each figure, a column for each size."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--people", type=int, nargs="+", default=[10, 100, 1000])
    asked.add_argument("--in", dest="folder", default=tempfile.gettempdir())
    given = asked.parse_args()
    secret.COST = 4
    table: dict[str, list[str]] = {}
    for people in given.people:
        with tempfile.TemporaryDirectory(dir=given.folder) as folder:
            path, boss, took = make(Path(folder), people)
            with deeds.open_shop(path) as shop:
                rows = shop.records.head().position
            shown = {"rows": f"{rows:,}", "making, µs a row": f"{took / rows * 1e6:.0f}"}
            for name, value in figures(path, boss, people).items():
                shown[name] = f"{value:,.0f}" if "bytes" in name else f"{value * 1000:,.1f} ms"
            for name, text in shown.items():
                table.setdefault(name, []).append(text)
            print(f"{people} people done", flush=True)
    print(f"{'people':40}" + "".join(f"{people:>16,}" for people in given.people))
    for name, texts in table.items():
        print(f"{name:40}" + "".join(f"{text:>16}" for text in texts))


if __name__ == "__main__":
    main()
