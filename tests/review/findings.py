"""A finding to be put somewhere."""

from __future__ import annotations

from specgen.checks import Finding


def finding(says: str = "Something is wrong.", kind: str = "conflict") -> Finding:
    return Finding("made-up", kind, says, "It is so.", "common practice", "", (), ())
