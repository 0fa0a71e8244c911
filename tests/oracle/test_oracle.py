#!/usr/bin/env python3
"""Does the check itself work? Cards whose answers were worked out by hand are solved by the reference; then every
size and place of a right answer is moved by a mark, and each such answer must be refused.

usage: test_oracle.py [PROGRAM]        with the program, its own answers are spoilt too
"""
import copy
import json
import os
import subprocess
import sys
import tempfile
from fractions import Fraction
from itertools import count, islice
from types import SimpleNamespace

import brute
import real
import reference
import test_body
from cards import generate
from checker import broken_rules, check
from integer_program import Program
from linear import Lin
from model import build
from problem import Contradiction
from reading import length, read, size, wish
from steps import Comparison, feasible

FLAT = 'unit = "in"\nmark = "1/8"\n[base]\nfold = "flat"\nfront = "4 x 6"\n'

# text after FLAT, and what was worked out by hand: piece -> left, top, width, height in inches
BY_HAND = {
    "a mat about 3/8 that its panel pushes to 1/4": (
        '[[layer]]\nname = "mat"\non = "front"\nborder = "1/8 to 1/2, about 3/8"\n'
        '[[layer]]\nname = "panel"\non = "mat"\nsize = "3 1/4 x 5 1/4"\nborder = "at least 1/8"\n',
        {"mat": ("1/4", "1/4", "7/2", "11/2"), "panel": ("3/8", "3/8", "13/4", "21/4")}),
    "bare layers take the usual borders": (
        '[[layer]]\nname = "mat"\non = "front"\n[[layer]]\nname = "panel"\non = "mat"\nborder = "1/8"\n',
        {"mat": ("1/8", "1/8", "15/4", "23/4"), "panel": ("1/4", "1/4", "7/2", "11/2")}),
    "two equal strips share 6 less a gap of 1/4": (
        '[[layer]]\nname = "up"\non = "front"\nborder = { across = "0", top = "0" }\n'
        '[[layer]]\nname = "down"\non = "front"\nborder = { across = "0", bottom = "0" }\nbelow = "up"\ngap = "1/4"\n'
        'height = "same as up"\n',
        # 5 3/4 halved is 2 7/8, on the marks
        {"up": ("0", "0", "4", "23/8"), "down": ("0", "25/8", "4", "23/8")}),
    "words take their artwork and margins, and are centred in what is left": (
        '[[layer]]\nname = "words"\non = "front"\nartwork = "1 1/16 x 1/2"\nmargin = "at least 1/8"\nalign = "top"\n',
        # 1 5/16 is no mark: 1 3/8; (4 - 1 3/8) / 2 = 1 5/16
        {"words": ("21/16", "0", "11/8", "3/4")}),
    "three loose tags stand in the column that leaves the widest spaces": (
        "".join(f'[[layer]]\nname = "{n}"\non = "front"\nsize = "3 x 1"\n' for n in "abc"),
        # 1/2 at either side and 3/4 above, between and below; the first in the file is at the top
        {"a": ("1/2", "3/4", "3", "1"), "b": ("1/2", "5/2", "3", "1"), "c": ("1/2", "17/4", "3", "1")}),
}


class Tests:
    def __init__(self):
        self.passed, self.failures = 0, []
        self.by_rule = self.by_step = 0  # how spoilt answers were refused

    def expect(self, holds, says):
        if holds:
            self.passed += 1
        else:
            self.failures.append(says)

    def reading(self):
        for text, unit, want in (("4 1/4", "in", "17/4"), ("4-1/4", "in", "17/4"), ("4¼", "in", "17/4"),
                                 ('17/4"', "in", "17/4"), ("10.5 cm", "mm", "105"), ("1 in", "mm", "127/5"),
                                 ("25.4 mm", "in", "1")):
            self.expect(length(text, unit) == Fraction(want), f"length {text}")
        self.expect(size("iso A6 turned", "mm") == (148, 105), "iso A6 turned")
        self.expect(size("us A2", "in") == (Fraction(17, 4), Fraction(11, 2)), "us A2")
        w = wish("one of 1, 2, 3, at least 2", "in")
        self.expect(w.one_of == [1, 2, 3] and w.at_least == 2, "one of with at least")
        self.expect(wish("1/4 to 1/2, about 3/8", "in").exact() is None and wish("3", "in").exact() == 3, "exact")

    def by_hand(self):
        for says, (text, want) in BY_HAND.items():
            model, _ = build(read(FLAT + text)[0], 0)
            values = reference.solve([model])
            for name, numbers in want.items():
                got = [str(values[f"0/{name}.{k}"] / 8) for k in ("left", "top", "width", "height")]
                self.expect(got == list(numbers), f"{says}: {name} is {got}")
            self.spoil(says, [model], values)

    def spoil(self, says, models, values):
        """The answer itself is accepted; with any one number moved by a mark it is refused."""
        self.expect(not self.refused(models, values), f"{says}: the right answer is refused")
        for name in values:
            for step in (1, -1):
                self.expect(self.refused(models, {**values, name: values[name] + step}),
                            f"{says}: {name} moved by {step} is accepted")

    def refused(self, models, values):
        if any(broken_rules(m, values) for m in models):
            self.by_rule += 1
            return True
        try:
            tally = Comparison(models, values).run()
        except Contradiction:
            return True
        found = any(t.wrong for t in tally.values())
        self.by_step += found
        return found

    def cbc(self):
        p = Program()
        x, y = p.add("x", 0, 10, True), p.add("y", 0, 10)
        p.row(2 * x + y - 15, "<=")
        p.row(y - Fraction(1, 2), ">=")
        p.goal, p.greatest = x + y * Fraction(1, 4), True
        self.expect(abs(p.solve().value - (7 + 0.25)) < 1e-9, "an integer program with a known optimum")
        p.row(x + Lin(const=1), "<=")
        self.expect(p.solve().status == "infeasible", "an integer program that cannot hold")
        for wanted, holds in (("4 x 6", True), ("4 1/8 x 6", False)):
            text = FLAT + f'[[layer]]\nname = "mat"\non = "front"\nsize = "{wanted}"\n'
            self.expect(feasible(build(read(text)[0], 0)[0]) is holds, f"a {wanted} mat on a 4 x 6 front")

    def program(self, program):
        texts = ((seed, generate(seed)) for seed in count(1))
        built = ((seed, text) for seed, text in texts if sized(program, text)["verdict"] == "buildable")
        for seed, text in islice(built, 2):
            self.program_answer(f"seed {seed}", text, program)
        texts = ((seed, real.generate(seed)) for seed in count(1))
        answers = ((seed, text, sized(program, text)) for seed, text in texts)
        for seed, text, answer in islice((a for a in answers if a[2]["verdict"] == "buildable"), 12):
            test_body.refuses(self.expect, f"real {seed}", text, answer)
        text = brute.generate(1)
        answer = sized(program, text)
        for key in ("left", "width"):
            spoilt = copy.deepcopy(answer)
            entry = spoilt["layers"][0]
            entry[key] = str(Fraction(entry[key]) - Fraction(1, 4))
            report = SimpleNamespace(text=text, verdict="buildable", failures=[], passed={"brute force": 0})
            brute.compare(report, spoilt)
            self.expect(report.failures, f"brute force accepts a {key} that is a mark less")

    def program_answer(self, says, text, program):
        answer = sized(program, text)
        models, values, wrong = check(text, answer)
        self.expect(not wrong, f"{says}: refused: {wrong[:1]}")
        if wrong:
            return
        self.spoil(says, models, values)
        mark = Fraction(answer["mark"])
        for i, layer in enumerate(answer["layers"]):
            for key in ("left", "top", "width", "height", "from_left", "from_top"):
                spoilt = copy.deepcopy(answer)
                spoilt["layers"][i][key] = str(Fraction(layer[key]) + mark)
                models, values, wrong = check(text, spoilt)
                self.expect(wrong or self.refused(models, values), f"{says}: {layer['name']} {key} a mark more is "
                                                                   "accepted")


def sized(program, text):
    with tempfile.TemporaryDirectory(prefix="oracle-") as folder:
        path = os.path.join(folder, "card.toml")
        with open(path, "w") as f:
            f.write(text)
        ran = subprocess.run([program, "size", path, "--json"], capture_output=True, text=True, timeout=60)
        return json.loads(ran.stdout)


def run(program=None):
    """(how many held, what did not)"""
    tests = Tests()
    tests.reading()
    tests.cbc()
    tests.by_hand()
    test_body.run(tests.expect)
    if program:
        tests.program(program)
    tests.expect(min(tests.by_rule, tests.by_step) > 20, "too few spoilt answers of either kind")
    return tests.passed, tests.failures


if __name__ == "__main__":
    held, broken = run(*sys.argv[1:2])
    for line in broken:
        print("FAIL " + line)
    print(f"{held} passed, {len(broken)} failed")
    sys.exit(1 if broken else 0)
