"""A sheet: what a trainer observes against, the values measured, and what the judges say of them as they are typed."""

from __future__ import annotations

import datetime as dt
import json
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from quizkit.formula import Row
from quizkit.pack.html import render
from quizkit.pack.model import Module, Sheet
from quizkit.pack.nodes import plain
from quizkit.pack.sheets import SheetJudged, judge_words
from quizkit.pack.sheets import judge_sheet as judged_by
from quizkit.pack.shelf import stocked
from quizkit.pack.shown import lesson_figure
from quizkit.scoring.reading import LONGEST_ANSWER
from quizkit.shop.doors import draft, draft_kept, drop_draft, keep_draft
from quizkit.shop.handle import Shop, note
from quizkit.shop.label import field_text, invented, style_of
from quizkit.shop.packs import current_pack, module_of, scheme_of
from quizkit.shop.people import PersonView, day_at, here
from quizkit.shop.refusal import Forbidden, Lack, Refusal, Unknown
from quizkit.shop.rights import right_of
from quizkit.shop.standings import StandingView, record_of, standing_view
from quizkit.standing.standing import standing_of
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class SheetInput:
    """What stands on a sheet as filled in. `seen` are numbers of steps; `measures` as typed; `seen_on` None is today.

    `late` is a paper sheet entered afterwards; its `photo` (JPEG or PNG bytes) goes with it.
    """

    person: int
    skill: str
    material: str = ""
    seen: frozenset[int] = frozenset()
    measures: Mapping[str, str] = field(default_factory=dict)
    instrument: str = ""
    seen_on: dt.date | None = None
    note: str = ""
    photo: bytes = b""
    late: bool = False
    ticket: str = ""


@dataclass(frozen=True, slots=True)
class StepView:
    """A step, whether it is critical, and whether it was ticked as seen."""

    number: int
    html: str
    critical: bool
    seen: bool


@dataclass(frozen=True, slots=True)
class MaterialPick:
    """A row of the shelf that this sheet may use."""

    id: str
    name: str
    family: str
    ratio: str
    picked: bool


@dataclass(frozen=True, slots=True)
class MeasureView:
    """A value to measure: its unit, what it is, what was typed and what of that was not understood."""

    name: str
    unit: str
    what_html: str
    typed: str
    unread: str


@dataclass(frozen=True, slots=True)
class JudgeView:
    """A judge: satisfied, not satisfied, or None while values are missing."""

    name: str
    satisfied: bool | None
    shown: str
    limits: str
    words_html: str


@dataclass(frozen=True, slots=True)
class SheetView:
    """A sheet as it stands for one person. `lacking` says what keeps it from being signed as it is; `parked_at` is when
    what stands on it was parked.
    """

    person: int
    name: str
    skill: str
    title: str
    sheet_title: str
    standing: StandingView
    purpose_html: str
    steps: tuple[StepView, ...]
    materials: tuple[MaterialPick, ...]
    measures: tuple[MeasureView, ...]
    judged: tuple[JudgeView, ...]
    instrument: str
    seen_on: dt.date
    note: str
    late: bool
    ticket: str
    may_sign: bool
    why_not: str
    lacking: tuple[Lack, ...]
    parked: bool
    parked_at: dt.datetime | None
    invented: bool


def open_sheet(shop: Shop, trainer: int, person: int, skill: str, *, now: dt.datetime) -> SheetView:
    """The sheet of a person and a skill, with what this trainer has parked of it. Raises Unknown and Refusal."""
    _may_look(shop, trainer, person, skill, now)
    name = parked_name(person, skill)
    kept = _from_draft(person, skill, draft(shop, trainer, name))
    return _view(shop, trainer, kept, now, draft_kept(shop, trainer, name))


def judge_sheet(shop: Shop, trainer: int, filled: SheetInput, *, now: dt.datetime) -> SheetView:
    """The sheet as filled in, every value judged as typed. Nothing is written. Raises Unknown and Refusal."""
    _may_look(shop, trainer, filled.person, filled.skill, now)
    return _view(shop, trainer, filled, now)


def may_observe(shop: Shop, observer: int, skill: str, now: dt.datetime) -> bool:
    """Whether somebody may watch others at a skill and record it: entitled, or cleared in it as a helper."""
    view = here(shop, observer)
    own = standing_of(record_of(shop, observer, now), scheme_of(shop), skill)
    return own.clear or right_of(shop, observer, skill, day_at(shop, view, now)).holds


def _may_look(shop: Shop, viewer: int, person: int, skill: str, now: dt.datetime) -> None:
    """A sheet shows where somebody stands: to trainers, managers and who may observe it. Raises Forbidden."""
    sheet_of(shop, skill)
    if here(shop, viewer).role in ("trainer", "manager"):
        return
    if viewer == person or not may_observe(shop, viewer, skill, now):
        raise Forbidden(_("This sheet is not yours to fill in"), _("a trainer or a cleared helper does that"))


def park_sheet(shop: Shop, trainer: int, filled: SheetInput, *, now: dt.datetime) -> None:
    """Keep a half-done sheet; it is one sign-in away. Raises Unknown and Refusal."""
    _may_look(shop, trainer, filled.person, filled.skill, now)
    here(shop, filled.person)
    keep_draft(shop, trainer, parked_name(filled.person, filled.skill), _to_draft(filled), now=now)


def drop_parked(shop: Shop, trainer: int, person: int, skill: str, *, now: dt.datetime) -> None:
    """Let a parked sheet go."""
    drop_draft(shop, trainer, parked_name(person, skill), now=now)


def parked_name(person: int, skill: str) -> str:
    """The name under which a half-done sheet is kept."""
    return f"sheet:{person}:{skill}"


def sheet_of(shop: Shop, skill: str) -> tuple[Module, Sheet]:
    """The module and sheet of a skill. Refuses where the skill has no sheet."""
    module = module_of(current_pack(shop), skill)
    if module.sheet is None:
        raise Refusal(_("{title} has no sheet").format(title=module.scheme.title), _("its check alone clears"))
    return module, module.sheet


def material_of(shop: Shop, sheet: Sheet, name: str) -> Row | None:
    """The shelf row that a sheet was done with; None for a sheet without material. Refuses one that does not fit."""
    if not sheet.materials:
        return None
    if not name:
        raise Refusal(_("No material is picked"), _("pick the one that was used"))
    row = current_pack(shop).shelf.row(name)
    if row is None or name not in sheet.materials:
        raise Unknown(_("This sheet knows no material '{name}'").format(name=name[:40]), _("pick one from the list"))
    return row


def judged_of(shop: Shop, sheet: Sheet, filled: SheetInput) -> SheetJudged:
    """What the judges say of a filled sheet; an unknown material judges nothing that needs it."""
    row = current_pack(shop).shelf.row(filled.material) if filled.material in sheet.materials else None
    typed = {name: text[: LONGEST_ANSWER + 1] for name, text in filled.measures.items()}
    return judged_by(sheet, typed, row, style_of(current_pack(shop)))


def measure_words(sheet: Sheet) -> dict[str, str]:
    """What each measured value is, by its name; the name stands behind words that several of them share."""
    words = {one.name: plain(one.what) for one in sheet.measures}
    said = Counter(words.values())
    return {name: text if said[text] == 1 else f"{text} ({name})" for name, text in words.items()}


def lacking(shop: Shop, sheet: Sheet, filled: SheetInput) -> tuple[Lack, ...]:
    """What keeps a filled sheet from being signed, in the order of the sheet."""
    found = []
    if sheet.materials and filled.material not in sheet.materials:
        found.append(Lack("material", _("no material is picked")))
    missing = [number for number, step in enumerate(sheet.steps, 1) if step.critical and number not in filled.seen]
    if missing:
        found.append(Lack(f"seen-{missing[0]}", _not_seen(missing)))
    judged, what = judged_of(shop, sheet, filled), measure_words(sheet)
    for one in judged.measured:
        if one.value is None:
            why = one.unread or _("not measured")
            found.append(Lack(f"measure.{one.name}", _("{name}: {why}").format(name=what[one.name], why=why)))
    for judge in judged.judges:
        if judge.satisfied is False:
            words, name = _("{name}: {shown}, it should be {limits}"), judge_words(judge.name)
            found.append(Lack("judged", words.format(name=name, shown=judge.shown, limits=judge.limits)))
    if sheet.measures and not filled.instrument.strip():
        found.append(Lack("instrument", _("the instrument is missing: its number and smallest step")))
    return tuple(found)


def _not_seen(steps: list[int]) -> str:
    if len(steps) == 1:
        return _("step {number} must be seen and was not").format(number=steps[0])
    return _("steps {numbers} must be seen and were not").format(numbers=", ".join(map(str, steps)))


def _view(
    shop: Shop, trainer: int, filled: SheetInput, now: dt.datetime, parked_at: dt.datetime | None = None
) -> SheetView:
    """The view of a filled sheet."""
    pack, person = current_pack(shop), here(shop, filled.person)
    module, sheet = sheet_of(shop, filled.skill)
    today = day_at(shop, person, now)
    seen_on = filled.seen_on or today
    right = right_of(shop, trainer, filled.skill, today, filled.person)
    judged = judged_of(shop, sheet, filled)
    unread = {one.name: one.unread for one in judged.measured}
    return SheetView(
        person=person.person,
        name=person.name,
        skill=filled.skill,
        title=module.scheme.title,
        sheet_title=sheet.title,
        standing=_standing(shop, person, filled.skill, now),
        purpose_html=render(sheet.body, lesson_figure),
        steps=tuple(
            StepView(number, render(step.text), step.critical, number in filled.seen)
            for number, step in enumerate(sheet.steps, 1)
        ),
        materials=_picks(shop, sheet, filled.material, seen_on),
        measures=tuple(
            MeasureView(one.name, one.unit, render(one.what), filled.measures.get(one.name, ""), unread[one.name])
            for one in sheet.measures
        ),
        judged=tuple(
            JudgeView(judge_words(one.name), one.satisfied, one.shown, one.limits, one.words) for one in judged.judges
        ),
        instrument=filled.instrument,
        seen_on=seen_on,
        note=filled.note,
        late=filled.late,
        ticket=filled.ticket,
        may_sign=right.holds,
        why_not="; ".join(reason.words() for reason in right.because),
        lacking=lacking(shop, sheet, filled),
        parked=parked_at is not None,
        parked_at=parked_at,
        invented=invented(pack),
    )


def _standing(shop: Shop, person: PersonView, skill: str, now: dt.datetime) -> StandingView:
    return standing_view(standing_of(record_of(shop, person.person, now), scheme_of(shop), skill))


def _picks(shop: Shop, sheet: Sheet, picked: str, day: dt.date) -> tuple[MaterialPick, ...]:
    rows = [row for row in current_pack(shop).shelf.rows if row.name in sheet.materials and stocked(row, day)]
    return tuple(
        MaterialPick(row.name, row.name, field_text(row, "family"), field_text(row, "ratio"), row.name == picked)
        for row in rows
    )


def _to_draft(filled: SheetInput) -> dict[str, str]:
    return {
        "material": filled.material,
        "seen": " ".join(str(number) for number in sorted(filled.seen)),
        "measures": json.dumps(dict(filled.measures), ensure_ascii=False),
        "instrument": filled.instrument,
        "seen_on": filled.seen_on.isoformat() if filled.seen_on else "",
        "note": note(filled.note),
        "late": "yes" if filled.late else "",
        "ticket": filled.ticket,
    }


def _from_draft(person: int, skill: str, kept: Mapping[str, str]) -> SheetInput:
    return SheetInput(
        person=person,
        skill=skill,
        material=kept.get("material", ""),
        seen=frozenset(int(number) for number in kept.get("seen", "").split()),
        measures=json.loads(kept.get("measures") or "{}"),
        instrument=kept.get("instrument", ""),
        seen_on=dt.date.fromisoformat(kept["seen_on"]) if kept.get("seen_on") else None,
        note=kept.get("note", ""),
        late=bool(kept.get("late")),
        ticket=kept.get("ticket", ""),
    )
