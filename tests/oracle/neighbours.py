"""The spaces of step 6 between pieces that may not overlap and that nothing stated puts in an order. They depend
on what the steps before have settled: where two lie apart in one direction in every card that is then still
possible, that gap is a space; the nearest of all its other neighbours gives a piece one."""
from fractions import Fraction

from linear import Lin, Space

NEAR = 1e-5  # in marks


class Late(Exception):
    """CBC did not answer in time."""


def always(rules, far, parts, gap, seconds):
    """Is a gap at least 0 in every card that the rules allow?"""
    now = rules.now(gap)
    low = rules.reach(now, far)[0] if now.terms else now.const
    if not now.terms or low >= -rules.slack:
        return low >= -rules.slack
    low = now.const
    for part, _ in parts:
        own = Lin({v: f for v, f in now.terms.items() if v in part.variables})
        if own.terms:
            program = part.program()
            program.goal = own
            outcome = program.solve(seconds)
            if outcome.status != "optimal":
                raise Late
            low += Fraction(outcome.value)
    return low > -NEAR


def between(problem, model, values, seconds=20.0):
    """The spaces between `model.pairs`. `problem` has the rules and what the steps reached; `values` are those of
    a card that it allows."""
    rules = problem.reduced(closure=True)
    far, parts = rules.differences(), rules.parts()
    out, nearest = [], {}
    for pair in model.pairs:
        sure = [gap for gap in pair.gaps
                if gap.at(values) >= 0 and always(rules, far, parts, gap, seconds)]
        out += [Space.of(gap, f"between {pair.first} and {pair.second}") for gap in sure]
        if not sure:
            for name in (pair.first, pair.second):
                nearest.setdefault(name, []).append(pair.gaps)
    return out + [Space(gaps, f"{name}: the nearest neighbour") for name, gaps in nearest.items()]
