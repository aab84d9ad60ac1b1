"""The diagnostics of the guide for authors: complete, each bad example gets its code, each good one does not."""

import re
from pathlib import Path

import pytest

from quizkit.authoring.codes import CODES
from quizkit.authoring.content import compile_folder

GUIDE = (Path(__file__).parents[2] / "content" / "AUTHORS.md").read_text(encoding="utf-8")
SECTION = GUIDE.split("\n## Diagnostics\n")[1]
CASES = Path(__file__).parent / "cases"
ENTRY = re.compile(r"^### (\w\d\d) ([a-z0-9-]+)(?: \((\w+)\))?\n(.*?)(?=^### |\Z)", re.M | re.S)
EXAMPLE = re.compile(r"^(Bad|Good): ?(.*?)\n(?:\n(`{3,})(\w+) (\w[\w.]*)\n(.*?)\n\3\n)?", re.M | re.S)
ENTRIES = {found[1]: found for found in ENTRY.finditer(SECTION)}
SHOWN = [
    (code, example[1], example[5], example[6])
    for code, entry in ENTRIES.items()
    for example in EXAMPLE.finditer(entry[4])
    if example[6] is not None
]

POOL = {
    "filler": "60 mL to 240 mL by 5 mL",
    "ratio": "10:1 by volume",
    "width": "6 mm to 12 mm by 0.1 mm",
    "length": "600 mm to 1500 mm by 50 mm",
    "price": "$14.50 to $29.50 by $0.50",
    "count": "1 to 40 by 1",
    "bay": "21 °C to 32 °C by 0.2 °C",
    "opened": "2026-01-05 to 2026-11-30 by 5 days",
}


def question(snippet: str) -> str:
    """A snippet of a question block inside a block that is otherwise in order."""
    lines = ["::: question example"]
    if "Topic:" not in snippet:
        lines.append("Topic: order")
    if "Use:" not in snippet:
        lines.append("Use: practice")
    if not re.match(r"[a-z ]*[A-Z][^:`|]*[.?]\n", snippet):
        lines += ["", "How much is it?"]
    used = [name for name in POOL if re.search(rf"`[^`\n]*\b{name}\b[^`\n]*`", snippet)]
    if used and "| Given" not in snippet:
        lines += ["", "| Given | Drawn from |", "| - | - |", *(f"| {name} | {POOL[name]} |" for name in used)]
    lines += ["", snippet]
    if not re.search(r"^(Answer|Ask|Anwser|Order)\b|^- \[|^\| Pair", snippet, re.M):
        lines += ["", "Answer: `7` exactly", "Plausible: 1 to 9"]
    return "\n".join(lines) + "\n:::\n"


PLACES = {
    "lesson": ("ratio-pairing/2-more.md", lambda text: f"# More\n\n{text}\n" if "# " not in text else f"{text}\n"),
    "question": ("ratio-pairing/2-more.md", lambda text: f"# More\n\n{question(text)}"),
    "sheet": ("ratio-pairing/signoff.md", lambda text: f"{text}\n"),
    "shelf": ("shelf.md", lambda text: f"{text}\n"),
    "shop.toml": ("shop.toml", lambda text: f"{text}\n" if "name =" in text else f'name = "X"\nzone = "UTC"\n{text}\n'),
    "module.toml": ("ratio-pairing/module.toml", lambda text: f"{text}\n"),
    "judges.csv": ("ratio-pairing/judges.csv", lambda text: f"{text}\n"),
}


def told(folder: Path, place: str, text: str) -> list[str]:
    """The codes that the small folder gets with a text in a place of it."""
    path, wrap = PLACES[place]
    (folder / path).write_text(wrap(text), encoding="utf-8")
    return [problem.code for problem in compile_folder(folder).problems]


def test_the_guide_lists_every_code_in_order_with_its_name_and_weight() -> None:
    listed = [(found[1], found[2], found[3] or "error") for found in ENTRIES.values()]
    assert listed == [(code.code, code.name, code.severity) for code in CODES.values()]


def test_every_code_has_a_cause_and_a_bad_and_a_good_example() -> None:
    for code, entry in ENTRIES.items():
        cause = entry[4].strip().split("\n\n")[0]
        assert len(cause) > 30, code
        assert [example[1] for example in EXAMPLE.finditer(entry[4])] == ["Bad", "Good"], code


def test_every_code_has_a_fixture_case() -> None:
    text = "".join(path.read_text(encoding="utf-8") for path in CASES.glob("*.md"))
    assert {code for code in CODES if not re.search(rf": \w+ {code} {CODES[code].name}: ", text)} == set()


@pytest.mark.parametrize(("code", "sort", "place", "text"), SHOWN, ids=[f"{code}-{sort}" for code, sort, *_ in SHOWN])
def test_an_example_of_the_guide_gets_the_code_that_it_stands_under(folder, code, sort, place, text) -> None:
    found = told(folder, place, text)
    assert (code in found) == (sort == "Bad"), found
    errors = [one for one in found if CODES[one].severity == "error" and one not in {"M09", "M14"}]
    assert set(errors) <= ({code} if sort == "Bad" else set()), "an example shows one mistake alone"
