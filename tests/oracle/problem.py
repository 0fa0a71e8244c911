"""A set of variables, rules and held sums, made smaller by exact reasoning before it is written as an integer
program: equalities are eliminated, bounds tightened, impossible options dropped, unrelated parts split."""
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, floor

from encoding import choose, hold
from integer_program import Program
from linear import Lin, Rel, Space, Var

ROUNDS = 12  # of tightening bounds; more would only tighten further


class Contradiction(Exception):
    """The rules cannot hold together."""


@dataclass
class Held:
    """What an earlier step reached, held: 'abs': the total of |sums| is at most `limit`; 'nonzero': at most
    `limit` of the sums are not 0; 'off marks': at most `limit` are no whole number; 'ranks': in order, the
    values of `spaces` are nowhere less than `limit` (a sorted list)."""

    kind: str
    sums: list = field(default_factory=list)
    limit: object = 0
    spaces: list = field(default_factory=list)

    def parts(self):
        return self.sums + [o for s in self.spaces for o in s.sums()]


@dataclass
class Problem:
    variables: dict = field(default_factory=dict)  # name -> Var
    rows: list = field(default_factory=list)  # Rel
    choices: list = field(default_factory=list)  # lists of options, each a list of Rel
    held: list = field(default_factory=list)
    settled: dict = field(default_factory=dict)  # eliminated variable -> its sum
    slack: Fraction = Fraction(0)  # how far a row without variables may be off
    inexact: frozenset = frozenset()  # variables whose reported values are rounded

    def off(self, *sums):
        """How far the values of sums may be off in an answer."""
        return self.slack if any(v in self.inexact for s in sums for v in s.terms) else Fraction(0)

    def now(self, total):
        """A sum with the eliminated variables replaced."""
        if not any(v in self.settled for v in total.terms):
            return total
        out = Lin(const=total.const)
        for v, f in total.terms.items():
            out += (self.settled[v] if v in self.settled else Lin.var(v)) * f
        return out

    def now_space(self, space):
        return Space([[self.now(o) for o in part] for part in space.parts], space.says)

    def is_convex(self):
        return not (self.choices or any(v.whole for v in self.variables.values())
                    or any(h.kind != "abs" for h in self.held))

    # --- elimination ---------------------------------------------------------------------------------
    def eliminate(self):
        """Uses up every row that is an equality; True if there was one."""
        used = False
        for rel in [r for r in self.rows if r.eq]:
            total = self.now(rel.sum)
            used = True
            if not total.terms:
                if abs(total.const) > self.slack:
                    raise Contradiction
                continue
            # An eliminated whole variable needs a row of its own later, so others go first.
            pivot = min(total.terms, key=lambda v: (self.variables[v].whole, abs(total.terms[v]) != 1, v))
            value = (total - Lin({pivot: total.terms[pivot]})) * (-1 / total.terms[pivot])
            once = Problem(settled={pivot: value})
            self.settled = {v: once.now(s) for v, s in self.settled.items()}
            self.settled[pivot] = value
        self.rows = [r for r in self.rows if not r.eq]
        for name, s in self.settled.items():
            if not s.terms and self.variables[name].whole and s.const.denominator != 1:
                raise Contradiction
        return used

    def substitute(self):
        best = {}
        for rel in self.rows:
            total = self.now(rel.sum)
            if not total.terms:
                if total.const > self.slack:
                    raise Contradiction
                continue
            lead = abs(next(f for _, f in sorted(total.terms.items())))
            total = total * (1 / lead)
            key = tuple(sorted(total.terms.items()))
            if key not in best or total.const > best[key].const:
                best[key] = total
        self.rows = [Rel(t) for t in best.values()]
        self.choices = [[[Rel(self.now(r.sum), r.eq) for r in option] for option in options]
                        for options in self.choices]
        held = []
        for h in self.held:
            sums, spaces, limit = [self.now(s) for s in h.sums], [self.now_space(s) for s in h.spaces], h.limit
            if h.kind == "abs":
                limit -= sum(abs(s.const) for s in sums if not s.terms)
                sums = [s for s in sums if s.terms]
                if limit < -self.slack * (len(h.sums) + 1):
                    raise Contradiction
                if limit <= 0 or not sums:
                    self.rows += [Rel(s, True) for s in sums]
                    continue
            elif h.kind in ("nonzero", "off marks"):
                bad = (lambda c: c != 0) if h.kind == "nonzero" else (lambda c: abs(c - round(c)) > self.slack)
                limit -= sum(1 for s in sums if not s.terms and bad(s.const))
                sums = [s for s in sums if s.terms]
                if limit < 0:
                    raise Contradiction
                if not sums or limit >= len(sums):
                    continue
                if h.kind == "nonzero" and limit == 0:
                    self.rows += [Rel(s, True) for s in sums]
                    continue
            held.append(Held(h.kind, sums, limit, spaces))
        self.held = held

    # --- bounds --------------------------------------------------------------------------------------
    def interval(self, total):
        low = high = total.const
        for v, f in total.terms.items():
            a, b = (self.variables[v].low, self.variables[v].high)
            low, high = low + f * (a if f > 0 else b), high + f * (b if f > 0 else a)
        return low, high

    def most(self, space):
        """An upper bound on a space."""
        return min(max(self.interval(o)[1] for o in part) for part in space.parts)

    def narrow(self, name, low, high):
        var = self.variables[name]
        low, high = max(low, var.low), min(high, var.high)
        if var.whole:
            low, high = Fraction(ceil(low)), Fraction(floor(high))
        if low > high:
            if low - high > self.slack:
                raise Contradiction
            low = high
        if (low, high) == (var.low, var.high):
            return False
        self.variables[name] = Var(low, high, var.whole)
        return True

    def tighten(self):
        """Bounds of the variables, from each row by itself."""
        rows = [r.sum for r in self.rows]
        for name, s in self.settled.items():
            if s.terms:  # an eliminated variable's own bounds
                var = self.variables[name]
                rows += [s - var.high, Lin(const=var.low) - s]
        for _ in range(ROUNDS):
            changed = False
            for total in rows:
                low, _ = self.interval(total)
                for v, f in total.terms.items():
                    var = self.variables[v]
                    rest = low - f * (var.low if f > 0 else var.high)
                    edge = -rest / f
                    changed |= self.narrow(v, edge if f < 0 else var.low, edge if f > 0 else var.high)
            if not changed:
                break
        # Huge denominators from repeated tightening would only slow things down.
        for name, var in self.variables.items():
            self.variables[name] = Var(outward(var.low, floor), outward(var.high, ceil), var.whole)

    def differences(self):
        """The least known upper bound on x - y for any two variables (None: nothing, that is 0), from rows
        that compare two variables or bound one: shortest paths."""
        nodes = [None] + [v for v in self.variables if v not in self.settled]
        best = {(a, a): Fraction(0) for a in nodes}

        def note(x, y, bound):
            if (x, y) not in best or bound < best[x, y]:
                best[x, y] = bound

        for v in nodes[1:]:
            note(v, None, self.variables[v].high)
            note(None, v, -self.variables[v].low)
        for rel in self.rows:
            pair = difference(rel.sum)
            if pair:
                x, y, factor = pair
                note(x, y, -rel.sum.const / factor)
        for k in nodes:
            for i in nodes:
                if (i, k) in best:
                    through = best[i, k]
                    for j in nodes:
                        if (k, j) in best:
                            note(i, j, through + best[k, j])
        return best

    # --- all of it -----------------------------------------------------------------------------------
    def reduced(self, closure=False):
        """An equal problem, smaller. `closure`: also reason over chains of differences."""
        p = Problem(dict(self.variables), list(self.rows), list(self.choices), list(self.held),
                    dict(self.settled), self.slack, self.inexact)
        again = True
        while again:
            again = p.eliminate()
            p.substitute()
            again |= any(r.eq for r in p.rows)
            if again:
                continue
            p.tighten()
            for name, var in p.variables.items():
                if name not in p.settled and var.low == var.high:
                    p.rows.append(Rel(Lin.var(name) - var.low, True))
                    again = True
            again |= p.prune(p.differences() if closure else None)
        return p

    def reach(self, total, far):
        """Bounds on a sum, by what is known of differences too."""
        low, high = self.interval(total)
        pair = difference(total)
        if far is not None and pair:
            x, y, factor = pair
            if (x, y) in far:
                high = min(high, total.const + factor * far[x, y])
            if (y, x) in far:
                low = max(low, total.const - factor * far[y, x])
        return low, high

    def prune(self, far):
        """Drops options that cannot hold and choices that hold anyway; True if a row came of it."""
        changed, choices = False, []
        for options in self.choices:
            left, sure = [], False
            for option in options:
                reaches = [(rel, *self.reach(rel.sum, far)) for rel in option]
                if any(low > self.slack or (rel.eq and high < -self.slack) for rel, low, high in reaches):
                    continue
                open_rels = [rel for rel, low, high in reaches if high > 0 or (rel.eq and low < 0)]
                sure |= not open_rels
                left.append(open_rels)
            if sure:
                continue
            if not left:
                raise Contradiction
            if len(left) == 1:
                self.rows += left[0]
                changed = True
            else:
                choices.append(left)
        self.choices = choices
        return changed

    def parts(self, together=()):
        """Unrelated parts as problems of their own; `together`: lists of sums that must stay in one part."""
        parent = {v: v for v in self.variables if v not in self.settled}

        def find(v):
            while parent[v] != v:
                parent[v] = v = parent[parent[v]]
            return v

        def join(sums):
            seen = [v for s in sums for v in self.now(s).terms]
            for v in seen[1:]:
                parent[find(v)] = find(seen[0])

        whole = {n: s for n, s in self.settled.items() if s.terms and self.variables[n].whole}
        groups = [[r.sum] for r in self.rows] + [[r.sum for o in c for r in o] for c in self.choices]
        groups += [h.parts() for h in self.held] + [[s] for s in whole.values()] + list(together)
        for g in groups:
            join(g)
        out = {}
        for v in parent:
            empty = Problem(settled=self.settled, slack=self.slack, inexact=self.inexact)
            out.setdefault(find(v), empty).variables[v] = self.variables[v]

        def home(sums):
            return next((out[find(v)] for s in sums for v in s.terms), None)

        for r in self.rows:
            home([r.sum]).rows.append(r)
        for c in self.choices:
            home([r.sum for o in c for r in o]).choices.append(c)
        for h in self.held:
            where = home(h.parts())
            if where is not None:
                where.held.append(h)
        for n, s in whole.items():
            where = home([s])
            where.variables[n] = self.variables[n]
            where.rows.append(Rel(Lin.var(n) - s, True))
        return [(part, lambda s, part=part: any(v in part.variables for v in self.now(s).terms))
                for part in out.values()]

    def whole_program(self):
        """All parts as one integer program; of a problem that is `reduced`."""
        whole = Problem(slack=self.slack, held=self.held)
        for part, _ in self.parts():
            whole.variables.update(part.variables)
            whole.rows += part.rows
            whole.choices += part.choices
        return whole.program()

    def program(self):
        """As an integer program, without a goal. Of one of the `parts`."""
        out = Program()
        for name, var in self.variables.items():
            out.add(name, var.low, var.high, var.whole)
        for r in self.rows:
            out.row(r.sum, "=" if r.eq else "<=")
        for options in self.choices:
            choose(out, options)
        for h in self.held:
            hold(out, h)
        return out


def outward(value, rounding):
    return value if value.denominator < 10**6 else Fraction(rounding(value * 10**6), 10**6)


def difference(total):
    """(x, y, factor) of factor * (x - y) + constant, where x or y may be missing (None); else None."""
    if len(total.terms) == 1:
        (v, f), = total.terms.items()
        return (v, None, f) if f > 0 else (None, v, -f)
    if len(total.terms) == 2:
        (v, f), (w, g) = total.terms.items()
        if f == -g:
            return (v, w, f) if f > 0 else (w, v, g)
    return None
