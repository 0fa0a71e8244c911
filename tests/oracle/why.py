"""Why a card cannot be built, found with integer programs (CBC): every smallest set of stated wishes that cannot
hold together, for each number in one the nearest value that mends it, the fewest changes that mend the card, and by
how much the space is too short. Lengths are in marks, wishes are known by their paths in the file."""
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations, product
from math import ceil, prod

from encoding import choose
from integer_program import WAYS, Outcome, Program
from linear import Lin, Var, le
from problem import Contradiction
from stated import variable
from steps import joined, problem_of

MOST_WAYS = 16  # through choices
MOST_BLAMED = 16  # wishes in any conflict, all subsets of which are looked at
NEAR = Fraction(1, 10**4)  # marks
SETTLED = "optimal", "infeasible"
SOLVED, MOST_KNOWN = {}, 20000  # programs' texts -> their outcomes


class Late(Exception):
    """CBC took too long or gave up."""


def can_hold(models):
    """Whether all of these versions can be built."""
    for model in models:
        try:
            parts = problem_of(model).reduced().parts()
        except Contradiction:
            return False
        for part, _ in parts:
            # With no rules between them, variables can be whatever their bounds allow.
            if (part.rows or part.choices) and solved(part.program()).status == "infeasible":
                return False
    return True


def solved(program, seconds=20.0):
    """The outcome; of a program that was solved before, the same."""
    if len(SOLVED) > MOST_KNOWN:
        SOLVED.clear()
    key = program.text(), program.goal.const, program.greatest
    names = list(program.bounds)
    if key not in SOLVED:
        SOLVED[key] = next((outcome for way in range(len(WAYS))
                            if (outcome := program.solve(seconds, way)).status in SETTLED), None)
    known = SOLVED[key]
    if known is None:
        raise Late
    # Names are of no account in the text: the variables come in the same order.
    return Outcome(known.status, known.value, dict(zip(names, known.values.values())))


# --- conflicts ---------------------------------------------------------------------------------------
def switched(program, options, held):
    """The options of a wish, where the binary `held` is 1."""
    if len(options) == 1:
        switches = [held]
    else:
        switches = [program.binary() for _ in options]
        program.row(held - sum(switches, Lin()), "<=")
    for option, switch in zip(options, switches):
        for rel in option:
            program.at_most_if(rel.sum, switch)
            if rel.eq:
                program.at_most_if(rel.sum * -1, switch)


def largest_buildable(card):
    """Every set of wishes that can hold together and to which none can be added, as sets of paths: asked of one
    program with a binary for each wish, for as large a set as there is that is in none of those found."""
    program = Program()
    held = {path: program.binary() for path in card.units}
    for model in card.models():
        for name, var in model.variables.items():
            program.add(name, var.low, var.high, var.whole)
        for rule in model.rules:
            if rule.stated:
                switched(program, rule.options, held[rule.source])
            elif len(rule.options) > 1:
                choose(program, rule.options)
            else:
                for rel in rule.options[0]:
                    program.row(rel.sum, "=" if rel.eq else "<=")
    program.goal, program.greatest = sum(held.values(), Lin()), True
    found = []
    while True:
        outcome = solved(program)
        if outcome.status == "infeasible":
            return found
        chosen = {path for path, b in held.items() if outcome.values[next(iter(b.terms))] > 0.5}
        found.append(frozenset(chosen))
        rest = [b for path, b in held.items() if path not in chosen]
        if not rest:
            return found
        program.row(1 - sum(rest, Lin()), "<=")


def smallest_unbuildable(units, buildable):
    """Of all subsets, those that are in none of the largest buildable ones and of which no part is so. None where
    there are too many to look at. Wishes that are in every buildable set can be in none."""
    blamed = [u for u in units if not all(u in s for s in buildable)]
    if len(blamed) > MOST_BLAMED:
        return None
    bit = {u: 1 << i for i, u in enumerate(blamed)}
    can = [sum(bit[u] for u in s if u in bit) for s in buildable]
    found = []
    for count in range(len(blamed) + 1):
        for some in combinations(blamed, count):
            mask = sum(bit[u] for u in some)
            if any(mask & m == mask for m in can) or any(mask & m == m for m, _ in found):
                continue
            found.append((mask, frozenset(some)))
    return [s for _, s in found]


def conflicts(card):
    """Sets of paths; None where there are too many wishes to try all subsets."""
    return smallest_unbuildable(list(card.units), largest_buildable(card))


def is_smallest(card, wishes, buildable=()):
    """What is wrong with saying that these wishes cannot hold together and all but one of them can. `buildable`: sets
    that can."""
    if can_hold(card.models(wishes)):
        return "it can be built"
    for one in sorted(wishes):
        rest = wishes - {one}
        if not any(rest <= some for some in buildable) and not can_hold(card.models(rest)):
            return f"it cannot be built without {card.units[one]} either"
    return None


# --- numbers -----------------------------------------------------------------------------------------
@dataclass
class Opened:
    """Some wishes of a card with some numbers let go, as one program."""

    program: Program
    value: dict  # key of a number -> the sum that stands for it
    stated: dict  # in marks


def opened(card, held, keys, anywhere=False, signed=False, way=None):
    """None where nothing lets them hold. `anywhere`: numbers may lie between marks, and sizes too. `signed`: what is
    added in an entry of `rules` may be taken away instead."""
    stated = {key: card.numbers[key] / card.mark for key in keys}
    models = one_way(card.models(held, open_numbers=keys, on_marks=not anywhere), way)
    most = reach(card)
    problem = joined([problem_of(m) for m in models])
    for key in keys:
        low = Fraction(-most if signed and key[1][0] == "constant" else min(is_extent(key), stated[key]))
        problem.variables[variable(key)] = Var(low, Fraction(most), len(keys) == 1 and not anywhere)
        # Bounds alone would be taken as implied.
        problem.rows += [le(low, Lin.var(variable(key))), le(Lin.var(variable(key)), most)]
    try:
        problem = problem.reduced()
        program = problem.whole_program()
    except Contradiction:
        return None
    return Opened(program, {key: problem.now(Lin.var(variable(key))) for key in keys}, stated)


def reach(card):
    """What no number need exceed, in marks."""
    lengths = [v / card.mark for v in card.numbers.values()]
    lengths += [side / card.mark for version in card.versions for side in version.front]
    return ceil(2 * max(lengths) + sum(lengths))


def nearest(card, wishes, key):
    """The value on the marks nearest to the stated one with which the wishes can hold, in marks; of two as near the
    smaller; None where there is none. No size or cut-back is 0, no other number less."""
    some = opened(card, wishes, [key])
    if some is None:
        return None
    moved = some.value[key] - some.stated[key]
    some.program.goal = some.program.least_abs(moved)
    outcome = solved(some.program)
    if outcome.status == "infeasible":
        return None
    found = Fraction(round(some.value[key].at(Values(outcome.values))))
    other = 2 * some.stated[key] - found
    could = found > other >= is_extent(key) and other.denominator == 1
    return other if could and mends(card, wishes, {key: other}) else found


class Values(dict):
    """Floats as fractions."""

    def __getitem__(self, name):
        return Fraction(self.get(name, 0.0)).limit_denominator(10**6)


def mends(card, wishes, values):
    """Whether the wishes can hold with some numbers changed, in marks."""
    return can_hold(card.models(wishes, values))


@dataclass
class Fewest:
    count: int
    total: Fraction  # of the changes, in marks
    values: dict  # one way to do it: key -> value in marks


def fewest_changes(card, signed=False):
    """The fewest numbers, none of them artwork's, that have to change on the marks for the whole card to be built,
    and the least total of such changes. None where none do."""
    keys = [key for key in card.numbers if key[0] in card.units and not card.units[key[0]].artwork]
    some = opened(card, None, keys, signed=signed)
    if some is None:
        return None
    program, most = some.program, 2 * reach(card)
    count, total, changed = Lin(), Lin(), {}
    for key in keys:
        changes = program.binary()
        moved = some.value[key] - some.stated[key]
        program.row(moved - most * changes, "<=")
        program.row(moved + most * changes, ">=")
        mark = program.fresh("k", -most, most, True)
        if some.stated[key].denominator == 1:
            program.row(some.value[key] - mark, "=")
        else:
            program.row(some.value[key] - mark - (1 - changes), "<=")
            program.row(some.value[key] - mark + (1 - changes), ">=")
        count, total = count + changes, total + program.least_abs(moved)
        changed[key] = changes
    program.goal = count
    outcome = solved(program)
    if outcome.status == "infeasible":
        return None
    program.row(count - round(outcome.value), "<=")
    program.goal = total
    outcome = solved(program)
    if outcome.status == "infeasible":
        raise Late  # by rounding: it was possible a moment ago
    values = {key: Fraction(round(some.value[key].at(Values(outcome.values)))) for key, b in changed.items()
              if outcome.values[next(iter(b.terms))] > 0.5}
    exact = sum((abs(v - some.stated[key]) for key, v in values.items()), Fraction(0))
    return Fewest(len(values), exact, values)


# --- the space ---------------------------------------------------------------------------------------
def holds_off_marks(card, wishes):
    return can_hold(card.models(wishes, on_marks=False))


def longer_by(card, wishes, key=None, axis=None, way=None):
    """By how much, in marks, a stated number or the front's width (axis 0) or height (1) has to be more, at least,
    for the wishes to hold with the marks aside: less than 0 where less is nearer. None where no amount does. `way`:
    see `ways`."""
    if key is not None:
        some = opened(card, wishes, [key], anywhere=True, way=way)
        if some is None:
            return None
        program, moved = some.program, some.value[key] - some.stated[key]
    else:
        models = one_way(card.models(wishes, longer=((axis,), reach(card)), on_marks=False), way)
        try:
            problem = joined([problem_of(m) for m in models]).reduced()
        except Contradiction:
            return None
        program, moved = problem.whole_program(), problem.now(Lin.var(f"longer {axis}"))
    program.goal = program.least_abs(moved)
    outcome = solved(program)
    return None if outcome.status == "infeasible" else moved.at(Values(outcome.values))


def one_way(models, way):
    """Versions with some of their rules, (version, its number), left with one of their options."""
    for (version, number), option in (way or {}).items():
        rules = models[version].rules
        rules[number] = replace(rules[number], options=[rules[number].options[option]])
    return models


def settled(model, rule):
    """Whether there is nothing to choose: one option, or one that is asked for anyway."""
    asked = {rel.sum.key() for other in model.rules if len(other.options) == 1 for rel in other.options[0]}
    return len(rule.options) == 1 or any(all(rel.sum.key() in asked for rel in option) for option in rule.options)


def ways(card, wishes):
    """Every way through the choices of versions in which the wishes cannot hold with the marks aside: (version, number
    of its rule) -> option. Where there are too many, through those choices without which they could; None where
    these are too many too."""
    models = card.models(wishes, on_marks=False)
    failing = [v for v, model in enumerate(models) if not can_hold([model])]
    some = [(v, i) for v in failing for i, rule in enumerate(models[v].rules) if not settled(models[v], rule)]

    def count():
        return [range(len(models[v].rules[i].options)) for v, i in some]

    if prod(map(len, count())) > MOST_WAYS:
        some = [(v, i) for v, i in some
                if can_hold([replace(models[v], rules=models[v].rules[:i] + models[v].rules[i + 1:])])]
    if prod(map(len, count())) > MOST_WAYS:
        return None
    return [dict(zip(some, way)) for way in product(*count())]


def depth(card, path):
    """How many things a piece lies on; 0 for the cut-back."""
    pieces = {p.name: p.on for version in card.versions for p in version.pieces}
    kind, *_ = path
    if kind == "base":
        return 0
    if kind == "variant":
        name = path[3].rsplit(".", 1)[0]
    else:
        name = card.top[kind][path[1]]["name"]
    count = 0
    while name in pieces:
        name, count = pieces[name], count + 1
    return count


def spaces(card, wishes):
    """What can be said of how much is missing: amounts, and the most that the least of them can be. Each way through
    the choices has a space that is outermost among those that would do if they were longer (shorter): the front,
    then the cut-back, then sizes from the outermost piece in; there can be several as far out. What would have to be
    shorter is not filled; then a size further in that could fill it may be told instead. Empty where nothing
    would do or the ways are too many, where there is a ratio to keep, which is no space, and where some way needs the
    front to be wider and higher both."""
    if any("ratio" in path for path in wishes):
        return set()
    amounts, most = set(), None
    for way in ways(card, wishes) or []:
        found = outermost(card, wishes, way)
        if not found and can_hold(one_way(card.models(wishes, longer=((0, 1), reach(card)), on_marks=False), way)):
            return set()
        if found:
            amounts |= found
            least = max(abs(by) for by in found)
            most = least if most is None else min(most, least)
    return {by for by in amounts if abs(by) <= most + NEAR}


def outermost(card, wishes, way):
    found = {by for axis in (0, 1) if (by := longer_by(card, wishes, axis=axis, way=way)) is not None}
    sizes = [key for key in card.numbers if key[0] in wishes and is_extent(key)]
    for level in sorted({depth(card, key[0]) for key in sizes}):
        if any(by > 0 for by in found):
            break
        found |= {by for key in sizes if depth(card, key[0]) == level
                  and (by := longer_by(card, wishes, key=key, way=way)) is not None}
    if found and not any(by > 0 for by in found):
        # Of two that lie apart neither is a space for the other: the distance that one leaves may be told.
        found |= {by for key in card.numbers if key[0] in wishes and not is_extent(key)
                  and (by := longer_by(card, wishes, key=key, way=way)) is not None and by > 0}
    return found


def is_extent(key):
    """Whether it says how big a thing is, or how much is cut back: more than 0."""
    names = [part for part in key[0] if isinstance(part, str)]
    return names[-1].rsplit(".", 1)[-1] in ("size", "width", "height", "cut-back", "by")


def off_marks(card, wishes):
    """How far sizes that the wishes settle between marks are from the nearest mark, in marks."""
    out, on_marks = set(), {name for model in card.plain for name, var in model.variables.items() if var.whole}
    for model in card.models(wishes, on_marks=False):
        try:
            problem = problem_of(model).reduced()
        except Contradiction:
            continue
        for name, total in problem.settled.items():
            if not total.terms and name in on_marks:
                off = abs(total.const - round(total.const))
                out |= {off} if off else set()
    return out
