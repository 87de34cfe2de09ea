"""Tracked changes: accepted they are the section after, rejected the section before."""

from __future__ import annotations

import os
import random
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from specgen.brief import Brief, read_brief
from specgen.engine import Engine
from specgen.library import Library
from specgen.section import Section
from specgen.study.tracked import differences
from specgen.study.whatif import Given, WhatIf, read_changes, what_if
from specgen.writers.docx import write_docx
from specgen.writers.docx_tracked import write_tracked
from specgen.writers.text import write_text
from tests.briefs import random_answers
from tests.study.revisions import body_of, settled, shown
from tests.support import EXAMPLES

PARTS = ("word/document.xml", "word/header1.xml", "word/footer1.xml")

CHANGES = (
    ("lowest_slope=3:12",),
    ("seam=snap-lock", "metal=aluminum"),
    ("spacing_basis=delegated", "design_responsibility=delegated"),
    ("units_shown=si",),
    ("project_name=Other Hall", "issue=for-permit", "issue_date="),
    ("support=open-framing", "underlayment=", "metal="),
)


def changed(path: Path, library: Library, *arguments: str) -> WhatIf:
    brief = read_brief(path, library)
    engine = Engine(library, brief.answers)
    return what_if(engine, brief, read_changes(arguments, library))


def tracked(found: WhatIf) -> bytes:
    return write_tracked(found.after.section, found.brief, found.differences)


def agrees(found: WhatIf, brief: Brief) -> None:
    """Fail unless accepting gives the document after, and rejecting the one before."""
    content = tracked(found)
    for part in PARTS:
        after = shown(body_of(write_docx(found.after.section, brief), part))
        before = shown(body_of(write_docx(found.before.section, brief), part))
        assert shown(settled(body_of(content, part), accept=True)) == after
        assert shown(settled(body_of(content, part), accept=False)) == before


@pytest.mark.parametrize("arguments", CHANGES, ids=lambda each: each[0])
def test_accepting_gives_the_section_after_and_rejecting_the_one_before(
    library: Library, example: Path, arguments: tuple[str, ...]
) -> None:
    found = changed(example, library, *arguments)
    agrees(found, found.brief)


@pytest.mark.parametrize("seed", range(12))
def test_so_do_any_two_briefs(library: Library, seed: int) -> None:
    chance = random.Random(seed)
    one, other = (random_answers(library, chance, chance.random() / 2) for _ in range(2))
    engine = Engine(library, one)
    brief = Brief(Path("any.yaml"), one, {})
    given = Given({}, {**dict.fromkeys(one), **other})
    found = what_if(engine, brief, given)
    agrees(found, brief)


def test_an_unchanged_section_has_no_change_to_accept(library: Library, example: Path) -> None:
    section = Engine(library, read_brief(example, library).answers).section
    found = differences(section, section)
    assert not found.changed
    brief = read_brief(example, library)
    assert b"w:author" not in etree_bytes(write_tracked(section, brief, found))


def etree_bytes(content: bytes) -> bytes:
    from lxml import etree

    return bytes(etree.tostring(body_of(content)))


def test_a_paragraph_in_the_place_of_another_keeps_its_number(library: Library) -> None:
    found = changed(EXAMPLES / "low-slope-library.yaml", library, "seam=snap-lock")
    root = body_of(tracked(found))
    w = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
    seam = next(
        each for each in root.iter(f"{w}p") if "".join(each.itertext()).startswith("Seam: double")
    )
    assert "Seam: snap-lock" in "".join(seam.itertext())
    assert seam.find(f"{w}pPr/{w}rPr") is None


def test_a_reworded_paragraph_keeps_the_words_that_stay(library: Library) -> None:
    found = changed(EXAMPLES / "low-slope-library.yaml", library, "lowest_slope=3:12")
    line = next(
        each
        for each in found.differences.changed
        if each.paragraph is not None and each.paragraph.reason.clause == "examine-slope"
    )
    told = [(piece.state, piece.shown) for piece in line.pieces if piece.state != "same"]
    assert told == [("out", "1/2:12"), ("in", "3:12")]
    assert line.read("before").replace("1/2:12", "3:12") == line.read("after")


def test_every_number_of_a_change_is_its_own(library: Library) -> None:
    found = changed(EXAMPLES / "low-slope-library.yaml", library, "metal=copper")
    numbers = re.findall(rb'w:id="(2\d{6})"', etree_bytes(tracked(found)))
    assert len(numbers) == len(set(numbers)) > 50


# ------------------------------------------------------------------------------------ LibreOffice

REQUIRED = bool(os.environ.get("SPECGEN_REQUIRE_LIBREOFFICE"))
MISSING = not shutil.which("soffice")

MACRO = """<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE script:module PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "module.dtd">
<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Module1"
 script:language="StarBasic">
Sub Settle(source As String, target As String, command As String)
  Dim hidden(0) As New com.sun.star.beans.PropertyValue
  hidden(0).Name = "Hidden"
  hidden(0).Value = True
  document = StarDesktop.loadComponentFromURL(source, "_blank", 0, hidden())
  dispatcher = createUnoService("com.sun.star.frame.DispatchHelper")
  dispatcher.executeDispatch(document.CurrentController.Frame, command, "", 0, Array())
  Dim written(1) As New com.sun.star.beans.PropertyValue
  written(0).Name = "FilterName"
  written(0).Value = "Text (encoded)"
  written(1).Name = "FilterOptions"
  written(1).Value = "UTF8,LF,,,"
  document.storeToURL(target, written())
  document.close(True)
End Sub
</script:module>
"""
LISTED = """<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE library:library PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "library.dtd">
<library:library xmlns:library="http://openoffice.org/2000/library" library:name="Standard"
 library:readonly="false" library:passwordprotected="false">
 <library:element library:name="Module1"/>
</library:library>
"""


def settled_by_libreoffice(document: Path, command: str, folder: Path) -> str:
    """The text of a document after LibreOffice has accepted or rejected every change."""
    profile = folder / "profile"
    office = ["soffice", f"-env:UserInstallation={profile.as_uri()}", "--headless"]
    basic = profile / "user" / "basic" / "Standard"
    if not basic.exists():
        _office([*office, "--terminate_after_init"])
    (basic / "Module1.xba").write_text(MACRO, encoding="utf-8")
    (basic / "script.xlb").write_text(LISTED, encoding="utf-8")
    target = folder / f"{command}.txt"
    call = f"macro:///Standard.Module1.Settle({document.as_uri()},{target.as_uri()},.uno:{command})"
    _office([*office, call])
    return target.read_text(encoding="utf-8-sig")


def _office(command: list[str]) -> None:
    subprocess.run(command, check=True, capture_output=True, timeout=300)


def bare(text: str) -> str:
    return re.sub(r"\s+", "", text)


def printed(section: Section) -> str:
    """The section as the program prints it, without page heads, rules and gaps' parentheses."""
    lines = ["SECTION " + section.number, section.title]
    for part in section.parts:
        lines.append(f"PART {part.number} - {part.title}")
        for article in part.articles:
            lines.append(f"{article.number} {article.title}")
            for paragraph in article.walk():
                text = "".join(
                    getattr(span, "text", None) or section.plain_span(span)
                    for span in paragraph.spans
                )
                lines.append(f"{paragraph.label} {text}")
                for table in paragraph.tables:
                    lines += ["".join(row) for row in (table.head, *table.rows)]
    return "\n".join([*lines, "END OF SECTION"])


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("low-slope-library", ("lowest_slope=3:12", "seam=snap-lock")),
        ("coastal-civic-hall", ("metal=zinc", "seam=single-lock", "client=")),
        ("snow-country-lodge", ("support=open-framing", "units_shown=si")),
        ("five-answers", ("seam=double-lock", "seam_sealant=factory", "support=wood-deck")),
    ],
)
@pytest.mark.libreoffice
@pytest.mark.skipif(MISSING and not REQUIRED, reason="LibreOffice is not installed")
def test_libreoffice_shows_the_section_after_once_it_has_accepted_and_before_once_rejected(
    library: Library, tmp_path: Path, name: str, arguments: tuple[str, ...]
) -> None:
    """Source: LibreOffice Writer's own handling of tracked changes, numbers included."""
    found = changed(EXAMPLES / f"{name}.yaml", library, *arguments)
    document = tmp_path / "tracked.docx"
    document.write_bytes(tracked(found))
    after = settled_by_libreoffice(document, "AcceptAllTrackedChanges", tmp_path)
    assert bare(after) == bare(printed(found.after.section))
    before = settled_by_libreoffice(document, "RejectAllTrackedChanges", tmp_path)
    assert bare(before) == bare(printed(found.before.section))
    assert write_text(found.before.section) != write_text(found.after.section)
