#!/usr/bin/env python3
"""Sizes every card in cases/ and compares it with the answers worked out by hand (answers.json).

usage: check_cases.py PROGRAM [TOP]      TOP: the top of the sources, where cases/ is

answers.json gives, for each card and each layer or window, its cut width and height and its distance from
the left and the top of what it sits on, in the card's unit; with variants, the same for each of them.
{"about": x} is used only where a tilted edge has no exact fraction: within a millionth of the unit, or "within" as said.
"answer" may hold any part of the program's JSON, such as its base, closed card and mail: of objects the keys
that are named, of lists the things that are named, in their order; {"exactly": [...]} is a list whole.
A card without answers, an answer without a card, a layer without an answer: each of them fails.
"""
import json
import pathlib
import subprocess
import sys
from fractions import Fraction

HERE = pathlib.Path(__file__).resolve().parent
FIELDS = ["width", "height", "from_left", "from_top"]


def same(want, got):
    if isinstance(want, dict):
        return abs(float(Fraction(got)) - want["about"]) <= want.get("within", 1e-6)
    return type(want) is type(got) and want == got


def differences(want, got, where):
    """What of a part of the answer is not as wanted."""
    if isinstance(want, dict) and "about" in want:
        number = isinstance(got, (int, float, str)) and not isinstance(got, bool)
        return [] if number and same(want, got) else [f"{where} is {got}, by hand {want}"]
    if isinstance(want, dict) and set(want) == {"exactly"}:
        if not isinstance(got, list) or len(got) != len(want["exactly"]):
            return [f"{where} is {got}, by hand {want['exactly']} and no more"]
        return [line for i, (a, b) in enumerate(zip(want["exactly"], got))
                for line in differences(a, b, f"{where}[{i}]")]
    if isinstance(want, dict):
        if not isinstance(got, dict):
            return [f"{where} is {got}, by hand {want}"]
        return [line for key, value in want.items()
                for line in (differences(value, got[key], f"{where}.{key}") if key in got
                             else [f"{where}.{key} is not in the answer"])]
    if isinstance(want, list):
        return missing(want, got, where)
    return [] if same(want, got) else [f"{where} is {got}, by hand {want}"]


def missing(want, got, where):
    """Of things wanted in a list, in their order, those it lacks; one that has a name is found by it."""
    if not isinstance(got, list):
        return [f"{where} is {got}, by hand {want}"]
    at = 0
    for i, value in enumerate(want):
        found = [differences(value, other, f"{where}[{j}]") for j, other in enumerate(got) if j >= at]
        hit = next((j for j, wrong in enumerate(found) if not wrong), None)
        if hit is not None:
            at += hit + 1
            continue
        named = [wrong for wrong, other in zip(found, got[at:]) if isinstance(value, dict) and isinstance(other, dict)
                 and "name" in value and other.get("name") == value["name"]]
        return named[0] if named else [f"{where} lacks {value}"]
    return []


def compare_pieces(want, answer, where):
    """`answer` is the card or one of its variants, as the program gave it."""
    if answer.get("verdict") != "buildable":
        return [f"{where}: verdict is {answer.get('verdict')}"]
    got = {piece["name"]: piece for piece in answer.get("layers", []) + answer.get("windows", [])}
    wrong = [f"{where}{name}: not in the answer" for name in want if name not in got]
    wrong += [f"{where}{name}: no hand-worked answer" for name in got if name not in want]
    for name, values in want.items():
        for field, value in zip(FIELDS, values) if name in got else []:
            if not same(value, got[name].get(field)):
                wrong.append(f"{where}{name}: {field} is {got[name].get(field)}, by hand {value}")
    return wrong


def compare_card(program, path, want):
    run = subprocess.run([program, "size", str(path), "--json"], capture_output=True, text=True, timeout=60)
    if run.returncode != 0:
        return [f"exit status {run.returncode}: {(run.stderr or run.stdout).strip()[:400]}"]
    answer = json.loads(run.stdout)
    wrong = compare_pieces(want["layers"], answer, "")
    variants = {variant["name"]: variant for variant in answer.get("variants", [])}
    wanted = want.get("variants", {})
    if set(variants) != set(wanted):
        wrong.append(f"variants are {sorted(variants)}, by hand {sorted(wanted)}")
    for name in set(variants) & set(wanted):
        wrong += compare_pieces(wanted[name], variants[name], f"{name}, ")
    return wrong + differences(want.get("answer", {}), answer, "answer")


def check_itself():
    """What the comparison of parts takes and refuses."""
    got = {"base": {"scores": ["1", "2"]}, "mail": [{"name": "a", "fits": True}, {"name": "b", "fits": False}],
           "closed": {"grams": 6.53, "thickness": "3/125"}}
    right = [{}, {"base": {"scores": ["2"]}}, {"base": {"scores": {"exactly": ["1", "2"]}}},
             {"mail": [{"name": "b", "fits": False}]}, {"closed": {"grams": {"about": 6.525, "within": 0.01}}},
             {"closed": {"thickness": {"about": 0.024}}}]
    wrong = [{"base": {"scores": ["2", "1"]}}, {"base": {"scores": {"exactly": ["1"]}}}, {"base": {"blank": {}}},
             {"mail": [{"name": "b", "fits": True}]}, {"mail": [{"name": "c"}]}, {"mail": [{"fits": 1}]},
             {"closed": {"grams": {"about": 6.525, "within": 0.001}}}, {"closed": {"thickness": "0.024"}},
             {"closed": ["3/125"]}]
    return all(not differences(w, got, "") for w in right) and all(differences(w, got, "") for w in wrong)


def main(program, top=HERE.parent.parent):
    answers = json.loads((HERE / "answers.json").read_text(encoding="utf-8"))
    cards = {path.stem: path for path in sorted((pathlib.Path(top) / "cases").glob("*.toml"))}
    passed, failed = (1, 0) if check_itself() else (0, 1)
    if failed:
        print("FAIL the comparison of parts of an answer takes what it should refuse, or refuses what it should take")
    for name in sorted(set(cards) | set(answers)):
        if name not in cards:
            wrong = ["there are answers but no card"]
        elif name not in answers:
            wrong = ["there are no hand-worked answers for it"]
        else:
            wrong = compare_card(program, cards[name], answers[name])
        failed, passed = failed + bool(wrong), passed + (not wrong)
        print(f"{'FAIL' if wrong else 'ok  '} {name}")
        for line in wrong:
            print(f"       {line}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
