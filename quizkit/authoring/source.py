"""Reading what a trainer saved: bytes of a file into lines of characters, or the reason why not."""

from __future__ import annotations

import os
import re
from bisect import bisect_right
from dataclasses import dataclass
from itertools import accumulate
from pathlib import Path

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.words import _

MOST_BYTES = 16_000_000
LONGEST_LINE = 10_000

# Tab, line feed and carriage return are text; nothing else below a space can be typed on purpose.
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]")


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of a file that knows where it stands.

    `text` may hold several lines; its first character is at `line`, `column` (from 1), each further
    line begins at column 1.
    """

    text: str
    line: int = 1
    column: int = 1

    def spot(self, start: int = 0, end: int | None = None) -> Spot:
        """The place of `text[start:end]`; what runs over the end of a line is shown up to there."""
        end = len(self.text) if end is None else end
        line_start = self.text.rfind("\n", 0, start) + 1
        line_end = self.text.find("\n", start)
        stop = end if line_end < 0 else min(end, line_end)
        row = self.text.count("\n", 0, start)
        column = start - line_start + (1 if row else self.column)
        return Spot(self.line + row, column, max(1, stop - start))

    def cut(self, start: int, end: int | None = None) -> Stretch:
        """The stretch of `text[start:end]`."""
        if start >= 0 and "\n" not in self.text:
            return Stretch(self.text[start:end], self.line, self.column + start)
        spot = self.spot(start)
        return Stretch(self.text[start:end], spot.line, spot.column)

    def strip(self) -> Stretch:
        """Without white space at both ends."""
        if self.text == self.text.strip():
            return self
        start = len(self.text) - len(self.text.lstrip())
        return self.cut(start, max(start, len(self.text.rstrip())))


@dataclass(frozen=True, slots=True)
class Source:
    """One file: its path relative to the content folder, and its lines without their ends."""

    path: str
    lines: tuple[str, ...]

    def problem(self, code: str, spot: Spot, what: str, mend: str = "") -> Diagnostic:
        """A diagnostic at a place in this file, with the line as typed."""
        line = self.lines[spot.line - 1] if 0 < spot.line <= len(self.lines) else ""
        return Diagnostic(self.path, spot, code, what, mend, line)


def read_bytes(folder: Path, path: str) -> bytes | Diagnostic:
    """The bytes of the file `path` (relative to `folder`, forward slashes), or why they cannot be read or are not.

    Never raises for what stands on the disk.
    """
    file = folder / path
    try:
        if _leads_out(folder, file):
            return Diagnostic(
                path,
                Spot(),
                "F01",
                _("this is a link to a file outside the content folder"),
                _("put a copy of the file here"),
            )
        with file.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except FileNotFoundError:
        return Diagnostic(path, Spot(), "F08", _("this file is missing"), _("make it, or check its name"))
    except (OSError, RuntimeError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        return Diagnostic(
            path,
            Spot(),
            "F02",
            _("this file cannot be read: {reason}").format(reason=reason),
            _("check that it is a file and that you may read it"),
        )
    if len(data) > MOST_BYTES:
        return Diagnostic(
            path,
            Spot(),
            "F06",
            _("this file is over {size} MB").format(size=MOST_BYTES // 1_000_000),
            _("split the lesson; keep pictures in files of their own"),
        )
    return data


def _leads_out(folder: Path, file: Path) -> bool:
    """Whether a link, of the file or of its folder, leads out of the content folder."""
    if not os.path.islink(file) and not os.path.islink(file.parent):
        return False
    return not file.resolve().is_relative_to(folder.resolve())


def source_of(path: str, data: bytes) -> tuple[Source | None, tuple[Diagnostic, ...]]:
    """Turn the bytes of a file into a source: byte-order mark and carriage returns dropped.

    Gives None and every reason where it is not plain UTF-8 text with lines of a bearable length.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # utf-8-sig counts from behind the mark it dropped
        mark = 3 if data.startswith(b"\xef\xbb\xbf") else 0
        return None, (_not_utf_8(path, data[mark:], error.start),)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    lines = tuple(text.removesuffix("\n").split("\n"))
    source = Source(path, lines)
    problems = (*_controls(source, text), *_long_lines(source))
    return (None, problems) if problems else (source, ())


def _not_utf_8(path: str, data: bytes, start: int) -> Diagnostic:
    before = data[:start].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    line_start = before.rfind(b"\n") + 1
    line = before.count(b"\n") + 1
    column = len(before[line_start:].decode("utf-8", "replace")) + 1
    return Diagnostic(
        path,
        Spot(line, column),
        "F03",
        _("this file is not in UTF-8: the byte {byte:02X} stands here").format(byte=data[start]),
        _("save it again with the encoding 'UTF-8'"),
    )


def _controls(source: Source, text: str) -> tuple[Diagnostic, ...]:
    found = _CONTROL.search(text)
    if found is None:
        return ()
    starts = list(accumulate((len(line) + 1 for line in source.lines), initial=0))
    row = bisect_right(starts, found.start()) - 1
    spot = Spot(row + 1, found.start() - starts[row] + 1)
    number = ord(found.group())
    what = _("a NUL stands here") if number == 0 else _("an invisible control character stands here")
    what += f" (U+{number:04X})"
    return (source.problem("F04", spot, what, _("delete it, or save the file again as plain text in UTF-8")),)


def _long_lines(source: Source) -> tuple[Diagnostic, ...]:
    return tuple(
        source.problem(
            "F05",
            Spot(number, LONGEST_LINE + 1),
            _("this line has {count} characters, over {most}").format(count=len(line), most=LONGEST_LINE),
            _("break the line; keep pictures in files of their own"),
        )
        for number, line in enumerate(source.lines, 1)
        if len(line) > LONGEST_LINE
    )
