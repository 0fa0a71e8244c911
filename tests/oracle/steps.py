"""Every choosing step of an answer compared with an integer program for the same step.

A step's program holds all rules and what the earlier steps reached in the answer (each verified before it is
held). What is settled by exact reasoning alone, or cannot be better than it is (a total of 0, a value at its
bound), needs no program and is counted apart."""
from dataclasses import dataclass, field
from fractions import Fraction

from encoding import counting, entries_of, hold, levels_of, ranks, space_sum
from integer_program import WAYS, Program
from linear import Lin, Rel, Space
from neighbours import Late, between
from problem import Contradiction, Held, Problem

NEAR = 1e-5  # in marks: what counts as equal after floating point


@dataclass
class Tally:
    compared: int = 0  # integer programs solved and found equal
    plain: int = 0  # settled without one
    late: int = 0  # not solved in time
    wrong: list = field(default_factory=list)

    def add(self, other):
        self.compared += other.compared
        self.plain += other.plain
        self.late += other.late
        self.wrong += other.wrong


def problem_of(model):
    p = Problem(variables=dict(model.variables))
    for rule in model.rules:
        if len(rule.options) == 1:
            p.rows += rule.options[0]
        else:
            p.choices.append(rule.options)
    if any(model.inexact.values()):
        # reported boxes of tilted pieces are rounded outward
        p.slack = 8 * max(model.inexact.values())
        p.inexact = frozenset(v for v, off in model.inexact.items() if off)
    return p


def joined(problems):
    out = Problem(slack=max(p.slack for p in problems), inexact=frozenset().union(*(p.inexact for p in problems)))
    for p in problems:
        out.variables.update(p.variables)
        out.rows += p.rows
        out.choices += p.choices
        out.held += p.held
    return out


def feasible(model, seconds=20.0):
    """True, False, or None when it took too long: can the rules hold together?"""
    try:
        problem = problem_of(model).reduced()
    except Contradiction:
        return False
    for part, _ in problem.parts():
        status = part.program().solve(seconds).status
        if status == "infeasible":
            return False
        if status != "optimal":
            return None
    return True


class Comparison:
    """The steps of one card's answer, in order. `values`: what the answer gives every variable, in marks."""

    def __init__(self, models, values, seconds=20.0):
        self.models, self.values, self.seconds = models, values, seconds
        self.tally = {}

    def note(self, step):
        return self.tally.setdefault(step, Tally())

    def solve(self, step, program, expected, says):
        """Compares the optimum with the answer's value. The answer is a solution of the program, so an outcome
        that misses it is CBC's rounding and another way of calling it is tried; one that is better must hold
        with its whole variables fixed."""
        tally = self.note(step)
        for way in range(len(WAYS)):
            outcome = program.solve(self.seconds, way)
            if outcome.status == "late":
                tally.late += 1
                return
            if outcome.status != "optimal":
                said = f"the program is {outcome.status}"
                continue
            said = f"the program {outcome.value:.9g}"
            if self.near(outcome.value, expected):
                tally.compared += 1
                return
            if (outcome.value > expected) == program.greatest:
                sure = program.confirmed(outcome, self.seconds)
                if sure.status == "optimal" and not self.near(sure.value, expected) \
                        and (sure.value > expected) == program.greatest:
                    break
        tally.wrong.append(f"{says}: the answer reaches {float(expected):.9g}, {said}")

    def near(self, value, expected):
        return abs(value - float(expected)) <= NEAR * max(1.0, abs(float(expected)) / 100)

    # --- totals --------------------------------------------------------------------------------------
    def total_step(self, step, problem, sums, kind):
        """Least total of |sums| ('abs'), of how many are not 0 ('nonzero') or no whole number ('off marks'),
        or of the sums themselves ('plain'). Holds what the answer reaches, part by part."""
        if not sums:
            return
        reduced = problem.reduced()
        for part, mine in reduced.parts([[s] for s in sums]):
            own = [s for s in sums if mine(s)]
            if not own:
                continue
            now = [reduced.now(s) for s in own]
            at = [s.at(self.values) for s in own]
            reached = {"abs": lambda: sum(map(abs, at)), "plain": lambda: sum(at),
                       "nonzero": lambda: sum(1 for a in at if a != 0),
                       "off marks": lambda: sum(1 for a in at if abs(a - round(a)) > problem.slack)}[kind]()
            if reached == 0 and kind != "plain":
                self.note(step).plain += 1
            else:
                program = part.program()
                if kind == "abs":
                    program.goal = sum((program.least_abs(s) for s in now), Lin())
                elif kind == "plain":
                    program.goal = sum(now, Lin())
                else:
                    program.goal = counting(program, kind, now)
                self.solve(step, program, reached, step)
            if kind == "plain":
                problem.rows.append(Rel(sum(own, Lin()) - reached - problem.off(*own)))
            else:
                off = sum(problem.off(s) for s in own) if kind == "abs" else 0
                problem.held.append(Held(kind, own, reached + off))
        settled = sum(1 for s in sums if not reduced.now(s).terms)
        self.note(step).plain += settled > 0

    # --- the smallest raised as far as it goes, then the next -----------------------------------------
    def rank_step(self, step, problem, spaces, closure=False):
        reduced = problem.reduced(closure)
        far = reduced.differences() if closure else None
        off = problem.off(*(o for s in spaces for o in s.sums()))
        spaces = [simpler(reduced, reduced.now_space(s), far) for s in spaces]
        convex = Program()
        target, blocks = Fraction(0), 0
        for part, mine in reduced.parts([s.sums() for s in spaces]):
            here = [s for s in spaces if any(mine(o) for o in s.sums())]
            if not here:
                continue
            at = [s.at(self.values) for s in here]
            if part.is_convex() and all(s.simple() for s in here):
                for value in sorted(set(at)):
                    group = [s for s, a in zip(here, at) if a == value]
                    if all(part.most(s) <= value for s in group):
                        self.note(step).plain += 1
                        continue
                    blocks += 1
                    target += self.convex_level(convex, f"{blocks}:", part, here, at, value, group, off)
                for s, a in zip(here, at):
                    for total in s.sums():
                        problem.rows.append(Rel(a - off - total))
                        if not off and len(s.parts) == 1:
                            problem.rows.append(Rel(total - a, True))
            else:
                self.counted_levels(step, part, here, at, off)
                problem.held.append(Held("ranks", [], sorted(a - off for a in at), here))
        if blocks:
            self.solve(step, convex, target, f"{step}, all levels of its convex parts in one total")
            self.note(step).plain += blocks - 1

    def convex_level(self, program, prefix, part, spaces, at, value, group, off):
        """Adds one level to a linear program: entries below `value` keep theirs, all others stay at least
        `value`; the total of those at `value` must not grow, for in a convex set the answer's entries below
        are the only ones. Returns that total."""
        rename = {v: prefix + v for v in part.variables}

        def moved(s):
            return Lin({rename[v]: f for v, f in s.terms.items()}, s.const)

        for name, var in part.variables.items():
            program.add(rename[name], var.low, var.high)
        for r in part.rows:
            program.row(moved(r.sum), "=" if r.eq else "<=")
        for h in part.held:
            hold(program, Held(h.kind, [moved(s) for s in h.sums], h.limit))
        for s, a in zip(spaces, at):
            for total in s.sums():
                program.row(min(a, value) - off - moved(total), "<=")
        for s in group:
            program.goal += space_sum(program, Space([[moved(o) for o in p] for p in s.parts], s.says))
        program.greatest = True
        return value * len(group)

    def counted_levels(self, step, part, spaces, at, off):
        at = sorted(at)
        highs = sorted(part.most(s) for s in spaces)
        for value in sorted(set(at)):
            below = at.index(value)
            last = below + at.count(value)  # how many are at most `value`
            if highs[last - 1] <= value:
                self.note(step).plain += 1  # so many cannot be above it
                continue
            program = part.program()
            entries = entries_of(program, spaces)
            t = program.add("t", value, max(highs))
            earlier = [(need, v - off) for need, v in levels_of(at) if v < value]
            ranks(program, entries, earlier + [(len(at) - below, value - off), (len(at) - last + 1, t)])
            program.goal, program.greatest = t, True
            self.solve(step, program, value, f"{step}, entry {last} from the smallest")

    # --- one after the other -------------------------------------------------------------------------
    def order_step(self, step, problem, sums, closure=False):
        """`sums` greatest, one after the other. One program finds the first that could be greater."""
        reduced = problem.reduced(closure)
        for part, mine in reduced.parts():
            own = [s for s in sums if mine(s)]
            if not own:
                continue
            open_ = [(reduced.now(s), s.at(self.values)) for s in own]
            off = problem.off(*own)
            if all(part.interval(s)[1] <= a for s, a in open_):
                self.note(step).plain += 1
                continue
            program = part.program()
            gain = program.add("gain", 0, max(part.interval(s)[1] - a for s, a in open_))
            before = Lin()
            for s, a in open_:
                first = program.binary()
                program.at_most_if_not(a - off - s, before)
                program.at_most_if(a + gain - s, first)
                before += first
            program.row(before - 1, "=")
            program.goal, program.greatest = gain, True
            self.solve(step, program, 0, f"{step}: how much greater one could be")
        for s in sums:
            off = problem.off(s)
            problem.rows.append(Rel(s.at(self.values) - off - s, eq=not off))

    # --- all steps -----------------------------------------------------------------------------------
    def run(self):
        """Tally by step."""
        problems = [problem_of(m) for m in self.models]
        for model, problem in zip(self.models, problems):
            self.total_step("1 about", problem, model.about, "abs")
            self.total_step("2a own sides alike", problem, model.sides, "abs")
            self.total_step("2b usual border", problem, model.usual, "abs")
            self.total_step("2c borders on marks", problem, model.on_marks, "off marks")
        together = joined(problems)
        self.total_step("3 alike across versions", together, alike_pairs(self.models), "nonzero")
        self.total_step("4 artwork layers least", together, [s for m in self.models for s in m.artwork], "plain")
        self.rank_step("5a sizes", together, [s for m in self.models for s in m.sizes])
        self.order_step("5b larger in file order", together, [s for m in self.models for s in m.larger])
        # Every size is settled now, so the versions share nothing any more.
        for model, problem in zip(self.models, problems):
            for s in model.larger + [o for space in model.sizes for o in space.sums()]:
                problem.rows.append(Rel(s - s.at(self.values), True))
            try:
                pairs = between(problem, model, self.values, self.seconds)
            except Late:
                self.note("6 spaces").late += 1
                continue
            self.rank_step("6 spaces", problem, model.spaces + pairs, closure=True)
            self.order_step("7 left and top", problem, [s * -1 for s in model.places], closure=True)
        return self.tally


def simpler(problem, space, far):
    """The same space without sums that another is never less than, and without parts that are never the least."""
    def never_less(a, b):
        return problem.reach(a - b, far)[0] >= 0

    parts = []
    for part in space.parts:
        left = list(part)
        for o in part:
            if len(left) > 1 and any(p is not o and never_less(p, o) for p in left):
                left.remove(o)
        parts.append(left)
    for part in list(parts):
        if len(parts) > 1 and any(q is not part and all(any(never_less(p, o) for p in part) for o in q)
                                  for q in parts):
            parts.remove(part)
    return Space(parts, space.says)


def alike_pairs(models):
    out = []
    for i, a in enumerate(models):
        for b in models[i + 1:]:
            out += [s - b.alike[key] for key, s in a.alike.items() if key in b.alike]
    return out

