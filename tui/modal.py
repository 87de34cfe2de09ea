"""A screen that stands over another until it is answered."""

from __future__ import annotations

from textual.await_complete import AwaitComplete
from textual.screen import ModalScreen, ScreenResultType


class Modal(ModalScreen[ScreenResultType]):
    """Keys that come faster than it goes away do not take the screen below it away as well."""

    def dismiss(self, result: ScreenResultType | None = None) -> AwaitComplete:
        """Give a result and go away; nothing where it is no longer on top."""
        return super().dismiss(result) if self.is_active else AwaitComplete()
