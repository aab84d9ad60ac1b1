"""What was compiled before: in memory for one process, in a folder for the next one.

Everything is found by what it was made of: the text of a block, what else it depends on, and the code itself. So a
cached result is the one a clean compile would give, and anything else in the folder is ignored.
"""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Callable
from functools import lru_cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any, TypeVar

import quizkit
from quizkit.authoring.blocks import Block
from quizkit.authoring.diagnostics import Diagnostic
from quizkit.authoring.lesson import Piece
from quizkit.authoring.source import Source, read_bytes, source_of
from quizkit.pack.codec import from_json, sha256, to_json
from quizkit.pack.shelf import Shelf

T = TypeVar("T")

ROOMS = ("arith.py", "units", "trade", "formula", "scoring", "pack", "authoring", "words")
"""The code that a compiled block depends on."""

MOST_ENTRIES = 50_000
"""More blocks than this in the folder, and those not used this time are taken away."""


@lru_cache(maxsize=1)
def code_version() -> str:
    """A hash over the code that compiles, and over the versions of the libraries it leans on."""
    root = Path(quizkit.__file__).parent
    digest = hashlib.sha256()
    for room in ROOMS:
        files = sorted((root / room).rglob("*.py")) if (root / room).is_dir() else [root / room]
        for file in files:
            digest.update(file.relative_to(root).as_posix().encode() + b"\0" + file.read_bytes() + b"\0")
    for library in ("markdown-it-py", "numpy"):
        try:
            digest.update(version(library).encode())
        except PackageNotFoundError:
            digest.update(b"?")
    return digest.hexdigest()


class Cache:
    """Remembers files, whatever was read from them, and compiled blocks.

    With a folder the blocks outlive the process; without one they last as long as the cache.
    """

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder
        self.blocks: dict[str, Piece] = {}
        self.keys: dict[str, list[str]] = {}
        self._sources: dict[str, tuple[bytes, Source | None, tuple[Diagnostic, ...]]] = {}
        self._read: dict[tuple[str, str], tuple[tuple[Any, ...], Any]] = {}
        self._shelf: tuple[Shelf, str] | None = None
        self.made = 0
        """How many blocks were compiled anew."""

    def source(self, folder: Path, path: str) -> tuple[Source | None, tuple[Diagnostic, ...]]:
        """A file read; the very same source as before where its bytes are."""
        data = read_bytes(folder, path)
        if isinstance(data, Diagnostic):
            return None, (data,)
        known = self._sources.get(path)
        if known is None or known[0] != data:
            known = self._sources[path] = (data, *source_of(path, data))
        return known[1], known[2]

    def once(self, what: str, path: str, made_of: tuple[Any, ...], make: Callable[[], T]) -> T:
        """What was made of these very objects before, or made now."""
        if self.knows(what, path, made_of):
            return self._read[what, path][1]  # type: ignore[no-any-return]
        made = make()
        self._read[what, path] = (made_of, made)
        return made

    def knows(self, what: str, path: str, made_of: tuple[Any, ...]) -> bool:
        """Whether something was made of these very objects before."""
        known = self._read.get((what, path))
        return known is not None and all(one is other for one, other in zip(known[0], made_of, strict=True))

    def block(self, path: str, block: Block, module: str, shelf: Shelf, make: Callable[[], Piece]) -> Piece:
        """A compiled block of the file `path`, found by its text and what it depends on, or compiled now."""
        key = self.key(block, module, shelf)
        self.keys.setdefault(path, []).append(key)
        piece = self.found(key)
        if piece is None:
            piece = make()
            self.store(key, piece)
            self.keep(key, piece)
        return piece

    def found(self, key: str) -> Piece | None:
        """The block of this key, where it was compiled before."""
        piece = self.blocks.get(key)
        if piece is None:
            piece = self._load(key)
            if piece is not None:
                self.blocks[key] = piece
        return piece

    def keep(self, key: str, piece: Piece) -> None:
        """Remember a block that was compiled anew."""
        self.blocks[key] = piece
        self.made += 1

    def key(self, block: Block, module: str, shelf: Shelf) -> str:
        """The address of a block: only a question depends on its module, only one that draws from it on the shelf."""
        text = "\n".join(block.lines)
        parts = [code_version(), block.kind, block.id, str(block.whole)]
        if block.kind == "question":
            parts += [module, self._shelf_hash(shelf) if "shelf" in text else ""]
        return hashlib.sha256("\0".join([*parts, text]).encode()).hexdigest()

    def _shelf_hash(self, shelf: Shelf) -> str:
        if self._shelf is None or self._shelf[0] is not shelf:
            self._shelf = (shelf, sha256(shelf))
        return self._shelf[1]

    def _file(self, key: str) -> Path | None:
        return None if self.folder is None else self.folder / key[:2] / f"{key[2:]}.json"

    def _load(self, key: str) -> Piece | None:
        """A block from the folder; one that does not match its own hash, or cannot be read, counts as missing."""
        file = self._file(key)
        if file is None:
            return None
        try:
            seal, _line, data = file.read_bytes().partition(b"\n")
            if hashlib.sha256(data).hexdigest().encode() != seal:
                return None
            return from_json(Piece, data)
        except (OSError, ValueError, KeyError, TypeError):
            return None

    def store(self, key: str, piece: Piece) -> None:
        """Keep a block for the next process; a folder that cannot be written only costs time."""
        file = self._file(key)
        if file is None:
            return
        data = to_json(piece)
        try:
            file.parent.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=file.parent)
            with os.fdopen(handle, "wb") as stream:
                stream.write(hashlib.sha256(data).hexdigest().encode() + b"\n" + data)
            os.replace(name, file)
        except OSError:
            return

    def forget(self, path: str) -> None:
        """A file is read anew: the blocks that it had need not be kept for it."""
        self.keys.pop(path, None)

    def tidy(self) -> None:
        """Take away what no file needs, where much has piled up."""
        needed = {key for keys in self.keys.values() for key in keys}
        if len(self.blocks) > 2 * len(needed):
            self.blocks = {key: piece for key, piece in self.blocks.items() if key in needed}
        if self.folder is None or not self.made or not self.folder.is_dir():
            return
        files = list(self.folder.glob("??/*.json"))
        if len(files) > MOST_ENTRIES:
            for file in files:
                if file.parent.name + file.stem not in needed:
                    file.unlink(missing_ok=True)
