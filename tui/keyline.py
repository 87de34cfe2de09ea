"""The last line: the keys that work where the focus is, each of which can be clicked."""

from __future__ import annotations

from collections.abc import Iterator

from textual.binding import Binding
from textual.content import Content
from textual.dom import DOMNode
from textual.screen import Screen
from textual.widgets import Static

from tui.marks import plain

_NAMES = {
    "escape": "esc",
    "question_mark": "?",
    "left_square_bracket": "[",
    "right_square_bracket": "]",
    "slash": "/",
    "plus": "+",
    "minus": "-",
    "exclamation_mark": "!",
    "full_stop": ".",
    "comma": ",",
    "pageup": "pgup",
    "pagedown": "pgdn",
}


def shown_key(key: str) -> str:
    """A key as the last line and the help show it: ``^P`` for ctrl+p."""
    if key.startswith("ctrl+"):
        return "^" + _NAMES.get(key[5:], key[5:]).upper()
    return _NAMES.get(key, key if len(key) == 1 else key.capitalize() if key[0] == "f" else key)


# Moving about is no action that somebody would look for by its name.
MOVES = {"up", "down", "first", "last", "page up", "page down", "back", "on"}
# The actions whose keys are shown whatever else there is room for.
LAST = ("help", "leave")


class KeyLine(Static):
    """The keys of the focused widget first, then those of its screen, then the app's."""

    DEFAULT_CSS = "KeyLine { height: 1; width: 100%; padding: 0 1; background: $panel; }"

    def on_mount(self) -> None:
        self.screen.bindings_updated_signal.subscribe(self, self._keys_changed)
        self._keys_changed(self.screen)

    def on_resize(self) -> None:
        self._keys_changed(self.screen)

    def _keys_changed(self, screen: Screen[object]) -> None:
        """Show as many keys as there is room for; those that lead out are always among them."""
        shown: dict[str, Binding] = {}
        for binding in self._in_order():
            if binding.show:
                shown.setdefault(binding.action, binding)
        room = self.size.width - 2 - sum(_width(shown[name]) for name in LAST if name in shown)
        chosen: list[Binding] = []
        for name, binding in shown.items():
            if name not in LAST and _width(binding) <= room:
                room -= _width(binding)
                chosen.append(binding)
        chosen += [shown[name] for name in LAST if name in shown]
        self.update(Content("  ").join(_part(binding) for binding in chosen))

    def _in_order(self) -> list[Binding]:
        """What works now: of the focused widget, of the screen, of the app in its own order."""
        nearer, everywhere = [], {}
        for active in self.screen.active_bindings.values():
            if active.node is self.app:
                everywhere[active.binding.action] = active.binding
            else:
                nearer.append(active.binding)
        own = [binding.action for binding in self.app.BINDINGS if isinstance(binding, Binding)]
        return nearer + [everywhere[action] for action in own if action in everywhere]


def own_bindings(screen: Screen[object]) -> Iterator[tuple[DOMNode, Binding]]:
    """What works on a screen now and was made here, with whom it belongs to; not the app's."""
    for active in screen.active_bindings.values():
        if active.node is not screen.app and active.binding.action in _own_actions(active.node):
            yield active.node, active.binding


def _own_actions(node: DOMNode) -> set[str]:
    """The actions that the classes of the screens give a widget, without those of the toolkit."""
    ours = (kind for kind in type(node).__mro__ if kind.__module__.startswith("tui."))
    bindings = (binding for kind in ours for binding in kind.__dict__.get("BINDINGS", ()))
    return {binding.action for binding in bindings if isinstance(binding, Binding)}


def _width(binding: Binding) -> int:
    return len(shown_key(binding.key)) + len(binding.description) + 3


def _part(binding: Binding) -> Content:
    key = Content.styled(shown_key(binding.key), "bold $accent")
    part = Content.assemble(key, " ", plain(binding.description))
    return part.stylize(f"@click=app.simulate_key('{binding.key}')")
