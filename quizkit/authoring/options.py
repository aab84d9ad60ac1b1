"""Options to choose from, items to put in order, pairs to match."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from quizkit.authoring.markdown import Chunk, inline_nodes
from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Stretch
from quizkit.authoring.spans import parted
from quizkit.authoring.tables import Table
from quizkit.authoring.texts import Names, kind_in, read_formula, shower
from quizkit.pack.model import Nodes, Option
from quizkit.units import Kind
from quizkit.words import _, ngettext

_TASK = re.compile(r"\[(?P<mark>[ \t]*(?P<x>[xX])?[ \t]*(?P<if>if\b[^\]`]*(?:`(?P<when>[^`]*)`)?[^\]`]*)?)\](?:\s+|$)")
_MEANT = re.compile(r"\[[ \txX]{0,3}\]|\[[ \t]*[xX][ \t]+if\b|\[[^\]]*\](?!\()")
PAIR_TITLES = ("pair", "with")
MOST = 26


def is_options(chunk: Chunk) -> bool:
    """Whether a list is one of options."""
    return chunk.kind == "bullet_list" and any(_MEANT.match(item.text) for item in chunk.items())


def read_options(notes: Notes, chunk: Chunk, names: Names, earlier: Mapping[str, Kind]) -> tuple[Option, ...]:
    """The options of a list; `earlier` holds the kinds that a condition may use. What cannot be read is told."""
    items = chunk.items()
    found = [option for item in items if (option := _option(notes, item, names, earlier)) is not None]
    if len(found) < len(items):
        return ()
    if len(found) < 2 or len(found) > MOST:
        what = ngettext("there is {n} option", "there are {n} options", len(found)).format(n=len(found))
        notes.tell("C03", items[0], what, _("write two to {most}").format(most=MOST))
    if not any(option.right for option in found):
        notes.tell("C02", items[0], _("no option is right"), _("mark the right one with [x]"))
    texts = [option.text for option in found]
    _check_alike(notes, items, texts, _("two options are alike"), _("change one, or delete it"))
    return tuple(found)


def _option(notes: Notes, item: Stretch, names: Names, earlier: Mapping[str, Kind]) -> Option | None:
    found = _TASK.match(item.text)
    if found is None:
        notes.tell(
            "C01",
            item.spot(0, len(item.text.split("\n")[0])),
            _("this option does not begin with [x] or [ ]"),
            _("write '- [x] ' for a right option, '- [ ] ' for a wrong one, a blank between the brackets"),
        )
        return None
    when = ""
    if found["if"]:
        condition = _condition(notes, item, found, names, earlier)
        if condition is None:
            return None
        when = condition
    text, feedback = parted(item.cut(found.end()))
    if not text.text:
        notes.tell("C01", item.spot(0, found.end()), _("this option says nothing"), _("write what can be chosen"))
        return None
    show = shower(notes, names, after=False)
    show_after = shower(notes, names, after=True)
    said = inline_nodes(feedback, show_after) if feedback is not None else ()
    return Option(inline_nodes(text, show), bool(found["x"]), when, said)


def _condition(
    notes: Notes, item: Stretch, found: re.Match[str], names: Names, earlier: Mapping[str, Kind]
) -> str | None:
    if not found["x"] or found["when"] is None:
        notes.tell(
            "C01",
            item.spot(0, found.end()),
            _("this condition cannot be read"),
            _("write it like [x if `level > limit`]"),
        )
        return None
    place = item.cut(found.start("when"), found.end("when"))
    formula = read_formula(notes, place, where=True)
    if formula is None or kind_in(notes, place, formula, names, earlier) is None:
        return None
    return formula.text


def _check_alike(notes: Notes, places: Sequence[Stretch], texts: Sequence[Nodes], what: str, mend: str) -> None:
    """Tell each text that reads like one before it."""
    seen: set[Nodes] = set()
    for place, text in zip(places, texts, strict=True):
        if text in seen:
            notes.tell("C04", place, what, mend)
        seen.add(text)


def read_order(notes: Notes, chunk: Chunk, names: Names) -> tuple[Nodes, ...]:
    """The items of a numbered list, in the right order."""
    items = chunk.items()
    show = shower(notes, names, after=False)
    found = tuple(inline_nodes(item, show) for item in items)
    start = re.match(r"\s*(\d+)", chunk.body.text)
    if start and int(start[1]) != 1:
        notes.tell("C05", chunk.body.spot(0, len(start[0])), _("the list does not begin with 1"), _("number it from 1"))
    if not 3 <= len(found) <= MOST:
        what = ngettext("there is {n} thing to put in order", "there are {n} things to put in order", len(found))
        notes.tell("C05", items[0], what.format(n=len(found)), _("write 3 to {most}").format(most=MOST))
    _check_alike(notes, items, found, _("two things to put in order are alike"), _("change one"))
    return found


def is_pair_table(table: Table) -> bool:
    """Whether a table is meant as the one of pairs."""
    return table.titles[:1] == ("pair",)


def read_pairs(notes: Notes, table: Table, names: Names) -> tuple[tuple[Nodes, Nodes], ...]:
    """The pairs of a table headed `Pair` and `With`."""
    if table.titles != PAIR_TITLES:
        notes.tell(
            "C06", table.head[0], _("this table is not headed 'Pair' and 'With'"), _("give it these two columns")
        )
        return ()
    show = shower(notes, names, after=False)
    pairs: list[tuple[Nodes, Nodes]] = []
    whole: list[tuple[Stretch, ...]] = []
    for row in table.rows:
        if len(row) < 2 or not row[0].text or not row[1].text:
            notes.tell(
                "C06", row[0] if row else table.head[0], _("a side of this pair is missing"), _("fill both cells")
            )
            continue
        whole.append(row)
        pairs.append((inline_nodes(row[0], show), inline_nodes(row[1], show)))
    if not 2 <= len(table.rows) <= MOST:
        what = ngettext("there is {n} pair", "there are {n} pairs", len(table.rows)).format(n=len(table.rows))
        notes.tell("C06", table.head[0], what, _("write 2 to {most}").format(most=MOST))
    for side in (0, 1):
        texts, places = [pair[side] for pair in pairs], [row[side] for row in whole]
        _check_alike(notes, places, texts, _("two cells of this column are alike"), _("change one"))
    return tuple(pairs)
