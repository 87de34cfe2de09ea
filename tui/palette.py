"""Every action by its name: those at hand first, then those of the other screens."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual.binding import Binding
from textual.dom import DOMNode
from textual.fuzzy import Matcher
from textual.screen import Screen

from tui.finder import Finder, Found
from tui.head import PLACES
from tui.keyline import MOVES, own_bindings, shown_key
from tui.marks import plain

if TYPE_CHECKING:
    from tui.app import RoofApp


class Action(Found):
    """An action with its name, by which it is found."""

    name: str

    def __init__(self, place: str, name: str, key: str, go: partial[None]) -> None:
        shown = f"{place}: {name}" if place else name
        row = ((f"{shown.ljust(44)} ", "plain"), (shown_key(key) if key else "", "number"))
        super().__init__(row, go)
        object.__setattr__(self, "name", plain(shown))


class Palette(Finder):
    """Actions, found by some of their letters."""

    head: ClassVar[str] = "What do you want to do?"
    hint: ClassVar[str] = "some letters of it, such as draft or undo"
    nothing: ClassVar[str] = "No action is called so."

    def __init__(self, screen: Screen[object]) -> None:
        super().__init__()
        self._over = screen
        self._actions: list[Action] = []

    def on_mount(self) -> None:
        self._actions = list(actions_from(self._over))
        super().on_mount()

    def fitting(self, typed: str) -> Sequence[Found]:
        if not typed:
            return self._actions
        matcher = Matcher(typed)
        scored = [(matcher.match(action.name), action) for action in self._actions]
        fitting = [(score, action) for score, action in scored if score > 0]
        fitting.sort(key=lambda pair: -pair[0])
        return [action for _, action in fitting]


def actions_from(screen: Screen[Any]) -> Iterator[Action]:
    """The actions that can be had from a screen, each once."""
    app = cast("RoofApp", screen.app)
    seen: set[str] = set()
    for node, binding in own_bindings(screen):
        yield from _once(seen, "", binding, partial(_run, node, binding.action))
    for binding in _bindings(app.BINDINGS):
        place = PLACES.get(binding.action.partition("'")[2].partition("'")[0])
        name = f"go to {place}" if place else binding.description
        shown = Binding(binding.key, binding.action, name)
        yield from _once(seen, "", shown, partial(_run, app, binding.action))
    yield from _elsewhere(app, seen, str(getattr(screen, "place", "")))


def _elsewhere(app: RoofApp, seen: set[str], here: str) -> Iterator[Action]:
    """The actions of the other screens; choosing one shows its screen first."""
    from tui.app import frame_class

    for place, title in PLACES.items():
        if place == here:
            continue
        for binding in _bindings(frame_class(place).BINDINGS):
            if binding.show:
                go = partial(_run_there, app, place, binding.action)
                yield from _once(seen, title, binding, go)


def _once(seen: set[str], place: str, binding: Binding, go: partial[None]) -> Iterator[Action]:
    key = binding.key.partition(",")[0]
    name = f"{place}: {binding.description}"
    if binding.description not in ("", *MOVES) and name not in seen:
        seen.add(name)
        yield Action(place, binding.description, key, go)


def _bindings(bindings: Iterable[object]) -> Iterator[Binding]:
    return (binding for binding in bindings if isinstance(binding, Binding))


def _run(node: DOMNode, action: str) -> None:
    """Run an action where it belongs, once the palette is gone."""
    node.app.call_later(node.app.run_action, action, node)


def _run_there(app: RoofApp, place: str, action: str) -> None:
    app.show(place)
    frame = app.frame_of(place)
    frame.call_after_refresh(app.run_action, action, frame)
