"""Fairness: no two forms alike, a retake asks anew, and what help was given stands with the form."""

from quizkit import shop as deeds


def asked(floor, form: int) -> list[tuple[str, int]]:
    """The questions of a form with their variants, in the order asked."""
    return [(row["question"], row["variant"]) for row in floor.shop.rows("form_item", form=form)]


def test_forms_of_different_people_are_not_alike(floor) -> None:
    add = {"role": "apprentice", "site": "north", "secret": "4826", "by": floor.manager}
    people = [deeds.add_person(floor.shop, name=f"Pat {n}", now=floor.now, **add) for n in range(8)]
    forms = [deeds.start_check(floor.shop, person, "ppe", now=floor.now) for person in people]
    assert len({tuple(asked(floor, form)) for form in forms}) == len(forms)
    assert len({tuple(name for name, _variant in asked(floor, form)) for form in forms}) > 1
    rows = [floor.shop.rows("form_item", form=form) for form in forms]
    orders = {str([row["ordering"] for row in each if row["question"] == "ppe/flame"]) for each in rows}
    assert len(orders) > 1, "the options of a choice come in different orders"


def test_a_retake_gives_new_numbers_while_there_are_any_and_another_order(floor) -> None:
    first = floor.fail_check(floor.ann, "ppe")
    second = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.later(hours=25))
    before, after = dict(asked(floor, first)), dict(asked(floor, second))
    many = {"ppe/shift-mean", "ppe/two-rooms"} & set(before) & set(after)
    assert many
    assert all(before[name] != after[name] for name in many)
    assert asked(floor, first) != asked(floor, second)


def test_a_retake_repeats_a_question_only_where_its_topic_has_no_other(floor) -> None:
    """Three questions of the topic, three asked: each comes again; nothing else of the module does."""
    floor.pass_check(floor.ann, "ppe")
    first = floor.fail_check(floor.ann, "pairing")
    second = deeds.start_check(floor.shop, floor.ann, "pairing", now=floor.later(hours=25))
    assert {name for name, _variant in asked(floor, second)} == {name for name, _variant in asked(floor, first)}
    assert not set(asked(floor, second)) & set(asked(floor, first))


def test_the_form_keeps_its_language_and_its_help(floor) -> None:
    told = {"language": "es", "help": "more time", "helper": "Tess Orr"}
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now, **told)
    row = floor.shop.get("form", form)
    assert (row["language"], row["help"], row["helper"]) == ("es", "more time", "Tess Orr")
    other = deeds.start_check(floor.shop, floor.ben, "ppe", now=floor.now)
    assert floor.shop.get("form", other)["language"] == "en", "the person's own where none is said"


def test_a_form_is_on_record_whole_before_anything_of_it_is_shown(floor) -> None:
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    with deeds.open_shop(floor.path) as again:
        rows = again.rows("form_item", form=form)
    assert [row["item"] for row in rows] == [1, 2, 3, 4]
    assert all(row["ordering"] for row in rows if row["question"] in ("ppe/flame", "ppe/skull"))


def test_what_is_for_practice_only_is_asked_in_no_check(floor) -> None:
    forms = [deeds.start_check(floor.shop, person, "ppe", now=floor.now) for person in (floor.ann, floor.ben)]
    assert "ppe/first" not in {name for form in forms for name, _variant in asked(floor, form)}
