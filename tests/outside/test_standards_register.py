"""The register of standards against titles and statuses as published.

``published_titles.csv`` holds titles transcribed from catalogs, publishers' pages and trade
articles, the source beside each. "a catalog or repost page" is a page that was read, whose
address was not kept.
"""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from specgen.library import Library

KINDS = {"material", "test method", "practice", "code", "manual", "listing"}


def _published_titles() -> list[tuple[str, str]]:
    path = Path(__file__).parent / "published_titles.csv"
    with path.open(newline="", encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    assert all(row["source"] for row in rows)
    return [(row["designation"], row["title"]) for row in rows]


TITLES = _published_titles()

# designation, status, what took its place, source of the status
NOT_CURRENT = [
    ("ASTM A167", "withdrawn", "ASTM A240/A240M", "a catalog or repost page"),
    ("ASTM G23", "withdrawn", "ASTM G151", "catalog entry of ASTM D3361-93"),
    ("TT-S-001543A", "withdrawn", "ASTM C920", "cancellation notice of 23 January 2006"),
    ("AAMA 603.8", "superseded", "AAMA 2603", "a catalog or repost page"),
    ("AAMA 605.2", "superseded", "AAMA 2605", "a catalog or repost page"),
    ("ANSI A58.1", "superseded", "ASCE/SEI 7-22", "IIBEC, article of March 2008"),
    ("ANSI/SPRI ES-1", "superseded", "ANSI/SPRI/FM 4435/ES-1", "Professional Roofing, 11/2018"),
    ("ASCE 7-10", "superseded", "ASCE/SEI 7-16", "from memory"),
    ("ASCE/SEI 7-16", "superseded", "ASCE/SEI 7-22", "from memory"),
    ("ASTM A361", "withdrawn", "ASTM A653/A653M", "from memory"),
    ("ASTM A446", "withdrawn", "ASTM A653/A653M", "from memory"),
    ("ASTM A525", "withdrawn", "ASTM A924/A924M", "from memory"),
    ("ASTM A526", "withdrawn", "ASTM A653/A653M", "from memory"),
    ("ASTM A527", "withdrawn", "ASTM A653/A653M", "from memory"),
    ("ASTM A591", "withdrawn", "ASTM A879/A879M", "from memory"),
    ("ASTM D659", "withdrawn", "ASTM D4214", "from memory"),
    ("ASTM D1186", "withdrawn", "ASTM D7091", "from memory"),
    ("ASTM D1400", "withdrawn", "ASTM D7091", "from memory"),
    ("ASTM G26", "withdrawn", "ASTM G155", "from memory"),
    ("ASTM G53", "withdrawn", "ASTM G154", "from memory"),
    ("NFPA 256", "withdrawn", "ASTM E108", "from memory"),
    ("QQ-S-775", "withdrawn", "ASTM A653/A653M", "from memory"),
    ("SS-C-153", "withdrawn", "ASTM D4586/D4586M", "from memory"),
    ("TT-S-00227E", "withdrawn", "ASTM C920", "from memory"),
    ("TT-S-00230C", "withdrawn", "ASTM C920", "from memory"),
    ("TT-S-001657", "withdrawn", "ASTM C1311", "from memory"),
]

# designation, edition seen in force, source
CURRENT = [
    ("ASTM E1680", "E1680-16(2022)", "a catalog or repost page"),
    ("ASTM E2140", "E2140-01(2023)", "publisher's page and catalog"),
    ("ASTM E1637", "E1637-98(2025)e1", "catalog"),
    ("ASTM D4214", "D4214-23", "a catalog or repost page"),
    ("ASTM D3361/D3361M", "D3361/D3361M-22", "a catalog or repost page"),
    ("ASTM D8257/D8257M", "first published 2020", "Professional Roofing, 7/2021"),
    ("ASTM E903", "E903-20", "catalog; it had lapsed in 2005"),
    ("ASTM E1918", "revision begun 2022", "publisher's work item; it had lapsed in 2006"),
    ("ASTM C1513", "C1513-18", "catalog"),
    ("ANSI/SPRI/FM 4435/ES-1", "reapproved November 2022", "a catalog or repost page"),
    ("ANSI/CRRC S100", "2021", "publisher's page"),
    ("AAMA 611", "update announced March 2022", "a catalog or repost page"),
    ("NFPA 276", "2023", "a catalog or repost page"),
    ("FM 4474", "in the catalog", "catalog"),
    ("FM Data Sheet 1-28", "revised October 2024", "IIBEC; Professional Roofing, 4/2025"),
    ("UL 580", "in use for certification", "publisher's page"),
]

# Written for windows and walls, and the method that a metal roof takes in its place: the scopes
# of ASTM E1592, E1646 and E1680 name metal roof panels in their titles.
WALL_METHODS = [
    ("ASTM E283/E283M", "ASTM E1680"),
    ("ASTM E330/E330M", "ASTM E1592"),
    ("ASTM E331", "ASTM E1646"),
    ("AAMA 501.1", "ASTM E1646"),
]


def test_at_least_sixty_published_titles_are_checked() -> None:
    assert len({designation for designation, _ in TITLES}) >= 60


@pytest.mark.parametrize(("designation", "title"), TITLES, ids=[row[0] for row in TITLES])
def test_a_title_is_the_one_that_was_published(
    library: Library, designation: str, title: str
) -> None:
    assert library.standards[designation].title == title


@pytest.mark.parametrize(
    ("designation", "status", "successor", "source"), NOT_CURRENT, ids=[r[0] for r in NOT_CURRENT]
)
def test_a_standard_no_longer_in_force_says_so_and_names_what_replaced_it(
    library: Library, designation: str, status: str, successor: str, source: str
) -> None:
    entry = library.standards[designation]
    assert entry.status == status, source
    assert successor in entry.replaced_by, source


@pytest.mark.parametrize(
    ("designation", "edition", "source"), CURRENT, ids=[row[0] for row in CURRENT]
)
def test_a_standard_seen_in_force_is_current(
    library: Library, designation: str, edition: str, source: str
) -> None:
    assert library.standards[designation].status == "current", f"{edition}: {source}"


@pytest.mark.parametrize(("wall", "roof"), WALL_METHODS, ids=[row[0] for row in WALL_METHODS])
def test_a_method_for_windows_and_walls_points_to_the_one_for_metal_roofs(
    library: Library, wall: str, roof: str
) -> None:
    assert library.standards[roof].status == "current"
    assert f"use {roof}" in library.standards[wall].note


def test_a_replacement_that_is_in_the_register_is_not_itself_withdrawn(library: Library) -> None:
    for entry in library.standards.values():
        for other in library.standards.values():
            if re.search(rf"(?<![\w/]){re.escape(other.id)}(?![\w/])", entry.replaced_by):
                assert other.status != "withdrawn", f"{entry.id} is replaced by {other.id}"
                assert other.id != entry.id


def test_every_standard_named_in_a_note_or_replacement_is_in_the_register(
    library: Library,
) -> None:
    designation = re.compile(r"\b(?:ASTM [A-G]\d[\w/]*|AAMA \d[\d.]*\d|UL \d\w*|FM \d{4})")
    for entry in library.standards.values():
        for found in designation.findall(f"{entry.replaced_by} {entry.note} {entry.governs}"):
            known = found in library.standards or any(found in name for name in library.standards)
            assert known, f"{entry.id} names {found}"


def test_every_entry_is_complete_and_of_a_known_kind(library: Library) -> None:
    for entry in library.standards.values():
        assert all((entry.title, entry.publisher, entry.governs, entry.source)), entry.id
        assert entry.kind in KINDS, entry.id


def test_a_publisher_is_spelled_in_one_way_only(library: Library) -> None:
    words: dict[str, str] = {}
    for entry in library.standards.values():
        key = re.sub(r"[^a-z]", "", entry.publisher.lower())
        assert words.setdefault(key, entry.publisher) == entry.publisher


def test_a_designation_of_a_body_stands_under_that_body(library: Library) -> None:
    bodies = {
        "AAMA": "Fenestration and Glazing Industry Alliance (AAMA)",
        "ASTM": "ASTM International",
        "NFPA": "National Fire Protection Association",
        "RAS": "Florida Building Commission",
        "TAS": "Florida Building Commission",
        "UL": "UL",
    }
    for entry in library.standards.values():
        body = entry.id.split()[0]
        assert entry.publisher == bodies.get(body, entry.publisher), entry.id
