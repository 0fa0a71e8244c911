"""Linear sums over named variables with exact coefficients, relations between them, and rules that are
a choice between sets of relations. Nothing about cards lives here, and no solving."""
from dataclasses import dataclass, field
from fractions import Fraction


class Lin:
    """Sum of factor * variable, plus a constant; a value that is never changed once made."""

    __slots__ = ("terms", "const")

    def __init__(self, terms=None, const=0):
        self.terms = {v: f for v, f in (terms or {}).items() if f}
        self.const = Fraction(const)

    @staticmethod
    def var(name):
        return Lin({name: Fraction(1)})

    def __add__(self, other):
        other = lin(other)
        terms = dict(self.terms)
        for v, f in other.terms.items():
            terms[v] = terms.get(v, 0) + f
        return Lin(terms, self.const + other.const)

    __radd__ = __add__

    def __sub__(self, other):
        return self + lin(other) * -1

    def __rsub__(self, other):
        return lin(other) - self

    def __mul__(self, factor):
        factor = Fraction(factor)
        return Lin({v: f * factor for v, f in self.terms.items()}, self.const * factor)

    __rmul__ = __mul__

    def at(self, values):
        return self.const + sum((f * values[v] for v, f in self.terms.items()), Fraction(0))

    def key(self):
        """Equal for equal sums."""
        return (tuple(sorted(self.terms.items())), self.const)

    def __repr__(self):
        return " + ".join([f"{f} {v}" for v, f in sorted(self.terms.items())] + [str(self.const)])


def lin(x):
    return x if isinstance(x, Lin) else Lin(const=x)


@dataclass
class Rel:
    """sum <= 0, or sum = 0."""

    sum: Lin
    eq: bool = False

    def excess(self, values):
        """How far the values are from holding it; at most 0 when they hold it."""
        v = self.sum.at(values)
        return abs(v) if self.eq else v


def le(a, b):
    return Rel(lin(a) - lin(b))


def ge(a, b):
    return Rel(lin(b) - lin(a))


def eq(a, b):
    return Rel(lin(a) - lin(b), True)


@dataclass
class Rule:
    """At least one of `options` (lists of relations) holds whole."""

    options: list
    says: str
    stated: bool = True
    source: tuple = None  # of a stated rule: the keys of its piece, then what finds its wish there


@dataclass
class Var:
    """Bounds that the rules imply anyway; they only help the reference solver."""

    low: Fraction
    high: Fraction
    whole: bool = False


@dataclass
class Space:
    """The least over `parts` of the greatest sum in each; most spaces are one sum."""

    parts: list
    says: str

    @staticmethod
    def of(total, says):
        return Space([[total]], says)

    def at(self, values):
        return min(max(o.at(values) for o in part) for part in self.parts)

    def sums(self):
        return [o for part in self.parts for o in part]

    def simple(self):
        """No sum of it is the greater of several."""
        return all(len(part) == 1 for part in self.parts)

    def key(self):
        return tuple(sorted({tuple(sorted(o.key() for o in part)) for part in self.parts}))


@dataclass
class Pair:
    """Two neighbours that may not overlap and are kept apart in no stated direction, and their four gaps."""

    first: str
    second: str
    gaps: list


@dataclass
class Model:
    """One version of a card in units of its mark: variables, rules, and what each choosing step looks at."""

    variables: dict = field(default_factory=dict)
    rules: list = field(default_factory=list)
    about: list = field(default_factory=list)  # step 1: sums whose distance from 0 is made least
    sides: list = field(default_factory=list)  # step 2, first part
    usual: list = field(default_factory=list)  # step 2, second part
    on_marks: list = field(default_factory=list)  # step 2, last part: sums that are on marks where they can be
    alike: dict = field(default_factory=dict)  # step 3: (layer, "width" or "height") -> its sum
    artwork: list = field(default_factory=list)  # step 4: sums made least
    sizes: list = field(default_factory=list)  # step 5: spaces raised from the smallest on
    larger: list = field(default_factory=list)  # step 5: then larger, one after the other
    spaces: list = field(default_factory=list)  # step 6, but for what lies between `pairs`
    pairs: list = field(default_factory=list)  # see neighbours.py
    places: list = field(default_factory=list)  # step 7: least, one after the other
    inexact: dict = field(default_factory=dict)  # variable -> how far a reported value may be off
    limit_is_written: bool = True  # whether the rules say all that a limit to the thickness asks
