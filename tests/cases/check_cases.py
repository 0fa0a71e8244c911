#!/usr/bin/env python3
"""Sizes every card in cases/ and compares it with the answers worked out by hand (answers.json).

usage: check_cases.py PROGRAM [TOP]      TOP: the top of the sources, where cases/ is

answers.json gives, for each card and each layer or window, its cut width and height and its distance from
the left and the top of what it sits on, in the card's unit; with variants, the same for each of them.
{"about": x} is used only where a tilted edge has no exact fraction: within a millionth of the unit.
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
        return abs(float(Fraction(got)) - want["about"]) <= 1e-6
    return want == got


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
    return wrong


def main(program, top=HERE.parent.parent):
    answers = json.loads((HERE / "answers.json").read_text(encoding="utf-8"))
    cards = {path.stem: path for path in sorted((pathlib.Path(top) / "cases").glob("*.toml"))}
    passed = failed = 0
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
