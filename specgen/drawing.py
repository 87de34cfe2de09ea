"""The assembly as layers, from the support up: what each is, how thick, and which answers say so.

A drawing of it, on paper or on a screen, is made from these layers alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from specgen.scope import Scope
from specgen.showing import show
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Choice, Open, Value
from specgen.wording import print_value

# Depth in inches of a steel deck, by profile.
DECK_DEPTH = {"b-1.5": 1.5, "n-3": 3.0, "f-1.5": 1.5}
SHEET = 0.04


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of the assembly.

    ``material`` names its hatching; ``shape`` is the choice that gives it its form (a deck profile,
    a kind of seam or clip); ``thickness`` is in inches, None where no answer gives it, and then
    ``nominal`` inches are drawn; ``questions`` are those whose answers it comes from, ``waits_on``
    those of them still open; a ``local`` layer lies at the seam alone.
    """

    id: str
    name: str
    material: str
    questions: tuple[str, ...]
    thickness: float | None = None
    nominal: float = SHEET
    shape: str = ""
    waits_on: frozenset[str] = field(default_factory=frozenset)
    local: bool = False

    @property
    def inches(self) -> float:
        """How thick it is drawn: its thickness, or the nominal one."""
        return self.nominal if self.thickness is None else self.thickness


def layers_of(scope: Scope) -> tuple[Layer, ...]:
    """Every layer of the assembly that the answers give or leave open, from the support up."""
    answers = _Answers(scope)
    return (
        _support(answers),
        *_sheet(answers, "vapor_retarder", "vapor-retarder"),
        *_insulation(answers),
        *_sheet(answers, "cover_board", "cover-board", material="board", nominal=0.5),
        *_underlayment(answers),
        *_air_space(answers),
        *_sheet(answers, "slip_sheet", "slip-sheet"),
        *_bearing_plate(answers),
        _clip(answers),
        _panel(answers),
        _seam(answers),
    )


class _Answers:
    """Answers as a drawing reads them: what a library does not ask is not asked."""

    def __init__(self, scope: Scope) -> None:
        self._scope = scope

    def value(self, name: str) -> Value:
        known = name in self._scope.library.questions
        return self._scope.lookup(name)[0] if known else NOT_ASKED

    def choice(self, name: str) -> str:
        """The id of a choice; empty if it is open or not asked."""
        value = self.value(name)
        return value.id if isinstance(value, Choice) else ""

    def inches(self, name: str) -> float | None:
        value = self.value(name)
        return value.to("in") if isinstance(value, Quantity) else None

    def waits(self, name: str) -> bool:
        """Whether the question itself, and not one that it hangs on, is open."""
        value = self.value(name)
        return isinstance(value, Open) and name in value.waits_on

    def words(self, name: str) -> str:
        """The answer as it reads in a sentence, or what is open; empty if not asked."""
        value = self.value(name)
        if self.waits(name):
            return f"(open: {self._scope.label_of(name)})"
        if isinstance(value, Open) or value is NOT_ASKED:
            return ""
        return print_value(value, self._scope.printer)

    def size(self, inches: float) -> str:
        """A computed length in the units of the brief."""
        return show(Quantity(inches, "length", "in", ""), self._scope.printer.system)

    def listed(self, *parts: str) -> str:
        return ", ".join(part for part in parts if part)

    def waiting(self, *names: str) -> frozenset[str]:
        return frozenset(name for name in names if self.waits(name))


# Of a support that is no deck: the question that details it, inches to draw, and its hatching.
SUPPORTS = {
    "concrete": ("subgirt_kind", 3.0, "concrete"),
    "open-framing": ("framing_kind", 3.0, "framing"),
    "existing-roof": ("existing_roof_kind", 1.0, "existing"),
}


def _support(answers: _Answers) -> Layer:
    names: tuple[str, ...]
    kind = answers.choice("support")
    if kind == "wood-deck":
        names = ("support", "wood_deck_kind", "wood_deck_thickness")
        material = answers.words("wood_deck_kind") or "wood panel"
        name = answers.listed(f"{material} deck", answers.words("wood_deck_thickness"))
        thickness = answers.inches("wood_deck_thickness")
        nominal, hatching, shape = 0.625, "wood", kind
    elif kind in ("steel-deck", "steel-deck-insulated"):
        names = ("support", "steel_deck_profile", "steel_deck_thickness")
        shape = answers.choice("steel_deck_profile")
        name = answers.listed(
            answers.words("steel_deck_profile") or "steel deck",
            answers.words("steel_deck_thickness"),
        )
        thickness = DECK_DEPTH.get(shape)
        nominal, hatching = 1.5, "deck"
    elif kind in SUPPORTS:
        detail, nominal, hatching = SUPPORTS[kind]
        names = ("support", detail)
        name = answers.listed(answers.words("support"), answers.words(detail))
        thickness, shape = None, kind
    else:
        names = ("support",)
        name, thickness, nominal = answers.words("support") or "support", None, 1.5
        hatching, shape = "open", ""
    return Layer(
        "support", name, hatching, names, thickness, nominal, shape, answers.waiting(*names)
    )


def _sheet(
    answers: _Answers,
    question: str,
    layer: str,
    *,
    material: str = "sheet",
    nominal: float = SHEET,
) -> Iterator[Layer]:
    """A layer that one choice gives, or gives as none."""
    words = answers.words(question)
    if words and answers.choice(question) != "none":
        waits_on = answers.waiting(question)
        material = "open" if waits_on else material
        yield Layer(layer, words, material, (question,), nominal=nominal, waits_on=waits_on)


def _insulation(answers: _Answers) -> Iterator[Layer]:
    kind = answers.choice("insulation")
    if answers.waits("insulation"):
        waits_on = answers.waiting("insulation")
        words = answers.words("insulation")
        yield Layer("insulation", words, "open", ("insulation",), None, 2.0, waits_on=waits_on)
    if kind in ("", "none"):
        return
    blanket = kind == "blanket"
    names = ("insulation", "insulation_thickness") + (() if blanket else ("insulation_layers",))
    counted = answers.value("insulation_layers")
    count = max(1, round(counted)) if isinstance(counted, float) and not blanket else 1
    total = answers.inches("insulation_thickness")
    each = None if total is None else total / count
    size = answers.words("insulation_thickness") if each is None else answers.size(each)
    for number in range(1, count + 1):
        place = f"layer {number} of {count}" if count > 1 else ""
        if not blanket and answers.waits("insulation_layers"):
            place = answers.words("insulation_layers")
        yield Layer(
            f"insulation-{number}",
            answers.listed(answers.words("insulation"), place, size),
            "blanket" if blanket else "insulation",
            names,
            each,
            2.0,
            kind,
            answers.waiting(*names),
        )


def _underlayment(answers: _Answers) -> Iterator[Layer]:
    over_all = answers.choice("underlayment") == "self-adhering"
    if answers.value("ice_barrier") is True and not over_all:
        name = "self-adhering ice barrier, along the eaves only"
        yield Layer("ice-barrier", name, "sheet", ("ice_barrier", "underlayment"))
    elif answers.waits("ice_barrier") and not over_all:
        waits_on = answers.waiting("ice_barrier")
        words = answers.words("ice_barrier")
        yield Layer("ice-barrier", words, "open", ("ice_barrier",), waits_on=waits_on)
    yield from _sheet(answers, "underlayment", "underlayment")


def _air_space(answers: _Answers) -> Iterator[Layer]:
    names = ("ventilated_space", "air_space_depth")
    waits_on = answers.waiting(*names)
    if answers.waits("ventilated_space"):
        words = answers.words("ventilated_space")
        yield Layer("air-space", words, "open", names[:1], None, 0.75, waits_on=waits_on)
    elif answers.value("ventilated_space") is True:
        name = answers.listed("ventilated air space, battens", answers.words("air_space_depth"))
        depth = answers.inches("air_space_depth")
        yield Layer("air-space", name, "air", names, depth, 1.0, waits_on=waits_on)


def _bearing_plate(answers: _Answers) -> Iterator[Layer]:
    if answers.value("bearing_plates") is True:
        yield Layer(
            "bearing-plate",
            "bearing plate under the clip",
            "metal",
            ("bearing_plates",),
            local=True,
        )
    elif answers.waits("bearing_plates"):
        yield Layer(
            "bearing-plate",
            answers.words("bearing_plates"),
            "open",
            ("bearing_plates",),
            waits_on=answers.waiting("bearing_plates"),
            local=True,
        )


def _clip(answers: _Answers) -> Layer:
    names = ("clip_kind", "clip_metal")
    kind = answers.words("clip_kind")
    name = answers.listed(
        f"{kind} clip" if answers.choice("clip_kind") else kind, answers.words("clip_metal")
    )
    return Layer(
        "clip",
        name or "clip",
        "metal",
        names,
        shape=answers.choice("clip_kind"),
        waits_on=answers.waiting(*names),
        local=True,
    )


def _panel(answers: _Answers) -> Layer:
    names = ("metal", "panel_thickness", "panel_width")
    width = answers.words("panel_width")
    name = answers.listed(
        answers.words("metal") or "metal panel",
        answers.words("panel_thickness"),
        width if answers.waits("panel_width") or not width else f"{width} wide",
    )
    return Layer(
        "panel",
        name,
        "metal",
        names,
        answers.inches("panel_thickness"),
        waits_on=answers.waiting(*names),
    )


def _seam(answers: _Answers) -> Layer:
    names = ("seam", "seam_height")
    kind, height = answers.words("seam"), answers.words("seam_height")
    name = answers.listed(
        f"{kind} seam" if answers.choice("seam") else kind,
        height if answers.waits("seam_height") or not height else f"{height} high",
    )
    return Layer(
        "seam",
        name or "seam",
        "metal",
        names,
        answers.inches("seam_height"),
        1.5,
        answers.choice("seam"),
        answers.waiting(*names),
        local=True,
    )
