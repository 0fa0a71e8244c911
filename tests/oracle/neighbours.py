"""The spaces of step 6 between neighbours, which depend on the card's sizes: a gap that is stated; a gap in a
direction in which two pieces lie apart in every card that is still possible; and for each piece with other
neighbours the distance to the nearest of those."""
from linear import Space

NEAR = 1e-6


def always_apart(problem, gap, seconds):
    """Whether the gap is never less than 0; None when CBC is late. `problem` is reduced."""
    now = problem.now(gap)
    if not now.terms:
        return now.const >= 0
    program = problem.whole_program()
    program.goal = now
    outcome = program.solve(seconds)
    return outcome.value > -NEAR if outcome.status == "optimal" else None


def pair_spaces(problem, model, values=None, seconds=20.0):
    """The spaces, and how many calls of CBC were late. `values`, where a possible card is known, saves calls."""
    reduced = problem.reduced()
    spaces, nearest, late = [], {}, 0
    for pair in model.pairs:
        name = f"between {pair.first} and {pair.second}"
        if pair.stated:
            spaces.append(Space.of(pair.stated[0], name))
            continue
        sure = []
        for gap in pair.gaps.values():
            if values is not None and gap.at(values) < 0:
                continue
            always = always_apart(reduced, gap, seconds)
            late += always is None
            if always:
                sure.append(gap)
        spaces += [Space.of(gap, name) for gap in sure]
        if not sure:
            for piece in (pair.first, pair.second):
                nearest.setdefault(piece, []).append(list(pair.gaps.values()))
    spaces += [Space(parts, f"{piece}: the nearest neighbour") for piece, parts in nearest.items()]
    return spaces, late
