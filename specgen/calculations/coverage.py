"""Which uplift test record stands for which project: one assembly, and what may differ from it."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.calculations.coverage_synonyms import Field
from specgen.calculations.coverage_words import label_of, read_words
from specgen.calculations.record import OutsideMethod, within
from specgen.calculations.uplift_ratings import FRAMING_TESTS, SOLID_SUPPORT_TESTS, named_tests

# Sheet is written to a thousandth (24 ga is written 0.0239, 0.024 or 0.0236 in), so a difference of
# half of one is a way of writing and no thinner sheet.
WRITTEN_THICKNESS_IN = 0.0005
# 400 mm against 15-3/4 in: a difference of conversion.
WRITTEN_WIDTH_IN = 0.01
# in, panels that ASTM E1592 covers (its scope).
E1592_THICKNESS_IN = (0.012, 0.050)

# A support known by none of its names, but with one of these words in it, is taken as open.
_OPEN_WORDS = frozenset(
    [
        "purlin",
        "purlins",
        "joist",
        "joists",
        "girt",
        "girts",
        "subgirt",
        "subgirts",
        "rafter",
        "rafters",
        "truss",
        "trusses",
        "beam",
        "beams",
        "framing",
        "framed",
        "frame",
        "open",
        "batten",
        "battens",
        "skip",
        "spaced",
        "unsheathed",
    ]
)


def _check_words(**texts: str) -> None:
    for name, text in texts.items():
        if not text.strip():
            raise OutsideMethod(f"{name} is empty; a record or an assembly names it")


@dataclass(frozen=True, slots=True)
class Assembly:
    """The roof to be covered. Raises OutsideMethod for an empty text or a figure out of range.

    ``support``, ``metal``, ``seam`` and ``clip`` are choice ids, their labels or words that mean
    the same; they may tell more ("aluminum, alloy 3004"), and are then held to it.
    ``thickness_in`` is the sheet (0.01 to 0.125 in), ``width_in`` the coverage of a panel from
    seam to seam (2 to 60 in).
    """

    support: str
    metal: str
    thickness_in: float
    width_in: float
    seam: str
    clip: str

    def __post_init__(self) -> None:
        _check_words(support=self.support, metal=self.metal, seam=self.seam, clip=self.clip)
        within("thickness_in", self.thickness_in, 0.01, 0.125, "in")
        within("width_in", self.width_in, 2, 60, "in")


@dataclass(frozen=True, slots=True)
class TestRecord:
    """One uplift test of one assembly at one clip spacing. Raises OutsideMethod as Assembly does.

    ``test`` names the method ("UL 1897", "UL 580 / UL 1897"); ``support``, ``metal``,
    ``thickness_in``, ``width_in``, ``seam`` and ``clip`` are the specimen's, as in Assembly;
    ``spacing_in`` the clip spacing along the seam (1 to 144 in); ``ultimate_psf`` the highest
    uplift held, or the figure of an FM rating (1 to 1000 psf); ``design_factor`` what it is
    divided by (1 to 5); ``report`` the report's designation.
    """

    # Its name is the trade's; it is no test case.
    __test__ = False

    test: str
    support: str
    metal: str
    thickness_in: float
    width_in: float
    seam: str
    clip: str
    spacing_in: float
    ultimate_psf: float
    design_factor: float
    report: str

    def __post_init__(self) -> None:
        _check_words(test=self.test, report=self.report)
        _check_words(support=self.support, metal=self.metal, seam=self.seam, clip=self.clip)
        within("thickness_in", self.thickness_in, 0.01, 0.125, "in")
        within("width_in", self.width_in, 2, 60, "in")
        within("spacing_in", self.spacing_in, 1, 144, "in")
        within("ultimate_psf", self.ultimate_psf, 1, 1000, "psf")
        within("design_factor", self.design_factor, 1, 5, "")


@dataclass(frozen=True, slots=True)
class Coverage:
    """Whether a record stands for a project.

    ``reasons`` say, a sentence each with both values, why it does not; none if it does.
    ``cautions`` are what is to be confirmed although it does.
    """

    covered: bool
    reasons: tuple[str, ...]
    cautions: tuple[str, ...] = ()


def covers(record: TestRecord, assembly: Assembly) -> Coverage:
    """Whether a test record stands for a project's assembly, and every reason why not.

    The same metal, seam, clip and support; a sheet as thick or thicker; a panel as wide or
    narrower; and a test made for that kind of support. A detail that both name (grade, board,
    clip metal) must agree; one that only one of them names is a caution.
    Source: common practice; scope of ASTM E1592; IBC 1504.4 (from memory) for test and support.
    """
    reasons: list[str] = []
    cautions: list[str] = []
    _compare_test(record, assembly, reasons, cautions)
    _compare_words("support", record.support, assembly.support, reasons, cautions)
    _compare_words("metal", record.metal, assembly.metal, reasons, cautions)
    _compare_thickness(record, assembly, reasons, cautions)
    if assembly.width_in > record.width_in + WRITTEN_WIDTH_IN:
        reasons.append(
            f"Width: the project's {assembly.width_in:g} in is wider than the record's"
            f" {record.width_in:g} in."
        )
    _compare_words("seam", record.seam, assembly.seam, reasons, cautions)
    _compare_words("clip", record.clip, assembly.clip, reasons, cautions)
    return Coverage(not reasons, tuple(reasons), tuple(cautions))


def _compare_words(
    field: Field, tested: str, planned: str, reasons: list[str], cautions: list[str]
) -> None:
    record, project = read_words(field, tested), read_words(field, planned)
    subject = field.capitalize()
    if (record.choice or record.words) != (project.choice or project.words):
        reasons.append(
            f"{subject}: the record has {label_of(record.choice, tested)}, the project"
            f" {label_of(project.choice, planned)}."
        )
        return
    only_tested = set(record.details) - set(project.details)
    only_planned = set(project.details) - set(record.details)
    if only_tested and only_planned:
        reasons.append(
            f"{subject}: the record's '{tested.strip()}' is not the project's '{planned.strip()}'."
        )
    elif only_tested or only_planned:
        cautions.append(
            f"{subject}: confirm that the record's '{tested.strip()}' and the project's"
            f" '{planned.strip()}' are the same; one of them tells more."
        )


def _compare_thickness(
    record: TestRecord, assembly: Assembly, reasons: list[str], cautions: list[str]
) -> None:
    thinner = record.thickness_in - assembly.thickness_in
    if thinner > WRITTEN_THICKNESS_IN + 1e-9:
        reasons.append(
            f"Thickness: the project's {assembly.thickness_in:g} in is thinner than the record's"
            f" {record.thickness_in:g} in."
        )
    elif thinner > 1e-9:
        cautions.append(
            f"Thickness: the project's {assembly.thickness_in:g} in is taken as the record's"
            f" {record.thickness_in:g} in written otherwise; confirm that it is the same sheet."
        )


def _compare_test(
    record: TestRecord, assembly: Assembly, reasons: list[str], cautions: list[str]
) -> None:
    tests = named_tests(record.test)
    support = read_words("support", assembly.support)
    if not tests:
        reasons.append(
            f"Test: the record's '{record.test.strip()}' is no uplift test known here, and the"
            f" project needs one for {label_of(support.choice, assembly.support)}."
        )
        return
    is_open = support.choice == "open-framing" or (
        not support.choice and bool(_OPEN_WORDS & set(support.words))
    )
    if is_open and not FRAMING_TESTS & set(tests):
        reasons.append(
            f"Test: the record's {record.test.strip()} needs a solid support, and the project has"
            f" {label_of(support.choice, assembly.support)}; ASTM E1592 serves there."
        )
    if not support.choice and not is_open and SOLID_SUPPORT_TESTS & set(tests):
        cautions.append(
            f"Test: {record.test.strip()} needs a solid support; confirm that"
            f" '{assembly.support.strip()}' is one."
        )
    # FM approves over a deck as well, so only a record by ASTM E1592 and nothing else is doubtful.
    if tests == ("ASTM E1592",):
        cautions.extend(_e1592_cautions(record, support.choice))


def _e1592_cautions(record: TestRecord, support: str) -> list[str]:
    cautions = []
    if support == "wood-deck":
        cautions.append(
            "Test: ASTM E1592 does not stand for panel and wood sheathing acting together; it"
            " counts for the panel, seam and clip alone (scope of ASTM E1592)."
        )
    if support in ("wood-deck", "steel-deck", "steel-deck-insulated", "existing-roof"):
        cautions.append(
            "Test: over a deck or insulation the clip screws may pull out below the pressure the"
            " panel held under ASTM E1592; pull tests of clips may be needed (UFC 3-110-03)."
        )
    low, high = E1592_THICKNESS_IN
    if not low <= record.thickness_in <= high:
        cautions.append(
            f"Test: ASTM E1592 is for sheet of {low:g} to {high:g} in, and the record's is"
            f" {record.thickness_in:g} in."
        )
    return cautions
