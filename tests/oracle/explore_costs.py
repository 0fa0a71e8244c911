"""What a card takes of each paper by exhaustive search, what else it is compared by, which cards no other beats, and
which fit their paper best. Sizes and places are those of a card as it is told; papers with sheets of one size are
searched, others left alone."""
import math
from dataclasses import dataclass, replace
from fractions import Fraction

from checker import answers_of
from cut_fewest import PaperSearch, TooLarge
from cut_needs import Batch, CardFile
from folds import blank

MOST_PIECES = 9  # of several sizes, from one paper
MOST_SEARCHES = 40  # of such papers, for one file


def as_answer(space, card):
    """A listed card in the form of an answer of `size`; places that are free are told as 0."""
    sums = space.sums
    out = []
    for number, version in enumerate(sums.versions):
        def told(name, what, number=number):
            return str(card.values.get((number, name, what), Fraction(0)) * space.mark)

        w, h, _ = blank(version)
        own = {"name": version.name, "cards": version.cards, "verdict": "buildable", "layers": [], "windows": [],
               "base": {"blank": {"width": str(w), "height": str(h)}}}
        if version.cut_back is not None:
            own["base"]["cut_back"] = {"by": told("base", "cut-back")}
        for p in version.pieces:
            own[p.kind + "s"].append({"name": p.name, "on": p.on, "width": told(p.name, "width"),
                                      "height": told(p.name, "height"), "from_left": told(p.name, "left"),
                                      "from_top": told(p.name, "top")})
        out.append(own)
    return {**out[0], "variants": out[1:]}


@dataclass(frozen=True)
class Taken:
    """Of one paper, for the whole batch."""

    sheets: int  # 0 where some piece fits on none
    missing: int
    never: bool
    cost: Fraction  # None where none is stated
    pieces: Fraction  # their area, as cut
    sheet: Fraction  # the area of one
    offcuts: bool  # some pieces may come from what the work itself gives

    @property
    def area(self):
        return self.sheet * self.sheets


class Papers:
    """Remembers what it searched. Pieces of one size are counted on one sheet, others searched for together.
    `thorough`: those of one size likewise; without, one too few may be found on a sheet, but hardly ever is."""

    def __init__(self, text, thorough=False):
        self.text, self.thorough = text, thorough
        self.known, self.on_one = {}, {}
        self.searches = 0

    def of(self, answer):
        """paper -> Taken, or None where that was not searched."""
        batch = Batch([CardFile("card.toml", self.text, answer)])
        out = {}
        for name, needs in batch.papers(batch.stated_counts()).items():
            key = name, tuple(sorted((n.size, n.count, n.base) for n in needs.needs)), \
                tuple(sorted(needs.offcuts.items()))
            if key not in self.known:
                try:
                    self.known[key] = self.searched(batch, needs)
                except TooLarge:
                    self.known[key] = None
            out[name] = self.known[key]
        return out

    def again(self, answer):
        """Thoroughly."""
        return Papers(self.text, True).of(answer)

    def searched(self, batch, needs):
        if len(needs.stacks) != 1:
            return None
        stack = needs.stacks[0]
        area = sum(n.size[0] * n.size[1] * n.count for n in needs.needs)
        sheet = stack.size[0] * stack.size[1]
        free = replace(needs, stacks=[replace(stack, have=None)])
        pieces = sum(n.count for n in needs.needs)
        if len({n.size for n in needs.needs}) == 1 and not needs.offcuts:
            most = self.on_a_sheet(batch, free, pieces)
            sheets = -(-pieces // most) if most else None
        elif pieces > MOST_PIECES or self.searches >= MOST_SEARCHES:
            return None
        else:
            self.searches += 1
            found = PaperSearch(free, free, batch).fewest(free)
            sheets = found[1] if found else None
        if sheets is None:
            return Taken(0, 0, True, None, area, sheet, bool(needs.offcuts))
        missing = 0 if stack.have is None else max(0, sheets - stack.have)
        return Taken(sheets, missing, False, None if stack.cost is None else stack.cost * sheets, area, sheet,
                     bool(needs.offcuts))

    def on_a_sheet(self, batch, needs, wanted):
        """The most pieces of one size that one sheet gives, or as many as are wanted."""
        stack, size = needs.stacks[0], needs.needs[0].size
        held = min(int(stack.size[0] * stack.size[1] / (size[0] * size[1])), wanted)
        turns = frozenset(size[::-1] if turned else size for turned in stack.turns(needs.needs[0], False))
        key = stack.size, stack.trim_first, turns, held
        if key not in self.on_one:
            if not self.thorough and not batch.trimmer()["blade-loss"] and not stack.trim_first:
                self.on_one[key] = Sheet(stack.size, turns, batch.trimmer()).most(held)
            else:
                self.on_one[key] = self.at_most(batch, needs, held)
        return self.on_one[key]

    @staticmethod
    def at_most(batch, needs, held):
        if not held:
            return 0
        one = replace(needs, needs=[replace(needs.needs[0], count=held)])
        search = PaperSearch(one, one, batch).search
        found = search.from_one(search.sources[0]) if search.sources else 1
        return max(n for n in range(held + 1) if found >> search.index((n,)) & 1)


class Sheet:
    """Pieces of one size from one sheet, cut straight through. A part that comes off holds pieces as wide as some of
    them beside each other, or a least trim more: no more than one trim is tried, so it may find one too few."""

    def __init__(self, size, turns, trimmer):
        lengths = [*size, *(side for turn in turns for side in turn), trimmer["sliver"], trimmer["longest"]]
        steps = math.lcm(*(Fraction(v).denominator for v in lengths))
        self.size = tuple(int(side * steps) for side in size)
        self.turns = [tuple(int(side * steps) for side in turn) for turn in turns]
        self.trim, self.longest = int(trimmer["sliver"] * steps), int(trimmer["longest"] * steps)
        self.area = self.turns[0][0] * self.turns[0][1] if self.turns else 1
        self.ends = [self.sums({turn[way] for turn in self.turns}, self.size[way]) for way in (0, 1)]
        self.known = {}

    def sums(self, sides, whole):
        out, new = {0}, {0}
        while new:
            new = {at + side for at in new for side in sides if at + side <= whole} - out
            out |= new
        return sorted(out - {0} | {at + self.trim for at in out if at and at + self.trim <= whole})

    def most(self, wanted):
        """Or as many as are wanted; in even rows where those do."""
        rows = max((self.in_row(self.size[0], turn[0]) * self.in_row(self.size[1], turn[1]) for turn in self.turns),
                   default=0)
        if rows >= wanted and max(self.size) <= self.longest:
            return wanted
        return min(wanted, self.of(*self.size)) if self.turns else 0

    def in_row(self, whole, side):
        n, rest = divmod(whole, side)
        return n if not rest or rest >= self.trim else n - 1

    def of(self, w, h):
        if (w, h) not in self.known:
            self.known[w, h] = self.best(w, h)
        return self.known[w, h]

    def best(self, w, h):
        bound, best = w * h // self.area, int((w, h) in self.turns)
        if not any(a <= w and b <= h for a, b in self.turns):
            return 0
        for way in (0, 1):
            whole, across = (w, h) if way == 0 else (h, w)
            if across > self.longest:
                continue
            for at in self.ends[way]:
                if best == bound or at >= whole:
                    break
                first = self.of(at, h) if way == 0 else self.of(w, at)
                rest = whole - at
                then = self.of(rest, h) if way == 0 else self.of(w, rest)
                if first and (then or rest >= self.trim):
                    best = max(best, first + then)
        return best


# --- price ---------------------------------------------------------------------------------------------
def price(taken):
    """What fitting goes by; None where some paper was not searched."""
    if any(t is None for t in taken.values()):
        return None
    costs = [t.cost for t in taken.values() if t.cost is not None]
    amount = sum(costs) if costs else sum(t.sheets for t in taken.values())
    return sum(t.never for t in taken.values()), sum(t.missing for t in taken.values()), amount


def difference(space, one, other):
    """The total, in marks, by which cut sizes and open amounts differ."""
    total = sum(abs(a - b) for a, b in zip(one.amounts, other.amounts))
    for number, p in space.sums.pieces:
        for what in ("width", "height"):
            total += abs(one.values[number, p.name, what] - other.values[number, p.name, what])
    return total


# --- the other counts ----------------------------------------------------------------------------------
def made(space, answer):
    """The versions of which there are any."""
    versions = space.sums.versions
    counts = CardFile("card.toml", space.text, answer).stated_counts()
    return [own for own, count in zip(answers_of(answer, len(versions)), counts) if count > 0]


def narrowest_border(versions):
    """Above 0, of mats and panels, or where there are none of all layers; None where there is none."""
    layers = [layer for own in versions for layer in own["layers"]]
    looked_at = [layer for layer in layers if layer["role"] in ("mat", "panel")] or layers
    found = [Fraction(layer[f"from_{side}"]) for layer in looked_at for side in ("left", "right", "top", "bottom")]
    return min((v for v in found if v > 0), default=None)


def least_seen(versions):
    """Of a panel, or where there are none of a layer: what is not under what lies on it."""
    shares = [(layer["role"] == "panel", seen(layer, own["layers"])) for own in versions for layer in own["layers"]]
    return min([share for panel, share in shares if panel] or [share for _, share in shares], default=None)


def thickest(versions):
    """None where a paper does not say it."""
    if any(own["closed"].get("no_thickness") for own in versions):
        return None
    return max(Fraction(own["closed"].get("thickness", 0)) for own in versions)


def seen(layer, layers):
    def box(each):
        left, top, w, h = (Fraction(each[k]) for k in ("left", "top", "width", "height"))
        return left, top, left + w, top + h

    own = box(layer)
    over = [box(o) for o in layers if o["on"] == layer["name"]]  # what is on those lies inside them
    xs = sorted({x for b in over for x in (b[0], b[2])})
    ys = sorted({y for b in over for y in (b[1], b[3])})
    hidden = sum((b - a) * (d - c) for a, b in zip(xs, xs[1:]) for c, d in zip(ys, ys[1:])
                 if any(o[0] <= a and b <= o[2] and o[1] <= c and d <= o[3] for o in over))
    return 1 - hidden / ((own[2] - own[0]) * (own[3] - own[1]))


def waste(taken):
    """The share of all sheets that becomes no piece; None without sheets."""
    sheets = sum(t.area for t in taken.values())
    return 1 - sum(t.pieces for t in taken.values() if not t.never) / sheets if sheets else None


# --- unbeaten ------------------------------------------------------------------------------------------
def counts_of(alternative):
    """What a card is compared by, as the answer tells it, less being better. What cannot be cut is worse than any number
    of sheets, what is not told worse than what is."""
    out = [(("sheets" not in p), p.get("sheets", 0)) for p in alternative["papers"]]
    known = {"missing": sum(p.get("missing", 0) for p in alternative["papers"]), **alternative}
    if any("sheets" not in p for p in alternative["papers"]):  # of the other papers alone these say nothing
        known = {key: value for key, value in known.items() if key not in ("missing", "cost", "waste")}
    for key, sign in (("missing", 1), ("cost", 1), ("waste", 1), ("border", -1), ("seen", -1), ("thickness", 1)):
        out.append((key not in known, sign * Fraction(known.get(key, 0))))
    return tuple(out)


def unbeaten(all_counts):
    """For each whether no other is as good on every count and better on one."""
    distinct = set(all_counts)
    good = {a for a in distinct if not any(b != a and all(x <= y for x, y in zip(b, a)) for b in distinct)}
    return [c in good for c in all_counts]
