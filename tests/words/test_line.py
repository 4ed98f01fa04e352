"""The line, its what-if and change of leaf, approving, and the panel, in Spanish."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from core.desk.desk import Desk
from core.desk.faces import Recorded
from core.entry.requests import Unread
from core.line.change import FIELDS, IN_SPANISH, read_changes
from core.line.drawn import line_svg
from core.line.keeping import keeping, keeping_says
from core.line.leaf_limits import Band
from core.line.new_parts import NewParts, NoParts, new_parts
from core.line.plan import read_plan
from core.line.sheet import line_sheet
from core.line.whatif import what_if
from core.panel.judge import too_few
from core.panel.line import read
from core.problems import UserError
from core.say import told
from core.tongue import tongue_of
from tests.desk.conftest import MORNING, load
from tests.house.books import EXAMPLE, house
from tests.words.blanks import Wordless, left_over

SPANISH = tongue_of("es")
CODES = {"VO", "SE", "LI", "BI", "CA", "XX", "seco", "ligero", "volado", "toro", "kg"}


def refused(ask: Callable[[], object]) -> UserError:
    with pytest.raises(UserError) as found:
        ask()
    return found.value


def tell(text: str) -> str:
    return told(text, SPANISH)


# -- changes to try -------------------------------------------------------------------------------

WRONG = (
    (
        "toro",
        (
            "no es un cambio; escríbalo como LI-2=1.5 (partes), toro.cepo=50, toro.largo=5in, "
            "LI-2.pieza=1, LI-2.humedad=15%"
        ),
    ),
    (
        "XX=1",
        "ninguna hoja de tripa tiene el código XX (hay VO-11, SE-20, LI-2)",
    ),
    (
        "LI-3=1",
        "ninguna hoja de tripa tiene el código LI-3; ¿quiso decir LI-2? (hay VO-11, SE-20, LI-2)",
    ),
    ("toro.rung=50", "toro no tiene rung que cambiar; ¿quiso decir cepo?"),
    ("toro.cepp=50", "toro no tiene cepp que cambiar; ¿quiso decir cepo?"),
    ("CA-3.pieza=1", "CA-3 no tiene pieza que cambiar; tiene media_hoja, humedad"),
    ("CA-3=2", "CA-3 es hoja de capa; las partes son de hoja de tripa"),
    ("BI-7=2", "BI-7 es hoja de capote; las partes son de hoja de tripa"),
    ("toro.cepo=500", "cepo 500 no está entre 16 y 100"),
    ("toro.cepo=50mm", 'cepo "50mm" lleva unidad; se esperaba un número solo'),
    ("LI-2.humedad=99%", "humedad 99% no está entre 1 % y 60 % (un número solo va en %)"),
)


@pytest.mark.parametrize(("word", "says"), WRONG)
def test_what_is_no_change_is_told(word: str, says: str) -> None:
    (problem,) = refused(lambda: read_changes([word], house(EXAMPLE))).problems
    assert tell(problem.says) == says
    assert left_over(problem.says) <= CODES | words_of(word) | {*IN_SPANISH}


def test_a_thing_changed_twice_is_told() -> None:
    twice = ["toro.cepo=50", "toro.ring=51"]
    assert tell(refused(lambda: read_changes(twice, house(EXAMPLE))).said) == (
        "toro.ring=51: toro.cepo=50 ya cambió eso; dé solo uno de los dos"
    )


def test_what_can_be_changed_is_typed_as_it_is_told() -> None:
    assert {tell(FIELDS[field]) for field in IN_SPANISH.values()} == {*IN_SPANISH}


def words_of(text: str) -> set[str]:
    return set(re.findall(r"[^\W\d_]{2,}", text))


def test_a_plan_that_cannot_be_read_is_told() -> None:
    assert tell(refused(lambda: read_plan(["plan=500"])).said) == (
        "plan=500: se esperaban de 0 a 400 días de las tareas, o un peso de tripa como plan=80kg"
    )
    assert tell(refused(lambda: read_plan(["plan=1", "plan=2"])).said) == (
        "plan=2: el plan está dos veces; dé solo uno"
    )


def test_what_would_be_saved_is_told() -> None:
    of = house(EXAMPLE)
    changes = read_changes(["toro.cepo=50", "LI-2.humedad=15%"], of)
    says = keeping_says(of, keeping(of, changes, "toro-50"))
    assert tell(says) == (
        "guardar toro.cepo=50 en el libro de la casa; toro-50 es nueva, toro queda como se aprobó; "
        "la humedad no entra: escriba LI-2 15% al medirla"
    )
    assert left_over(says) <= CODES | {"cepo"}


# -- a change of leaf ---------------------------------------------------------------------------


def without_ligero(band: Band) -> NewParts | NoParts:
    return new_parts(house(EXAMPLE), "B4", ["LI-2"], band)


def test_what_binds_is_told() -> None:
    text = EXAMPLE.replace('class = "volado"', 'class = "volado"\nstrength = 2.0')
    text = text.replace('class = "ligero"', 'class = "ligero"\nstrength = 8.0')
    found = new_parts(house(text), "B4", ["LI-2"], Band())
    assert isinstance(found, NoParts)
    assert [tell(bound.says) for bound in found.binds] == [
        "fortaleza: no se mantiene a ±0.2 de 3.70; a ±1.05 sí",
        "seco: no se mantiene a ±5 % del 50.0 % de la tripa con SE-20; a ±15.0 % sí",
        "ligero: no se mantiene a ±5 % del 20.0 % de la tripa con ninguna hoja; a ±20.0 % sí",
    ]
    for bound in found.binds:
        assert left_over(bound.says) <= CODES


def test_leaf_without_a_strength_is_told() -> None:
    found = without_ligero(Band(class_within=1.0))
    assert [tell(note) for note in found.notes] == [
        "la fortaleza no se mantiene: el libro de la casa no la da para VO-11, LI-2"
    ]


def test_stock_that_binds_or_is_used_up_is_told() -> None:
    band = Band(class_within=1.0, planned_g=20_000.0)
    short = without_ligero(band._replace(on_hand_g={"VO-11": 6_000.0, "SE-20": 3_000.0}))
    assert isinstance(short, NoParts)
    assert [tell(bound.says) for bound in short.binds] == [
        "VO-11: hay 6.00 kg, el plan pide 17.00 kg"
    ]
    used = without_ligero(band._replace(on_hand_g={"VO-11": 6_000.0}))
    assert isinstance(used, NewParts)
    assert tell(used.notes[-1]) == "VO-11: hay 6.00 kg, y todo se va en el plan"
    assert [tell(limit) for limit in used.at_limit] == ["existencia de VO-11"]


def test_the_picture_speaks_the_readers_language() -> None:
    of = house(EXAMPLE)
    sheet = line_sheet(of, "B4", {})
    tried = what_if(of, "B4", read_changes(["toro.cepo=50"], of), {})
    drawn = line_svg(of, sheet, tried, tell=tell)
    texts = re.findall(r"<(?:title|desc|text)[^>]*>([^<]*)<", drawn)
    assert "liga B4, hoy y como se prueba, tripa de un parejo de 127.0 mm" in texts
    assert "toro como se prueba" in texts
    wordless = line_svg(of, sheet, tried, tell=lambda text: told(text, Wordless()))
    texts = re.findall(r"<(?:title|desc|text)[^>]*>([^<]*)<", wordless)
    assert words_of(" ".join(texts)) <= CODES | {"robusto", "cepo", "name"}


# -- at a desk ------------------------------------------------------------------------------------


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    found = Desk(tmp_path / "data", lambda: MORNING, "T1")
    load(found)
    return found


ON_THE_LINE = (
    ("prueba LI-1=1.5 toro.cepo=50", "probar en B1: LI-1=1.5, toro.cepo=50; no se guarda nada"),
    ("prueba sin XX", "la liga B1 no lleva XX; su hoja: SE-1, LI-1"),
    ("prueba sin", "falta la hoja de B1 que se quita: SE-1, LI-1"),
    (
        "prueba sin LI-1 SE-1=2",
        "las partes nuevas se buscan solas; quite los cambios de partes",
    ),
    (
        "prueba guarda",
        "no se prueba nada que se pueda guardar; pruebe algo, como prueba LI-2=1.5",
    ),
    ("prueba toro.cepo=50 como toro", "ya hay una vitola toro; dé otro nombre a la nueva"),
    (
        "aprueba 7",
        (
            "la mesa 7 no tiene control de bonches ni de tripa con el libro de la casa que rige; "
            "pese antes, como 7 15.3 15.6 15.4"
        ),
    ),
)


@pytest.mark.parametrize(("line", "says"), ON_THE_LINE)
def test_what_a_line_of_the_blender_means_is_told(desk: Desk, line: str, says: str) -> None:
    meant = desk.meaning(line, None).says
    assert tell(meant) == says
    assert left_over(meant) <= CODES | words_of(line)


def test_what_would_be_approved_is_told(desk: Desk) -> None:
    desk.enter("7 bunch 10.8", None)
    meant = desk.meaning("approve 7", None).says
    assert tell(meant) == (
        "aprobar 1 bonche de la mesa 7, toro en B1: tripa 10.03 g, hasta ahora 10.00 g; en una "
        "versión nueva del libro"
    )
    assert left_over(meant) <= CODES


ON_THE_PANEL = (
    ("cata T1 A 7 6 8 7", "no hay ninguna cata abierta; comience una con: cata abre LIGA"),
    ("cata abre B9", 'no hay liga "B9"; hay: B1'),
    ("cata abre B1 toro,toro", "toro está dos veces; nombre cada vitola una vez"),
    ("cata abre B1 libro 9", "no hay libro de la casa 9; las versiones van de 1 a 1"),
    ("cata abre B1 libro 2030-01-01", "el 2030-01-01 no ha llegado"),
    (
        "cata abre B1 ciega",
        "cata de B1, libro de la casa 1, frente a toro: claves A, B, a ciegas",
    ),
)
SCORED = (
    ("cata T1 A 7 6 8 6", "T1 da a A: fortaleza 7, equilibrio 6, quema 8, tiro 6; antes: tiro 7"),
    (
        "cata T1 A 7 6 8",
        (
            "se esperaban 4 puntos: fortaleza, equilibrio, quema, tiro (- si no se da), no 3: "
            "escriba los 4"
        ),
    ),
    ("cata T1 D 7 6 8 7", 'en esta cata no hay clave "D"; hay: A, B'),
    (
        "cata abre B1",
        (
            "la cata del 2026-05-04 de B1 ya tiene puntos y sigue a ciegas: revele antes sus "
            "claves, con cata revela, o no se revelan nunca"
        ),
    ),
    ("cata revela", "se revelan las claves"),
    ("cata revela ya", "tras revela no va nada"),
)


@pytest.mark.parametrize(("line", "says"), ON_THE_PANEL)
def test_how_a_session_begins_is_told(desk: Desk, line: str, says: str) -> None:
    meant = desk.meaning(line, None).says
    assert tell(meant) == says
    assert left_over(meant) <= CODES | words_of(line)


@pytest.mark.parametrize(("line", "says"), SCORED)
def test_a_session_that_is_scored_is_told(desk: Desk, line: str, says: str) -> None:
    desk.enter("cata abre B1 ciega", None)
    kept = desk.enter("cata T1 A 7 6 8 7", None)
    assert isinstance(kept, Recorded)
    assert tell(kept.says) == (
        "guardado, cata 2: T1 da a A: fortaleza 7, equilibrio 6, quema 8, tiro 7"
    )
    meant = desk.meaning(line, None).says
    assert tell(meant) == says
    assert left_over(meant) <= CODES | words_of(line)


def test_why_the_panel_does_not_judge_yet_is_told() -> None:
    assert tell(too_few(0, 2)) == (
        "nadie ha probado aún todas las vitolas; para juzgar 2 hacen falta 6 catadores que las "
        "prueben todas"
    )
    assert left_over(too_few(2, 3)) == set()


@pytest.mark.parametrize("text", ["", "abre", "T1", "x y", "nota", "T1 A 7 11", "abre B4 libro"])
def test_nothing_of_what_is_misread_stays_english(text: str) -> None:
    found = read(text)
    assert isinstance(found, Unread)
    assert left_over(found.says) <= words_of(text)
