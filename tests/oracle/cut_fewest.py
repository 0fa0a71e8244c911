"""The fewest sheets for a small job, by exhaustive search: for every rectangle that cutting can lead to, all the
combinations of pieces that it can be cut into, straight through, are worked out from those of its two halves, wherever
the cut may go; sheets are then added up until their combinations hold what is needed.

Lengths are whole steps of a grid, with the blade's loss added to pieces, sheets and trims alike, so that nothing is
lost between them. A combination is a number in mixed radix, a set of combinations the bits of one integer; adding
two sets is shifting one by the members of the other.

Where a cut may go: of the two parts, let the one that comes off first hold pieces and no more paper than they need the
way of the cut. What its extent can be is then a sum of sides of pieces and of least trims, so trying all such sums
leaves nothing out; what stays in hand may be anything, paper without pieces too, if it is no narrower than a trim.
"""
import math
from dataclasses import dataclass
from fractions import Fraction

HARD = 2_000_000  # cuts tried; beyond that a job is left alone
WIDE = 30_000  # bits of a set of combinations, likewise


class TooLarge(Exception):
    pass


@dataclass(frozen=True)
class Source:
    """Sheets of one size; `kinds` are the sizes that each kind of piece may have as it lies on one."""

    size: tuple
    have: int  # None: without end
    cost: Fraction
    sheet: int  # 1, or 0 for an offcut
    kinds: tuple  # of frozensets of (width, height)


class Search:
    """`most` of each kind that is ever asked for."""

    def __init__(self, sources, most, trimmer):
        self.sources = sources
        self.most = most
        lengths = [side for s in sources for side in s.size] + [v for s in sources for k in s.kinds for w in k
                                                                 for v in w]
        lengths += [trimmer[k] for k in ("blade-loss", "sliver", "longest")]
        self.steps = math.lcm(*(v.denominator for v in lengths))
        self.blade = self.grid(trimmer["blade-loss"])
        self.least_trim = self.grid(trimmer["sliver"]) + self.blade
        self.longest = self.grid(trimmer["longest"]) + self.blade
        self.radix, self.place, place = [], [], 1
        for n in most:
            self.place.append(place)
            self.radix.append(2 * n + 1)
            place *= 2 * n + 1
        if place > WIDE:
            raise TooLarge(f"{place} combinations")
        self.valid = 0
        for vector in self.vectors():
            self.valid |= 1 << self.index(vector)
        self.whole = {}  # (size, kinds) -> combinations
        self.known_sums = {}

    def grid(self, value):
        return int(value * self.steps)

    def vectors(self):
        out = [()]
        for n in self.most:
            out = [v + (i,) for v in out for i in range(n + 1)]
        return out

    def index(self, vector):
        return sum(n * place for n, place in zip(vector, self.place))

    # --- one sheet -----------------------------------------------------------------------------------
    def from_one(self, source):
        """All combinations that a sheet can be cut into, none of them too."""
        key = source.size, source.kinds
        if key not in self.whole:
            w, h = (self.grid(side) + self.blade for side in source.size)
            self.whole[key] = 1 | Rectangles(self, source, w, h).obtain(w, h)
        return self.whole[key]

    def sums(self, a, b):
        """What one of each of two sets give together, no more of anything than is ever asked for."""
        if a.bit_count() > b.bit_count():
            a, b = b, a
        key = a, b
        if key not in self.known_sums:
            out = 0
            while a:
                low = a & -a
                out |= b << (low.bit_length() - 1)
                a ^= low
            self.known_sums[key] = out & self.valid
        return self.known_sums[key]

    # --- all sheets ----------------------------------------------------------------------------------
    def fewest(self, asked, more=()):
        """(cost, sheets) of the cheapest and then fewest sheets that give exactly `asked`; None when what there is does
        not do. `more`: so many more of each source."""
        pieces = sum(asked)
        have = [(pieces if s.have is None else s.have) + extra
                for s, extra in zip(self.sources, more or [0] * len(self.sources))]
        layers = []
        for source, n in zip(self.sources, have):
            sets = [1]
            for _ in range(min(n, pieces)):
                sets.append(self.sums(sets[-1], self.from_one(source)))
            layers.append(sets)
        want = 1 << self.index(asked)
        found = {(Fraction(0), 0): 1}  # (cost, sheets) -> combinations
        for source, sets in zip(self.sources, layers):
            wider = {}
            for (cost, sheets), held in found.items():
                for n, own in enumerate(sets):
                    key = cost + n * source.cost, sheets + n * source.sheet
                    wider[key] = wider.get(key, 0) | self.sums(held, own)
            found = wider
        return min((key for key, held in found.items() if held & want), default=None)


class Rectangles:
    """Those of one sheet that its cuts lead to."""

    def __init__(self, search, source, width, height):
        self.search = search
        self.fits = {}  # (width, height) -> combinations of one piece
        for kind, (sizes, n) in enumerate(zip(source.kinds, search.most)):
            for size in sizes if n else ():
                key = tuple(search.grid(side) + search.blade for side in size)
                self.fits[key] = self.fits.get(key, 0) | 1 << search.place[kind]
        self.narrowest = min((w for w, _ in self.fits), default=width + 1)
        self.lowest = min((h for _, h in self.fits), default=height + 1)
        sizes = [[tuple(search.grid(side) + search.blade for side in size) for size in lies] for lies in source.kinds]
        self.places_right = self.places([{w for w, _ in lies} for lies in sizes], width)
        self.places_down = self.places([{h for _, h in lies} for lies in sizes], height)
        self.tried = 0
        self.known = {}

    def places(self, sides, whole):
        """Sums of sides of no more pieces than are ever asked for, and of least trims."""
        out, trim = {0}, self.search.least_trim
        for own, n in zip(sides, self.search.most):
            for _ in range(n):
                out |= {at + side for at in out for side in own if at + side <= whole}
        if trim:
            out = {at + n * trim for at in out for n in range(min(sum(self.search.most), (whole - at) // trim) + 1)}
        return sorted(out - {0})

    def obtain(self, width, height):
        """All combinations of at least one piece."""
        if width < self.narrowest or height < self.lowest:
            return 0
        key = width, height
        if key not in self.known:
            s = self.search
            out = self.fits.get(key, 0)
            self.tried += len(self.places_right) + len(self.places_down)
            if self.tried > HARD:
                raise TooLarge("cuts")
            if width <= s.longest:
                for at in self.places_down:
                    if at >= height:
                        break
                    first = self.obtain(width, at)
                    if first:
                        out |= s.sums(first, self.obtain(width, height - at) | (height - at >= s.least_trim))
            if height <= s.longest:
                for at in self.places_right:
                    if at >= width:
                        break
                    first = self.obtain(at, height)
                    if first:
                        out |= s.sums(first, self.obtain(width - at, height) | (width - at >= s.least_trim))
            self.known[key] = out
        return self.known[key]


# --- from what a paper needs ---------------------------------------------------------------------------
class PaperSearch:
    """Of one paper; `needs` and `most` are PaperNeeds of the same card: of one batch, and of the largest that is ever
    asked for."""

    def __init__(self, needs, most, batch):
        self.needs, self.batch = most, batch
        self.offcuts = sorted(needs.offcuts)
        self.kind_of, self.kinds = {}, []
        for need in most.needs:
            lies = tuple(self.lies(need))
            if lies not in self.kinds:
                self.kinds.append(lies)
            self.kind_of[need.use] = self.kinds.index(lies)
        sources = [Source(s.size, s.have, s.cost or Fraction(0), 1, tuple(k[i] for k in self.kinds))
                   for i, s in enumerate(needs.stacks)]
        first = len(sources)
        sources += [Source(key[1:], needs.offcuts[key], Fraction(0), 0, tuple(k[first + i] for k in self.kinds))
                    for i, key in enumerate(self.offcuts)]
        self.untrue = [s.trim_first for s in needs.stacks]
        sources = [self.trimmed(s, i) for i, s in enumerate(sources)]
        self.search = Search([s for s in sources if s], self.vector(most), batch.trimmer())
        self.kept = [i for i, s in enumerate(sources) if s]

    def trimmed(self, source, i):
        """Without its untrue edge; None where that cannot be cut off."""
        if i >= len(self.untrue) or not self.untrue[i]:
            return source
        w, h = source.size
        if w > self.batch.trimmer()["longest"] or h <= self.untrue[i]:
            return None
        return Source((w, h - self.untrue[i]), source.have, source.cost, 1, source.kinds)

    def lies(self, need):
        ways = [s.turns(need, self.batch.grain_along_fold) for s in self.needs.stacks]
        ways += [self.needs.offcut_turns(need)] * len(self.offcuts)
        for turns in ways:
            yield frozenset(need.size[::-1] if turned else need.size for turned in turns)

    def vector(self, needs):
        out = [0] * len(self.kinds)
        for need in needs.needs:
            out[self.kind_of[need.use]] += need.count
        return tuple(out)

    def fewest(self, needs, more=None):
        """As Search.fewest; `more`: so many more of each stack."""
        extra = (more or [0] * len(self.untrue)) + [0] * len(self.offcuts)
        return self.search.fewest(self.vector(needs), [extra[i] for i in self.kept])
