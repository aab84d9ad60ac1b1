"""quizkit: training and clearance quizzes for people who dispense two-part repair materials.

Importing the package is light: a room is imported when one of the names below is used.

- `compile_content(folder, cache=None)` compiles authored lessons into a `Pack`; `ContentError` carries every problem.
- `NoSuchVariant` is raised for a number that is no variant of a question.
- `open_shop(path)` opens a shop's file of records for the deeds and views of `quizkit.shop`.
"""

from importlib import import_module
from typing import Any

__version__ = "0.1.0"

_STANDS_IN = {
    "compile_content": "quizkit.authoring.content",
    "ContentError": "quizkit.authoring.content",
    "NoSuchVariant": "quizkit.pack.variant",
    "Pack": "quizkit.pack.model",
    "open_shop": "quizkit.shop",
}

__all__ = ["ContentError", "NoSuchVariant", "Pack", "compile_content", "open_shop"]


def __getattr__(name: str) -> Any:
    """A public name from its room, imported now."""
    if name not in _STANDS_IN:
        raise AttributeError(f"quizkit has no {name}")
    return getattr(import_module(_STANDS_IN[name]), name)
