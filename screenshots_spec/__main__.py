"""Render every screen: `python -m screenshots_spec [NAME ...]` writes pictures/ anew."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

import resvg_py

from demo.build import build
from screenshots_spec.spec import SPECS, specs
from screenshots_spec.stage import FONT, take

PICTURES = SPECS / "pictures"


def main(names: list[str]) -> int:
    """Render the screens named, all of them without a name, as text, SVG and PNG."""
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as place:
        demo = Path(place) / "demo"
        moment = build(demo)
        for spec in specs():
            if names and spec.name not in names:
                continue
            picture = take(spec, demo, moment, Path(place))
            (PICTURES / f"{spec.name}.txt").write_text(picture.text, encoding="utf-8")
            (PICTURES / f"{spec.name}.svg").write_text(picture.svg, encoding="utf-8")
            png = resvg_py.svg_to_bytes(svg_string=picture.svg, monospace_family=FONT)
            (PICTURES / f"{spec.name}.png").write_bytes(bytes(png))
            sys.stdout.write(f"{spec.name}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
