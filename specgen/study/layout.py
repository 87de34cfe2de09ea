"""Where the map's nodes are drawn: the whole library on a ring, a neighborhood in two lanes.

All coordinates are in pixels of the drawing, y downward.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from specgen.study.relations import WORDS, Edge, Node, Relations

RADIUS = 340.0
SIZE = 1040.0
# How much of the ring a node takes, by kind: the fewer there are, the more room for each.
ROOM = {"question": 2.0, "calculation": 3.0, "clause": 1.0, "check": 1.15, "standard": 1.1}
GROUP_GAP, KIND_GAP = 3.0, 22.0
# A group is never narrower than its label is high.
LEAST_GROUP = 9.5

ROW, LANE_WIDTH, MIDDLE, HEAD = 19.0, 420.0, 270.0, 30.0


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a node stands: its place and, on a ring, its angle in degrees from the right."""

    x: float
    y: float
    angle: float = 0.0


@dataclass(frozen=True, slots=True)
class Arc:
    """A group of nodes on the ring, from one angle to another, with the angle of its label."""

    kind: str
    group: str
    start: float
    end: float
    count: int

    @property
    def middle(self) -> float:
        return (self.start + self.end) / 2


@dataclass(frozen=True, slots=True)
class Ring:
    """The whole library drawn: a spot a node by its key, an arc a group."""

    spots: dict[str, Spot]
    arcs: tuple[Arc, ...]


def ring_of(relations: Relations) -> Ring:
    """Every node on one ring, groups together in the order of the library."""
    groups: dict[tuple[str, str], list[Node]] = {}
    for node in relations.nodes:
        groups.setdefault((node.kind, node.group), []).append(node)
    kinds = {kind for kind, _ in groups}
    wanted = {key: _room(key[0], len(nodes)) for key, nodes in groups.items()}
    total = sum(wanted.values()) + GROUP_GAP * len(groups) + KIND_GAP * len(kinds)
    scale = 360.0 / total
    # Every group is then at least as wide as its label, and the others give way for it.
    least = math.degrees(LEAST_GROUP / (RADIUS + 16))
    for key in groups:
        if wanted[key] * scale < least:
            wanted[key] = least / scale
    total = sum(wanted.values()) + GROUP_GAP * len(groups) + KIND_GAP * len(kinds)
    scale = 360.0 / total
    spots: dict[str, Spot] = {}
    arcs: list[Arc] = []
    angle, last = 180.0, ""
    for key, nodes in groups.items():
        angle += scale * (KIND_GAP if key[0] != last else GROUP_GAP)
        last = key[0]
        width = wanted[key] * scale
        arcs.append(Arc(*key, angle, angle + width, len(nodes)))
        for index, node in enumerate(nodes):
            at = angle + width * (index + 0.5) / len(nodes)
            spots[node.key] = Spot(*_on_ring(at, RADIUS), at)
        angle += width
    return Ring(spots, tuple(arcs))


def _room(kind: str, count: int) -> float:
    return ROOM[kind] * count


def _on_ring(angle: float, radius: float) -> tuple[float, float]:
    turned = math.radians(angle)
    middle = SIZE / 2
    return middle + radius * math.cos(turned), middle + radius * math.sin(turned)


def chord(start: float, end: float, radius: float = RADIUS - 5) -> str:
    """A curve inside the ring between two angles, drawn in toward its center, as an SVG path.

    Neighbors are joined by a shallow curve, opposites almost through the middle.
    """
    apart = abs((start - end + 180) % 360 - 180)
    depth = radius * max(0.06, 0.78 - apart / 180 * 0.62)
    x1, y1 = _on_ring(start, radius)
    x2, y2 = _on_ring(end, radius)
    a1, b1 = _on_ring(start, depth)
    a2, b2 = _on_ring(end, depth)
    return f"M{x1:.1f} {y1:.1f}C{a1:.1f} {b1:.1f} {a2:.1f} {b2:.1f} {x2:.1f} {y2:.1f}"


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a list in a lane: what joins its nodes with the center, and their group."""

    x: float
    y: float
    side: str
    text: str


@dataclass(frozen=True, slots=True)
class Lanes:
    """A neighborhood drawn: the center between two lanes of lists, every node with its row."""

    width: float
    height: float
    spots: dict[str, Spot]
    sides: dict[str, str]
    heads: tuple[Head, ...]


def lanes_of(relations: Relations) -> Lanes:
    """What leads to the center at its left, what follows from it at its right; of a question,
    whose followers are many, the checks stand at the left."""
    lists: dict[str, dict[str, list[Node]]] = {"left": {}, "right": {}}
    placed: set[str] = {relations.center}
    for side, words, node in _sided(relations):
        if node.key not in placed:
            placed.add(node.key)
            lists[side].setdefault(f"{words} · {node.group}", []).append(node)
    spots: dict[str, Spot] = {}
    sides: dict[str, str] = {}
    heads: list[Head] = []
    width = 2 * LANE_WIDTH + MIDDLE
    heights = {
        side: sum(HEAD + ROW * len(nodes) for nodes in held.values())
        for side, held in lists.items()
    }
    height = max(*heights.values(), 120.0) + 60
    for side, held in lists.items():
        x = LANE_WIDTH if side == "left" else LANE_WIDTH + MIDDLE
        y = (height - heights[side]) / 2
        for text, nodes in held.items():
            y += HEAD
            heads.append(Head(x, y - 8, side, text))
            for node in nodes:
                spots[node.key] = Spot(x, y + ROW / 2 - 2)
                sides[node.key] = side
                y += ROW
    spots[relations.center] = Spot(width / 2, height / 2)
    sides[relations.center] = "center"
    return Lanes(width, height, spots, sides, tuple(heads))


def _sided(relations: Relations) -> Iterator[tuple[str, str, Node]]:
    """Each neighbor with its side and what joins it with the center."""
    center = relations.by_key[relations.center]
    for edge in _ordered(relations):
        leads = edge.target == relations.center
        other = relations.by_key[edge.source if leads else edge.target]
        words = WORDS[edge.kind][1 if leads else 0].rstrip(":")
        many = center.kind in ("question", "calculation") and other.kind == "check"
        yield "left" if leads or many else "right", words, other


def _ordered(relations: Relations) -> list[Edge]:
    """The edges in the order of what they lead to, the relation first."""
    rank = {node.key: index for index, node in enumerate(relations.nodes)}
    kinds = list(WORDS)

    def place(edge: Edge) -> tuple[int, int]:
        other = edge.source if edge.target == relations.center else edge.target
        return kinds.index(edge.kind), rank[other]

    return sorted(relations.edges, key=place)
