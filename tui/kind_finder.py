"""Naming what is wrong: the kinds of fault, found by typing some words of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import ClassVar

from textual import on
from textual.widget import Widget
from textual.widgets import Static

from specgen.study.practice import Kind
from tui.cursor_list import CursorList
from tui.finder import Finder, Found, FoundList
from tui.marks import plain


class KindFinder(Finder):
    """Every kind that holds what was typed, those whose words begin with it first."""

    head: ClassVar[str] = "What is wrong here?"
    hint: ClassVar[str] = "some letters of it, such as missing or standard"
    nothing: ClassVar[str] = "No kind of fault is called so."

    DEFAULT_CSS = """
    KindFinder #means { height: 3; margin-top: 1; color: $primary; }
    """

    def __init__(self, place: str, kinds: Sequence[Kind], chosen: Callable[[str], None]) -> None:
        """``chosen`` is given the id of the kind."""
        super().__init__()
        self._place = place
        self._kinds, self._chosen = kinds, chosen
        self._fitting: list[Kind] = []
        self._means = Static("", id="means", markup=False)

    def on_mount(self) -> None:
        for head in self.query(".head").results(Static):
            head.update(f"What is wrong at {self._place}?")

    def more(self) -> Iterable[Widget]:
        yield self._means

    def fitting(self, typed: str) -> Sequence[Found]:
        typed = plain(typed).lower()
        fits = [
            (_rank(kind, typed), index, kind)
            for index, kind in enumerate(self._kinds)
            if all(word in _searched(kind) for word in typed.split())
        ]
        self._fitting = [kind for _, _, kind in sorted(fits, key=lambda each: each[:2])]
        self.call_after_refresh(self._tell)
        return [_found_of(kind, self._chosen) for kind in self._fitting]

    @on(CursorList.Moved)
    def _tell(self) -> None:
        """Say what the kind under the cursor means."""
        for found in self.query(FoundList):
            kinds = self._fitting[found.cursor : found.cursor + 1]
            self._means.update(plain(kinds[0].means) if kinds else "")


def _found_of(kind: Kind, chosen: Callable[[str], None]) -> Found:
    row = ((f"{kind.words}  ", "strong"), (kind.topic, "muted"))
    return Found(row, partial(chosen, kind.id))


def _searched(kind: Kind) -> str:
    return plain(f"{kind.words} {kind.topic} {kind.means} {kind.id}").lower()


def _rank(kind: Kind, typed: str) -> int:
    """0 where the kind's words begin with what was typed, 1 where they hold it, 2 elsewhere."""
    words = plain(kind.words).lower()
    if words.startswith(typed):
        return 0
    return 1 if all(word in words for word in typed.split()) else 2
