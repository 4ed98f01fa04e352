"""The commands as a shell sees them: JSON keys, messages, exit codes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.commands.conftest import HOUSE, Bunchbook

ROOT = Path(__file__).parent.parent.parent


def test_a_sound_house_book_is_checked_and_loaded_once(bunchbook: Bunchbook) -> None:
    assert "sound" in bunchbook("house", "check", str(HOUSE)).out
    assert "version 1" in bunchbook("house", "load", str(HOUSE)).out
    assert "unchanged" in bunchbook("house", "load", str(HOUSE)).out
    shown = bunchbook("house", "show", "--json").json
    assert (shown["version"], shown["house"]["name"]) == (1, "Test house")


def test_house_show_gives_back_the_text_that_was_loaded(loaded: Bunchbook) -> None:
    assert loaded("house", "show").out.strip() == HOUSE.read_text(encoding="utf-8").strip()


def test_a_broken_house_book_has_every_problem_listed_and_loads_nothing(
    loaded: Bunchbook, tmp_path: Path
) -> None:
    broken = tmp_path / "broken.toml"
    text = HOUSE.read_text(encoding="utf-8")
    broken.write_text(text.replace("ring = 52", "ring = 5").replace("quota", "qota"), "utf-8")
    ran = loaded("house", "load", str(broken))
    assert ran.code == 2
    assert f'{broken}: [[vitola]] 1 "toro": ring 5 is outside' in ran.err
    assert "quota" in ran.err
    assert loaded("house", "show", "--json").json["version"] == 1


def test_a_bench_that_cannot_be_rolled_is_a_problem_of_the_house_book(
    bunchbook: Bunchbook, tmp_path: Path
) -> None:
    short = tmp_path / "short.toml"
    text = HOUSE.read_text(encoding="utf-8").replace(
        'half_leaf = "3.0 g"\nbuild', 'half_leaf = "0.2 g"\nbuild'
    )
    short.write_text(text, "utf-8")
    ran = bunchbook("house", "check", str(short))
    assert ran.code == 2
    assert '[[bench]] 1 "7"' in ran.err
    assert "cannot cover" in ran.err


@pytest.mark.parametrize("name", ["missing.toml", "."])
def test_a_house_book_that_cannot_be_read_is_a_sentence(
    bunchbook: Bunchbook, tmp_path: Path, name: str
) -> None:
    ran = bunchbook("house", "load", str(tmp_path / name))
    assert (ran.code, ran.out) == (2, "")
    assert "cannot be read" in ran.err


def test_card_json_has_the_promised_keys(loaded: Bunchbook) -> None:
    card = loaded("card", "7", "--json").json
    assert list(card) == [
        "bench", "blend", "vitola", "ring", "length_mm", "standard_moisture", "packing",
        "filler_g", "classes", "batch", "binder", "wrapper", "targets", "warnings", "lots",
    ]  # fmt: skip
    assert card["bench"] == 7
    assert card["filler_g"] == 10.0
    assert [row["g"] for row in card["classes"]] == [6.0, 4.0]
    assert card["packing"]["source"] == "approved"
    assert set(card["targets"]) == {"filler", "bunch", "cigar"}
    assert loaded("card", "7-a", "--json").json["bench"] == "7-A"


def test_card_why_adds_the_steps(loaded: Bunchbook) -> None:
    steps = loaded("card", "7", "--json", "--why").json["why"]
    assert {"step", "value", "unit", "from"} == set(steps[0])
    assert any(step["value"] == pytest.approx(20.6375) for step in steps)  # ring 52
    assert "divisions" in loaded("card", "7", "--why").out


def test_card_of_no_bench_says_which_there_are(loaded: Bunchbook) -> None:
    ran = loaded("card", "99")
    assert (ran.code, ran.out) == (2, "")
    assert "7 to 8" in ran.err


def test_line_json_and_csv(loaded: Bunchbook) -> None:
    line = loaded("line", "B1", "--json").json
    assert {"blend", "strength", "law", "vitolas", "smallest_ring"} <= set(line)
    assert line["strength"] == pytest.approx(0.6 * 3 + 0.4 * 8)
    toro = line["vitolas"][0]
    assert toro["filler_kg_per_1000"] == pytest.approx(10.0)
    assert toro["filler_lb_per_1000"] == pytest.approx(10 / 0.45359237)
    assert toro["cost"]["filler"] == pytest.approx(6 * 20 + 4 * 30)
    assert loaded("line", "B1", "--csv").out.splitlines()[0].startswith("vitola,ring,length_mm")
    assert loaded("line", "B9").code == 2


def test_enter_records_the_lines_it_can_and_explains_the_others(loaded: Bunchbook) -> None:
    ran = loaded("enter", "7 made 50", "7 mode 50", "7 10.8 10.9", "7 99", "--json")
    made, wrong, check, far = ran.lines
    assert ran.code == 2
    assert (made["ok"], made["entry"], made["kind"], made["bench"]) == (True, 1, "made", 7)
    assert (wrong["ok"], wrong["at"]) == (False, 2)
    assert (check["entry"], check["verdict"], round(check["mean_g"], 9)) == (2, "within", 10.85)
    assert far["ok"] is False
    assert "!" in far["problem"]
    assert loaded("day", "--json").json["entries"] == 2


def test_enter_reads_standard_input(loaded: Bunchbook) -> None:
    ran = loaded("enter", "-", typed="7 made 50\n\n7 good 40\r\n")
    assert ran.code == 0
    assert ran.out.splitlines() == [
        "saved, entry 1: bench 7, toro: 50 bunches made; 50 today",
        "saved, entry 2: bench 7, toro: 40 cigars good; 40 of 300 today",
    ]


def test_enter_strict_tells_a_check_out_of_its_window_by_the_exit_code(loaded: Bunchbook) -> None:
    assert loaded("enter", "--strict", "7 10.8").code == 0
    assert loaded("enter", "7 12.5").code == 0
    assert loaded("enter", "--strict", "7 12.5").code == 1


def test_a_ring_check_is_not_given_in_grams(loaded: Bunchbook) -> None:
    (row,) = loaded("enter", "7 ring 52 51.5", "--json").lines
    assert (row["target"], row["mean"]) == (52, 51.75)
    assert "mean_g" not in row


def test_day_json_agrees_with_what_was_typed(loaded: Bunchbook) -> None:
    typed = (
        "7 made 50", "7 good 45", "7 fail plugged 2 torn 1", "7 rework 1", "7 take SE-1 500",
        "7 10.8 10.9 12.5", "8 made 30", "note wet leaf until nine",
    )  # fmt: skip
    assert loaded("enter", *typed).code == 0
    day = loaded("day", "--json").json
    assert (day["date"], day["closed"]) == ("2026-05-04", False)
    seven = next(row for row in day["benches"] if row["bench"] == 7)
    assert seven == seven | {
        "buncher": "P-07", "vitola": "toro", "made": 50, "good": 45, "rework": 1,
        "rejected": {"plugged": 2, "torn": 1}, "checks": 1, "out": 1,
    }  # fmt: skip
    assert day["totals"]["made"] == 80
    assert day["totals"]["first_pass_yield"] == pytest.approx(44 / 47)
    seco = next(row for row in day["leaf"] if row["leaf"] == "SE-1")
    assert (seco["class"], seco["issued_g"], seco["in_good_g"]) == ("seco", 500, 270)
    assert day["notes"] == [{"bench": None, "text": "wet leaf until nine"}]
    text = loaded("day").out
    assert "made 80, good 45" in text
    assert "wet leaf until nine" in text


def test_another_day_is_asked_for_by_its_date(loaded: Bunchbook) -> None:
    loaded("enter", "7 made 50")
    loaded("enter", "7 made 20", at="2026-05-05 08:00")
    assert loaded("day", "--json", at="2026-05-05 08:00").json["totals"]["made"] == 20
    assert loaded("day", "2026-05-04", "--json", at=None).json["totals"]["made"] == 50
    assert loaded("day", "yesterday").code == 2


def test_close_and_reopen(loaded: Bunchbook) -> None:
    loaded("enter", "7 made 50")
    assert loaded("close").code == 0
    assert loaded("enter", "7 made 1").code == 2
    assert loaded("close").code == 2
    assert loaded("reopen", "bundle found").code == 0
    assert loaded("enter", "7 made 1").code == 0
    assert loaded("day", "--json").json["closed"] is False


def test_verify_counts_what_is_sound_and_names_what_is_not(
    loaded: Bunchbook, tmp_path: Path
) -> None:
    loaded("enter", "7 made 50", "7 good 40", "7 made 3")
    assert loaded("verify", "--json").json == {
        "sound": True, "days": 1, "entries": 3, "repaired": [], "problems": [],
    }  # fmt: skip
    book = tmp_path / "data" / "days" / "2026-05-04.jsonl"
    book.write_bytes(book.read_bytes().replace(b'"n":40', b'"n":90'))
    ran = loaded("verify", "--json")
    assert (ran.code, ran.json["sound"]) == (1, False)
    assert any("2026-05-04.jsonl: line" in problem for problem in ran.json["problems"])
    assert loaded("day", "--json").json["damaged_lines"] >= 1


def test_without_a_house_book_each_command_says_what_to_load(bunchbook: Bunchbook) -> None:
    for words in (["card", "7"], ["line", "B1"], ["day"], ["house", "show"], ["enter", "7 9.9"]):
        ran = bunchbook(*words)
        assert (ran.code, ran.out) == (2, "")
        assert "house load" in ran.err


@pytest.mark.parametrize("at", ["yesterday", "2026-05-04", "2026-13-04 09:15"])
def test_a_time_that_cannot_be_read_is_a_sentence(bunchbook: Bunchbook, at: str) -> None:
    ran = bunchbook("day", at=at)
    assert ran.code == 2
    assert at in ran.err


def test_a_data_folder_that_is_a_file_is_exit_3(bunchbook: Bunchbook, tmp_path: Path) -> None:
    (tmp_path / "data").write_text("not a folder")
    for words in (["house", "load", str(HOUSE)], ["verify"], ["day"]):
        ran = bunchbook(*words)
        assert (ran.code, ran.out) == (3, ""), words
        assert "data" in ran.err


def test_options_stand_before_or_after_the_command(loaded: Bunchbook, tmp_path: Path) -> None:
    other = str(tmp_path / "other")
    assert loaded("--data", other, "house", "load", str(HOUSE)).code == 0
    loaded("--data", other, "enter", "7 made 7")
    assert loaded("day", "--json", "--data", other).json["totals"]["made"] == 7


def test_the_real_command_in_a_fresh_process(tmp_path: Path) -> None:
    def bunchbook(*words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "floor.main", "--data", str(tmp_path / "d"), *words],
            capture_output=True,
            text=True,
            check=False,
            cwd=ROOT,
            stdin=subprocess.DEVNULL,
        )

    assert bunchbook("house", "load", str(HOUSE)).returncode == 0
    assert "saved, entry 1" in bunchbook("enter", "7 10.8 10.9").stdout
    assert bunchbook("--version").stdout.startswith("bunchbook ")
    floor = bunchbook()
    assert floor.returncode == 2
    assert "needs a terminal" in floor.stderr


def test_a_reader_that_goes_away_leaves_no_traceback(tmp_path: Path) -> None:
    """Standard output closed early, as by `| head -1`."""
    program = (
        f"{sys.executable} -m floor.main --data {tmp_path}/d house load {HOUSE} && "
        f"{sys.executable} -m floor.main --data {tmp_path}/d card 7 --why | head -1"
    )
    ran = subprocess.run(
        ["bash", "-c", program], capture_output=True, text=True, check=False, cwd=ROOT
    )
    assert "Traceback" not in ran.stderr


def test_a_damaged_house_book_is_told_and_its_entries_are_still_counted(
    loaded: Bunchbook, tmp_path: Path
) -> None:
    second = tmp_path / "second.toml"
    text = HOUSE.read_text(encoding="utf-8").replace('filler = "10.0 g"', 'filler = "12.0 g"')
    second.write_text(text, "utf-8")
    loaded("house", "load", str(second))
    loaded("enter", "7 made 50", "7 good 40")
    book = tmp_path / "data" / "house.jsonl"
    lines = book.read_bytes().splitlines(keepends=True)
    book.write_bytes(b"".join([*lines[:2], lines[2].replace(b"12.0", b"13.0")]))
    card = loaded("card", "7", "--json")
    assert card.json["filler_g"] == 10.0
    assert "damaged" in card.err
    day = loaded("day", "--json").json
    assert day["totals"]["made"] == 50
    assert any("house book version 2" in warning for warning in day["warnings"])
    assert loaded("verify").code == 1


def test_entries_of_the_past_are_judged_as_of_then(loaded: Bunchbook) -> None:
    loaded("enter", "7 roll corona", at="2026-05-04 10:00")
    (row,) = loaded("enter", "7 10.8", "--json", at="2026-05-04 09:30").lines
    assert (row["ok"], row["verdict"]) == (True, "within")
    assert "toro" in row["says"]
    assert loaded("card", "7", "--json", at="2026-05-04 10:30").json["vitola"] == "corona"


def test_no_entry_gets_into_a_day_that_has_been_closed_since(loaded: Bunchbook) -> None:
    loaded("enter", "7 made 50", at="2026-05-04 09:00")
    loaded("close", at="2026-05-04 17:00")
    assert loaded("enter", "7 made 1", at="2026-05-04 09:30").code == 2


def test_a_load_says_which_benches_it_moves(loaded: Bunchbook, tmp_path: Path) -> None:
    loaded("enter", "7 roll corona")
    changed = tmp_path / "changed.toml"
    text = HOUSE.read_text(encoding="utf-8").replace('"P-07"', '"P-77"')
    changed.write_text(text, "utf-8")
    assert "bench 7 rolls toro of B1 from now on" in loaded("house", "load", str(changed)).err


@pytest.mark.parametrize(
    "words",
    [["--data", ""], ["--data", "~nosuchuser/x"], ["--who", "x" * 50], ["--who", "a\nb"]],
)
def test_options_that_cannot_be_meant_are_a_sentence(loaded: Bunchbook, words: list[str]) -> None:
    ran = loaded("day", *words)
    assert ran.code in (2, 3)
    assert (ran.out, len(ran.err.splitlines())) == ("", 1)


@pytest.mark.parametrize("at", ["0001-01-01 00:00", "9999-12-31 23:59-12:00", ""])
def test_a_time_out_of_reach_is_a_sentence(bunchbook: Bunchbook, at: str) -> None:
    ran = bunchbook("day", "--at", at, at=None)
    assert (ran.code, len(ran.err.splitlines())) == (2, 1)


def test_bytes_that_are_no_utf_8_are_refused_whole(loaded: Bunchbook) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "floor.main", "enter", "-", "--json", "--at", "2026-05-04 09:15"],
        input=b"7 note ma\xf1ana\n7 made 5\n", capture_output=True, check=False, cwd=ROOT,
    )  # fmt: skip
    assert ran.returncode == 2
    assert b'"ok":false' in ran.stdout.splitlines()[0]
    assert loaded("day", "--json").json["entries"] == 1


@pytest.mark.parametrize(
    "closed", ["1>&-", "2>&-", "1>&- 2>&-", "0<&-", "| head -c 1", "1>/dev/full"]
)
def test_entries_are_recorded_whoever_listens(
    loaded: Bunchbook, tmp_path: Path, closed: str
) -> None:
    lines = " ".join(f"'7 made {n}' 'wrong'" for n in range(1, 11))
    command = f"{sys.executable} -m floor.main enter --at '2026-05-04 09:15' {lines} {closed}"
    ran = subprocess.run(
        ["bash", "-c", command], capture_output=True, text=True, check=False, cwd=ROOT
    )
    assert "Traceback" not in ran.stderr
    assert loaded("day", "--json").json["totals"]["made"] == 55
