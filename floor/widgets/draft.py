"""The line being typed: its text, the caret, and the lines before it."""

from __future__ import annotations

REMEMBERED = 500


class Draft:
    """One line of text under the keys.

    `standing` is a line that was entered and could not be read: it stays to be mended, but
    the next printable sign starts a fresh line rather than run into it. `wrong_at` is the
    column of what is wrong in it.
    """

    def __init__(self) -> None:
        self.text = ""
        self.caret = 0
        self.standing = False
        self.wrong_at: int | None = None
        self._past: list[str] = []
        self._place: int | None = None
        self._stashed = ""

    def insert(self, text: str) -> None:
        self.text = self.text[: self.caret] + text + self.text[self.caret :]
        self.caret += len(text)
        self._touched()

    def backspace(self) -> None:
        if self.caret:
            self.text = self.text[: self.caret - 1] + self.text[self.caret :]
            self.caret -= 1
        self._touched()

    def delete(self) -> None:
        self.text = self.text[: self.caret] + self.text[self.caret + 1 :]
        self._touched()

    def move_to(self, caret: int) -> None:
        """Put the caret before that sign, or as near as there is one."""
        self.caret = min(len(self.text), max(0, caret))
        self.standing = False

    def stand(self, wrong_at: int | None) -> None:
        """Keep the line as one that could not be read."""
        self.standing, self.wrong_at = True, wrong_at
        self.caret = len(self.text)

    def take(self) -> str:
        """Clear the line and remember it; what it was is returned."""
        text = self.text
        if text.strip() and self._past[-1:] != [text]:
            self._past = [*self._past[1 - REMEMBERED :], text]
        self._replace("")
        self._place = None
        return text

    def replace(self, text: str) -> None:
        """Put another text on the line."""
        self._replace(text)
        self._place = None

    def earlier(self) -> None:
        """Bring back the line entered before the one shown."""
        if self._place is None:
            self._stashed, self._place = self.text, len(self._past)
        if self._place > 0:
            self._place -= 1
            self._replace(self._past[self._place])

    def later(self) -> None:
        """Go forward again, at last to what was being typed."""
        if self._place is None:
            return
        self._place += 1
        if self._place < len(self._past):
            self._replace(self._past[self._place])
        else:
            self.replace(self._stashed)

    def _replace(self, text: str) -> None:
        self.text, self.caret = text, len(text)
        self.standing, self.wrong_at = False, None

    def _touched(self) -> None:
        self.standing, self.wrong_at = False, None
        self._place = None
