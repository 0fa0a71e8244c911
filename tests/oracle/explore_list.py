"""Every card that a card file allows, by plain arithmetic: which amounts are open, and all their values on the marks
for which some card keeps every wish and rule. The card as sized is taken from an answer of `size`, to know which wishes
are one amount on all the sides that they bind.

Open amounts are taken for known; what the sums settle then follows from them by exact elimination, and what is left
free (places that nobody settles) must only be possible: it is eliminated from the inequalities, one quantity at a
time."""
import math
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from itertools import product

from checker import answers_of, entries_of
from explore_sums import Sums, Unsupported
from linear import Lin

FREE_ROWS = 400  # inequalities over free places; more are beyond plain arithmetic


@dataclass
class Open:
    """An amount that is open. `binds`: the quantities that are all this amount; none of an entry of `rules`."""

    name: str
    key: str
    part: str
    binds: list
    as_sized: Fraction
    begin: Fraction = None  # what of its values is between the marks, where they go in steps of a mark
    alone: bool = False  # only the value as sized is asked about

    def __post_init__(self):
        self.begin = self.as_sized % 1

    @property
    def id(self):
        return self.name, self.key, self.part


@dataclass
class Listed:
    """One card: the value of each open amount, by place, and of every quantity that those settle, in marks."""

    amounts: tuple
    values: dict


# --- the card as sized ---------------------------------------------------------------------------------
def sized_values(sums, answer):
    """The value of every quantity in an answer of `size`, in marks."""
    out = {}
    versions = sums.versions
    for number, (version, own) in enumerate(zip(versions, answers_of(answer, len(versions)))):
        entries = entries_of(own, version)
        if version.cut_back is not None:
            out[number, "base", "cut-back"] = sums.marks(own["base"]["cut_back"]["by"])
        for p in version.pieces:
            e = entries[p.name]
            for what in ("width", "height"):
                out[number, p.name, what] = sums.marks(e[what])
            out[number, p.name, "left"] = sums.marks(e["from_left"])
            out[number, p.name, "top"] = sums.marks(e["from_top"])
            if p.artwork:
                for side in ("left", "top"):
                    out[number, p.name, "margin " + side] = sums.marks(e["artwork"][f"from_{side}"])
    missing = True
    while missing:  # the rest follows from the sums
        missing = False
        for zero in sums.zeros:
            unknown = [q for q in zero.terms if q not in out]
            if len(unknown) == 1:
                rest = zero.const + sum(f * out[q] for q, f in zero.terms.items() if q in out)
                out[unknown[0]] = -rest / zero.terms[unknown[0]]
                missing = True
    return out


def broken(sums, values):
    """What does not hold of a whole card: [] for a sound answer."""
    bad = [f"{z!r} is {z.at(values)}" for z in sums.zeros if z.at(values) != 0]
    bad += [f"{q}: {values[q]}" for q, r in sums.ranges.items() if not r.holds(values[q])]
    bad += [text for _, _, text, ways in sums.entries if not any(all(r.excess(values) <= 0 for r in way)
                                                                 for way in ways)]
    return bad


def one_amount(binds, values):
    found = {values[q] for q in binds}
    return found.pop() if len(found) == 1 else None


# --- what is open --------------------------------------------------------------------------------------
def open_amounts(sums, values, keep=()):
    """Those of wishes and of what states nothing, then in file order sizes that are not settled by all before.
    `keep`: names of what keeps its size."""
    out = []
    found = [(s.name, s.key, s.part, s.binds) for s in sums.said.values()]
    found += [(name, "border", "", binds) for name, binds in sums.bare.items()]
    found += [(name, "margin", "", binds) for name, binds in sums.unsaid.items()]
    for name, key, part, binds in found:
        amount = one_amount(binds, values)
        if amount is not None:
            out.append(Open(name, key, part, binds, amount))
    settled = Elimination(sums, out, keep_equal(sums, values, keep))
    for q in [(number, p.name, what) for number, p in sums.pieces for what in ("width", "height")]:
        if settled.settles(q):
            continue
        everywhere = [(n, p.name, q[2]) for n, p in sums.pieces if p.name == q[1]]
        amount = one_amount(everywhere, values)
        if amount is None:
            raise Unsupported(f"{q[1]}: a {q[2]} that is open and not alike")
        out.append(Open(q[1], q[2], "", everywhere, amount))
        settled = Elimination(sums, out, keep_equal(sums, values, keep))
    return out


def keep_equal(sums, values, keep):
    return [Lin.var(q) - values[q] for q in values if q[1] in keep and q[2] in ("width", "height")]


class Elimination:
    """All quantities as sums over some of the open amounts and over what stays free."""

    def __init__(self, sums, opens, more=()):
        amount = {q: ("amount", i) for i, o in enumerate(opens) for q in o.binds}
        own = [Lin.var(q) - Lin.var(a) for q, a in amount.items()]
        rules = [r.sum for _, _, _, ways in sums.entries if len(ways) == 1 for r in ways[0] if r.eq]
        self.row = {}  # pivot -> sum that it equals
        self.broken = False
        for zero in [*sums.zeros, *own, *rules, *more]:
            self.add(zero)
        self.opens = opens

    @staticmethod
    def rank(q):
        """Places are expressed by sizes, sizes by amounts, later amounts by earlier ones."""
        if q[0] == "amount":
            return 2, -q[1]
        return (1, 0) if q[2] in ("width", "height") else (0, 0)

    def reduced(self, total):
        out = Lin(const=total.const)
        for q, f in total.terms.items():
            out += self.row[q] * f if q in self.row else Lin({q: f})
        return out

    def add(self, zero):
        zero = self.reduced(zero)
        if not zero.terms:
            self.broken |= zero.const != 0
            return
        pivot = min(zero.terms, key=self.rank)
        own = (zero - Lin({pivot: zero.terms[pivot]})) * (-1 / Fraction(zero.terms[pivot]))
        for q, s in self.row.items():
            if pivot in s.terms:
                self.row[q] = s - Lin({pivot: s.terms[pivot]}) + own * s.terms[pivot]
        self.row[pivot] = own

    def settles(self, q):
        return all(other[0] == "amount" for other in self.reduced(Lin.var(q)).terms)


# --- all of them ---------------------------------------------------------------------------------------
@dataclass
class Check:
    """low <= const + sum of factor * amount <= high, with all multiplied by `by`."""

    factors: list  # (which of the independent amounts, factor)
    const: int
    by: int
    low: int = None
    high: int = None
    start: int = None  # whole marks from there on
    lists: list = field(default_factory=list)
    last: int = -1


class Enumeration:
    """`limit`: stops after so many cards."""

    def __init__(self, sums, opens, limit, more=()):
        self.sums, self.opens, self.limit = sums, opens, limit
        self.e = Elimination(sums, opens, more)
        names = [("amount", i) for i in range(len(opens))]
        self.free_amounts = [a for a in names if a not in self.e.row]
        self.where = {a: i for i, a in enumerate(self.free_amounts)}
        self.checks = [[] for _ in self.free_amounts]
        self.choices = []  # of entries with several ways: each a list of (sum over amounts, whether it is 0)
        self.impossible = self.e.broken
        self.gather()
        self.amount_forms = [self.form(a) for a in names]
        forms = {q: self.form(q) for q in sums.ranges}
        self.value_forms = {q: form for q, form in forms.items() if form}

    def gather(self):
        far = max(side for v in self.sums.versions for side in map(self.sums.marks, v.front))
        for i, o in enumerate(self.opens):
            for q in o.binds:
                r = self.sums.ranges[q]
                if o.alone:
                    self.check(Lin.var(("amount", i)), o.as_sized, o.as_sized, None, [])
                self.check(Lin.var(("amount", i)), r.least if r.least is not None else -far,
                           r.most if r.most is not None else far, None if r.lists else o.begin, r.lists)
        rows = []  # over what is free too; at most 0
        for q, r in self.sums.ranges.items():
            total = self.e.reduced(Lin.var(q))
            if any(other[0] != "amount" for other in total.terms):
                if r.lists or r.on_marks:
                    raise Unsupported(f"{q}: a list or marks for what is left free")
                rows += [r.least - total] if r.least is not None else []
                rows += [total - r.most] if r.most is not None else []
            else:
                self.check(total, r.least, r.most, Fraction(0) if r.on_marks else None, r.lists)
        for _, _, _, ways in self.sums.entries:
            told = [[(self.e.reduced(r.sum), r.eq) for r in way] for way in ways]
            if len(told) > 1:
                self.choices.append(told)
            for total, eq in told[0] if len(told) == 1 else ():
                if any(other[0] != "amount" for other in total.terms):
                    rows += [total, total * -1] if eq else [total]
                else:
                    self.check(total, Fraction(0) if eq else None, Fraction(0), None, [])
        if any(other[0] != "amount" for told in self.choices for way in told for total, _ in way
               for other in total.terms):
            raise Unsupported("a choice between places")  # each way may have places of its own
        for total in without_free(rows):
            self.check(total, None, Fraction(0), None, [])

    def check(self, total, low, high, start, lists):
        total = self.e.reduced(total)
        by = math.lcm(total.const.denominator, *(Fraction(f).denominator for f in total.terms.values()),
                      *(Fraction(v).denominator for v in (low, high, start) if v is not None))
        c = Check([(self.where[a], int(f * by)) for a, f in total.terms.items()], int(total.const * by), by,
                  *(None if v is None else int(v * by) for v in (low, high, start)),
                  [{int(v * by) for v in own if (v * by).denominator == 1} for own in lists])
        if not c.factors:
            self.impossible |= not self.holds(c, [])
            return
        c.last = max(i for i, _ in c.factors)
        self.checks[c.last].append(c)

    @staticmethod
    def holds(c, at):
        value = c.const + sum(f * at[i] for i, f in c.factors)
        return not ((c.low is not None and value < c.low) or (c.high is not None and value > c.high)
                    or (c.start is not None and (value - c.start) % c.by) or any(value not in own for own in c.lists))

    def cards(self):
        """Listed cards, the first open amount moving slowest as far as they are independent."""
        if self.impossible:
            return
        found, at = 0, [0] * len(self.free_amounts)
        for _ in self.walk(0, at):
            card = self.card(at)
            if card is not None:
                yield card
                found += 1
                if found >= self.limit:
                    return

    def walk(self, level, at):
        if level == len(at):
            yield
            return
        low, high = self.bounds(level, at)
        for value in self.values(level, low, high):
            at[level] = value
            if all(self.holds(c, at) for c in self.checks[level]):
                yield from self.walk(level + 1, at)

    def begin(self, level):
        return self.opens[self.free_amounts[level][1]].begin

    def values(self, level, low, high):
        """In steps of a mark, or those of a list that may lie between them."""
        lists = [self.sums.ranges[q].lists for q in self.opens[self.free_amounts[level][1]].binds]
        named = [own for each in lists for own in each]
        begin = self.begin(level)
        if named:
            return sorted(set.intersection(*named))
        return [begin + n for n in range(low, high + 1)] if begin else range(low, high + 1)

    def bounds(self, level, at):
        """Of the steps of a mark."""
        low = high = None
        begin = self.begin(level)
        for c in self.checks[level]:
            rest, own = c.const, 0
            for i, f in c.factors:
                if i == level:
                    own = f
                    rest += f * begin if begin else 0
                else:
                    rest += f * at[i]
            for bound, least in ((c.low, own > 0), (c.high, own < 0)):
                if bound is None:
                    continue
                if least:
                    value = -((rest - bound) // own)  # up
                    low = value if low is None else max(low, value)
                else:
                    value = (bound - rest) // own
                    high = value if high is None else min(high, value)
        return low, high

    def card(self, at):
        if self.choices:
            known = dict(zip(self.free_amounts, map(Fraction, at)))
            for told in self.choices:
                if not any(all(total.at(known) == 0 if eq else total.at(known) <= 0 for total, eq in way)
                           for way in told):
                    return None

        def value(const, factors):
            return const + sum(f * at[i] for i, f in factors)

        amounts = tuple(Fraction(value(*form)) for form in self.amount_forms)
        return Listed(amounts, {q: Fraction(value(*form)) for q, form in self.value_forms.items()})

    def form(self, q):
        total = self.e.reduced(Lin.var(q))
        if any(a not in self.where for a in total.terms):
            return None
        factors = [(self.where[a], int(f) if f.denominator == 1 else f) for a, f in total.terms.items()]
        return total.const, factors


def without_free(rows):
    """Sums over amounts that are at most 0 just where what is free can be such that all these are (Fourier, Motzkin)."""
    while True:
        tightest = {}
        for r in rows:  # as long as a common factor is 1
            scale = Fraction(1) / max(map(abs, r.terms.values()), default=1)
            key = frozenset((q, f * scale) for q, f in r.terms.items())
            if key not in tightest or r.const * scale > tightest[key].const:
                tightest[key] = r * scale
        rows = list(tightest.values())
        free = {q for r in rows for q in r.terms if q[0] != "amount"}
        if not free:
            return rows
        if len(rows) > FREE_ROWS:
            raise Unsupported("many free places")

        def pairs(q):
            up = sum(r.terms.get(q, 0) > 0 for r in rows)
            return up * sum(r.terms.get(q, 0) < 0 for r in rows), str(q)

        rows = eliminated(rows, min(free, key=pairs))


def eliminated(rows, q):
    up = [r for r in rows if r.terms.get(q, 0) > 0]
    down = [r for r in rows if r.terms.get(q, 0) < 0]
    return [r for r in rows if q not in r.terms] + [
        a * (1 / Fraction(a.terms[q])) + b * (-1 / Fraction(b.terms[q])) for a in up for b in down]


def put_on_marks(sums, opens, more):
    """An amount that is off the marks in the card as sized goes from mark to mark beside that value, if it is on one in
    any card at all: those are given back. Else it goes in steps of a mark from there."""
    off = [o for o in opens if o.begin and not any(sums.ranges[q].lists for q in o.binds)]
    on = set()
    for begins in product(*((o.as_sized % 1, Fraction(0)) for o in off)):
        for o, begin in zip(off, begins):
            o.begin = begin
        if any(begin == 0 for begin in begins) and any(True for _ in Enumeration(sums, opens, 1, more).cards()):
            on |= {i for i, begin in enumerate(begins) if begin == 0}
    for i, o in enumerate(off):
        o.begin = Fraction(0) if i in on else o.as_sized % 1
    return [off[i] for i in sorted(on)]


def all_cards(sums, opens, beside, limit, more):
    """With every amount of `beside` on the marks, or at its value as sized."""
    cards = []
    for alone in product((False, True), repeat=len(beside)):
        for o, own in zip(beside, alone):
            o.alone, o.begin = own, o.as_sized % 1 if own else Fraction(0)
        cards += Enumeration(sums, opens, limit - len(cards), more).cards()
        if len(cards) >= limit:
            break
    for o in beside:
        o.alone, o.begin = False, Fraction(0)
    return sorted(cards, key=lambda card: card.amounts)


class Space:
    """A card file, the card as sized, and all that it allows: at most `limit` cards."""

    def __init__(self, text, answer, limit, keep=()):
        self.text, self.sums = text, Sums(text)
        self.mark = self.sums.versions[0].mark
        self.sized = sized_values(self.sums, answer)
        self.wrong = broken(self.sums, self.sized)  # of the card as sized; nothing where all is well
        self.open = open_amounts(self.sums, self.sized, keep)
        more = keep_equal(self.sums, self.sized, keep)
        beside = put_on_marks(self.sums, self.open, more)
        self.cards = all_cards(self.sums, self.open, beside, limit + 1, more)
        self.complete = len(self.cards) <= limit
        del self.cards[limit:]
        if self.complete and self.as_sized not in {c.amounts for c in self.cards}:
            self.wrong.append("the card as sized is not among those listed")

    @cached_property
    def known(self):
        return {c.amounts: c for c in self.cards}

    @property
    def as_sized(self):
        return tuple(o.as_sized for o in self.open)

    @cached_property
    def ends(self):
        """The least and the most of each amount among them."""
        return [(min(c.amounts[i] for c in self.cards), max(c.amounts[i] for c in self.cards))
                for i in range(len(self.open))]
