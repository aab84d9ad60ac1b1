"""A practical skill has a sheet, and a sheet belongs to a practical skill; a module has lessons."""

from __future__ import annotations

from collections.abc import Iterator

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.files import SHEET, ContentRead
from quizkit.authoring.keys import at
from quizkit.words import _


def check(content: ContentRead) -> Iterator[Diagnostic]:
    """Tell a practical module without a sheet, a sheet that nobody asks for, a module without lessons."""
    for module in content.modules:
        if module.toml is None:
            continue
        if not module.lessons and not module.broken:
            what = _("this module has no lessons")
            yield module.toml.problem("M14", Spot(), what, _("add a file like 1-first.md beside it"))
        if module.scheme is None:
            continue
        spot = at(module.toml, ("practical",))
        if module.scheme.practical and not module.has_sheet:
            what = _("'practical' is true, but there is no {file}").format(file=SHEET)
            yield module.toml.problem("M12", spot, what, _("write the sheet, or set practical = false"))
        elif module.has_sheet and not module.scheme.practical:
            what = _("there is a {file}, but 'practical' is not true").format(file=SHEET)
            yield module.toml.problem("M13", spot, what, _("set practical = true, or take the sheet away"))
