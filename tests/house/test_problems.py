"""One thing wrong with the example, and the one line that says so."""

from __future__ import annotations

import pytest

from tests.house.books import EXAMPLE, problems

LENGTHS = '"127 mm" or "5 in"'
WEIGHTS = '"15.5 g", "0.55 oz" or "34.5 lb/1000"'
CLASSES = "volado | seco | viso | ligero | medio tiempo"
RUN_RULES = '"beyond", "2 of 3", "4 of 5", "8 on one side", "6 in a row"'
DRAW = '["40 mmH2O", "90 mmH2O"]'
DIAL = '["3 dial", "7 dial"]'
DRAW_MUST = f"draw must be two pressures, {DRAW}, or two readings of a dial, {DIAL}"
TAKEN = "each must have its own"
NUMBER = 'must be 1 to 9999, or text such as "7-A"'


def wrong_in(table: str, right: str, wrong: str) -> list[str]:
    """Problems of the example with `right` made `wrong`, at its first place in `table`."""
    start = EXAMPLE.index(table)
    text = EXAMPLE[:start] + EXAMPLE[start:].replace(right, wrong, 1)
    assert text != EXAMPLE
    return problems(text)


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ('name = "Taller Ejemplo"', "", "name is missing; expected text in quotes"),
        ('name = "Taller Ejemplo"', "name = 7", "name must be text in quotes, not a number (7)"),
        ('name = "Taller Ejemplo"', 'name = " "', "name is empty; give it or leave it out"),
        ('"Taller Ejemplo"', f'"{"n" * 61}"', "name is longer than 60 characters"),
        (
            '"Taller Ejemplo"',
            r'"a\u001b[2Jb"',
            r'name "a\x1b[2Jb" has characters that cannot be shown',
        ),
        ('"en"', '"fr"', 'language must be en | es, not "fr"'),
        (
            'standard_moisture = "13 %"',
            "",
            'standard_moisture is missing; expected a percentage such as "13 %"',
        ),
        (
            'scale_division = "0.1 g"',
            "",
            f"scale_division is missing; expected a weight such as {WEIGHTS}",
        ),
        (
            'tolerance = "4 %"',
            "tolerance = 0.04",
            "tolerance 0.04 % is outside 0.2 % to 50 % (a bare number is in %)",
        ),
        (
            'tolerance = "4 %"',
            'tolerance = "4 in"',
            f'tolerance "4 in" is a length; write a weight like {WEIGHTS}',
        ),
        (
            'weigh_every = "60 min"',
            'weigh_every = "2 d"',
            'weigh_every 2880 min ("2 d") is outside 1 min to 1440 min',
        ),
        ("readings = 5", "readings = 0", "readings 0 is outside 1 to 50"),
        ("readings = 5", "readings = 51", "readings 51 is outside 1 to 50"),
        ("readings = 5", "readings = 4.5", "readings must be a whole number, not 4.5"),
        (
            "readings = 5",
            "day_begins = 06:00:00",
            'day_begins must be a time such as "06:00" in quotes, not a time',
        ),
        (
            "readings = 5",
            'day_begins = "24:00"',
            'day_begins must be a time such as "06:00" in quotes, not "24:00"',
        ),
        (
            "readings = 5",
            'rules = ["beyond", "2 of 4"]',
            'rules "2 of 4" is no run rule; did you mean "2 of 3"?',
        ),
        (
            "readings = 5",
            'rules = "beyond"',
            f'rules must be a list of some of {RUN_RULES}, not "beyond"',
        ),
        ("readings = 5", "reading = 5", 'unknown key "reading"; did you mean readings?'),
        (
            "readings = 5",
            'packing = "0.3 g"',
            'packing "0.3 g" is a weight; write a weight by volume like "0.30 g/cm^3"',
        ),
    ],
)
def test_in_the_house(right: str, wrong: str, says: str) -> None:
    assert wrong_in("[house]", right, wrong) == [f"h.toml: [house]: {says}"]


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ('moisture = "14.0 %"', "", 'moisture is missing; expected a percentage such as "13 %"'),
        (
            '"14.0 %"',
            "0.14",
            "moisture 0.14 % is outside 1 % to 60 % (a bare number is in %)",
        ),
        ('"14.0 %"', '"140 %"', "moisture 140 % is outside 1 % to 60 %"),
        ('"14.0 %"', "0", "moisture 0 % is outside 1 % to 60 % (a bare number is in %)"),
        ('"2.0 g"', '"-2.0 g"', 'half_leaf -2 g ("-2.0 g") is outside 0.05 g to 30 g'),
        ("piece = 0.5", "piece = 0", "piece 0 is outside 0.05 to 2"),
        ("price = 21.0", "price = -1", "price -1 is outside 0 to 1e+09"),
        (
            "price = 21.0",
            'price = "21 USD"',
            'price must be a number without quotes or unit, not "21 USD"',
        ),
        ("strength = 3.0", "strength = 11", "strength 11 is outside 0 to 10"),
        ('class = "seco"', "", f"class is missing; expected one of {CLASSES}"),
        ('"seco"', '"sceo"', f'class must be {CLASSES}, not "sceo"; did you mean "seco"?'),
        (
            "piece = 0.5",
            "pieces = 1",
            'pieces is not for a leaf of use "filler"; that has class, piece, strength',
        ),
        ('use = "filler"', "", "use is missing; expected one of filler | binder | wrapper"),
        ('"filler"', '"tripa"', 'use must be filler | binder | wrapper, not "tripa"'),
    ],
)
def test_in_a_filler_leaf(right: str, wrong: str, says: str) -> None:
    assert wrong_in('code = "SE-20"', right, wrong) == [f'h.toml: [[leaf]] 2 "SE-20": {says}']


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ('build = "0.35 mm"', "", f"build is missing; expected a length such as {LENGTHS}"),
        (
            'on_cigar = "60 g/m^2"',
            "",
            'on_cigar is missing; expected a weight by area such as "60 g/m^2"',
        ),
        ('"0.35 mm"', '"0.35 in"', 'build 8.89 mm ("0.35 in") is outside 0.01 mm to 5 mm'),
        ('"30 %"', '"-30 %"', "overlap -30 % is outside 0 % to 400 %"),
        (
            "pieces = 2",
            'class = "seco"',
            'class is not for a leaf of use "binder"; that has pieces, build, on_cigar, overlap',
        ),
    ],
)
def test_in_a_binder_leaf(right: str, wrong: str, says: str) -> None:
    assert wrong_in('code = "BI-7"', right, wrong) == [f'h.toml: [[leaf]] 4 "BI-7": {says}']


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ('wrapper = "CA-3"', "", "wrapper is missing; expected the code of a [[leaf]]"),
        ('"CA-3"', '"BI-7"', 'wrapper "BI-7": that leaf is of use "binder"'),
        ('"BI-7"', '"LI-2"', 'binder "LI-2": that leaf is of use "filler"'),
        ('"BI-7"', "7", "binder must be the code of a [[leaf]] in quotes, not 7"),
        ('"LI-2"', '"LI-3"', 'parts: "LI-3": no [[leaf]] has that code; did you mean "LI-2"?'),
        ('"LI-2"', '"BI-7"', 'parts: "BI-7" is a binder leaf; parts are of filler leaf'),
        ('"LI-2" = 2', '"LI-2" = 2, "li-2" = 1', 'parts: "li-2" is there twice'),
        ('"LI-2" = 2', '"LI-2" = 0', 'parts of "LI-2" 0 is outside 1e-06 to 1e+06'),
        (
            'parts = { "VO-11" = 3, "SE-20" = 5, "LI-2" = 2 }',
            "parts = 3",
            'parts must be a table such as { "LEAF" = 3 }, not 3',
        ),
        (
            '{ "VO-11" = 3, "SE-20" = 5, "LI-2" = 2 }',
            "{ }",
            'parts must be a table such as { "LEAF" = 3 }, not an empty one',
        ),
    ],
)
def test_in_a_blend(right: str, wrong: str, says: str) -> None:
    assert wrong_in('code = "B4"', right, wrong) == [f'h.toml: [[blend]] 1 "B4": {says}']


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ("ring = 52", "", "ring is missing; expected a number"),
        ("ring = 52", "ring = 5", "ring 5 is outside 16 to 100"),
        ("ring = 52", "ring = -52", "ring -52 is outside 16 to 100"),
        ("ring = 52", "ring = 0", "ring 0 is outside 16 to 100"),
        ("ring = 52", "ring = nan", "ring nan is outside 16 to 100"),
        ("ring = 52", "ring = inf", "ring inf is outside 16 to 100"),
        ("ring = 52", "ring = 1e300", "ring 1e+300 is outside 16 to 100"),
        (
            "ring = 52",
            f"ring = 0x{'f' * 3900}",
            "ring a number beyond 10^15 is outside 16 to 100",
        ),
        ("ring = 52", "ring = true", "ring must be a number without quotes or unit, not true"),
        ("ring = 52", 'ring = "52"', 'ring must be a number without quotes or unit, not "52"'),
        ('length = "6 in"', "", f"length is missing; expected a length such as {LENGTHS}"),
        (
            '"6 in"',
            "6",
            "length 6 mm is outside 20 mm to 500 mm (a bare number is in mm)",
        ),
        ('"6 in"', '"6 ft"', 'length 1828.8 mm ("6 ft") is outside 20 mm to 500 mm'),
        ('"6 in"', '"6 g"', f'length "6 g" is a weight; write a length like {LENGTHS}'),
        ('"6 in"', "1979-05-27", f"length must be a length such as {LENGTHS}, not a date"),
        ("ring = 52", "ring = 52\nlenght = 4", 'unknown key "lenght"; did you mean length?'),
        ('"parejo"', '"round"', 'shape must be parejo | pressed | figurado, not "round"'),
        (
            '"parejo"',
            '"figurado"',
            'a figurado needs its profile, from the foot: profile = [["0 mm", 40], …]',
        ),
        (DRAW, '["90 mmH2O", "40 mmH2O"]', "draw: 90 to 40 mmH2O is the wrong way round"),
        (DRAW, '["40 mmH2O"]', f"{DRAW_MUST}; found 1 of them"),
        (DRAW, '"40 mmH2O"', f'{DRAW_MUST}; found "40 mmH2O"'),
        (
            DRAW,
            '["40 g", "90 mmH2O"]',
            'draw: low "40 g" is a weight; write a pressure drop like "40 mmH2O"',
        ),
        (DRAW, '["7 dial", "3 dial"]', "draw: 7 to 3 dial is the wrong way round"),
        (
            DRAW,
            '["3 dial", "90 mmH2O"]',
            (
                'draw: high "90 mmH2O" is not a reading of a dial; '
                'write a reading of a dial like "3 dial"'
            ),
        ),
        (
            DRAW,
            '["3 dial", "1e5 dial"]',
            'draw: high 100000 dial ("1e5 dial") is outside 0 dial to 10000 dial',
        ),
        (
            DRAW,
            DIAL,
            (
                "draw is read on a dial, and nothing says what a higher figure means: give "
                'draw_rises = "tighter" or draw_rises = "looser", here or in [house]'
            ),
        ),
        (
            DRAW,
            f'{DIAL}\ndraw_rises = "loser"',
            'draw_rises must be tighter | looser, not "loser"; did you mean "looser"?',
        ),
        (
            DRAW,
            f'{DRAW}\ndraw_rises = "looser"',
            (
                'draw_rises = "looser" is for a dial; a higher pressure is always a tighter draw: '
                'leave it out, or give draw in readings of the dial, as ["3 dial", "7 dial"]'
            ),
        ),
        ("price = 310.0", "price = 0", "price 0 is outside 1e-06 to 1e+09"),
    ],
)
def test_in_a_parejo(right: str, wrong: str, says: str) -> None:
    assert wrong_in('code = "toro"', right, wrong) == [f'h.toml: [[vitola]] 2 "toro": {says}']


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ('"figurado"', '"pressed"', 'profile is for a figurado; shape here is "pressed"'),
        ('["0 mm", 52]', '["1 mm", 52]', 'profile begins at 1 mm; the foot is at "0 mm"'),
        (
            '["120 mm", 52]',
            '["0 mm", 52]',
            "profile: 0 mm comes after 0 mm; stations must go from the foot to the head",
        ),
        (
            '["152.4 mm", 24]',
            '["150 mm", 24]',
            "profile ends at 150 mm; it must end at the length, 152.4 mm",
        ),
        (
            '["0 mm", 52], ["120 mm", 52]',
            '["0 mm", 48], ["120 mm", 50]',
            "profile is thickest at ring 50, but ring is 52",
        ),
        ("ring = 52", "ring = 54", "profile is thickest at ring 52, but ring is 54"),
        (
            '["120 mm", 52]',
            '["120 mm"]',
            'profile: station 2 must be a pair such as ["0 mm", 40]',
        ),
        (
            '["120 mm", 52]',
            '["120 mm", 252]',
            "profile: station 2: ring 252 is outside 0 to 100",
        ),
        (
            '["120 mm", 52]',
            '["120 g", 52]',
            f'profile: station 2: place "120 g" is a weight; write a length like {LENGTHS}',
        ),
        (
            '[["0 mm", 52], ["120 mm", 52], ["152.4 mm", 24]]',
            '[["0 mm", 52]]',
            (
                'profile must list 2 to 100 stations such as ["0 mm", 40], from the foot; '
                "found 1 of them"
            ),
        ),
    ],
)
def test_in_a_figurado(right: str, wrong: str, says: str) -> None:
    found = wrong_in('code = "torpedo"', right, wrong)
    assert found == [f'h.toml: [[vitola]] 3 "torpedo": {says}']


@pytest.mark.parametrize(
    ("right", "wrong", "says"),
    [
        ('vitola = "toro"', "", "vitola is missing; expected the code of a [[vitola]]"),
        ('"toro"', '"torro"', 'vitola "torro": no [[vitola]] has that code; did you mean "toro"?'),
        ("bunches = 30", "bunches = 0", "bunches 0 is outside 1 to 1e+06"),
        ('"17.9 g"', '"17.9 in"', f'filler "17.9 in" is a length; write a weight like {WEIGHTS}'),
        (
            '"17.9 g"',
            '"17.9 grm"',
            (
                'filler "17.9 grm" has no unit that is known (capitals count); '
                f"write a weight like {WEIGHTS}"
            ),
        ),
        (
            '"17.9 g"',
            '"1,790 g"',
            f'filler "1,790 g" can mean 1.790 or 1790; write a weight like {WEIGHTS}',
        ),
        ('"0.4 g"', '"18 g"', "spread 18 g is more than the filler itself, 17.9 g"),
    ],
)
def test_in_approved_bunches(right: str, wrong: str, says: str) -> None:
    assert wrong_in("[[approved]]", right, wrong) == [f"h.toml: [[approved]] 1: {says}"]


@pytest.mark.parametrize(
    ("right", "wrong", "place", "says"),
    [
        ("number = 7", "", "1", 'number is missing; expected a number, or text such as "7-A"'),
        ("number = 7\n", "number = 0\n", '1 "0"', f"number 0 {NUMBER}"),
        ("number = 7\n", "number = 10000\n", '1 "10000"', f"number 10000 {NUMBER}"),
        ("number = 7\n", "number = 7.0\n", "1", f"number 7 {NUMBER}"),
        ("number = 7\n", "number = true\n", "1", f"number true {NUMBER}"),
        ('"7-A"', '"A-7"', '2 "A-7"', f'number "A-7" {NUMBER}'),
        ('"7-A"', "7", '2 "7"', f"the number 7 is taken by entry 1; {TAKEN}"),
        ('"7-A"', '"007"', '2 "007"', f"the number 7 is taken by entry 1; {TAKEN}"),
        (
            'vitola = "toro"',
            'vitola = "panetela"',
            '1 "7"',
            'vitola "panetela": no [[vitola]] has that code',
        ),
        ("quota = 300", "quota = 0", '1 "7"', "quota 0 is outside 1 to 100000"),
        ("quota = 300", "quota = 1.5", '1 "7"', "quota must be a whole number, not 1.5"),
        ('"P-07"', f'"{"P" * 17}"', '1 "7"', "buncher is longer than 16 characters"),
        (
            "quota = 300",
            "zzz = 300",
            '1 "7"',
            'unknown key "zzz"; known are number, buncher, roller, blend, vitola, quota',
        ),
    ],
)
def test_at_a_bench(right: str, wrong: str, place: str, says: str) -> None:
    assert wrong_in("[[bench]]", right, wrong) == [f"h.toml: [[bench]] {place}: {says}"]


@pytest.mark.parametrize(
    ("code", "place", "says"),
    [
        ("TORO", '3 "TORO"', f'the code "TORO" is taken by entry 2; {TAKEN}'),
        ("to ro", '3 "to ro"', 'code "to ro" may hold only letters, digits, - _ and . (no blanks)'),
        ("to/ro", '3 "to/ro"', 'code "to/ro" may hold only letters, digits, - _ and . (no blanks)'),
        ("toro!", '3 "toro!"', 'code "toro!" may hold only letters, digits, - _ and . (no blanks)'),
        ("", '3 ""', 'code "" is empty'),
        ("-toro", '3 "-toro"', 'code "-toro" must begin with a letter or a digit'),
        ("t" * 17, f'3 "{"t" * 17}"', f'code "{"t" * 17}" is longer than 16 characters'),
    ],
)
def test_a_code_the_entry_line_cannot_take(code: str, place: str, says: str) -> None:
    assert wrong_in('code = "torpedo"', '"torpedo"', f'"{code}"') == [
        f"h.toml: [[vitola]] {place}: {says}"
    ]


@pytest.mark.parametrize(
    "code", ["52", "5.2", "1e5", "nan", "Infinity", "7-A", "11-VO", "5oz", "٥"]
)
def test_a_code_that_reads_as_a_number(code: str) -> None:
    (line,) = wrong_in('code = "torpedo"', '"torpedo"', f'"{code}"')
    assert line.endswith("reads as a number or a bench on the entry line: begin it with a letter")


@pytest.mark.parametrize("code", ["60x6", "B4", "No.2", "corona_gorda", "SE-20", "ñandú", "日本"])
def test_a_code_the_entry_line_takes(code: str) -> None:
    assert wrong_in('code = "torpedo"', '"torpedo"', f'"{code}"') == []


def test_a_code_that_is_no_text() -> None:
    assert wrong_in('code = "torpedo"', '"torpedo"', "52") == [
        'h.toml: [[vitola]] 3 "52": code must be text in quotes, not a number (52)'
    ]
    assert wrong_in('code = "torpedo"', 'code = "torpedo"', "") == [
        "h.toml: [[vitola]] 3: code is missing; expected text in quotes"
    ]


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("x = 1", ['key "x" stands above every table; put it under [house]']),
        ("[[vitolas]]", ['unknown table "vitolas"; did you mean [[vitola]]?']),
        (
            "[taxes]",
            [
                (
                    'unknown table "taxes"; known are [house], [excise], [[leaf]], [[blend]], '
                    "[[vitola]], [[approved]], [[bench]]"
                )
            ],
        ),
        ("leaf = 3", ["leaf must be tables headed [[leaf]], not a number"]),
        ("leaf = [3]", ["leaf must be tables headed [[leaf]]; other things are among them"]),
        (
            "leaf = [" + "{},\n" * 2001 + "]",
            ["[[leaf]]: 2001 entries; at most 2000 are read"],
        ),
    ],
)
def test_what_is_no_table_of_a_house_book(text: str, lines: list[str]) -> None:
    house = '[house]\nname = "H"\nstandard_moisture = "13 %"\nscale_division = "0.1 g"\n'
    assert problems(f"{text}\n{house}") == [f"h.toml: {line}" for line in lines]


def test_a_list_headed_as_one_table_is_read_all_the_same() -> None:
    start, end = EXAMPLE.index("[[approved]]"), EXAMPLE.index("[[bench]]")
    approved = EXAMPLE[start:end].replace("[[approved]]", "[approved]").replace("17.9 g", "17.9 in")
    assert problems(EXAMPLE[:start] + approved + EXAMPLE[end:]) == [
        "h.toml: [approved] needs two brackets, [[approved]]: there can be several",
        f'h.toml: [[approved]] 1: filler "17.9 in" is a length; write a weight like {WEIGHTS}',
    ]


def test_without_a_house() -> None:
    none = "h.toml: has no [house]; a house book begins with it"
    assert problems("[[bench]]\nnumber = 7\n") == [
        none,
        'h.toml: [[bench]] 1 "7": blend is missing; expected the code of a [[blend]]',
        'h.toml: [[bench]] 1 "7": vitola is missing; expected the code of a [[vitola]]',
    ]
    assert problems(EXAMPLE.replace("[house]", "[[house]]")) == [
        "h.toml: [house] must be one table headed [house], not a list"
    ]


def test_every_problem_is_listed_in_the_order_of_the_tables() -> None:
    text = (
        EXAMPLE.replace("readings = 5", "readings = 500")
        .replace("ring = 50", "ring = 5")
        .replace('"LI-2" = 2', '"LI-9" = 2')
        .replace("quota = 300", "quotas = 300")
        .replace("bunches = 30", "bunches = -1")
    )
    assert [line.split(":")[1] for line in problems(text)] == [
        " [house]",
        ' [[blend]] 1 "B4"',
        ' [[vitola]] 1 "robusto"',
        " [[approved]] 1",
        ' [[bench]] 1 "7"',
    ]


def test_a_rolled_blend_that_nothing_says_how_to_pack() -> None:
    start, end = EXAMPLE.index("[[approved]]"), EXAMPLE.index("[[bench]]")
    text = EXAMPLE[:start] + EXAMPLE[end:]
    assert problems(text) == [
        (
            'h.toml: [[blend]] 1 "B4": benches 7, 7-A roll it, but nothing says how it is packed: '
            "weigh approved bunches ([[approved]]), or give packing in [house] until there are any"
        )
    ]
    assert problems(text.replace("readings = 5", 'packing = "0.30 g/cm^3"')) == []
    assert problems(EXAMPLE[:start]) == []
    assert wrong_in("[[approved]]", 'blend = "B4"\n', "") == []
