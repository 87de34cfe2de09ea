"""The names that test reports give a support, a metal, a seam or a clip: data for coverage_words.

All of it is common practice. A phrase is a set of words; their order and the filler between them do
not count.
"""

from __future__ import annotations

from typing import Literal

Field = Literal["support", "metal", "seam", "clip"]

# Written differently, meant alike; replaced before the words are split. A finishing or a coating
# word says nothing about uplift strength.
REWRITES: dict[Field, tuple[tuple[str, str], ...]] = {
    "support": (
        (r"oriented[ -]strand[ -]?board", "osb"),
        (r"\b(plywood|osb)\b", r"\1 wood"),
        (r"\b(?:wood|treated wood) nailers?\b", "nailers"),
        (r"\bsteel subgirts?\b", "subgirts"),
        (r"\bpolyisocyanurate\b", "polyiso"),
        (r"\bmineral[ -]wool\b", "wool"),
        (r"\b(?:extruded polystyrene)\b", "xps"),
        (r"\b(?:expanded polystyrene)\b", "eps"),
        (r"\b(polyiso|xps|eps|wool)\b", r"\1 insulation"),
        (r"\binsulated\b", "insulation"),
        (r"\bpurlin\b", "purlins"),
        (r"\bjoist\b", "joists"),
        (r"\bo\.?\s?c\.?(?=\s|$)", ""),
        (r"\bga(?:uge|ge)?\b", "ga"),
    ),
    "metal": (
        (r"\baluminium\b", "aluminum"),
        (r"\b\d+\s*(?:ga(?:uge|ge)?|oz)\b\.?", ""),
        (r"\b(?:az50|az55|az60|azm150|azm165|azm180|g60|g90|z275)\b", ""),
    ),
    "seam": (
        (r"\b(snap|single|double)lock(?:ed)?\b", r"\1 lock"),
        (r"\blocked\b", "lock"),
        (r"\bfold(?:ed)?\b", "lock"),
    ),
    "clip": (
        (r"\b(?:1|single|one)[ -]?(?:piece|part)\b", "one piece"),
        (r"\b(?:2|two)[ -]?(?:piece|part)\b", "two piece"),
        (r"\bstainless[ -]steel\b", "stainless"),
        # A steel clip that is not stainless is metallic-coated.
        (r"\b(?:metallic[ -])?coated[ -]steel\b|\bgalvanized(?:[ -]steel)?\b", "coated"),
        (r"\bsteel\b", "coated"),
        (r"\bga(?:uge|ge)?\b", "ga"),
    ),
}

FILLER: dict[Field, frozenset[str]] = {
    "support": frozenset(
        [
            "a",
            "the",
            "with",
            "of",
            "on",
            "over",
            "above",
            "at",
            "it",
            "in",
            "inch",
            "inches",
            "thick",
            "rigid",
            "board",
            "boards",
            "roof",
            "panel",
            "panels",
            "structural",
            "left",
            "place",
            "and",
            "spaced",
            "center",
            "centers",
            "ft",
            "feet",
        ]
    ),
    "metal": frozenset(
        [
            "sheet",
            "sheets",
            "panel",
            "panels",
            "coil",
            "the",
            "of",
            "in",
            "inch",
            "and",
            "with",
            "alloy",
            "type",
            "grade",
            "painted",
            "prepainted",
            "finish",
            "rolled",
            "temper",
        ]
    ),
    "seam": frozenset(
        [
            "seam",
            "seams",
            "seamed",
            "standing",
            "degree",
            "degrees",
            "deg",
            "high",
            "tall",
            "height",
            "in",
            "inch",
            "inches",
            "the",
            "with",
            "mechanically",
            "mechanical",
            "machine",
            "panel",
            "panels",
            "fold",
        ]
    ),
    "clip": frozenset(
        [
            "clip",
            "clips",
            "with",
            "tab",
            "base",
            "concealed",
            "the",
            "a",
            "of",
            "in",
            "inch",
            "inches",
            "thick",
            "type",
            "steel",
        ]
    ),
}

# Words that tell more than the choice does. Numbers are details too, but for the 90 and 180 degrees
# of a seam.
DETAILS: dict[Field, frozenset[str]] = {
    "support": frozenset(
        [
            "plywood",
            "osb",
            "polyiso",
            "xps",
            "eps",
            "wool",
            "cover",
            "gypsum",
            "glass",
            "mat",
            "nailers",
            "subgirts",
            "membrane",
            "shingles",
            "ga",
            "type",
            "b",
            "n",
            "f",
            "wide",
            "deep",
            "intermediate",
            "rib",
        ]
    ),
    "metal": frozenset(
        ["h00", "h14", "h16", "h24", "h25", "h26", "h34", "h36", "o60", "soft", "cold", "ksi"]
    ),
    "seam": frozenset(),
    "clip": frozenset(["stainless", "coated", "copper", "aluminum", "ga", "high", "low"]),
}

# choice id -> phrases for it; a phrase after "+" is a detail that the phrase itself tells.
PHRASES: dict[Field, dict[str, tuple[str, ...]]] = {
    "support": {
        "wood-deck": ("wood", "wood deck", "wood sheathing"),
        "steel-deck": ("steel deck", "metal deck"),
        "steel-deck-insulated": ("steel deck insulation", "metal deck insulation"),
        "concrete": ("concrete", "concrete deck", "concrete slab"),
        "open-framing": (
            "open framing",
            "open",
            "purlins",
            "joists",
            "open purlins",
            "open framing steel + steel",
            "open framing wood + wood",
            "purlins steel + steel",
            "purlins open steel + steel",
            "purlins open framing steel + steel",
            "purlins wood + wood",
            "joists steel + steel",
            "joists bar + steel",
            "joists steel bar + steel",
        ),
        "existing-roof": ("existing", "existing metal + metal panels"),
    },
    "metal": {
        "coated-steel": (
            "coated steel",
            "metallic coated steel",
            "steel",
            "galvanized",
            "galvanized steel",
            "zinc coated steel",
            "aluminum zinc steel",
            "aluminum zinc coated steel",
        ),
        "aluminum": ("aluminum",),
        "zinc": ("zinc", "titanium zinc"),
        "copper": ("copper",),
        "stainless": ("stainless", "stainless steel"),
    },
    "seam": {
        "snap-lock": ("snap", "snap lock", "snap together"),
        "single-lock": ("single", "single lock", "single lock 90", "lock 90", "90", "single 90"),
        "double-lock": (
            "double",
            "double lock",
            "double lock 180",
            "lock 180",
            "180",
            "double 180",
        ),
        "batten": ("batten", "batten cap"),
    },
    "clip": {
        "one-piece": ("one piece", "fixed", "one piece fixed"),
        "two-piece": (
            "two piece",
            "sliding",
            "floating",
            "expansion",
            "two piece sliding",
            "two piece floating",
            "two piece expansion",
        ),
    },
}

LABELS = {
    "wood-deck": "wood panel deck",
    "steel-deck": "steel deck",
    "steel-deck-insulated": "steel deck with insulation above",
    "concrete": "concrete",
    "open-framing": "open framing",
    "existing-roof": "existing roof left in place",
    "coated-steel": "metallic-coated steel",
    "aluminum": "aluminum",
    "zinc": "titanium-zinc alloy",
    "copper": "copper",
    "stainless": "stainless steel",
    "snap-lock": "snap-lock seam",
    "single-lock": "single-lock seam",
    "double-lock": "double-lock seam",
    "batten": "batten seam",
    "one-piece": "one-piece clip",
    "two-piece": "two-piece clip",
}
