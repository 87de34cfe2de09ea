"""The seam in characters, by kind: how its sheets fold at the top, and its legs below.

Each line is as wide as the seam; the legs stand in the first three columns, the clip between them.
``:`` stands for the clip (its own character is put in), everything else is sheet or batten.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SeamArt:
    """``heads`` are tops of the seam, the most detailed first; ``leg`` is repeated below one."""

    heads: tuple[tuple[str, ...], ...]
    leg: str
    foot: str

    def lines(self, rows: int) -> list[str]:
        """The seam so many rows high, its foot not counted."""
        head = next((head for head in self.heads if len(head) <= rows), self.heads[-1][:rows])
        return [*head, *[self.leg] * (rows - len(head))]

    @property
    def width(self) -> int:
        return max(len(line) for head in self.heads for line in head)


SEAMS = {
    "double-lock": SeamArt(
        (
            ("┏━━━━┓", "┃:┏━┓┃", "┃:┃╻┃┃", "┃:┃┃╹┃", "┃:┃┗━┛"),
            ("┏━━━┓", "┃:┏┓┃", "┃:┃┗┛"),
            ("┏━━━┓", "┃:┏━┛"),
        ),
        "┃:┃",
        "┛:┗",
    ),
    "single-lock": SeamArt(
        (
            ("┏━━━━━━┓", "┃:┏━━━╸┃", "┃:┃ ╺━━┛"),
            ("┏━━━━┓", "┃:┏━╸╹"),
        ),
        "┃:┃",
        "┛:┗",
    ),
    "snap-lock": SeamArt(
        (
            ("┏━━━┓", "┃:┏╮┃", "┃:┃╲┃", "┃:┃╶┛"),
            ("┏━━━┓", "┃:┏╲┃", "┃:┃╶┛"),
            ("┏━━┓", "┃:┏╱"),
        ),
        "┃:┃",
        "┛:┗",
    ),
    "batten": SeamArt(
        (
            ("┏━━━━━━━┓", "┗┓▒▒▒▒▒┏┛", " ┃▒▒▒▒▒┃ "),
            ("┏━━━━━━━┓", "┗┓▒▒▒▒▒┏┛"),
        ),
        " ┃▒▒▒▒▒┃ ",
        "━┛▒▒▒▒▒┗━",
    ),
    "": SeamArt(((" o ", " ┆ "), (" o ",)), " ┆ ", "╌┴╌"),
}
