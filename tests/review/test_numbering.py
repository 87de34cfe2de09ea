"""The numbers that Word sets before paragraphs, counted as Word counts them.

Source of the expected numbers: ISO/IEC 29500-1, 17.9, and where it leaves the behavior open what
LibreOffice shows of the same file (`test_the_numbers_are_those_that_libreoffice_shows`).
"""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from specgen.review.docx_package import Package
from specgen.review.docx_reading import read_docx
from specgen.review.number_formats import formatted
from tests.review.packages import (
    abstract,
    level,
    listed,
    num,
    numbered,
    package,
    paragraph,
    style,
    styled,
    written,
)

SECTION = (
    level(0, "decimal", "PART %1 -", linked="Pt"),
    level(1, "decimal", "%1.%2", linked="Art"),
    level(2, "upperLetter", "%3.", linked="P1"),
    level(3, "decimal", "%4.", linked="P2"),
    level(4, "lowerLetter", "%5.", linked="P3"),
)
SECTION_STYLES = "".join(style(name, numbered(1)) for name in ("Pt", "Art", "P1", "P2", "P3"))


def numbers(body: str, numbering: str, styles: str = "") -> list[str]:
    """The number of every paragraph, in order."""
    content = package(body, styles=styles, numbering=numbering)
    return [line.number for line in read_docx(content).lines]


def test_a_list_that_styles_name_counts_parts_articles_and_paragraphs() -> None:
    body = "".join(
        styled("x", name)
        for name in ("Pt", "Art", "P1", "P2", "P2", "P3", "P1", "Art", "P1", "Pt", "Art", "P1")
    )
    assert numbers(body, abstract(1, *SECTION) + num(1, 1), SECTION_STYLES) == [
        "PART 1 -", "1.1", "A.", "1.", "2.", "a.", "B.", "1.2", "A.", "PART 2 -", "2.1", "A.",
    ]  # fmt: skip


def test_a_style_takes_its_list_from_the_style_that_it_is_based_on() -> None:
    styles = style("P1", numbered(1)) + style("Own", based="P1") + style("Other", based="Own")
    body = styled("x", "P1") + styled("x", "Other") + styled("x", "Own")
    levels = level(0, "upperLetter", "%1.", linked="P1")
    assert numbers(body, abstract(1, levels) + num(1, 1), styles) == ["A.", "B.", "C."]


def test_a_style_with_a_level_and_no_list_takes_the_list_of_its_base() -> None:
    styles = style("One", numbered(1)) + style(
        "Two", '<w:numPr><w:ilvl w:val="1"/></w:numPr>', based="One"
    )
    levels = level(0, "decimal", "%1.") + level(1, "lowerLetter", "%2)")
    body = styled("x", "One") + styled("x", "Two") + styled("x", "Two") + styled("x", "One")
    assert numbers(body, abstract(1, levels) + num(1, 1), styles) == ["1.", "a)", "b)", "2."]


def test_list_0_takes_the_number_off_a_paragraph_and_does_not_count_it() -> None:
    off = '<w:numPr><w:numId w:val="0"/></w:numPr>'
    body = styled("x", "P1") + styled("x", "P1", off) + styled("x", "P1")
    levels = level(0, "upperLetter", "%1.", linked="P1")
    styles = style("P1", numbered(1))
    assert numbers(body, abstract(1, levels) + num(1, 1), styles) == ["A.", "", "B."]


def test_list_0_in_a_style_takes_the_number_of_its_base_off() -> None:
    styles = style("P1", numbered(1)) + style("Plain", numbered(0), based="P1")
    levels = level(0, "upperLetter", "%1.", linked="P1")
    body = styled("x", "P1") + styled("x", "Plain")
    assert numbers(body, abstract(1, levels) + num(1, 1), styles) == ["A.", ""]


def test_lists_that_share_an_abstract_list_count_on_together() -> None:
    levels = level(0, "decimal", "%1.")
    body = listed("x", 1) + listed("x", 2) + listed("x", 1)
    assert numbers(body, abstract(7, levels) + num(1, 7) + num(2, 7)) == ["1.", "2.", "3."]


def test_a_start_of_its_own_starts_a_list_over_once() -> None:
    over = '<w:lvlOverride w:ilvl="0"><w:startOverride w:val="1"/></w:lvlOverride>'
    levels = level(0, "decimal", "%1.")
    body = listed("x", 1) + listed("x", 1) + listed("x", 2) + listed("x", 2) + listed("x", 2)
    found = numbers(body, abstract(7, levels) + num(1, 7) + num(2, 7, over))
    assert found == ["1.", "2.", "1.", "2.", "3."]


def test_a_start_of_its_own_may_be_any_number() -> None:
    over = '<w:lvlOverride w:ilvl="0"><w:startOverride w:val="5"/></w:lvlOverride>'
    levels = level(0, "upperLetter", "%1.")
    body = listed("x", 2) + listed("x", 2)
    assert numbers(body, abstract(7, levels) + num(2, 7, over)) == ["E.", "F."]


def test_an_override_may_give_a_level_another_form() -> None:
    over = f'<w:lvlOverride w:ilvl="0">{level(0, "lowerRoman", "(%1)")}</w:lvlOverride>'
    body = listed("x", 1) + listed("x", 2)
    found = numbers(body, abstract(7, level(0, "decimal", "%1.")) + num(1, 7) + num(2, 7, over))
    assert found == ["1.", "(ii)"]


def test_numbering_styles_joined_by_a_link_lead_to_the_list_that_has_levels() -> None:
    linked = (
        '<w:style w:type="numbering" w:styleId="Outline"><w:name w:val="Outline"/>'
        f"<w:pPr>{numbered(1)}</w:pPr></w:style>"
    )
    full = abstract(1, level(0, "decimal", "%1)"), more='<w:styleLink w:val="Outline"/>')
    empty = abstract(2, more='<w:numStyleLink w:val="Outline"/>')
    body = listed("x", 2) + listed("x", 1) + listed("x", 2)
    assert numbers(body, full + empty + num(1, 1) + num(2, 2), linked) == ["1)", "2)", "3)"]


def test_numbering_styles_that_lead_back_to_themselves_give_no_number() -> None:
    linked = (
        '<w:style w:type="numbering" w:styleId="Outline"><w:name w:val="Outline"/>'
        f"<w:pPr>{numbered(2)}</w:pPr></w:style>"
    )
    empty = abstract(2, more='<w:numStyleLink w:val="Outline"/>')
    assert numbers(listed("x", 2), empty + num(2, 2), linked) == [""]


def test_a_level_restarts_below_every_level_above_it() -> None:
    levels = level(0, "decimal", "%1.") + level(1, "decimal", "%1.%2") + level(2, "decimal", "%3)")
    steps = (0, 1, 2, 2, 1, 2, 0, 2)
    body = "".join(listed("x", 1, depth) for depth in steps)
    assert numbers(body, abstract(1, levels) + num(1, 1)) == [
        "1.", "1.1", "1)", "2)", "1.2", "1)", "2.", "1)",
    ]  # fmt: skip


def test_a_level_may_never_restart_or_restart_below_one_level_alone() -> None:
    never = level(1, "decimal", "%2", more='<w:lvlRestart w:val="0"/>')
    body = "".join(listed("x", 1, depth) for depth in (0, 1, 1, 0, 1))
    found = numbers(body, abstract(1, level(0, "decimal", "%1.") + never) + num(1, 1))
    assert found == ["1.", "1", "2", "2.", "3"]
    first_alone = level(2, "decimal", "%3", more='<w:lvlRestart w:val="1"/>')
    levels = level(0, "decimal", "%1.") + level(1, "decimal", "%2.") + first_alone
    body = "".join(listed("x", 1, depth) for depth in (0, 1, 2, 1, 2, 0, 1, 2))
    assert numbers(body, abstract(1, levels) + num(1, 1)) == [
        "1.", "1.", "1", "2.", "2", "2.", "1.", "1",
    ]  # fmt: skip


def test_a_level_in_legal_form_shows_the_levels_above_it_as_figures() -> None:
    levels = level(0, "upperRoman", "PART %1") + level(1, "decimal", "%1.%2", more="<w:isLgl/>")
    body = listed("x", 1) + listed("x", 1, 1)
    assert numbers(body, abstract(1, levels) + num(1, 1)) == ["PART I", "1.1"]


def test_articles_may_count_with_a_leading_zero() -> None:
    levels = level(0, "decimal", "PART %1") + level(1, "decimalZero", "%1.%2")
    body = listed("x", 1) + listed("x", 1, 1) * 11
    found = numbers(body, abstract(1, levels) + num(1, 1))
    assert found[1] == "1.01"
    assert found[-1] == "1.11"


def test_a_custom_form_counts_with_the_zeros_of_its_pattern() -> None:
    custom = (
        '<w:lvl w:ilvl="0"><w:start w:val="1"/><mc:AlternateContent><mc:Choice Requires="w14">'
        '<w:numFmt w:val="custom" w:format="001, 002, 003, ..."/></mc:Choice><mc:Fallback>'
        '<w:numFmt w:val="decimal"/></mc:Fallback></mc:AlternateContent>'
        '<w:lvlText w:val="%1"/></w:lvl>'
    )
    assert numbers(listed("x", 1) * 2, abstract(1, custom) + num(1, 1)) == ["001", "002"]


def test_a_bullet_of_a_symbol_font_is_shown_as_a_bullet() -> None:
    levels = level(0, "bullet", "\uf0b7") + level(1, "bullet", "–")
    body = listed("x", 1) + listed("x", 1, 1)
    assert numbers(body, abstract(1, levels) + num(1, 1)) == ["•", "–"]


def test_a_list_that_the_document_does_not_define_gives_no_number() -> None:
    assert numbers(listed("x", 9), "") == [""]


def test_a_hidden_paragraph_is_not_counted() -> None:
    hidden = (
        f"<w:p><w:pPr>{numbered(1, 0)}<w:rPr><w:vanish/></w:rPr></w:pPr>"
        "<w:r><w:rPr><w:vanish/></w:rPr><w:t>x</w:t></w:r></w:p>"
    )
    body = listed("x", 1) + hidden + listed("x", 1)
    assert numbers(body, abstract(1, level(0, "decimal", "%1.")) + num(1, 1)) == ["1.", "", "2."]


def test_an_empty_paragraph_with_a_number_is_counted_and_kept() -> None:
    empty = f"<w:p><w:pPr>{numbered(1, 0)}</w:pPr></w:p>"
    body = listed("x", 1) + empty + listed("x", 1)
    levels = level(0, "upperLetter", "%1.")
    assert numbers(body, abstract(1, levels) + num(1, 1)) == ["A.", "B.", "C."]


def test_a_list_of_a_paragraph_comes_before_that_of_its_style() -> None:
    styles = style("P1", numbered(1))
    levels = abstract(1, level(0, "upperLetter", "%1.")) + abstract(2, level(0, "decimal", "%1)"))
    body = styled("x", "P1") + styled("x", "P1", numbered(2, 0)) + styled("x", "P1")
    assert numbers(body, levels + num(1, 1) + num(2, 2), styles) == ["A.", "1)", "B."]


@pytest.mark.parametrize(
    ("value", "form", "shown"),
    [
        # ISO/IEC 29500-1, 17.18.59: the examples of each format.
        (1, "decimal", "1"), (7, "decimalZero", "07"), (12, "decimalZero", "12"),
        (27, "upperLetter", "AA"), (52, "lowerLetter", "zz"), (53, "lowerLetter", "aaa"),
        (4, "lowerRoman", "iv"), (1999, "upperRoman", "MCMXCIX"), (2, "ordinal", "2nd"),
        (11, "ordinal", "11th"), (23, "cardinalText", "Twenty-three"), (3, "ordinalText", "Third"),
        (20, "ordinalText", "Twentieth"), (5, "none", ""), (5, "neverHeardOf", "5"),
        (0, "upperLetter", "0"), (0, "upperRoman", "0"),
    ],
)  # fmt: skip
def test_a_count_is_written_in_its_form(value: int, form: str, shown: str) -> None:
    assert formatted(value, form) == shown


@pytest.mark.libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
def test_the_numbers_are_those_that_libreoffice_shows(tmp_path: Path) -> None:
    over = '<w:lvlOverride w:ilvl="3"><w:startOverride w:val="1"/></w:lvlOverride>'
    numbering = abstract(1, *SECTION) + num(1, 1) + num(2, 1, over)
    steps = ("Pt", "Art", "P1", "P2", "P2", "P3", "P1", "P2", "Art", "P1", "Pt", "Art", "P1")
    body = "".join(styled(f"text {at}", name) for at, name in enumerate(steps))
    body += listed("text 13", 1, 3) + listed("text 14", 2, 3) + listed("text 15", 2, 3)
    body += paragraph("text 16") + listed("text 17", 1, 2)
    # LibreOffice takes a style's level from the style alone, Word from the list that names it.
    names = ("Pt", "Art", "P1", "P2", "P3")
    styles = "".join(style(name, numbered(1, depth)) for depth, name in enumerate(names))
    path = written(tmp_path, package(body, styles=styles, numbering=numbering))
    subprocess.run(
        ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/profile",
         "--convert-to", "txt:Text", "--outdir", str(tmp_path), str(path)],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    shown = (tmp_path / "a.txt").read_text(encoding="utf-8-sig").splitlines()
    ours = [f"{line.number} {line.text}".strip() for line in read_docx(path.read_bytes()).lines]
    assert [" ".join(line.split()) for line in shown if line.strip()] == ours


def test_a_style_that_is_based_on_itself_is_read_once() -> None:
    styles = style("P1", numbered(1), based="P2") + style("P2", based="P1")
    levels = level(0, "decimal", "%1.")
    assert numbers(styled("x", "P2"), abstract(1, levels) + num(1, 1), styles) == ["1."]


def test_the_package_names_its_body() -> None:
    assert Package(package(paragraph("x"))).main == "word/document.xml"
