"""Signing, refusing and observing sheets: by somebody entitled, never for oneself, kept whatever came of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from quizkit.formula import parse
from quizkit.pack.model import Module, Pack, Sheet
from quizkit.pack.nodes import plain
from quizkit.pack.sheets import judge_words
from quizkit.shop.doors import check_secret, drop_draft
from quizkit.shop.handle import Shop, Stored, note
from quizkit.shop.label import field_text, fields_shown
from quizkit.shop.overrides import past
from quizkit.shop.packs import current_hash, module_of, pack_of, settings
from quizkit.shop.people import day_at, here, may_see, not_oneself, person_view
from quizkit.shop.refusal import Forbidden, Lack, Lacking, Refusal
from quizkit.shop.rights import entitled, founding_behind, founding_words
from quizkit.shop.sheets import (
    SheetInput,
    judged_of,
    lacking,
    material_of,
    may_observe,
    measure_words,
    parked_name,
    sheet_of,
)
from quizkit.shop.terms import terms_from, terms_of, terms_text
from quizkit.standing.dates import after
from quizkit.units.declared import PLURALS
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class StepSeen:
    """A step of a stored sheet."""

    number: int
    words: str
    critical: bool
    seen: bool


@dataclass(frozen=True, slots=True)
class JudgedValue:
    """What a judge said when the sheet was stored."""

    name: str
    satisfied: bool
    shown: str
    limits: str


@dataclass(frozen=True, slots=True)
class SheetRecord:
    """A stored sheet, whole. `outcome` is "signed", "refused" or "observed"; `photo` is the key of its photo or "".

    `target` is what the judges took from the material's label then. `right` says by what right it was signed, itself a
    `founding` one or not, `rests_on_founding` the founding grants behind it, and `signatures` who signed an observed
    one, with number and day.
    """

    number: int
    person: int
    name: str
    skill: str
    title: str
    outcome: str
    material: str
    family: str
    ratio: str
    steps: tuple[StepSeen, ...]
    measures: tuple[tuple[str, str, str], ...]
    judged: tuple[JudgedValue, ...]
    target: tuple[tuple[str, str], ...]
    instrument: str
    seen_on: dt.date
    recorded_at: dt.datetime
    late: bool
    by: str
    observer: str
    right: str
    founding: bool
    rests_on_founding: tuple[str, ...]
    signatures: tuple[tuple[int, str, dt.datetime], ...]
    ticket: str
    note: str
    photo: str
    struck: str
    seal: str


def sign_sheet(shop: Shop, trainer: int, filled: SheetInput, *, now: dt.datetime, secret: str | None = None) -> int:
    """Sign a sheet and give its number.

    All critical steps seen, every judge satisfied, by somebody entitled on the day it was seen and today. With `secret`
    the passphrase is asked for once more. Refuses with everything that is lacking.
    """
    if secret is not None:
        check_secret(shop, trainer, secret, now=now)
    with shop.deed(now):
        module, sheet = sheet_of(shop, filled.skill)
        entitlement, founding = entitled(shop, trainer, filled.person, filled.skill, _days(shop, filled, now))
        missing = lacking(shop, sheet, filled)
        if missing:
            raise Lacking(_("This sheet cannot be signed as it stands"), missing)
        return _store(shop, trainer, filled, module, "signed", now, entitlement=entitlement, founding=founding)


def refuse_sheet(shop: Shop, trainer: int, filled: SheetInput, reason: str, *, now: dt.datetime) -> int:
    """Refuse a sheet, with a reason; it is kept, and ends the endorsement of its family and ratio."""
    with shop.deed(now):
        module, _sheet = sheet_of(shop, filled.skill)
        entitlement, founding = entitled(shop, trainer, filled.person, filled.skill, _days(shop, filled, now))
        words = note(reason, needed=True) + (f"\n{filled.note.strip()}" if filled.note.strip() else "")
        return _store(
            shop, trainer, filled, module, "refused", now, entitlement=entitlement, founding=founding, words=words
        )


def observe_sheet(shop: Shop, observer: int, filled: SheetInput, *, now: dt.datetime) -> int:
    """Record an observed sheet that clears nobody until a trainer signs it.

    By somebody entitled, or by a helper who is cleared in the skill. Refuses what could not be signed anyway.
    """
    with shop.deed(now):
        not_oneself(observer, filled.person)
        module, sheet = sheet_of(shop, filled.skill)
        if not may_observe(shop, observer, filled.skill, now):
            raise Forbidden(
                _("You are not cleared in {title}").format(title=module.scheme.title),
                _("a cleared helper or a trainer observes"),
            )
        missing = lacking(shop, sheet, filled)
        if missing:
            raise Lacking(_("This sheet could not be signed as it stands"), missing)
        return _store(shop, observer, filled, module, "observed", now, observer=observer)


def sign_observed(shop: Shop, trainer: int, sheets: Sequence[int], secret: str, *, now: dt.datetime) -> tuple[int, ...]:
    """Sign many observed sheets with one passphrase: all of them, or none and why."""
    if not sheets:
        raise Refusal(_("No sheet was chosen"), _("tick those that you sign"))
    check_secret(shop, trainer, secret, now=now)
    with shop.deed(now):
        return tuple(_countersign(shop, trainer, number, now) for number in dict.fromkeys(sheets))


def sheet_record(shop: Shop, viewer: int, sheet: int, *, now: dt.datetime) -> SheetRecord:
    """A stored sheet, for its person, a trainer or a manager."""
    row = shop.get("sheet", sheet)
    may_see(shop, viewer, row["person"])
    pack = pack_of(shop, row["pack"])
    module = module_of(pack, row["skill"])
    assert module.sheet is not None
    signatures = shop.rows("signature", sheet=sheet)
    signed = [each for each in (row, *signatures) if each["entitlement"] is not None]
    what = measure_words(module.sheet)
    struck = shop.row("strike", of_table="sheet", of_row=row["id"])
    return SheetRecord(
        number=row["id"],
        person=row["person"],
        name=person_view(shop, row["person"]).name,
        skill=row["skill"],
        title=module.scheme.title,
        outcome=row["outcome"],
        material=row["material"],
        family=row["family"],
        ratio=row["ratio"],
        steps=tuple(
            StepSeen(number, plain(step.text), step.critical, number in row["seen"])
            for number, step in enumerate(module.sheet.steps, 1)
        ),
        measures=tuple(
            (what[one.name], typed, one.unit if typed == "1" else PLURALS.get(one.unit, one.unit))
            for one in module.sheet.measures
            for typed in [row["measures"].get(one.name, "").strip()]
        ),
        judged=tuple(JudgedValue(**{**one, "name": judge_words(one["name"])}) for one in row["judged"]),
        target=_target(pack, module.sheet, row["material"]),
        instrument=row["instrument"],
        seen_on=row["seen_on"],
        recorded_at=row["recorded_at"],
        late=row["late"],
        by=person_view(shop, row["done_by"]).name,
        observer=person_view(shop, row["observer"]).name if row["observer"] else "",
        right="; ".join(dict.fromkeys(right_words(shop, each) for each in signed)),
        founding=bool(signed) and all(each["founding"] for each in signed),
        rests_on_founding=founding_words(shop, founding_behind(shop, row)),
        signatures=tuple(
            (each["id"], person_view(shop, each["done_by"]).name, each["recorded_at"]) for each in signatures
        ),
        ticket=row["ticket"] or "",
        note=row["note"],
        photo=row["photo"] or "",
        struck=struck["note"] if struck else "",
        seal=row["seal"],
    )


def _target(pack: Pack, sheet: Sheet, material: str) -> tuple[tuple[str, str], ...]:
    """What the judges of a sheet held the measured values against: the fields of the label that they name."""
    row = pack.shelf.row(material)
    paths = [path.split(".") for judge in sheet.judges for path in parse(judge.formula).paths]
    named = list(dict.fromkeys(path[1] for path in paths if path[0] == "material" and len(path) > 1))
    return fields_shown(pack, row, named) if row else ()


def photo(shop: Shop, viewer: int, sheet: int) -> tuple[bytes, str]:
    """The photo of a sheet's paper with its media type, for who may see the sheet. Raises Unknown where it is gone."""
    row = shop.get("sheet", sheet)
    may_see(shop, viewer, row["person"])
    found = shop.photo(row["photo"]) if row["photo"] else None
    if found is None:
        raise Refusal(_("This sheet has no photo (any more)"), _("go back to the sheet"))
    return found


def right_words(shop: Shop, row: Stored) -> str:
    """By what right a sheet or a signature was given: the entitlement, told as founding where it is."""
    if row["entitlement"] is None:
        return ""
    right = shop.get("entitlement", row["entitlement"])
    if row["founding"]:
        return _("founding entitlement {number}: {basis}").format(number=right["id"], basis=right["basis"])
    return _("entitlement {number}").format(number=right["id"])


def _days(shop: Shop, filled: SheetInput, now: dt.datetime) -> tuple[dt.date, ...]:
    """The days on which the right to sign must hold: the day it was seen, and today."""
    view = here(shop, filled.person)
    return tuple(dict.fromkeys((past(shop, view, filled.seen_on, now), day_at(shop, view, now))))


def _store(
    shop: Shop,
    by: int,
    filled: SheetInput,
    module: Module,
    outcome: str,
    now: dt.datetime,
    *,
    entitlement: int | None = None,
    founding: bool = False,
    observer: int | None = None,
    words: str | None = None,
) -> int:
    """Write a sheet with what was seen, measured and judged."""
    view, sheet = here(shop, filled.person), module.sheet
    assert sheet is not None
    material = material_of(shop, sheet, filled.material)
    day = past(shop, view, filled.seen_on, now)
    late = filled.late or day < day_at(shop, view, now)
    if late and not filled.photo:
        lack = Lack("photo", _("photograph the sheet that was filled in then"))
        raise Lacking(_("A late entry needs a photo of its paper"), [lack])
    terms = terms_of(settings(shop), module.scheme)
    number = shop.add(
        "sheet",
        by=by,
        seen_on=day,
        person=filled.person,
        skill=filled.skill,
        outcome=outcome,
        material=material.name if material else "",
        family=field_text(material, "family") if material else "",
        ratio=field_text(material, "ratio") if material else "",
        pack=current_hash(shop),
        seen=sorted(number for number in filled.seen if 1 <= number <= len(sheet.steps)),
        measures={one.name: filled.measures.get(one.name, "") for one in sheet.measures},
        judged=[
            {"name": one.name, "satisfied": bool(one.satisfied), "shown": one.shown, "limits": one.limits}
            for one in judged_of(shop, sheet, filled).judges
        ],
        instrument=filled.instrument.strip()[:120],
        late=late,
        observer=observer,
        entitlement=entitlement,
        founding=founding,
        ticket=filled.ticket.strip()[:60] or None,
        valid_until=after(day, terms.valid) if outcome == "signed" else None,
        terms=terms_text(terms),
        note=note(filled.note if words is None else words) or None,
        photo=shop.keep_photo(filled.photo, filled.person) if filled.photo else None,
    )
    drop_draft(shop, by, parked_name(filled.person, filled.skill), now=now)
    return number


def _countersign(shop: Shop, trainer: int, number: int, now: dt.datetime) -> int:
    row = shop.get("sheet", number)
    title = module_of(pack_of(shop, row["pack"]), row["skill"]).scheme.title
    name = _("{title}, {person}").format(title=title, person=person_view(shop, row["person"]).name)
    if row["outcome"] != "observed" or shop.row("strike", of_table="sheet", of_row=number) is not None:
        raise Refusal(_("{sheet}: this sheet is not to be signed").format(sheet=name), _("take it off the list"))
    struck = {each["of_row"] for each in shop.rows("strike", of_table="signature", person=row["person"])}
    if any(name["id"] not in struck for name in shop.rows("signature", sheet=number)):
        raise Refusal(_("{sheet}: this sheet is signed already").format(sheet=name), _("take it off the list"))
    today = day_at(shop, here(shop, row["person"]), now)
    entitlement, founding = entitled(shop, trainer, row["person"], row["skill"], (row["seen_on"], today))
    terms = terms_from(row["terms"])
    return shop.add(
        "signature",
        by=trainer,
        seen_on=today,
        sheet=number,
        person=row["person"],
        entitlement=entitlement,
        founding=founding,
        valid_until=after(row["seen_on"], terms.valid),
        terms=row["terms"],
    )
