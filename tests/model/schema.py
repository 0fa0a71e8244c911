#!/usr/bin/env python3
"""Holds model/card.schema.json to the cards of the house and to what the program reads.

usage: schema.py PROGRAM [TOP]      TOP: the top of the sources

Every card in cases/ is valid. Every value listed below as well written is valid by the schema and read by the
program, and every value listed as badly written is refused by both. (What only the whole card can tell, such as a
name that is not found, is beyond a schema; `schema.cpp` compares the keys themselves.)
"""
import json
import pathlib
import subprocess
import sys
import tempfile
import tomllib

import jsonschema

HERE = pathlib.Path(__file__).resolve().parent

BASE = {"fold": "side", "front": "4 1/4 x 5 1/2", "cut-back": "1"}
LENGTHS = ["1/8", "4 1/4", "4-1/4", "17/4", ".25", "0.25", "4 1/4 in", '4 1/4"', "1 mm", "0.1 cm", "1¼", "¼", "1 MM",
           1, 0.5]
BROKEN_LENGTHS = ["1/l6", "", "four", "1 1", "1/", "1.", "1 ft", "1,5", True, [1], {"a": 1}]
# By table and key: what is well written, what is badly written.
VALUES = {
    ("", "title"): (["Tea"], ["", 3]),
    ("", "unit"): (["in", "mm"], ["inch", "", 1]),
    ("", "mark"): (LENGTHS, BROKEN_LENGTHS),
    ("", "cards"): ([1, 12], [0, -1, "12", 2.5]),
    ("", "spare"): ([0, 3], [-1, "3"]),
    ("", "rules"): (["it.width <= 9", ["it.width <= 9", "it.left >= 0"], []], [3, [3]]),
    ("base", "fold"): (["side", "top", "gate", "z", "tri"], ["sied", 1]),
    ("base", "front"): (
        ["us A7", "iso A6", "us letter turned", "5 x 7", "ISO b6 TURNED", "us square 6"],
        ["A6", "iso A66", "5", "5 x", 5]
    ),
    ("base", "cut-back"): (
        ["1/2 to 1", 1, {"by": 1}, {"edge": "bottom", "by": "at least 1/2"}],
        [{"edge": "bottom"}, {"by": 1, "at": 2}, {"edge": "side", "by": 1}, "x"]
    ),
    ("base", "opens"): (["left", "right"], ["up", 1]),
    ("base", "leaves"): (["4 1/4, 4", [4, "4 1/4"]], ["a, b", ["a", 1], True]),
    ("base", "scores"): (["2", [2, "2 1/8"], 2], ["x", ["x"], True]),
    ("layer", "name"): ([], [3, ""]),
    ("layer", "role"): (["mat", "panel", "strip", "sentiment", "image"], ["matt", True]),
    ("layer", "border"): (
        LENGTHS + ["even", "1/16 to 3/16, about 1/8", "at least 1/8", "at most 1", "one of 1/8, 1/4",
                   "same as other", "at least 1/8, even", {"left": 1}, {"across": "at least 1/8", "down": "even"}],
        [value for value in BROKEN_LENGTHS if value not in ("1,5", {"a": 1})]
        + ["at lest 1", "1/8, 1/8, 1/8", "at least", {"up": 1}, {"left": "x"}]
    ),
    ("layer", "width"): (
        ["at least 1", "1 to 2, about 1 1/2", "one of 1, 1 1/2, at least 1", 1.5],
        ["x", "at least x", "1 to x", [1], True]
    ),
    ("layer", "size"): (["1 x 2", "1 1/2 × 2", "25.4 mm x 1 in"], ["1", "1 x 2 x 3", 1, "x"]),
    ("layer", "ratio"): (["3:4", "1.5", 0.75, "3 : 4"], ["3:", "x", True]),
    ("layer", "artwork"): (["1 x 1/2"], ["1 by 2", 3]),
    ("layer", "align"): (
        ["left", "top right", "centre", "center across", "left centre", "bottom-left"],
        ["lefd", "", 3]
    ),
    ("layer", "from-left"): (["at least 1/8", 1], ["x", True]),
    ("layer", "below"): (["other", ["other"], []], [3, [3], [""]]),
    ("layer", "clear-of"): (["other", ["other"]], [3, ["other", "other"]]),
    ("layer", "copies"): ([1, 2], [0, "2", 1.5]),
    ("layer", "tilt"): ([5, -5.5, "2.5"], ["steep", "5 in", True]),
    ("layer", "paper"): (["ivory"], [3, ""]),
    ("layer", "cut"): (["trimmer", "by hand", "die", "ready-made"], ["by-hand", 1]),
    ("layer", "raised"): (["1/16", 0], ["x", True]),
    ("layer", "adhesive"): (["0.1 mm", 0.005], ["x", True]),
    ("layer", "show"): (["all", "at least 3/4", "at least 50%"], ["half", 1]),
    ("layer", "stamped"): ([True, False], ["yes", 1]),
    ("layer", "unheard-of"): ([], [1]),
    ("window", "frame"): (["at least 1/4", "even"], ["x", True]),
    ("window", "paper"): ([], ["ivory"]),
    ("paper", "sheet"): (["us letter", "12 x 12"], ["letter", 12]),
    ("paper", "have"): ([0, 3], [-1, "3"]),
    ("paper", "weight"): (["216 gsm", "80 lb cover", "60 lbs text", "80# Cover", "90 g/m²"], ["80 lb", "heavy", 216]),
    ("paper", "thickness"): (["0.011", "11 pt", "0.3 mm", 0.011], ["11 pts", "thin", True]),
    ("paper", "cost"): ([0.35, "1/2"], ["3 in", True]),
    ("paper", "grain"): (["long", "short"], ["along", 1]),
    ("trimmer", "longest"): ([12, "12 in"], ["x", True]),
    ("allowance", "doors"): (LENGTHS, BROKEN_LENGTHS),
    ("allowance", "flap"): (["1/8", 0], ["x", True]),
    ("allowance", "fold"): (["0.2 mm", 0], ["x", True]),
    ("allowance", "envelope"): (["1/16", 0], ["x", True]),
    ("allowance", "door"): ([], [1]),
    ("limit", "thickness"): (["1/4", 0.25], ["x", True]),
    ("limit", "grams"): ([28, "28.3"], ["1 in", True]),
    ("mail", "envelope"): (["us A7", ["us A7", "us A2"], "4 3/8 x 5 3/4"], [3, [3]]),
    ("mail", "post"): (["usps", ["upu", "usps"]], [3, [3]]),
    ("supply", "per-card"): ([1, "1/2"], ["1 in", True]),
    ("variant", "cards"): ([1, 2], [0, "2"]),
    ("variant", "set"): ([{"it.width": 1}], [3, "x"]),
    ("variant", "without"): (["it", ["it"], []], [3, [3]]),
}


def card_with(table, key, value):
    """A card that is well but for, perhaps, this value."""
    card = {"cards": 9, "base": dict(BASE),
            "layer": [{"name": "other", "on": "front", "border": "1/8"}, {"name": "it", "on": "other"}],
            "window": [{"name": "hole", "in": "inside", "size": "1 x 1"}],
            "paper": [{"name": "p"}], "supply": [{"name": "s"}],
            "variant": [{"name": "v"}], "trimmer": {}, "limit": {}, "mail": {}, "allowance": {}}
    place = card[table] if table else card
    (place[-1] if isinstance(place, list) else place)[key] = value
    if (table, key) == ("base", "fold") and value == "top":
        card["base"]["cut-back"] = 1
    if (table, key) == ("base", "opens"):
        del card["base"]["cut-back"]
    return card


def toml(value):
    """A value of a card as TOML, whose strings are close enough to JSON's."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{json.dumps(key)} = {toml(item)}" for key, item in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(toml(item) for item in value) + "]"
    return json.dumps(value, ensure_ascii=False)


def read_by(program, card, folder):
    path = pathlib.Path(folder) / "card.toml"
    path.write_text("".join(f"{key} = {toml(value)}\n" for key, value in card.items()), encoding="utf-8")
    assert tomllib.loads(path.read_text(encoding="utf-8")) == card
    run = subprocess.run([program, "size", str(path), "--json"], capture_output=True, text=True, timeout=60)
    answer = json.loads(run.stdout)
    return answer["verdict"] != "invalid", answer


def main(program, top=HERE.parent.parent):
    schema = json.loads((pathlib.Path(top) / "model" / "card.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    passed = failed = 0

    def count(name, wrong):
        nonlocal passed, failed
        failed, passed = failed + bool(wrong), passed + (not wrong)
        if wrong:
            print(f"FAIL {name}: {wrong}")

    cards = sorted((pathlib.Path(top) / "cases").glob("*.toml"))
    count("cases", "" if cards else "there are none")
    for path in cards:
        errors = validator.iter_errors(tomllib.loads(path.read_text(encoding="utf-8")))
        count(path.stem, "; ".join(f"{error.json_path}: {error.message}" for error in errors))
    for missing in ("base", "fold", "front"):
        card = card_with("", "title", "Tea")
        del (card if missing == "base" else card["base"])[missing]
        count(f"without {missing}", "valid by the schema" if validator.is_valid(card) else "")
    with tempfile.TemporaryDirectory() as folder:
        for (table, key), (good, bad) in VALUES.items():
            for value, well in [(value, True) for value in good] + [(value, False) for value in bad]:
                card = card_with(table, key, value)
                valid = validator.is_valid(card)
                read, answer = read_by(program, card, folder)
                wrong = []
                if valid != well:
                    wrong.append(f"the schema {'takes' if valid else 'refuses'} it")
                if read != well:
                    wrong.append(f"the program {'takes' if read else 'refuses'} it: {answer.get('errors', '')}")
                count(f"{table or 'card'}.{key} = {toml(value)}", "; ".join(wrong))
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
