"""The kind words of declarations that stand for several kinds, and how arguments are held to them."""

from quizkit.units import CONCENTRATION, MASS, PPM, VOLUME, Kind, KindError, kind
from quizkit.words import _

RATIO_AMOUNTS = {"ratio by volume": VOLUME, "ratio by weight": MASS}

ONE_OF: dict[str, tuple[tuple[Kind, ...], str]] = {
    "amount": ((VOLUME, MASS), "a volume or a mass"),
    "exposure": ((PPM, CONCENTRATION), "a level in ppm or in mg/m³"),
    "exposure each": ((PPM, CONCENTRATION), "a level in ppm or in mg/m³"),
}
"""Words for one of a few kinds, the same one throughout a sum ('each': throughout one repeated group)."""


def argument_kind(word: str, got: Kind, bound: dict[str, Kind]) -> None:
    """Hold one argument to its word; `bound` keeps what the words of this call already stand for.

    Raises KindError with what was wanted and what was got.
    """
    if word in ("ratio", "ratio by volume"):
        if not got.special.startswith(word if word != "ratio" else "ratio by"):
            raise _wrong(
                _("a ratio") if word == "ratio" else str(kind(word)), got, _("a ratio says by volume or by weight")
            )
    elif word == "amount of ratio":
        _amount_of_ratio(got, bound)
    elif word in ONE_OF or word == "same":
        _one_of(word, got, bound)
    elif got != kind(word):
        raise _wrong(str(kind(word)), got)


def gives_kind(word: str, bound: dict[str, Kind]) -> Kind:
    """The kind of a result, from its word and what the arguments have bound."""
    if word == "amount of ratio":
        return RATIO_AMOUNTS[bound["ratio"].special]
    return bound[word] if word in bound else kind(word)


def _amount_of_ratio(got: Kind, bound: dict[str, Kind]) -> None:
    ratio = bound.get("ratio")
    if ratio is None:
        return  # the ratio argument itself is told as wrong
    wanted = RATIO_AMOUNTS[ratio.special]
    if got != wanted:
        mend = _("by volume is not by weight: turn the ratio with weight_ratio first") if got in (MASS, VOLUME) else ""
        raise _wrong(_("{amount} ({ratio})").format(amount=str(wanted), ratio=str(ratio)), got, mend)


def _one_of(word: str, got: Kind, bound: dict[str, Kind]) -> None:
    if word in bound:
        if got != bound[word]:
            raise _wrong(_("{kind}, as before").format(kind=str(bound[word])), got)
    elif word == "same":
        if got.special:
            raise _wrong(_("an amount"), got)
    elif got not in ONE_OF[word][0]:
        raise _wrong(_(ONE_OF[word][1]), got)
    bound[word] = got


def _wrong(wanted: str, got: Kind, mend: str = "") -> KindError:
    return KindError(_("wants {wanted}, not {got}").format(wanted=wanted, got=str(got)), mend)
