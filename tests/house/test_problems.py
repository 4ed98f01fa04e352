"""What is wrong with a house book, and the line that says so."""

from __future__ import annotations

import pytest

from tests.house.books import EXAMPLE, edited, problems

TORO = 'h.toml: [[vitola]] 2 "toro"'
TORPEDO = 'h.toml: [[vitola]] 3 "torpedo"'
HOUSE = "h.toml: [house]"
SECO = 'h.toml: [[leaf]] 2 "SE-20"'
BINDER = 'h.toml: [[leaf]] 4 "BI-7"'
B4 = 'h.toml: [[blend]] 1 "B4"'
APPROVED = "h.toml: [[approved]] 1"
BENCH = 'h.toml: [[bench]] 1 "7"'

WEIGHT = 'a weight like "15.5 g", "0.55 oz" or "34.5 lb/1000"'
FILLER_KEYS = "class, piece, strength"
COVER_KEYS = "pieces, build, on_cigar, overlap"

Case = tuple[str, str, str]

CASES: list[Case] = [
    # Limits.
    ("ring = 52", "ring = 5", f"{TORO}: ring 5 is outside 16 to 100"),
    ("ring = 52", "ring = -52", f"{TORO}: ring -52 is outside 16 to 100"),
    ("ring = 52", "ring = 0", f"{TORO}: ring 0 is outside 16 to 100"),
    ("ring = 52", "ring = nan", f"{TORO}: ring nan is outside 16 to 100"),
    ("ring = 52", "ring = inf", f"{TORO}: ring inf is outside 16 to 100"),
    ("ring = 52", "ring = 1e300", f"{TORO}: ring 1e+300 is outside 16 to 100"),
    (
        "ring = 52",
        f"ring = 0x{'f' * 3900}",
        f"{TORO}: ring a number beyond 10^15 is outside 16 to 100",
    ),
    (
        'length = "6 in"',
        "length = 6",
        f"{TORO}: length 6 mm is outside 20 mm to 500 mm (a bare number is in mm)",
    ),
    (
        'length = "6 in"',
        'length = "6 ft"',
        f'{TORO}: length 1828.8 mm ("6 ft") is outside 20 mm to 500 mm',
    ),
    (
        'moisture = "14.0 %"',
        "moisture = 0.14",
        f"{SECO}: moisture 0.14 % is outside 1 % to 60 % (a bare number is in %)",
    ),
    (
        'moisture = "14.0 %"',
        'moisture = "140 %"',
        f"{SECO}: moisture 140 % is outside 1 % to 60 %",
    ),
    ("readings = 5", "readings = 0", f"{HOUSE}: readings 0 is outside 1 to 50"),
    ("readings = 5", "readings = 51", f"{HOUSE}: readings 51 is outside 1 to 50"),
    ("readings = 5", "readings = 4.5", f"{HOUSE}: readings must be a whole number, not 4.5"),
    ("strength = 3.0", "strength = 11", f"{SECO}: strength 11 is outside 0 to 10"),
    ("price = 21.0", "price = -1", f"{SECO}: price -1 is outside 0 to 1e+09"),
    ("bunches = 30", "bunches = 0", f"{APPROVED}: bunches 0 is outside 1 to 1e+06"),
    ('"VO-11" = 3', '"VO-11" = 0', f'{B4}: parts of "VO-11" 0 is outside 1e-06 to 1e+06'),
    # Kinds of value.
    ("ring = 52", "ring = true", f"{TORO}: ring must be a number without quotes or unit, not true"),
    (
        "ring = 52",
        'ring = "52"',
        f'{TORO}: ring must be a number without quotes or unit, not "52"',
    ),
    (
        'length = "6 in"',
        "length = 1979-05-27",
        f'{TORO}: length must be a length such as "127 mm" or "5 in", not a date',
    ),
    (
        'length = "6 in"',
        'length = "6 g"',
        f'{TORO}: length "6 g" is a weight; write a length like "127 mm" or "5 in"',
    ),
    (
        'filler = "17.9 g"',
        'filler = "17.9 grm"',
        f'{APPROVED}: filler "17.9 grm" has no unit that is known (capitals count); write {WEIGHT}',
    ),
    (
        'filler = "17.9 g"',
        'filler = "1,790 g"',
        f'{APPROVED}: filler "1,790 g" can mean 1.790 or 1790; write {WEIGHT}',
    ),
    (
        'tolerance = "4 %"',
        "tolerance = 0.04",
        f"{HOUSE}: tolerance 0.04 % is outside 0.2 % to 50 % (a bare number is in %)",
    ),
    (
        'name = "Taller Ejemplo"',
        "name = 7",
        f"{HOUSE}: name must be text in quotes, not a number (7)",
    ),
    ('name = "Taller Ejemplo"', 'name = " "', f"{HOUSE}: name is empty; give it or leave it out"),
    (
        'name = "Taller Ejemplo"',
        f'name = "{"n" * 61}"',
        f"{HOUSE}: name is longer than 60 characters",
    ),
    (
        'name = "Taller Ejemplo"',
        r'name = "a\u001b[2Jb"',
        rf'{HOUSE}: name "a\x1b[2Jb" has characters that cannot be shown',
    ),
    (
        'language = "en"',
        'language = "fr"',
        f'{HOUSE}: language must be en | es, not "fr"',
    ),
    (
        'class = "seco"',
        'class = "sceo"',
        f"{SECO}: class must be volado | seco | viso | ligero | medio tiempo, "
        'not "sceo"; did you mean "seco"?',
    ),
    (
        "readings = 5",
        "readings = 5\nday_begins = 06:00:00",
        f'{HOUSE}: day_begins must be a time such as "06:00" in quotes, not a time',
    ),
    (
        "readings = 5",
        'readings = 5\nday_begins = "24:00"',
        f'{HOUSE}: day_begins must be a time such as "06:00" in quotes, not "24:00"',
    ),
    # Keys.
    (
        "ring = 52",
        "ring = 52\nlenght = 4",
        f'{TORO}: unknown key "lenght"; did you mean length?',
    ),
    (
        "quota = 300",
        "zzz = 300",
        f'{BENCH}: unknown key "zzz"; known are number, buncher, roller, blend, vitola, quota',
    ),
    ("ring = 52", "", f"{TORO}: ring is missing; expected a number"),
    (
        'length = "6 in"',
        "",
        f'{TORO}: length is missing; expected a length such as "127 mm" or "5 in"',
    ),
    ('name = "Taller Ejemplo"', "", f"{HOUSE}: name is missing; expected text in quotes"),
    (
        'standard_moisture = "13 %"',
        "",
        f'{HOUSE}: standard_moisture is missing; expected a percentage such as "13 %"',
    ),
    (
        'build = "0.35 mm"',
        "",
        f'{BINDER}: build is missing; expected a length such as "127 mm" or "5 in"',
    ),
    (
        'on_cigar = "60 g/m^2"',
        "",
        f'{BINDER}: on_cigar is missing; expected a weight by area such as "60 g/m^2"',
    ),
    (
        'class = "seco"',
        "",
        f"{SECO}: class is missing; expected one of volado | seco | viso | ligero | medio tiempo",
    ),
    (
        "pieces = 2",
        "piece = 2",
        f'{BINDER}: piece is not for a leaf of use "binder"; that has {COVER_KEYS}',
    ),
    (
        "piece = 0.5",
        "pieces = 1",
        f'{SECO}: pieces is not for a leaf of use "filler"; that has {FILLER_KEYS}',
    ),
    ('wrapper = "CA-3"', "", f"{B4}: wrapper is missing; expected the code of a [[leaf]]"),
    ("number = 7", "", 'h.toml: [[bench]] 1: number is missing; expected a number, or text such as "7-A"'),
    # Tables.
    ("[[approved]]", "[[aproved]]", 'h.toml: unknown table "aproved"; did you mean [[approved]]?'),
    ("[house]", "colour = 1\n[house]", 'h.toml: key "colour" stands above every table; put it under [house]'),
    ("[[approved]]", "[approved]", "h.toml: [approved] needs two brackets, [[approved]]: there can be several"),
    ("[house]", "[[house]]", "h.toml: [house] must be one table headed [house], not a list"),
    ("[[approved]]", "[[leaf.x]]", ""),
    # Codes.
    ('code = "torpedo"', 'code = "TORO"', 'h.toml: [[vitola]] 3 "TORO": the code "TORO" is taken by entry 2; each must have its own'),
    ('number = "7-A"', "number = 7", 'h.toml: [[bench]] 2 "7": the number 7 is taken by entry 1; each must have its own'),
    ('number = "7-A"', 'number = "007"', 'h.toml: [[bench]] 2 "007": the number 7 is taken by entry 1; each must have its own'),
    ("number = 7\n", "number = 0\n", 'h.toml: [[bench]] 1 "0": number 0 must be 1 to 9999, or text such as "7-A"'),
    ("number = 7\n", "number = 7.0\n", 'h.toml: [[bench]] 1: number 7 must be 1 to 9999, or text such as "7-A"'),
    ("number = 7\n", "number = true\n", 'h.toml: [[bench]] 1: number true must be 1 to 9999, or text such as "7-A"'),
    ('number = "7-A"', 'number = "A-7"', 'h.toml: [[bench]] 2 "A-7": number "A-7" must be 1 to 9999, or text such as "7-A"'),
    ('code = "torpedo"', "code = 52", 'h.toml: [[vitola]] 3 "52": code must be text in quotes, not a number (52)'),
    ('code = "torpedo"', "", "h.toml: [[vitola]] 3: code is missing; expected text in quotes"),
    # References.
    ('vitola = "toro"\nfiller', 'vitola = "torro"\nfiller', f'{APPROVED}: vitola "torro": no [[vitola]] has that code; did you mean "toro"?'),
    ('blend = "B4"\nvitola = "toro"\nquota', 'blend = "B44"\nvitola = "toro"\nquota', ""),
    ('vitola = "toro"\nquota', 'vitola = "panetela"\nquota', f'{BENCH}: vitola "panetela": no [[vitola]] has that code'),
    ('vitola = "toro"\nquota', "vitola = 52\nquota", f"{BENCH}: vitola must be the code of a [[vitola]] in quotes, not 52"),
    ('"LI-2" = 2', '"LI-3" = 2', f'{B4}: parts: "LI-3": no [[leaf]] has that code; did you mean "LI-2"?'),
    ('"LI-2" = 2', '"BI-7" = 2', f'{B4}: parts: "BI-7" is a binder leaf; parts are of filler leaf'),
    ('"LI-2" = 2', '"LI-2" = 2, "li-2" = 1', f'{B4}: parts: "li-2" is there twice'),
    ('binder = "BI-7"', 'binder = "CA-3"', f'{B4}: binder "CA-3": that leaf is of use "wrapper"'),
    ('wrapper = "CA-3"', 'wrapper = "LI-2"', f'{B4}: wrapper "LI-2": that leaf is of use "filler"'),
    ('parts = { "VO-11" = 3, "SE-20" = 5, "LI-2" = 2 }', "parts = {}", f'{B4}: parts must be a table such as {{ "LEAF" = 3 }}, not a table'),
    # Approved bunches.
    ('spread = "0.4 g"', 'spread = "18 g"', f"{APPROVED}: spread 18 g is more than the filler itself, 17.9 g"),
    # Shapes.
    ('shape = "parejo"', 'shape = "figurado"', f'{TORO}: a figurado needs its profile, from the foot: profile = [["0 mm", 40], …]'),
    ('shape = "figurado"', 'shape = "pressed"', f'{TORPEDO}: profile is for a figurado; shape here is "pressed"'),
    ('["0 mm", 52], ["120 mm", 52]', '["1 mm", 52], ["120 mm", 52]', f'{TORPEDO}: profile begins at 1 mm; the foot is at "0 mm"'),
    ('["120 mm", 52]', '["0 mm", 52]', f"{TORPEDO}: profile: 0 mm comes after 0 mm; stations must go from the foot to the head"),
    ('["152.4 mm", 24]', '["150 mm", 24]', f"{TORPEDO}: profile ends at 150 mm; it must end at the length, 152.4 mm"),
    ('["0 mm", 52], ["120 mm", 52]', '["0 mm", 48], ["120 mm", 50]', f"{TORPEDO}: profile is thickest at ring 50, but ring is 52"),
    ('["120 mm", 52]', '["120 mm"]', f'{TORPEDO}: profile: station 2 must be a pair such as ["0 mm", 40]'),
    ('["120 mm", 52]', '["120 mm", 252]', f"{TORPEDO}: profile: station 2: ring 252 is outside 0 to 100"),
    ('["120 mm", 52]', '["120 g", 52]', f'{TORPEDO}: profile: station 2: place "120 g" is a weight; write a length like "127 mm" or "5 in"'),
    ('[["0 mm", 52], ["120 mm", 52], ["152.4 mm", 24]]', '[["0 mm", 52]]', f'{TORPEDO}: profile must list 2 to 100 stations such as ["0 mm", 40], from the foot; found 1 of them'),
    # Draw windows.
    ('["40 mmH2O", "90 mmH2O"]', '["90 mmH2O", "40 mmH2O"]', f"{TORO}: draw: 90 to 40 mmH2O is the wrong way round"),
    ('["40 mmH2O", "90 mmH2O"]', '["40 mmH2O"]', f'{TORO}: draw must be two pressures, ["40 mmH2O", "90 mmH2O"]; found 1 of them'),
    ('["40 mmH2O", "90 mmH2O"]', '"40 mmH2O"', f'{TORO}: draw must be two pressures, ["40 mmH2O", "90 mmH2O"]; found "40 mmH2O"'),
    ('["40 mmH2O", "90 mmH2O"]', '["40 g", "90 mmH2O"]', f'{TORO}: draw: low "40 g" is a weight; write a pressure drop like "40 mmH2O"'),
]


@pytest.mark.parametrize(("right", "wrong", "line"), [case for case in CASES if case[2]])
def test_one_thing_wrong_is_one_line(right: str, wrong: str, line: str) -> None:
    start = EXAMPLE.index('code = "toro"') if line.startswith(TORO) else 0
    text = EXAMPLE[:start] + EXAMPLE[start:].replace(right, wrong, 1)
    assert text != EXAMPLE
    assert line in problems(text)
    assert len([p for p in problems(text) if p.startswith(line.split(": ")[1])]) <= 1
