"""The answer to a card found by integer programs alone, step by step. Slow; for trying the comparison of
steps without the program, and for telling what an answer should have been."""
from fractions import Fraction

from encoding import counting, entries_of, ranks
from linear import Lin, Rel
from neighbours import between
from problem import Contradiction, Held
from steps import alike_pairs, joined, problem_of

GRID = 10**4  # optima and places are fractions of marks with denominators up to this


NEAR = Fraction(1, 10**6)


class Unsolved(Exception):
    """CBC did not get there."""


def optimum(program, grid=GRID):
    outcome = program.solve(60)
    if outcome.status == "infeasible":
        raise Contradiction
    if outcome.status != "optimal":
        raise Unsolved(outcome.status)
    return Fraction(outcome.value).limit_denominator(grid)


def total_step(problem, sums, kind):
    if not sums:
        return
    p = problem.reduced()
    program, now = p.whole_program(), [p.now(s) for s in sums]
    if kind == "abs":
        program.goal = sum((program.least_abs(s) for s in now), Lin())
    elif kind == "plain":
        program.goal = sum(now, Lin())
    else:
        program.goal = counting(program, kind, now)
    best = optimum(program) + (problem.slack if kind == "abs" else 0)
    if kind == "plain":
        problem.rows.append(Rel(sum(sums, Lin()) - best))
    else:
        problem.held.append(Held(kind, sums, best))


def rank_step(problem, spaces):
    found = []
    for k in range(len(spaces)):
        p = problem.reduced()
        program = p.whole_program()
        entries = entries_of(program, [p.now_space(s) for s in spaces])
        levels = [(len(spaces) - found.index(v), v) for v in sorted(set(found))]
        t = program.add("t", found[-1] if found else -1000, 1000)
        ranks(program, entries, levels + [(len(spaces) - k, t)])
        program.goal, program.greatest = t, True
        found.append(optimum(program) - problem.slack)
    if spaces:
        problem.held.append(Held("ranks", [], found, spaces))


def order_step(problem, sums, greatest):
    for s in sums:
        p = problem.reduced()
        now = p.now(s)
        if now.terms:
            program = p.whole_program()
            program.goal, program.greatest = now, greatest
            now = Lin(const=optimum(program))
            if problem.slack and not greatest:
                now += problem.slack
                problem.rows.append(Rel(s - now))
                continue
        problem.rows.append(Rel(s - now.const, True))


def some_card(problem):
    """The values of all variables in a card that is still possible."""
    p = problem.reduced()
    outcome = p.whole_program().solve(60)
    free = {v: Fraction(outcome.values.get(v, 0)).limit_denominator(GRID) for v in p.variables}
    return {v: p.now(Lin.var(v)).at(free) for v in p.variables}


def solve(models):
    """The value of every variable, in marks. Contradiction when the card cannot be built."""
    problems = [problem_of(m) for m in models]
    for p in problems:
        if p.slack:  # tilted pieces: no small denominators, so what is found is only near
            p.slack = NEAR
    for model, problem in zip(models, problems):
        total_step(problem, model.about, "abs")
        total_step(problem, model.sides, "abs")
        total_step(problem, model.usual, "abs")
        total_step(problem, model.on_marks, "off marks")
    together = joined(problems)
    total_step(together, alike_pairs(models), "nonzero")
    total_step(together, [s for m in models for s in m.artwork], "plain")
    rank_step(together, [s for m in models for s in m.sizes])
    order_step(together, [s for m in models for s in m.larger], True)
    values = {}
    sizes = together.reduced()
    for model, problem in zip(models, problems):
        problem.rows += [Rel(s - sizes.now(s).const, True) for s in model.larger]
        rank_step(problem, model.spaces + between(problem, model, some_card(problem)))
        order_step(problem, model.places, False)
        values.update(some_card(problem))
    return values

