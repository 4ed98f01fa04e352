"""The floor on the demo house, led to one screen without a terminal, and taken down."""

from __future__ import annotations

import asyncio
import datetime as dt
import re
import shutil
import time
from pathlib import Path
from typing import NamedTuple

from core.desk.desk import Desk
from core.desk.load import examine
from core.desk.shelf import Shelf
from core.records.folder import Folder
from demo.house import HOUSE_TOML
from floor.app import FloorApp
from screenshots_spec.spec import Spec

PATIENCE_S = 10.0
LINES = re.compile(r"terminal-\d+-")
BUTTONS = re.compile(r"<circle [^>]*/>")
WEB_FONTS = re.compile(r"@font-face\s*{[^}]*}", re.DOTALL)
FONT = "DejaVu Sans Mono"


class Picture(NamedTuple):
    """A screen as rows of text and as SVG, the same from run to run."""

    text: str
    svg: str


def take(spec: Spec, demo: Path, moment: dt.datetime, place: Path) -> Picture:
    """Lead the floor to the screen on a copy of the demo's records, and take it down.

    Raises TimeoutError with the screen's text where what must be on it does not come.
    """
    folder = place / spec.name
    if not spec.without_house:
        shutil.copytree(demo, folder)
    if spec.language != "en" and not spec.without_house:
        _speak(spec.language, folder, moment)
    return asyncio.run(_take(spec, Desk(folder, lambda: moment, "T1", "S1")))


def _speak(language: str, folder: Path, moment: dt.datetime) -> None:
    """Load the demo's house book once more, in another language."""
    text = HOUSE_TOML.read_text(encoding="utf-8")
    text = text.replace('language = "en"', f'language = "{language}"')
    house = examine(text.encode(), HOUSE_TOML.name).house
    if house is None or house.house.language != language:
        raise ValueError(f"the demo's house book does not speak {language}")
    records = Folder(folder)
    Shelf(records).load(house, text, HOUSE_TOML.name, moment)
    records.close()


async def _take(spec: Spec, desk: Desk) -> Picture:
    app = FloorApp(desk, environ={"TERM": "xterm-256color", **spec.environ}, encoding="utf-8")
    async with app.run_test(size=(spec.columns, spec.rows)) as pilot:
        for key in spec.strokes:
            await pilot.press(key)
        until = time.monotonic() + PATIENCE_S
        while missing := [words for words in spec.shows if words not in rows(app)]:
            if time.monotonic() > until:
                raise TimeoutError(f"{spec.name}: {missing} not on\n{rows(app)}")
            await pilot.pause(0.02)
        return Picture(rows(app), plain(app.export_screenshot(title=spec.title)))


def rows(app: FloorApp) -> str:
    """What stands on the screen, row by row; Textual has no public way to ask."""
    strips = app.screen._compositor.render_strips()
    return "\n".join(strip.text.rstrip() for strip in strips) + "\n"


def plain(svg: str) -> str:
    """The picture without what differs from run to run or comes from outside."""
    bare = BUTTONS.sub("", WEB_FONTS.sub("", LINES.sub("terminal-", svg)))
    return bare.replace("Fira Code", FONT)
