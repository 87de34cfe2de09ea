"""What goes together: questions, calculations, clauses, checks and standards, and what joins them.

Facts are taken for the questions that they read, so that a relation always joins two things that a
person decides, reads or looks up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from specgen.computing.registry import reads_of
from specgen.dependence import names_in
from specgen.library import Library
from specgen.study.naming import Target
from specgen.study.saying import label_of
from specgen.wording import Printed, Text

KINDS = ("question", "calculation", "clause", "check", "standard")
# What an edge says, read from its source to its target, and the other way round.
WORDS: Mapping[str, tuple[str, str]] = {
    "asks": ("has asked", "asked because of"),
    "computes": ("goes into", "computed from"),
    "decides": ("decides whether it stands:", "stands by"),
    "words": ("words", "worded by"),
    "checked": ("read by the check", "reads"),
    "needs": ("needs beside it", "needed by"),
    "above": ("has below it", "stands under"),
    "cites": ("cites", "cited by"),
    "shows": ("shows its finding at", "findings shown here:"),
}


@dataclass(frozen=True, slots=True)
class Node:
    """One thing of the library: ``group`` is its topic, article, subject or publisher; ``label``
    what it is called, ``says`` what it asks, requires, finds or governs, ``why`` its reason."""

    kind: str
    name: str
    label: str
    group: str
    says: str
    why: str

    @property
    def key(self) -> str:
        return f"{self.kind}:{self.name}"


@dataclass(frozen=True, slots=True)
class Edge:
    """A relation between two nodes, by their keys; ``kind`` is one of WORDS."""

    source: str
    target: str
    kind: str


@dataclass(frozen=True)
class Relations:
    """Nodes and the edges between them; ``center`` is the node it is drawn around, if any."""

    nodes: tuple[Node, ...]
    edges: tuple[Edge, ...]
    center: str = ""

    @cached_property
    def by_key(self) -> dict[str, Node]:
        return {node.key: node for node in self.nodes}

    @cached_property
    def out_of(self) -> dict[str, tuple[Edge, ...]]:
        """The edges by their source."""
        return _grouped((edge.source, edge) for edge in self.edges)

    @cached_property
    def into(self) -> dict[str, tuple[Edge, ...]]:
        """The edges by their target."""
        return _grouped((edge.target, edge) for edge in self.edges)

    def around(self, target: Target) -> Relations:
        """What one thing is directly joined with."""
        kind = "check" if target.kind == "finding" else target.kind
        center = f"{kind}:{target.name}"
        edges = (*self.into.get(center, ()), *self.out_of.get(center, ()))
        near = {center, *(edge.source for edge in edges), *(edge.target for edge in edges)}
        nodes = tuple(node for node in self.nodes if node.key in near)
        return Relations(nodes, tuple(dict.fromkeys(edges)), center)


def relations_of(library: Library) -> Relations:
    """Everything of a library and all that joins it."""
    return Relations(tuple(_nodes(library)), tuple(dict.fromkeys(_edges(library))))


def _grouped(pairs: Iterable[tuple[str, Edge]]) -> dict[str, tuple[Edge, ...]]:
    groups: dict[str, list[Edge]] = {}
    for key, edge in pairs:
        groups.setdefault(key, []).append(edge)
    return {key: tuple(edges) for key, edges in groups.items()}


# ------------------------------------------------------------------------------------------ nodes


def _nodes(library: Library) -> Iterator[Node]:
    for question in library.questions.values():
        yield Node(
            "question", question.id, question.label, question.topic, question.ask, question.why
        )
    for calculation in {each.id: each for each in library.calculations.values()}.values():
        gives = ", ".join(provided.label for provided in calculation.provides)
        yield Node(
            "calculation", calculation.id, calculation.title, "calculations", f"Gives {gives}.", ""
        )
    titles = {p.id: p.title.capitalize() for part in library.parts for p in part.articles}
    for plan in titles:
        for clause in library.clauses.values():
            if clause.article == plan:
                says = text_words(clause.text, library)
                yield Node("clause", clause.id, clause.id, titles[plan], says, clause.why)
    for check in library.checks.values():
        subject = _subject(check.file)
        says = text_words(check.says, library)
        yield Node("check", check.id, f"{check.id} ({check.kind})", subject, says, check.because)
    for standard in sorted(library.standards.values(), key=lambda each: each.publisher):
        says = f"{standard.kind.capitalize()}: {standard.governs}."
        yield Node("standard", standard.id, standard.title, standard.publisher, says, standard.note)


def _subject(file: str) -> str:
    """The subject of a check: the name of the file that holds it."""
    return file.replace("\\", "/").rpartition("/")[2].removesuffix(".yaml").replace("-", " ")


def text_words(text: Text, library: Library) -> str:
    """A text of the library in words, a printed answer by what it is called, a choice of words by
    the first of them."""
    return " ".join("".join(_piece_words(text.pieces, library)).split())


def _piece_words(pieces: Iterable[object], library: Library) -> Iterator[str]:
    for piece in pieces:
        if isinstance(piece, str):
            yield piece
        elif isinstance(piece, Printed):
            names = sorted(piece.value.names)
            if names:
                yield f"({label_of(library, names[0])})"
            else:
                yield piece.value.source.partition("'")[2].partition("'")[0]
        else:
            branches = getattr(piece, "branches", ())
            yield from _piece_words(branches[0][1], library) if branches else ()


# ------------------------------------------------------------------------------------------ edges


def _edges(library: Library) -> Iterator[Edge]:
    for question in library.questions.values():
        if question.when is not None:
            for source in _sources(library, question.when.names):
                yield Edge(source, f"question:{question.id}", "asks")
    for calculation in {each.id: each for each in library.calculations.values()}.values():
        reads = reads_of(calculation, library.arises[calculation.id])
        for source in _sources(library, reads):
            yield Edge(source, f"calculation:{calculation.id}", "computes")
    yield from _clause_edges(library)
    for check in library.checks.values():
        key = f"check:{check.id}"
        for source in _sources(library, check.when.names):
            yield Edge(source, key, "checked")
        if check.place is not None:
            yield Edge(key, f"clause:{check.place}", "shows")


def _clause_edges(library: Library) -> Iterator[Edge]:
    for clause in library.clauses.values():
        key = f"clause:{clause.id}"
        deciding = set(clause.when.names if clause.when is not None else ())
        if clause.table is not None:
            deciding.add(clause.table)
        decides = set(_sources(library, deciding))
        for source in sorted(decides):
            yield Edge(source, key, "decides")
        for source in _sources(library, names_in(clause)):
            if source not in decides:
                yield Edge(source, key, "words")
        for needed in clause.needs:
            yield Edge(key, f"clause:{needed}", "needs")
        if clause.under is not None:
            yield Edge(f"clause:{clause.under}", key, "above")
        for cited in clause.cites:
            yield Edge(key, f"standard:{cited}", "cites")


def _sources(library: Library, names: Iterable[str]) -> list[str]:
    """The nodes behind names: facts taken for what they read, values for their calculation."""
    found: set[str] = set()
    stack = list(names)
    while stack:
        name = stack.pop()
        if name in library.facts:
            stack.extend(library.facts[name].condition.names)
        elif name in library.questions:
            found.add(f"question:{name}")
        else:
            found.add(f"calculation:{library.calculations[name].id}")
    return sorted(found)
