"""Choices, spaces, ranks and counts as rows of an integer program with binaries."""
from math import ceil, floor

from linear import Lin


def choose(program, options):
    """At least one option holds."""
    only = [o[0].sum for o in options if len(o) == 1 and o[0].eq]
    if len(only) == len(options) and len({tuple(sorted(s.terms.items())) for s in only}) == 1:
        # one sum takes one of a few values
        switches = [program.binary() for _ in options]
        program.row(sum(switches, Lin()) - 1, "=")
        program.row(Lin(only[0].terms) + sum((s.const * b for s, b in zip(only, switches)), Lin()), "=")
        return
    single = all(len(o) == 1 and not o[0].eq for o in options)
    switches = one_of(program, [o[0].sum * -1 for o in options]) if single else None
    if switches is None:
        switches = [program.binary() for _ in options]
        program.row(sum(switches, Lin()) - 1, "=")
    for option, b in zip(options, switches):
        for rel in option:
            program.at_most_if(rel.sum, b)
            if rel.eq:
                program.at_most_if(rel.sum * -1, b)


def one_of(program, sums):
    """Binaries of which one is 1, meant for the greatest of the sums. Choices between the same sums, but for one
    constant more or less, are all met by the greatest if they can be met, and so share their binaries."""
    terms = [tuple(sorted(s.terms.items())) for s in sums]
    for known in program.shared:
        if set(known) == set(terms) and len(known) == len(terms):
            if len({known[t][0] - s.const for t, s in zip(terms, sums)}) == 1:
                return [known[t][1] for t in terms]
    switches = [program.binary() for _ in sums]
    program.row(sum(switches, Lin()) - 1, "=")
    if len(set(terms)) == len(terms):
        program.shared.append({t: (s.const, b) for t, s, b in zip(terms, sums, switches)})
    return switches


def greatest(program, sums):
    """A sum that is at most the greatest of several, and can be it."""
    if len(sums) == 1:
        return sums[0]
    key = tuple(sorted(s.key() for s in sums))
    if key not in program.greatest_of:
        top = program.fresh("g", min(program.interval(o)[0] for o in sums), max(program.interval(o)[1] for o in sums))
        for o, b in zip(sums, one_of(program, sums)):
            program.at_most_if(top - o, b)
        program.greatest_of[key] = top
    return program.greatest_of[key]


def space_sum(program, space):
    """A sum that is at most the space, and can be the space."""
    tops = [greatest(program, part) for part in space.parts]
    if len(tops) == 1:
        return tops[0]
    s = program.fresh("s", min(program.interval(t)[0] for t in tops), min(program.interval(t)[1] for t in tops))
    for t in tops:
        program.row(s - t, "<=")
    return s


def ranks(program, entries, levels):
    """`entries`: (sum, how many times). For each (need, value) of levels: at least `need` of the entries are at
    least `value` (a number, or a variable that is made large). Values must not decrease."""
    before = None
    for need, value in levels:
        switches = []
        for e, times in entries:
            gap = value - e  # <= 0 where the entry counts
            low, high = program.interval(Lin() + gap)
            switches.append(Lin(const=1) if high <= 0 else Lin() if low > 0 else program.binary())
            if switches[-1].terms:
                program.at_most_if(Lin() + gap, switches[-1])
        program.row(need - sum((b * times for b, (_, times) in zip(switches, entries)), Lin()), "<=")
        for b, earlier in zip(switches, before or []):
            if b.terms and earlier.terms:
                program.row(b - earlier, "<=")
        before = switches


def levels_of(values):
    """(how many are at least it, value) for each different value of a sorted list."""
    return [(len(values) - values.index(v), v) for v in sorted(set(values))]


def merged(spaces):
    """(space, how many times) for each different one."""
    out = {}
    for s in spaces:
        _, times = out.get(s.key(), (s, 0))
        out[s.key()] = (s, times + 1)
    return list(out.values())


def entries_of(program, spaces):
    """What `ranks` wants of spaces."""
    return [(space_sum(program, s), times) for s, times in merged(spaces)]


def counting(program, kind, sums):
    """A sum that counts the sums that are not 0 (or no whole number)."""
    total = Lin()
    for s in sums:
        b = program.binary()
        total += b
        low, high = program.interval(s)
        if kind == "nonzero":
            program.row(s - high * b, "<=")
            program.row(s - low * b, ">=")
        else:
            k = program.fresh("k", floor(low) - 1, ceil(high) + 1, True)
            program.row(s - k - b, "<=")
            program.row(s - k + b, ">=")
    return total


def hold(program, h):
    if h.kind == "abs":
        program.row(sum((program.least_abs(s) for s in h.sums), Lin()) - h.limit, "<=")
    elif h.kind == "ranks":
        ranks(program, entries_of(program, h.spaces), levels_of(h.limit))
    else:
        program.row(counting(program, h.kind, h.sums) - h.limit, "<=")
