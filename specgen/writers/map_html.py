"""The map of a library as one page that needs nothing beside it: drawn here, searched in it."""

from __future__ import annotations

import html
import json
import math
from collections import Counter
from collections.abc import Iterator
from importlib.resources import files

from specgen.study.layout import RADIUS, SIZE, Arc, Lanes, Ring, Spot, chord, lanes_of, ring_of
from specgen.study.relations import KINDS, WORDS, Node, Relations
from specgen.writers.laid_out import counted, shortened
from specgen.writers.map_text import NAMES

TITLE = "What goes together"
ROW_TEXT = 56
WELCOME = (
    "Each dot is a question, calculation, clause, check or standard of the library; groups stand"
    " together on the ring.",
    "Search, or click a dot to see all that it is joined with, or a group's name to see what the"
    " group holds.",
    "The wheel enlarges, dragging moves; / goes to the search and Esc shows the whole again.",
)


def write_map_html(relations: Relations) -> str:
    """The page: the whole library on a ring, or one thing between what leads to it and what
    follows from it."""
    page = files(__package__).joinpath("map.html").read_text(encoding="utf-8")
    if relations.center:
        lanes = lanes_of(relations)
        title = f"{TITLE}: {relations.by_key[relations.center].name}"
        spots, drawing, mode = lanes.spots, _lanes_svg(relations, lanes), "lanes"
        tools = ""
    else:
        ring = ring_of(relations)
        title = TITLE
        spots, drawing, mode = ring.spots, _ring_svg(relations, ring), "ring"
        tools = '<button id="whole" type="button">Whole map</button>'
    filled = {
        "%%TITLE%%": html.escape(title),
        "%%MODE%%": mode,
        "%%DRAWING%%": drawing,
        "%%TOOLS%%": tools,
        "%%KINDS%%": _kinds(relations),
        "%%DATA%%": _data(relations, spots, mode),
    }
    for mark, text in filled.items():
        page = page.replace(mark, text)
    return page


def _kinds(relations: Relations) -> str:
    counts = Counter(node.kind for node in relations.nodes)
    shown = ((kind, counted(counts[kind], *NAMES[kind])) for kind in KINDS if counts[kind])
    return "".join(
        f'<span><i style="background:var(--{kind})"></i>{text}</span>' for kind, text in shown
    )


def _data(relations: Relations, spots: dict[str, Spot], mode: str) -> str:
    """What the page's own script reads; no text in it can end the element that holds it."""
    index = {node.key: number for number, node in enumerate(relations.nodes)}
    values = {
        "mode": mode,
        "size": SIZE,
        "radius": RADIUS,
        "center": index.get(relations.center, -1),
        "words": WORDS,
        "plural": NAMES,
        "welcome": WELCOME,
        "nodes": [_node_values(node, spots[node.key]) for node in relations.nodes],
        "edges": [[index[e.source], index[e.target], e.kind] for e in relations.edges],
    }
    text = json.dumps(values, ensure_ascii=False, separators=(",", ":"))
    return text.replace("<", "\\u003c")


def _node_values(node: Node, spot: Spot) -> list[object]:
    place = [round(spot.x, 1), round(spot.y, 1), round(spot.angle, 3)]
    return [node.kind, node.name, node.label, node.group, node.says, node.why, *place]


# ------------------------------------------------------------------------------------------- ring


def _ring_svg(relations: Relations, ring: Ring) -> str:
    pieces = [f'<svg viewBox="0 0 {SIZE:.0f} {SIZE:.0f}" role="img" aria-label="{TITLE}">']
    pieces += _bands(relations, ring)
    for arc in ring.arcs:
        pieces.append(_arc(arc))
    for index, node in enumerate(relations.nodes):
        spot = ring.spots[node.key]
        size = {"question": 2.4, "calculation": 3.0}.get(node.kind, 1.7)
        pieces.append(
            f'<circle class="dot k-{node.kind}" data-i="{index}" cx="{spot.x:.1f}"'
            f' cy="{spot.y:.1f}" r="{size}"><title>{html.escape(node.name)}</title></circle>'
        )
    pieces += _kind_names(ring)
    pieces.append('<g id="focus"></g></svg>')
    return "".join(pieces)


def _bands(relations: Relations, ring: Ring) -> Iterator[str]:
    """A curve between each two groups that are joined, the wider the more relations it holds."""
    arcs = {(arc.kind, arc.group): arc for arc in ring.arcs}
    counts: Counter[tuple[tuple[str, str], tuple[str, str]]] = Counter()
    for edge in relations.edges:
        source, target = relations.by_key[edge.source], relations.by_key[edge.target]
        one, other = (source.kind, source.group), (target.kind, target.group)
        if one != other:
            counts[one, other] += 1
    for (one, other), count in sorted(counts.items(), key=lambda item: item[1]):
        path = chord(arcs[one].middle, arcs[other].middle)
        width = 0.5 + 0.95 * math.sqrt(count)
        yield f'<path class="band s-{one[0]}" stroke-width="{width:.1f}" d="{path}"/>'


def _arc(arc: Arc) -> str:
    radius = RADIUS + 7
    x1, y1 = _at(arc.start, radius)
    x2, y2 = _at(arc.end, radius)
    large = 1 if arc.end - arc.start > 180 else 0
    key = html.escape(f"{arc.kind}|{arc.group}")
    line = (
        f'<path class="arc s-{arc.kind}" data-g="{key}"'
        f' d="M{x1:.1f} {y1:.1f}A{radius} {radius} 0 {large} 1 {x2:.1f} {y2:.1f}"/>'
    )
    x, y = _at(arc.middle, RADIUS + 14)
    turn = arc.middle % 360
    flipped = 90 < turn < 270
    anchor = "end" if flipped else "start"
    text = html.escape(shortened(arc.group, 34))
    return (
        f'{line}<text class="group" data-g="{key}" x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"'
        f' dominant-baseline="central"'
        f' transform="rotate({turn + 180 if flipped else turn:.2f} {x:.1f} {y:.1f})">{text}</text>'
    )


def _kind_names(ring: Ring) -> Iterator[str]:
    for kind in KINDS:
        arcs = [arc for arc in ring.arcs if arc.kind == kind]
        if arcs and kind != "calculation":
            x, y = _at((arcs[0].start + arcs[-1].end) / 2, RADIUS - 62)
            name = NAMES[kind][1].capitalize()
            yield f'<text class="kindname k-{kind}" x="{x:.1f}" y="{y:.1f}">{name}</text>'


def _at(angle: float, radius: float) -> tuple[float, float]:
    turned = math.radians(angle)
    return SIZE / 2 + radius * math.cos(turned), SIZE / 2 + radius * math.sin(turned)


# ------------------------------------------------------------------------------------------ lanes


def _lanes_svg(relations: Relations, lanes: Lanes) -> str:
    index = {node.key: number for number, node in enumerate(relations.nodes)}
    center = relations.by_key[relations.center]
    pieces = [
        f'<svg viewBox="0 0 {lanes.width:.0f} {lanes.height:.0f}" role="img"'
        f' aria-label="{html.escape(center.name)}">'
    ]
    middle = lanes.spots[center.key]
    drawn: set[str] = set()
    for edge in relations.edges:
        other = edge.source if edge.target == center.key else edge.target
        if other == center.key or other in drawn:
            continue
        drawn.add(other)
        ends = (index[center.key], index[other])
        kind = relations.by_key[other].kind
        pieces.append(_wire(middle, lanes.spots[other], lanes.sides[other], kind, ends))
    for head in lanes.heads:
        end = " end" if head.side == "left" else ""
        x = head.x - 8 if end else head.x + 8
        pieces.append(
            f'<text class="head{end}" x="{x:.1f}" y="{head.y:.1f}">{html.escape(head.text)}</text>'
        )
    for node in relations.nodes:
        if node.key != center.key:
            spot, side = lanes.spots[node.key], lanes.sides[node.key]
            pieces.append(_row(node, spot, side, index[node.key]))
    pieces.append(_hub(center, middle, index[center.key]))
    return "".join([*pieces, "</svg>"])


def _wire(middle: Spot, spot: Spot, side: str, kind: str, ends: tuple[int, int]) -> str:
    toward = -1 if side == "left" else 1
    start = middle.x + toward * 88
    bend = abs(spot.x - start) * 0.55 * toward
    path = (
        f"M{start:.1f} {middle.y:.1f}C{start + bend:.1f} {middle.y:.1f}"
        f" {spot.x - bend:.1f} {spot.y:.1f} {spot.x:.1f} {spot.y:.1f}"
    )
    return f'<path class="wire s-{kind}" data-s="{ends[0]}" data-t="{ends[1]}" d="{path}"/>'


def _row(node: Node, spot: Spot, side: str, number: int) -> str:
    end = side == "left"
    x = spot.x - 8 if end else spot.x + 8
    more = node.label if node.kind in ("question", "calculation", "standard") else node.says
    text = f"{html.escape(node.name)} "
    rest = shortened(more, max(12, ROW_TEXT - len(node.name)))
    return (
        f'<g class="row" data-i="{number}"><title>{html.escape(node.says)}</title>'
        f'<circle class="k-{node.kind}" cx="{spot.x:.1f}" cy="{spot.y:.1f}" r="3.2"/>'
        f'<text class="{"end" if end else ""}" x="{x:.1f}" y="{spot.y:.1f}"'
        f' dominant-baseline="central">{text}<tspan>{html.escape(rest)}</tspan></text></g>'
    )


def _hub(center: Node, spot: Spot, number: int) -> str:
    return (
        f'<g class="row hub" data-i="{number}">'
        f'<rect class="s-{center.kind}" x="{spot.x - 88:.1f}" y="{spot.y - 27:.1f}" width="176"'
        f' height="54" rx="6"/>'
        f'<text class="strong k-{center.kind}" x="{spot.x:.1f}" y="{spot.y - 4:.1f}">'
        f"{html.escape(shortened(center.name, 24))}</text>"
        f'<text x="{spot.x:.1f}" y="{spot.y + 14:.1f}">{center.kind}</text></g>'
    )
