"""The line's picture as an SVG document that stands alone, in words a report can use."""

from __future__ import annotations

from core.house.model import HouseBook
from core.line.curve import filler_drawn
from core.line.sheet import LineSheet
from core.sketch.filler_svg import FillerLabels, filler_svg


def line_svg(house: HouseBook, sheet: LineSheet) -> str:
    """Filler against ring gauge for a sheet's blend: law, band, plain volume, approved bunches."""
    drawn = filler_drawn(house, sheet)
    law = sheet.law
    length = f"{drawn.length_mm:.1f} mm"
    band = "the grey band holds 19 in 20 approved entries" if law.t else "its error cannot be told"
    return filler_svg(
        drawn.picture,
        FillerLabels(
            title=f"blend {sheet.blend}, filler of a parejo of {length}",
            description=(
                f"packing law p {law.p:.2f} from {law.source}; {band}; dots: approved bunches, "
                f"hollow where of another length or shape and brought to {length} by the law; "
                f"dashed: the same leaf by plain volume"
            ),
            along="ring gauge, 64ths of an inch",
            up="g a bunch, standard moisture",
            law=f"law, p {law.p:.2f}",
            band="19 in 20",
            plain="plain volume, p 2",
        ),
    )
