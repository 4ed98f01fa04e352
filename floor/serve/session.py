"""One browser's floor, in a process of its own: `python -m floor.serve.session PLACE`."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence

from core.problems import StoreUnusable, UserError
from core.say import say
from floor.app import FloorApp
from floor.commands import out
from floor.serve.packets import READY, last_words
from floor.serve.place import read

BROWSER = {"TERM": "xterm-256color", "COLORTERM": "truecolor", "LC_ALL": "C.UTF-8"}
"""What the page's terminal can show, whatever terminal `serve` was started from."""


def main(argv: Sequence[str]) -> int:
    """Show the floor until somebody leaves it; what is wrong is said on the page."""
    place = read(argv[0])
    out.speak(place.spoken)
    begun = False
    try:
        desk = place.setting().recording()
        shown = {**os.environ, **BROWSER}
        app = FloorApp(desk, shown, "utf-8", language=place.language, served=True)
        gc.freeze()
        begun = True
        return app.run(mouse=False) or 0
    except UserError as error:
        sentence, code = error.said, error.exit_code
    except (OSError, MemoryError) as error:
        why = str(error) or type(error).__name__
        sentence, code = say("the system refused: {why}", why=why), StoreUnusable.exit_code
    told = last_words(out.tell(sentence))
    os.write(1, told if begun else READY + told)
    return code


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
