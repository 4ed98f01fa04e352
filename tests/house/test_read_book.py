"""The example of a house book, key by key, and what it comes to."""

from __future__ import annotations

import pytest

from core.house.model import (
    Approved,
    Bench,
    CoverLeaf,
    DialWindow,
    DrawWindow,
    FillerLeaf,
    HouseBook,
    HouseRules,
    Part,
    Station,
    Tolerance,
    Vitola,
)
from core.house.read import read_house
from tests.house.books import EXAMPLE, edited, house, problems


def test_the_example_loads() -> None:
    assert problems(EXAMPLE) == []


def test_house_rules() -> None:
    assert house(EXAMPLE).house == HouseRules(
        name="Taller Ejemplo",
        language="en",
        currency="USD",
        standard_moisture=0.13,
        scale_division_g=0.1,
        tolerance=Tolerance(share=0.04),
        bundle_tolerance=0.02,
        rounding_limit=0.02,
        portion_limit=0.15,
        weigh_every_min=60,
        readings=5,
        packing_g_per_cm3=None,
        day_begins="00:00",
    )


def test_a_house_of_required_keys_alone_has_the_defaults() -> None:
    text = '[house]\nname = "H"\nstandard_moisture = "13 %"\nscale_division = "0.1 g"\n'
    rules = HouseRules(name="H", standard_moisture=0.13, scale_division_g=0.1)
    assert house(text) == HouseBook(house=rules)


@pytest.mark.parametrize(
    ("line", "field", "value"),
    [
        ('bundle_tolerance = "1.5 %"', "bundle_tolerance", 0.015),
        ('packing = "0.30 g/cm^3"', "packing_g_per_cm3", 0.30),
        ('day_begins = "06:30"', "day_begins", "06:30"),
        ('day_begins = "6:30"', "day_begins", "06:30"),
        ('rules = ["8 on one side", "beyond"]', "rules", ("beyond", "one_side")),
        ("rules = []", "rules", ()),
    ],
)
def test_optional_keys_of_the_house(line: str, field: str, value: object) -> None:
    text = edited(("readings = 5", f"readings = 5\n{line}"))
    assert getattr(house(text).house, field) == value


@pytest.mark.parametrize(
    ("written", "tolerance"),
    [
        ('"4 %"', Tolerance(share=0.04)),
        ("4", Tolerance(share=0.04)),
        ('"4"', Tolerance(share=0.04)),
        ('"0.5 g"', Tolerance(grams=0.5)),
        ('"0.5 oz"', Tolerance(grams=0.5 * 28.349523125)),  # NIST SP 811, appendix B.8
    ],
)
def test_a_tolerance_is_a_share_or_grams(written: str, tolerance: Tolerance) -> None:
    text = edited(('tolerance = "4 %"', f"tolerance = {written}"))
    assert house(text).house.tolerance == tolerance


def test_leaf() -> None:
    found = house(EXAMPLE).leaf
    assert found["SE-20"] == FillerLeaf(
        code="SE-20",
        name="Seco, upper valley",
        leaf_class="seco",
        moisture=0.14,
        half_leaf_g=2.0,
        piece=0.5,
        price_per_kg=21.0,
        strength=3.0,
    )
    assert found["BI-7"] == CoverLeaf(
        code="BI-7",
        use="binder",
        moisture=0.18,
        half_leaf_g=2.4,
        pieces=2,
        build_mm=0.35,
        on_cigar_g_per_m2=60,
        overlap=0.30,
        price_per_kg=24.0,
    )
    assert found["CA-3"] == CoverLeaf(
        code="CA-3",
        use="wrapper",
        moisture=0.24,
        half_leaf_g=3.4,
        build_mm=0.20,
        on_cigar_g_per_m2=45,
    )


def test_blend_in_the_order_of_its_parts() -> None:
    blend = house(EXAMPLE).blend["B4"]
    assert (blend.name, blend.binder, blend.wrapper) == ("Demo blend four", "BI-7", "CA-3")
    assert blend.parts == (
        Part(leaf="VO-11", parts=3),
        Part(leaf="SE-20", parts=5),
        Part(leaf="LI-2", parts=2),
    )


def test_vitolas() -> None:
    found = house(EXAMPLE).vitola
    assert found["robusto"] == Vitola(code="robusto", ring=50, length_mm=127)
    assert found["toro"] == Vitola(
        code="toro",
        ring=52,
        length_mm=152.4,
        draw=DrawWindow(low_mmh2o=40, high_mmh2o=90),
        piece_rate=62,
        box=38,
        price=310,
    )
    assert found["torpedo"] == Vitola(
        code="torpedo",
        ring=52,
        length_mm=152.4,
        shape="figurado",
        profile=(
            Station(at_mm=0, ring=52),
            Station(at_mm=120, ring=52),
            Station(at_mm=152.4, ring=24),
        ),
        tolerance=Tolerance(grams=0.5),
    )


@pytest.mark.parametrize(
    ("draw", "window"),
    [
        ('["3 dial", "7 dial"]', DialWindow(low=3, high=7)),
        ('["2,5 dial", "10dial"]', DialWindow(low=2.5, high=10)),
        ("[40, 90]", DrawWindow(low_mmh2o=40, high_mmh2o=90)),
    ],
)
def test_draw_is_a_pressure_or_what_a_dial_reads(
    draw: str, window: DrawWindow | DialWindow
) -> None:
    text = edited(
        ('["40 mmH2O", "90 mmH2O"]', draw), ("readings = 5", 'readings = 5\ndraw_rises = "looser"')
    )
    assert house(text).vitola["toro"].draw == window
    assert house(text).house.draw_rises == "looser"


def test_ring_and_length_windows_of_the_house() -> None:
    text = edited(("readings = 5", 'ring_tolerance = 0.5\nlength_tolerance = "1/16 in"'))
    rules, usual = house(text).house, house(EXAMPLE).house
    assert rules.ring_tolerance == 0.5
    assert rules.length_tolerance_mm == pytest.approx(25.4 / 16)
    assert (usual.ring_tolerance, usual.length_tolerance_mm) == (1.0, 1.5)


def test_the_last_station_of_a_profile_is_the_length_itself() -> None:
    text = edited(('["152.4 mm", 24]', '["152.38 mm", 24]'))
    assert house(text).vitola["torpedo"].profile[-1].at_mm == 152.4


def test_approved_bunches() -> None:
    assert house(EXAMPLE).approved == (
        Approved(blend="B4", vitola="toro", filler_g=17.9, bunches=30, spread_g=0.4),
    )
    bare = edited(('blend = "B4"\nvitola = "toro"\nfiller', 'vitola = "toro"\nfiller'))
    assert house(bare).approved[0].blend is None


def test_benches() -> None:
    assert house(EXAMPLE).benches == (
        Bench(number="7", buncher="P-07", roller="R-07", blend="B4", vitola="toro", quota=300),
        Bench(number="7-A", blend="B4", vitola="robusto"),
    )


def test_references_are_kept_as_the_code_is_spelled() -> None:
    text = edited(
        ('"LI-2" = 2', '"li-2" = 2'),
        ('binder = "BI-7"', 'binder = "bi-7"'),
        ('blend = "B4"\nvitola = "toro"', 'blend = "b4"\nvitola = "TORO"'),
    )
    assert house(text) == house(EXAMPLE)


def test_accents_compare_however_they_are_written() -> None:
    composed, apart = "ca\u00f1\u00f3n", "can\u0303o\u0301n"
    text = edited(('code = "toro"', f'code = "{composed}"')).replace('"toro"', f'"{apart}"')
    assert house(text).benches[0].vitola == composed


def test_codes_in_any_alphabet() -> None:
    text = EXAMPLE.replace('"toro"', '"торо-1"').replace('"LI-2"', '"लिगेरो"')
    assert set(house(text).vitola) == {"robusto", "торо-1", "torpedo"}


def test_windows_line_ends_and_byte_order_marks_are_read() -> None:
    assert house(EXAMPLE.replace("\n", "\r\n")) == house(EXAMPLE)
    assert read_house(b"\xef\xbb\xbf" + EXAMPLE.encode(), "h").house == house(EXAMPLE)
    assert read_house("\ufeff" + EXAMPLE, "h").house == house(EXAMPLE)


def test_a_large_house_is_read_whole() -> None:
    sizes = "".join(
        f'[[vitola]]\ncode = "v-{n}"\nring = {30 + n % 40}\nlength = "{100 + n % 90} mm"\n'
        for n in range(200)
    )
    benches = "".join(
        f'[[bench]]\nnumber = {1000 + n}\nblend = "B4"\nvitola = "V-{n % 200}"\n'
        for n in range(300)
    )
    assert len(house(EXAMPLE + sizes + benches).benches) == 302
