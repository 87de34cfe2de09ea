"""The keys of a table, taken in the order in which they come, however fast they are typed.

What has the focus when a key comes may have lost it when the key is taken, and a key that is bound
is taken only after those that follow it. So the cells and the field over them take their keys here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from textual import events

from tui.cell_field import CellField
from tui.record_grid import RecordGrid

Act = Callable[[], None]


class RecordKeys:
    """Hands each key to the field where one is open, else to the cells."""

    def __init__(self, grid: RecordGrid, field: CellField) -> None:
        self._field = field
        self._of_field: Mapping[str, Act] = {
            "enter": lambda: field.action_take(1),
            "tab": lambda: field.action_take(1),
            "shift+tab": lambda: field.action_take(-1),
            "escape": field.action_restore,
            "up": lambda: field.action_offer(-1),
            "down": lambda: field.action_offer(1),
        }
        self._of_grid: Mapping[str, Act] = {
            "enter": grid.action_type,
            "space": grid.action_next_offer,
            "tab": lambda: grid.action_move(0, 1),
            "shift+tab": lambda: grid.action_move(0, -1),
            "up": lambda: grid.action_move(-1, 0),
            "down": lambda: grid.action_move(1, 0),
            "left": lambda: grid.action_move(0, -1),
            "right": lambda: grid.action_move(0, 1),
        }
        self._type = grid.type_character

    def take(self, event: events.Key, *, at_field: bool) -> None:
        """Take a key that came to the field or to the cells; others go their usual way."""
        is_open = self._field.display
        act = (self._of_field if is_open else self._of_grid).get(event.key)
        typed = event.character if event.is_printable and event.character else ""
        if act is not None:
            act()
        elif is_open and at_field:
            return
        elif is_open and typed:
            self._field.insert_text_at_cursor(typed)
        elif typed and typed != "?":
            self._type(typed)
        elif at_field:
            event.prevent_default()
            return
        else:
            return
        event.stop()
        event.prevent_default()
