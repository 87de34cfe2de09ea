"""Plain text and Markdown."""

from __future__ import annotations

from pathlib import Path

from specgen.library import Library
from specgen.writers.markdown import write_markdown
from specgen.writers.text import write_text
from tests.support import section_of
from tests.test_assemble import COMPLETE


def test_plain_text_has_every_number_hanging_and_the_end(small: Library, tmp_path: Path) -> None:
    text = write_text(section_of(COMPLETE, small, tmp_path))
    assert "\nPART 1 - GENERAL\n" in text
    assert "\n1.1 SUMMARY\n" in text
    assert "\n    A.  Panels of coated steel sheet on a roof of 1:12; see Article 2.1.\n" in text
    assert "\n        1.  Section 07 92 00, Joint Sealants.\n" in text
    assert "\n            a.  Interior joints.\n" in text
    assert "\n        Zone   Spacing\n        -----  -------\n        field  24 in\n" in text
    assert text.endswith("END OF SECTION\n")
    assert max(map(len, text.splitlines())) <= 88


def test_plain_text_puts_open_places_in_parentheses(small: Library, tmp_path: Path) -> None:
    assert "(open: coating)" in write_text(section_of("metal: steel\n", small, tmp_path))


def test_markdown_has_headings_bold_open_places_and_tables(small: Library, tmp_path: Path) -> None:
    text = write_markdown(section_of(COMPLETE.replace("coating: az55\n", ""), small, tmp_path))
    assert "\n### 2.1 PANELS\n" in text
    assert "A\\. Sheet: ASTM A792/A792M, **open: coating**." in text.replace("(", "").replace(
        ")", ""
    )
    assert "\n| Zone | Spacing |\n| --- | --- |\n| field | 24 in |\n" in text


def test_markdown_escapes_what_an_answer_might_mark_up(small: Library, tmp_path: Path) -> None:
    text = COMPLETE + "color: '*red* <b> [x](y) | #1'\n"
    drafted = write_markdown(section_of(text, small, tmp_path))
    assert r"Color: \*red\* \<b\> \[x\](y) \| \#1." in drafted
    named = write_markdown(section_of(COMPLETE.replace("Mill", "A &copy; B"), small, tmp_path))
    assert r"A \&copy; B" in named
