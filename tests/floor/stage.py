"""The floor for a terminal to run: python -m tests.floor.stage desk FOLDER, or paper FILE."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path

from core.desk.desk import Desk
from core.desk.faces import DeskFace
from core.desk.load import examine
from floor.app import FloorApp
from tests.floor.paper import PaperDesk

HOUSE_TOML = Path(__file__).parents[1] / "desk" / "house.toml"


def desk(kind: str, place: Path) -> DeskFace:
    if kind == "paper":
        return PaperDesk(examine(HOUSE_TOML.read_bytes(), "house.toml").house, place)
    return Desk(place, lambda: dt.datetime.now().astimezone(), "T1", "MC")


def main() -> int:
    FloorApp(desk(sys.argv[1], Path(sys.argv[2]))).run(mouse=False)
    return 0


if __name__ == "__main__":
    sys.exit(main())
