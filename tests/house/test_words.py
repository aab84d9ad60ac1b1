"""Every text passes through one catalogue, and English needs none."""

from quizkit.words import _, catalogue, ngettext


def test_a_text_without_a_translation_stays_as_written() -> None:
    assert _("Air off and bled first.", language="es") == "Air off and bled first."


def test_a_count_picks_its_form() -> None:
    assert [ngettext("{n} person", "{n} people", n).format(n=n) for n in (1, 2)] == ["1 person", "2 people"]


def test_a_catalogue_is_read_once() -> None:
    assert catalogue("en") is catalogue("en")
