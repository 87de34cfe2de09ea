"""Uplift tests by name: what each may stand for, and what its class or rating is worth.

Three kinds of figure come out of uplift tests. ASTM E1592, UL 1897 and TAS 125 end in an ultimate
pressure; FM 4471 and FM 4474 in a rating, the last step of 15 psf that was held; UL 580 in a class,
which is a name and no pressure to design with.
"""

from __future__ import annotations

import math
import re
from functools import lru_cache

from specgen.calculations.record import OutsideMethod, within

# psf, the highest static pressure of each class: UL 580 as its publisher describes the classes.
UL580_MOST_STATIC_PSF = {15: 23.0, 30: 45.0, 60: 75.0, 90: 105.0}

# Made on a solid or closely fitted deck (IBC 1504.4.1, 1504.3.1 in 2018, from memory).
SOLID_SUPPORT_TESTS = frozenset({"UL 580", "UL 1897", "TAS 125"})
# For panels that span open framing (IBC 1504.4.2, 1504.3.2 in 2018, from memory).
FRAMING_TESTS = frozenset({"ASTM E1592", "FM 4471", "FM 4474"})

FM_STEP_PSF = 15
FM_LOWEST = 60

_DESIGNATIONS = {
    "ASTM E1592": r"\bE[\s-]*1592",
    "UL 1897": r"\bUL[\s-]*1897",
    "TAS 125": r"\bTAS[\s-]*125",
    "FM 4471": r"\bFM[\s-]*4471|\bFM\b.*\b1-\d{2,3}\b",
    "FM 4474": r"\b4474",
    "UL 580": r"\bUL[\s-]*580",
}
_FM_RATING = re.compile(r"\bFM\b.*?\b1-(\d{2,3})\b", re.IGNORECASE)


@lru_cache(maxsize=1024)
def named_tests(text: str) -> tuple[str, ...]:
    """The uplift tests that a text names (``UL 580 / UL 1897``), those that end in psf first.

    Empty if it names none; older spellings (``ASTM E 1592-05``) are read too.
    """
    return tuple(
        name
        for name, pattern in _DESIGNATIONS.items()
        if re.search(rf"(?:{pattern})(?!\d)", text, re.IGNORECASE)
    )


def fm_rating_named(text: str) -> int | None:
    """The figure of an FM rating in a text (90 of ``FM 4471, 1-90``), psf; None if it has none."""
    match = _FM_RATING.search(text)
    return int(match[1]) if match else None


def ul580_most_psf(*, ul580_class: int, design_factor: float = 2.0) -> float:
    """The most, in psf, that a UL 580 class can be said to carry: its highest static pressure over
    the factor. For a caution beside a class, never to design with.

    Class 90 ends at 105 psf, so with a factor of 2 it carries 52.5 psf and not 90.
    Raises OutsideMethod for a class that UL 580 has not, or a factor outside 1 to 5.
    Source: UL 580 classes as published by UL; factor 2 IIBEC, July 2015, on uplift classes.
    """
    if ul580_class not in UL580_MOST_STATIC_PSF:
        known = ", ".join(str(one) for one in UL580_MOST_STATIC_PSF)
        raise OutsideMethod(f"ul580_class is {ul580_class}; the classes of UL 580 are {known}")
    return UL580_MOST_STATIC_PSF[ul580_class] / within("design_factor", design_factor, 1, 5, "")


def ul580_class_held(pressure_psf: float) -> int | None:
    """The UL 580 class that a figure on a UL 580 record stands for, None if under the lowest.

    The figure may be the class itself (90) or a pressure reached (105); a pressure between two
    counts for the lower class. Source: UL 580 classes as published by UL.
    """
    pressure = within("pressure_psf", pressure_psf, 0, 1000, "psf")
    if pressure in UL580_MOST_STATIC_PSF:
        return int(pressure)
    held = [one for one, most in UL580_MOST_STATIC_PSF.items() if most <= pressure]
    return max(held, default=None)


def fm_allowable_psf(*, rating_psf: float, design_factor: float = 2.0) -> float:
    """What an FM rating 1-``rating_psf`` carries, psf: its step of 15 psf over the factor.

    allowable = 15 floor(rating / 15) / max(factor, 2). A rating says the last step held, so a
    figure between two steps counts for the lower; the factor of an approval is 2 and no less.
    Raises OutsideMethod for a rating outside 15 to 990 psf or a factor outside 1 to 5.
    Source: FM 4471, factor 2 and steps of 15 psf from memory.
    """
    rating = within("rating_psf", rating_psf, FM_STEP_PSF, 990, "psf")
    factor = max(2.0, within("design_factor", design_factor, 1, 5, ""))
    return FM_STEP_PSF * math.floor(rating / FM_STEP_PSF + 1e-9) / factor


def fm_rating_to_ask(*, required_allowable_psf: float) -> int:
    """The FM rating to ask for: twice the required allowable uplift, up to the next 15 psf step.

    60 is the lowest there is (23 psf needs 46, so 1-60). Raises OutsideMethod outside 0.1 to
    500 psf. Source: FM 4471, from memory.
    """
    need = 2 * within("required_allowable_psf", required_allowable_psf, 0.1, 500, "psf")
    return max(FM_LOWEST, FM_STEP_PSF * math.ceil(need / FM_STEP_PSF - 1e-9))
