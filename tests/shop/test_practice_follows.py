"""Practice follows the person: what is missed or weak comes first, what is solid comes back at growing gaps."""

import datetime as dt
import itertools

from quizkit import shop as deeds


def ask(floor, question: str = "", topic: str = "", skill: str = "ppe") -> deeds.Asked:
    return deeds.practise(floor.shop, floor.ann, skill, now=floor.later(minutes=1), question=question, topic=topic)


def answered(floor, asked: deeds.Asked, right: bool = True) -> str:
    """Answer a question, right or wrong in every part; the question's id."""
    typed = {part.name: floor.right(asked, part.name) for part in asked.question.parts}
    if not right:
        # An order from its end, and a number that none of these questions has.
        typed = {name: " ".join(reversed(text.split())) if text[1:2] == " " else "1" for name, text in typed.items()}
    deeds.answer_practice(floor.shop, floor.ann, asked.draw, typed, now=floor.later(seconds=20))
    return asked.question.question


def topics(floor) -> dict[str, str]:
    view = deeds.module_view(floor.shop, floor.ann, "ppe", now=floor.now)
    return {line.topic: line.word for line in view.topics}


def make_solid(floor, topic: str) -> None:
    for _turn in range(8):
        if topics(floor)[topic] == "solid":
            return
        answered(floor, ask(floor, topic=topic))
    raise AssertionError(topics(floor))


def test_the_weakest_topic_comes_first(floor) -> None:
    """Air is solid, the signs are not: a question about signs is next, and again once another lay between."""
    make_solid(floor, "air")
    assert topics(floor) == {"air": "solid", "signs": "not yet shown"}
    asked = [answered(floor, ask(floor)) for _turn in range(5)]
    assert asked[::2] == ["ppe/first"] * 3
    assert topics(floor)["signs"] == "solid"


def test_of_two_shaky_topics_the_lower_estimate_comes_first_however_often_it_was_met(floor) -> None:
    """Signs: three wrong and one right, .56 (worked by hand); air: one right, .6, and one question not met at all."""
    for right in (False, False, False, True):
        answered(floor, ask(floor, "ppe/first"), right=right)
    answered(floor, ask(floor, "ppe/shift-mean"))
    assert topics(floor) == {"air": "shaky", "signs": "shaky"}
    assert ask(floor).question.question == "ppe/first"


def test_the_question_just_practised_does_not_come_twice_in_a_row_while_there_is_another(floor) -> None:
    asked = [answered(floor, ask(floor, topic="air")) for _turn in range(5)]
    assert all(one != after for one, after in itertools.pairwise(asked))


def test_a_slip_that_came_up_comes_back_in_another_variant_and_says_so(floor) -> None:
    first = ask(floor, "ppe/shift-mean")
    answered(floor, first, right=False)
    answered(floor, ask(floor, "ppe/two-rooms"))
    again = ask(floor)
    assert again.question.question == "ppe/shift-mean"
    assert again.question.variant != first.question.variant
    assert again.question.prompt_html != first.question.prompt_html
    assert again.why == "You missed this one before. Here it is with new numbers."


def test_what_was_missed_longest_ago_comes_back_first(floor) -> None:
    for name in ("ppe/shift-mean", "ppe/two-rooms", "ppe/shift-mean"):
        answered(floor, ask(floor, name), right=False)
    answered(floor, ask(floor, "ppe/first"))
    assert ask(floor).question.question == "ppe/two-rooms"


def test_refreshers_come_at_growing_gaps(floor) -> None:
    make_solid(floor, "air")
    for days in (2, 7, 21):
        solid_at = floor.now
        floor.now = solid_at + dt.timedelta(days=days) - dt.timedelta(hours=1)
        assert topics(floor)["air"] == "solid"
        floor.later(hours=2)
        assert topics(floor)["air"] == "due"
        answered(floor, ask(floor, topic="air"))
        assert topics(floor)["air"] == "solid"


def test_a_refresher_comes_before_the_clearance_ends_though_its_gap_is_not_over(floor) -> None:
    """The last gap is 60 days; the clearance ends sooner, so the topic is due two days before."""
    floor.pass_check(floor.ann, "ppe")
    ends = floor.standing(floor.ann, "ppe").ends
    floor.now = dt.datetime.combine(ends, dt.time(16), dt.UTC) - dt.timedelta(days=55)
    make_solid(floor, "air")
    for days in (2, 7, 21):
        floor.later(days=days, hours=1)
        answered(floor, ask(floor, topic="air"))
    floor.now = dt.datetime.combine(ends, dt.time(), dt.UTC) - dt.timedelta(days=2, hours=1)
    assert topics(floor)["air"] == "solid"
    floor.later(hours=2)
    assert topics(floor)["air"] == "due"
    answered(floor, ask(floor, topic="air"))
    assert topics(floor)["air"] == "solid"


def test_practice_counts_towards_no_clearance(floor) -> None:
    make_solid(floor, "air")
    make_solid(floor, "signs")
    assert (floor.word(floor.ann, "ppe"), floor.standing(floor.ann, "ppe").ends) == ("learning", None)
