"""The map of a library as text trees, and as plain values for JSON."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from specgen.study.relations import WORDS, Edge, Node, Relations
from specgen.writers.laid_out import counted, entry, shortened

LABEL = 96
NAMES = {
    "question": ("question", "questions"),
    "calculation": ("calculation", "calculations"),
    "clause": ("clause", "clauses"),
    "check": ("check", "checks"),
    "standard": ("standard", "standards"),
}


def write_map(relations: Relations) -> str:
    """The tree of the whole library, or of one thing and what it is joined with."""
    lines = _around(relations) if relations.center else _whole(relations)
    return "\n".join(lines) + "\n"


def map_json(relations: Relations) -> dict[str, object]:
    """Every node and edge."""
    return {
        "center": relations.center,
        "nodes": [
            {"key": n.key, "kind": n.kind, "name": n.name, "label": n.label, "group": n.group}
            for n in relations.nodes
        ],
        "edges": [
            {"source": e.source, "target": e.target, "kind": e.kind} for e in relations.edges
        ],
    }


def branches(items: Sequence[tuple[str, Sequence[str]]], margin: str = "") -> Iterator[str]:
    """Items as the branches of a tree, each with the lines below it."""
    for index, (text, below) in enumerate(items):
        last = index == len(items) - 1
        yield f"{margin}{'└─ ' if last else '├─ '}{text}"
        inner = f"{margin}{'   ' if last else '│  '}"
        yield from (f"{inner}{line}" for line in below)


# ---------------------------------------------------------------------------------------- of one


def _around(relations: Relations) -> list[str]:
    center = relations.by_key[relations.center]
    lines = [f"{center.name}  {_kind(center)}", *entry(center.says, hang=""), ""]
    joined: dict[str, list[Node]] = {}
    for edge in relations.edges:
        leads = edge.target == relations.center
        other = relations.by_key[edge.source if leads else edge.target]
        words = WORDS[edge.kind][1 if leads else 0].rstrip(":")
        joined.setdefault(words, []).append(other)
    items = [
        (f"{words} ({len(nodes)})", list(branches(_by_group(nodes))))
        for words, nodes in joined.items()
    ]
    return lines + (list(branches(items)) or ["joined with nothing"])


def _kind(node: Node) -> str:
    shown = node.label if node.label != node.name else ""
    return f"{node.kind}, {node.group}" + (f": {shown}" if shown else "")


def _by_group(nodes: Iterable[Node]) -> list[tuple[str, list[str]]]:
    groups: dict[str, list[Node]] = {}
    for node in nodes:
        groups.setdefault(node.group, []).append(node)
    return [
        (group, list(branches([(_called(node), ()) for node in held])))
        for group, held in groups.items()
    ]


def _called(node: Node) -> str:
    if node.kind in ("question", "calculation"):
        return f"{node.name}  {node.label}"
    if node.kind == "standard":
        return shortened(f"{node.name}, {node.label}", LABEL)
    return shortened(f"{node.name}  {node.says}", LABEL)


# -------------------------------------------------------------------------------------- of all


def _whole(relations: Relations) -> list[str]:
    """Questions below the topic or the question that has them asked, then the articles."""
    counts = ", ".join(
        counted(sum(1 for node in relations.nodes if node.kind == kind), *names)
        for kind, names in NAMES.items()
    )
    lines = [f"{counts}; {counted(len(relations.edges), 'relation')}.", ""]
    lines += ["QUESTIONS, each below what has it asked, with what hangs on it", ""]
    lines += branches(list(_topics(relations)))
    lines += ["", "ARTICLES, with the standards that their clauses cite", ""]
    lines += branches(list(_articles(relations)))
    return lines


def _topics(relations: Relations) -> Iterator[tuple[str, list[str]]]:
    questions = [node for node in relations.nodes if node.kind == "question"]
    asked = {
        edge.target
        for edge in relations.edges
        if edge.kind == "asks"
        and relations.by_key[edge.source].group == relations.by_key[edge.target].group
    }
    groups: dict[str, list[Node]] = {}
    for node in questions:
        groups.setdefault(node.group, []).append(node)
    for topic, held in groups.items():
        below = [_question(relations, node, set()) for node in held if node.key not in asked]
        yield topic, list(branches(below))


def _question(relations: Relations, node: Node, above: set[str]) -> tuple[str, list[str]]:
    """A question with the questions of its topic that it has asked below it."""
    edges = relations.out_of.get(node.key, ())
    asks = [
        relations.by_key[edge.target]
        for edge in edges
        if edge.kind == "asks"
        and relations.by_key[edge.target].group == node.group
        and edge.target not in above
    ]
    below = [_question(relations, each, above | {node.key}) for each in asks]
    return f"{node.name}  {node.label}{_counts(edges)}", list(branches(below))


def _counts(edges: Sequence[Edge]) -> str:
    clauses = sum(1 for edge in edges if edge.kind in ("decides", "words"))
    checks = sum(1 for edge in edges if edge.kind == "checked")
    told = []
    if clauses:
        told.append(counted(clauses, "clause"))
    if checks:
        told.append(counted(checks, "check"))
    return f"  ({', '.join(told)})" if told else ""


def _articles(relations: Relations) -> Iterator[tuple[str, list[str]]]:
    groups: dict[str, list[Node]] = {}
    for node in relations.nodes:
        if node.kind == "clause":
            groups.setdefault(node.group, []).append(node)
    for title, clauses in groups.items():
        cited = {
            edge.target.partition(":")[2]
            for node in clauses
            for edge in relations.out_of.get(node.key, ())
            if edge.kind == "cites"
        }
        below = entry(", ".join(sorted(cited)), "", "") if cited else []
        yield f"{title}  ({counted(len(clauses), 'clause')})", below
