"""The face for programs: from a folder of lessons to a graded answer in a few lines, and light to import."""

import subprocess
import sys
from pathlib import Path

import pytest

import quizkit

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="module")
def pack() -> "quizkit.Pack":
    return quizkit.compile_content(CONTENT)


def test_a_typed_answer_is_graded_in_a_few_lines(pack: "quizkit.Pack") -> None:
    question = next(one for one in pack.questions() if [part.name for part in one.parts] == ["answer"] and one.givens)
    variant = pack.question(question.id).variant(question.numbers[3])
    verdict = variant.grade({"answer": variant.right("answer")})
    assert (verdict.marks, verdict.out_of, verdict.parts["answer"].outcome) == (1, 1, "right")
    assert "formula" not in repr(variant.public())


def test_a_hole_and_an_unknown_question_are_told_apart(pack: "quizkit.Pack") -> None:
    question = pack.question("ratio-pairing/hardener-share")
    with pytest.raises(quizkit.NoSuchVariant, match="hardener-share"):
        question.variant(10**9)
    with pytest.raises(KeyError):
        pack.question("ratio-pairing/nobody-wrote-this")


def test_content_with_a_mistake_carries_every_problem(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text('name = "Test"\nzoen = "UTC"\ntxa = "5 %"\n')
    with pytest.raises(quizkit.ContentError) as caught:
        quizkit.compile_content(tmp_path)
    told = [problem for problem in caught.value.problems if problem.code == "S02"]
    assert len(told) == 2


def test_importing_the_package_imports_no_room() -> None:
    heavy = ["numpy", "pint", "flask", "sqlite_utils", "jinja2", "markdown_it", "quizkit.units"]
    code = f"import quizkit, sys; print([name for name in {heavy!r} if name in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_an_unknown_public_name_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="nobody"):
        quizkit.nobody  # noqa: B018
