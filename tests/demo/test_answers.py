"""What the people of the demo type is read and marked as it is meant, for every question of the content."""

import pytest

import quizkit
from quizkit.demo import answers, content_folder
from quizkit.pack.model import Pack
from quizkit.shop import asking


@pytest.fixture(scope="module")
def pack() -> Pack:
    return quizkit.compile_content(content_folder())


def test_right_answers_are_right_and_wrong_ones_wrong_however_options_stand(pack: Pack) -> None:
    for question in pack.questions():
        for number in {question.numbers[0], question.numbers[len(question.numbers) // 2], question.numbers[-1]}:
            variant = asking.variant_of(pack, question.id, number, asking.arrangement(question, "demo", number))
            view = asking.question_view(pack, variant)
            assert variant.grade(answers.right(pack, view)).right, (question.id, number)
            missed = variant.grade(answers.wrong(pack, view))
            assert not missed.right and not missed.unread, (question.id, number)
