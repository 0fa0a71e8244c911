"""Integer programs as text for CBC, and its answers. Knows nothing of cards.

A Program collects variables, rows and a sum to make least or greatest. Values are floating point once they
reach CBC: rows are multiplied through to whole numbers where that keeps them exact."""
import os
import subprocess
import tempfile
from dataclasses import dataclass, field
from fractions import Fraction
from math import lcm

from linear import Lin

WHOLE_LIMIT = 10**9
MEMORY = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None  # where files that live for a moment are no work
# CBC now and then calls a problem infeasible, or stops short of the optimum, by its own rounding: each
# way of calling it is tried until one gives what was expected, where that is known to be possible.
WAYS = (["-primalT", "1e-9", "-integerT", "1e-9"], [], ["-presolve", "off", "-preprocess", "off"],
        ["-preprocess", "off", "-cuts", "off", "-heur", "off"])


@dataclass
class Outcome:
    status: str  # "optimal", "infeasible", "unbounded", "late", "crash"
    value: float = 0.0
    values: dict = field(default_factory=dict)


@dataclass
class Program:
    bounds: dict = field(default_factory=dict)  # variable -> (low, high), either None for none
    whole: set = field(default_factory=set)
    rows: list = field(default_factory=list)  # (terms, "<=" ">=" "=", right side)
    names: dict = field(default_factory=dict)
    goal: Lin = field(default_factory=Lin)
    greatest: bool = False
    shared: list = field(default_factory=list)  # for choices between the same sums; see problem.py
    greatest_of: dict = field(default_factory=dict)

    def add(self, name, low=None, high=None, whole=False):
        self.bounds[name] = (low, high)
        if whole:
            self.whole.add(name)
        return Lin.var(name)

    def fresh(self, kind, low=None, high=None, whole=False):
        return self.add(f"{kind}#{len(self.bounds)}", low, high, whole)

    def binary(self):
        return self.fresh("b", 0, 1, True)

    def row(self, total, op):
        """total (<=, >=, =) 0"""
        self.rows.append((total.terms, op, -total.const))

    def interval(self, total):
        """Bounds on a sum from those of its variables."""
        low = high = total.const
        for v, f in total.terms.items():
            a, b = self.bounds[v]
            if f < 0:
                a, b = b, a
            low = None if low is None or a is None else low + f * a
            high = None if high is None or b is None else high + f * b
        return low, high

    def at_most_if(self, total, switch):
        """total <= 0 when the binary `switch` is 1."""
        _, high = self.interval(total)
        if high is None:
            raise ValueError("a switched row needs bounds")
        if high > 0:
            self.row(total - high * (1 - switch), "<=")

    def at_most_if_not(self, total, switch):
        """total <= 0 when `switch`, a sum of binaries of which at most one is 1, is 0."""
        _, high = self.interval(total)
        self.row(total - max(high, Fraction(0)) * switch, "<=")

    def least_abs(self, total):
        """A variable at least |total|."""
        d = self.fresh("d", 0, None)
        self.row(total - d, "<=")
        self.row(total + d, ">=")
        return d

    def text(self):
        names = {v: f"v{i}" for i, v in enumerate(self.bounds)}
        self.names = {n: v for v, n in names.items()}

        def total(terms):
            out = []
            for v, f in terms.items():
                out.append(f"{'-' if f < 0 else '+'} {plain(abs(f))} {names[v]}")
            return "\n ".join(" ".join(out[i:i + 8]) for i in range(0, len(out), 8))

        goal = self.goal * (-1 if self.greatest else 1)
        lines = ["Minimize", " goal: " + (total(goal.terms) or "0 " + next(iter(names.values()))), "Subject To"]
        for i, (terms, op, right) in enumerate(self.rows):
            factor = lcm(*(f.denominator for f in terms.values()), right.denominator)
            if factor > WHOLE_LIMIT:
                factor = 1
            lines.append(f" r{i}: {total({v: f * factor for v, f in terms.items()})} {op} {plain(right * factor)}")
        lines.append("Bounds")
        for v, (low, high) in self.bounds.items():
            low = "-inf" if low is None else plain(low)
            high = "inf" if high is None else plain(high)
            lines.append(f" {low} <= {names[v]} <= {high}")
        if self.whole:
            lines.append("Generals")
            lines += [" " + names[v] for v in self.bounds if v in self.whole]
        return "\n".join(lines + ["End", ""])

    def solve(self, seconds=20.0, way=0):
        """The outcome, with the goal's constant counted in."""
        rows = []
        for terms, op, right in self.rows:
            if terms:
                rows.append((terms, op, right))
            elif not {"<=": 0 <= right, ">=": 0 >= right, "=": right == 0}[op]:
                return Outcome("infeasible")
        self.rows = rows
        if not self.bounds or not rows:
            self.row(self.fresh("idle", 0, 1), ">=")
        outcome = run_cbc(self.text(), seconds, WAYS[way])
        if outcome.status == "optimal":
            outcome.value = (-outcome.value if self.greatest else outcome.value) + float(self.goal.const)
            outcome.values = {v: outcome.values.get(n, 0.0) for n, v in self.names.items()}
        return outcome


    def confirmed(self, outcome, seconds=20.0):
        """The outcome of the linear program that is left with the whole variables as found."""
        fixed = Program(dict(self.bounds), set(), list(self.rows), {}, self.goal, self.greatest)
        for v in self.whole:
            fixed.bounds[v] = (Fraction(round(outcome.values[v])),) * 2
        return fixed.solve(seconds)


def plain(f):
    f = Fraction(f)
    return str(f.numerator) if f.denominator == 1 else repr(float(f))


def run_cbc(text, seconds, options):
    folder = tempfile.mkdtemp(prefix="oracle-", dir=MEMORY)
    problem, answer = os.path.join(folder, "p.lp"), os.path.join(folder, "p.sol")
    try:
        with open(problem, "w") as f:
            f.write(text)
        call = ["cbc", problem, *options, "-sec", str(seconds), "-solve", "-solution", answer]
        try:
            ran = subprocess.run(call, capture_output=True, text=True, timeout=4 * seconds)
        except subprocess.TimeoutExpired:
            return Outcome("late")
        if not os.path.exists(answer):
            return Outcome("crash")
        with open(answer) as f:
            lines = f.read().splitlines()
    finally:
        for name in (problem, answer):
            if os.path.exists(name):
                os.remove(name)
        os.rmdir(folder)
    head = lines[0].lower()
    if "infeasible" in head:
        return Outcome("infeasible")
    if "unbounded" in head:
        return Outcome("unbounded")
    if not head.startswith("optimal"):
        return Outcome("late")
    values = {}
    for line in lines[1:]:
        words = line.replace("**", "").split()
        values[words[1]] = float(words[2])
    return Outcome("optimal", float(head.split()[-1]), values)

