"""`parts`: every part of the catalogue can be found, with its values and where they come from."""

from __future__ import annotations

from click.testing import CliRunner, Result

from compiler.cli import main
from compiler.expand.statements import catalogue
from grammar.reader import read
from grammar.source import Source


def _parts(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["parts", *arguments])


def _heads(result: Result) -> list[str]:
    return [line for line in result.output.splitlines()[:-1] if line and not line.startswith(" ")]


def test_the_list_holds_every_part_with_a_source_and_a_confidence() -> None:
    result = _parts()
    wanted = {f"{kind} {name}" for kind, known in catalogue().items() if kind != "ruleset" for name in known}
    assert set(_heads(result)) == wanted
    assert len(_heads(result)) == len(wanted)
    assert result.output.count("    source: ") == result.output.count("    confidence: ") == len(wanted)
    assert max(map(len, result.output.splitlines())) <= 100


def test_a_search_wants_all_words_in_any_case_and_order() -> None:
    assert _heads(_parts("STRANDED", "18   awg", "--kind", "cable"))[0] == "cable zip-18"
    assert _heads(_parts("18 awg", "stranded")) == _heads(_parts("stranded", "18 awg"))
    assert _parts("stranded", "18 awg", "no-such-word").exit_code == 1


def test_values_stand_in_the_units_of_people() -> None:
    output = _parts("lead-acid-24").output
    assert "voltage 21.0 .. 29.4 V nominal 25.2 V" in output
    assert "channels 16, channel-limit 25 A" in _parts("dc-16").output


def test_a_cable_tells_the_resistance_of_one_conductor() -> None:
    # ASTM B258: 18 AWG is 1.024 mm across; 0.017241 ohm mm2/m (IEC 60028) makes 20.9 ohm per km
    line = next(line for line in _parts("zip-18").output.splitlines() if "one conductor" in line)
    low, high = (float(part) for part in line.split("one conductor ")[1].split(" ohm")[0].split(" .. "))
    assert low < 20.9 < high < low * 1.1


def test_a_kind_limits_the_list() -> None:
    assert {head.split()[0] for head in _heads(_parts("--kind", "match"))} == {"match"}


def test_the_shown_statements_are_the_show_language() -> None:
    output = _parts("--show", "--kind", "cable").output
    tree, findings = read(Source("shown", output))
    assert list(findings) == []
    assert len(tree.statements) == len(catalogue()["cable"])
    assert all(str(statement.items[0]) == "cable" for statement in tree.statements)
    assert "\n# ---" not in output
