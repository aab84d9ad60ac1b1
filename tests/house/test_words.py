"""Every text passes through one catalogue, and English needs none."""

import ast
import re
from pathlib import Path

import pytest

from quizkit.words import _, catalogue, ngettext

PACKAGE = Path(__file__).parents[2] / "quizkit"
TEMPLATES = sorted((PACKAGE / "pages/templates").glob("*.html"))
MODULES = sorted(PACKAGE.rglob("*.py"))
SAYING = {"Refusal", "Forbidden", "Unknown", "Waiting", "StoreTrouble", "problem", "ArithError", "Refused", "UnitError"}
"""What says something to a person: the texts in its call come from the catalogue."""
NOT_READ = re.compile(
    r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}|<style>.*?</style>|<script.*?</script>|&\w+;|"
    r"\{% block (width|bench) %\}.*?\{% endblock %\}",
    re.S,
)
SPOKEN = re.compile(r'(?:aria-label|title|placeholder|alt)="([^"]*)"')

BRITISH = re.compile(
    r"\b(practis|\w*colour|vapour|programme\b|\w*(?:met|lit|cent|fib)res?\b|grey|\w*[bcv]elled|\w*[bcv]elling\b|"
    r"judgement|licence|cheque|mould|catalogue|behaviour|favour|neighbour|odour|labour|honour|defence|offence|"
    r"(?:fulfil|enrol|instil)s?\b|skilful|learnt|spelt|whilst|towards|afterwards|tyre|kerb|aluminium|sulphur|draught|"
    r"(?:anal|paral)yse|(?:recogn|organ|author|categor|summar|real|minim|maxim|standard|atom|pressur|equal)is(?:e|ing|ation))",
    re.I,
)
"""Spellings that a shop in the United States would not write."""
DOCUMENTS = sorted([PACKAGE.parent / "README.md", *(PACKAGE.parent / "content").rglob("*.*")])
"""What is read beside the pages."""


def test_a_text_without_a_translation_stays_as_written() -> None:
    assert _("Air off and bled first.", language="es") == "Air off and bled first."


def test_a_count_picks_its_form() -> None:
    assert [ngettext("{n} person", "{n} people", n).format(n=n) for n in (1, 2)] == ["1 person", "2 people"]


def test_a_catalogue_is_read_once() -> None:
    assert catalogue("en") is catalogue("en")


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_has_no_words_of_its_own(path: Path) -> None:
    """What stands outside a call of the catalogue is tags and signs; attributes that are read aloud as well."""
    text = re.sub(r"(\{% block width %\})\w+", r"\1", path.read_text(encoding="utf-8"))
    text = NOT_READ.sub(" ", text)
    words = [*SPOKEN.findall(text), re.sub(r"<[^>]*>", " ", text)]
    assert [word for part in words for word in re.findall(r"[A-Za-z]{2,}", part)] == []


def spoken(given: ast.expr) -> bool:
    """Whether an argument is a text of its own, or one put together with words in it."""
    if isinstance(given, ast.JoinedStr):
        return any(isinstance(part, ast.Constant) and re.search(r"[a-z]{3}", str(part.value)) for part in given.values)
    return isinstance(given, ast.Constant) and re.search(r"[a-z]{2} [a-z]{3}", str(given.value)) is not None


def test_nothing_said_to_a_person_goes_past_the_catalogue() -> None:
    past = [
        f"{path.relative_to(PACKAGE)}:{call.lineno}"
        for path in MODULES
        for call in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(call, ast.Call) and getattr(call.func, "id", getattr(call.func, "attr", "")) in SAYING
        for given in call.args
        if spoken(given)
    ]
    assert past == []


def read_by_people(path: Path) -> list[str]:
    """The texts of a Python file that may reach a person; what a command or a sum says of itself too."""
    nodes = list(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
    notes = {id(one.value) for one in nodes if isinstance(one, ast.Expr)}
    if {"cli", "trade"} & set(path.relative_to(PACKAGE).parts):
        spoken_of = [one.body[0] for one in nodes if isinstance(one, ast.FunctionDef) and one.decorator_list]
        notes -= {id(one.value) for one in spoken_of if isinstance(one, ast.Expr)}
    return [
        one.value
        for one in nodes
        if isinstance(one, ast.Constant) and isinstance(one.value, str) and id(one) not in notes
    ]


@pytest.mark.parametrize("path", [*MODULES, *TEMPLATES, *DOCUMENTS], ids=lambda path: path.name)
def test_what_people_read_is_spelled_as_in_the_united_states(path: Path) -> None:
    """Addresses, names of commands and of units keep theirs: none of them starts with a capital or has a space."""
    if path.suffix == ".py":
        texts = [] if path.name == "declared.py" else read_by_people(path)
    elif path.suffix == ".html":
        source = path.read_text(encoding="utf-8")
        texts = [text for _quote, text in re.findall(r"""[(,]\s*(["'])(.*?)\1""", source)]
    else:
        texts = [path.read_text(encoding="utf-8")]
    read = [text for text in texts if re.search(r"^[A-Z]| ", text)]
    assert [word.group() for text in read for word in BRITISH.finditer(text)] == []
