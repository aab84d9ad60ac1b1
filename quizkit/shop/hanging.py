"""Who else hangs on the same signer, the same questions or the same lot as a job that is looked back on."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from quizkit.shop.handle import Shop
from quizkit.shop.hands import Hand
from quizkit.shop.people import person_view
from quizkit.shop.tickets import JobView, job_view
from quizkit.standing.crew import Crew, hanging_on
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class AlsoPerson:
    """Somebody whose standing today rests on it too."""

    person: int
    name: str
    skill: str
    title: str
    word: str


@dataclass(frozen=True, slots=True)
class Also:
    """What is shared, and by whom. `kind` is "signer", "question" or "lot"; a lot lists jobs, the others people."""

    kind: str
    words: str
    people: tuple[AlsoPerson, ...]
    jobs: tuple[JobView, ...]


def also(shop: Shop, hands: Sequence[Hand], jobs: Sequence[JobView], crew: Crew) -> tuple[Also, ...]:
    """What the people and jobs looked back on share with others, as of the crew's day."""
    return (*_signers(shop, hands, crew), *_questions(shop, hands, crew), *_lots(shop, jobs))


def _signers(shop: Shop, hands: Sequence[Hand], crew: Crew) -> Iterable[Also]:
    signed: dict[tuple[int, str], set[int]] = {}
    for hand in hands:
        for then in hand.skills:
            for sheet in then.sheets:
                for signer in _signed_by(shop, sheet.number):
                    signed.setdefault((signer, then.skill), set()).add(hand.person)
    for (signer, skill), own in signed.items():
        people = _hanging(shop, crew, _sheets_of(shop, signer, skill), own, skill)
        if people:
            words = _("signed by {name}: {title}")
            yield Also("signer", words.format(name=person_view(shop, signer).name, title=people[0].title), people, ())


def _signed_by(shop: Shop, sheet: int) -> list[int]:
    row = shop.get("sheet", sheet)
    names = [name["done_by"] for name in shop.rows("signature", sheet=sheet)]
    return [*([row["done_by"]] if row["outcome"] == "signed" else []), *names]


def _sheets_of(shop: Shop, signer: int, skill: str) -> set[str]:
    """The ids of all sheets and signatures of a signer in a skill."""
    sheets = {row["id"]: row for row in shop.rows("sheet", skill=skill)}
    own = {f"sheet:{number}" for number, row in sheets.items() if row["done_by"] == signer}
    names = shop.rows("signature", done_by=signer)
    return own | {f"signature:{row['id']}" for row in names if row["sheet"] in sheets}


def _questions(shop: Shop, hands: Sequence[Hand], crew: Crew) -> Iterable[Also]:
    for hand in hands:
        for skill in hand.skills:
            asked = {item.question for check in skill.checks for item in check.items}
            forms = {row["form"] for row in shop.rows("form_item", question=sorted(asked))}
            rows = {f"result:{row['id']}" for row in shop.rows("result", form=sorted(forms), skill=skill.skill)}
            people = _hanging(shop, crew, rows, {hand.person}, skill.skill)
            if people:
                words = _("asked some of the same questions as {name}: {title}")
                yield Also("question", words.format(name=hand.name, title=skill.title), people, ())


def _hanging(shop: Shop, crew: Crew, rows: Collection[str], own: Collection[int], skill: str) -> tuple[AlsoPerson, ...]:
    """Whose standing in a skill rests on one of some rows, but for those looked back on."""
    if skill not in crew.scheme.by_id:
        return ()
    title = crew.scheme.skill_title(skill)
    others = [one for one in hanging_on(crew, rows, [skill]) if int(one.person) not in own]
    return tuple(
        AlsoPerson(int(one.person), person_view(shop, int(one.person)).name, skill, title, one.word) for one in others
    )


def _lots(shop: Shop, jobs: Sequence[JobView]) -> Iterable[Also]:
    here = {job.number for job in jobs}
    for lot in dict.fromkeys(lot for job in jobs for use in job.uses for lot in (use.lot_a, use.lot_b)):
        numbers = jobs_of_lot(shop, lot) - here
        if numbers:
            others = tuple(job_view(shop, shop.get("job", number)) for number in sorted(numbers))
            yield Also("lot", _("lot {lot}").format(lot=lot), (), others)


def jobs_of_lot(shop: Shop, lot: str) -> set[int]:
    """The numbers of the jobs in which a lot was used, on either side."""
    return {row["job"] for side in ("lot_a", "lot_b") for row in shop.rows("job_use", **{side: lot})}
