"""The line's picture as an SVG document that stands alone, in words a report can use."""

from __future__ import annotations

from collections.abc import Callable

from core.house.model import HouseBook
from core.line.curve import Drawn, filler_drawn
from core.line.sheet import LineSheet
from core.line.whatif import WhatIf
from core.say import Said, joined, say
from core.sketch.filler_svg import FillerLabels, filler_svg


def line_svg(
    house: HouseBook,
    sheet: LineSheet,
    tried: WhatIf | None = None,
    *,
    tell: Callable[[str], str] = str,
) -> str:
    """Filler against ring gauge for a sheet's blend: law, band, plain volume, approved bunches.

    With what is tried beside it: the sizes that are changed, and the law where it is another.
    `tell` says each of its words in the reader's language.
    """
    drawn = filler_drawn(house, sheet, None if tried is None else tried.changed)
    law = sheet.law
    length, p = f"{drawn.length_mm:.1f}", f"{law.p:.2f}"
    band = (
        say("the grey band holds 19 in 20 approved entries")
        if law.t
        else say("its error cannot be told")
    )
    description = say(
        "packing law p {p} from {source}; {band}; dots: approved bunches, hollow where of another "
        "length or shape and brought to {length} mm by the law; dashed: the same leaf by plain "
        "volume",
        p=p,
        source=law.source,
        band=band,
        length=length,
    )
    labels = FillerLabels(
        title=_title(sheet, tried, length),
        description=description if tried is None else _with_tried(description, drawn, tried),
        along=say("ring gauge, 64ths of an inch"),
        up=say("g a bunch, standard moisture"),
        law=say("law, p {p}", p=p),
        band=say("19 in 20"),
        plain=say("plain volume, p 2"),
        tried=say("law, as tried"),
        size_tried=say("{name} as tried"),
    )
    return filler_svg(drawn.picture, FillerLabels(*map(tell, labels)))


def _title(sheet: LineSheet, tried: WhatIf | None, length: str) -> Said:
    if tried is None:
        return say(
            "blend {blend}, filler of a parejo of {length} mm", blend=sheet.blend, length=length
        )
    return say(
        "blend {blend} today and as tried, filler of a parejo of {length} mm",
        blend=sheet.blend,
        length=length,
    )


def _with_tried(description: Said, drawn: Drawn, tried: WhatIf) -> Said:
    """What of the picture is tried, in words."""
    picture = drawn.picture
    changes = say("tried: {changes}", changes=joined(", ", (c.said for c in tried.changes)))
    if not picture.tried_spots:
        none = say("what is tried leaves the filler of every size as it is")
        return joined("; ", (description, changes, none))
    rows = {row.vitola: row for row in tried.changed.vitolas}
    sizes = (
        say(
            "{vitola} ring {ring}, {length} mm: {filler} g",
            vitola=spot.name,
            ring=f"{rows[spot.name].ring:g}",
            length=f"{rows[spot.name].length_mm:.1f}",
            filler=f"{rows[spot.name].filler_standard_g:.2f}",
        )
        for spot in picture.tried_spots
    )
    says = [description, changes, say("triangles: as tried, {sizes}", sizes=joined(", ", sizes))]
    if picture.tried:
        length = next(
            row.length_mm for row in tried.changed.vitolas if row.vitola == tried.changed.reference
        )
        says.append(say("dotted: the law as tried, for {length} mm", length=f"{length:.1f}"))
    return joined("; ", says)
