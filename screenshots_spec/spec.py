"""One screen to picture: its size, the demo moment it is taken at, keys, what must be on it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict

SPECS = Path(__file__).parent
_KEY = re.compile(r"<(\w+)>|(.)", re.DOTALL)


class Spec(BaseModel):
    """A screen's description. `keys` is typed as it stands, keys without a sign as `<enter>`."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    name: str
    title: str
    columns: int
    rows: int
    demo_day: str
    keys: str
    shows: tuple[str, ...]
    environ: dict[str, str] = {}
    language: Literal["en", "es"] = "en"
    without_house: bool = False
    """On an empty data folder, at the demo's moment."""

    @property
    def strokes(self) -> tuple[str, ...]:
        """The keys, one by one, as the terminal names them."""
        return tuple(key or sign for key, sign in _KEY.findall(self.keys))


def read(path: Path) -> Spec:
    """The description in a TOML file, named for the file."""
    return Spec(name=path.stem, **tomllib.loads(path.read_text(encoding="utf-8")))


def specs() -> tuple[Spec, ...]:
    """Every description of this folder, by name."""
    return tuple(read(path) for path in sorted(SPECS.glob("*.toml")))
