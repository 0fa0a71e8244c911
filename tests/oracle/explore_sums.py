"""A card as quantities and the sums that tie them: every width, height, distance, margin and gap, in marks. Written from
the card language alone, for the cards that explore_cards.py makes and others as plain: side or top folds and flat
cards, things that lie upright, each two on the same thing in a stated order. Unsupported says what is beyond it."""
import tomllib
from dataclasses import dataclass, field
from fractions import Fraction

from linear import Lin, lin
from reading import length, read
from statements import statement

ENDS = {"left": "across", "right": "across", "top": "down", "bottom": "down"}
LOW_HIGH = {"across": ("left", "right"), "down": ("top", "bottom")}
EXTENT = {"across": "width", "down": "height"}
PLACE_KEYS = ("border", "size", "width", "height", "ratio", "align", "from-left", "from-right", "from-top",
              "from-bottom", "above", "below", "left-of", "right-of", "level-with", "clear-of", "over", "gap")
BEYOND = ("ratio", "copies", "tilt", "overhang", "tuck", "clear-of", "over", "show", "hollow")


class Unsupported(Exception):
    """More than plain sums."""


@dataclass
class Range:
    """What one quantity may be, in marks."""

    least: Fraction = None
    most: Fraction = None
    lists: list = field(default_factory=list)
    on_marks: bool = False

    def at_least(self, value):
        self.least = value if self.least is None else max(self.least, value)

    def at_most(self, value):
        self.most = value if self.most is None else min(self.most, value)

    def holds(self, value):
        return not ((self.least is not None and value < self.least) or (self.most is not None and value > self.most)
                    or any(value not in own for own in self.lists)
                    or (self.on_marks and Fraction(value).denominator != 1))


@dataclass
class Said:
    """A wish with more than one value, and the quantities that it binds."""

    name: str
    key: str
    part: str
    wish: object
    binds: list = field(default_factory=list)


def leaves_some(frame):
    """Whether a frame says how much it leaves at the least."""
    return frame is not None and (frame.at_least is not None or bool(frame.one_of))


class Sums:
    """Of all versions of a card: `ranges` by quantity, `zeros` sums that are 0, `said` the open wishes in file order,
    `entries` of `rules` as (version, which, its text, its ways as lists of Rel), `bare` and `unsaid` margins."""

    def __init__(self, text):
        self.versions = read(text)
        self.ranges, self.zeros, self.entries = {}, [], []
        self.said, self.bare, self.unsaid = {}, {}, {}
        self.corner, self.extent = {}, {}  # (version, thing) -> {way: Sum}
        self.pieces = []  # (version, Piece)
        self.in_set = [set()] + [self.changed(text, i) for i in range(len(self.versions) - 1)]
        for number, version in enumerate(self.versions):
            self.version(number, version)

    @staticmethod
    def changed(text, number):
        return set(tomllib.loads(text)["variant"][number].get("set", {}))

    def marks(self, value):
        return Fraction(value) / self.versions[0].mark

    # --- quantities ----------------------------------------------------------------------------------
    def quantity(self, *name):
        self.ranges.setdefault(name, Range())
        return name

    def equal(self, a, b):
        self.zeros.append(lin(a) - lin(b))

    def asks(self, number, wish, owner, key, part, quantities, like=None):
        """A wish about each of these quantities."""
        for q in quantities:
            r = self.ranges[q]
            if wish.at_least is not None:
                r.at_least(self.marks(wish.at_least))
            if wish.at_most is not None:
                r.at_most(self.marks(wish.at_most))
            if wish.one_of:
                r.lists.append({self.marks(v) for v in wish.one_of})
            if wish.same_as is not None:
                if like is None:
                    raise Unsupported("same as")
                self.equal(Lin({q: 1}), like(wish.same_as, q))
        if wish.exact() is not None:
            for q in quantities:
                self.equal(Lin({q: 1}), self.marks(wish.exact()))
        elif wish.same_as is None:
            if f"{owner}.{key}" in self.in_set[number]:
                raise Unsupported("a variant with a range of its own")
            said = self.said.setdefault((owner, key, part), Said(owner, key, part, wish))
            said.binds += quantities

    # --- a version -----------------------------------------------------------------------------------
    def version(self, number, version):
        if version.fold not in ("side", "top", "flat") or version.scores or version.leaves:
            raise Unsupported(version.fold)
        w, h = (self.marks(side) for side in version.front)
        front = {"across": lin(w), "down": lin(h)}
        here = {"across": Lin(), "down": Lin()}
        self.place(number, "inside", here, {"across": lin(w), "down": lin(h)})
        if version.cut_back is not None:
            usual = {"side": "right", "top": "bottom"}.get(version.fold)
            if version.trimmed != usual:
                raise Unsupported("cut back elsewhere")
            way = ENDS[usual]
            cut = self.quantity(number, "base", "cut-back")
            self.asks(number, version.cut_back, "base", "cut-back", "", [cut])
            r, whole = self.ranges[cut], front[way].const
            if version.cut_back.exact() is None:
                r.at_least(1), r.at_most(whole - 1)
                r.on_marks = whole.denominator == 1
            front[way] = whole - Lin({cut: 1})
            corner = dict(here)
            corner[way] = front[way]
            size = {"across": lin(w), "down": lin(h)}
            size[way] = Lin({cut: 1})
            self.place(number, "reveal", corner, size)
        self.place(number, "front", here, front)
        for p in version.pieces:
            self.piece(number, p)
        for p in version.pieces:
            self.beside(number, p, version.pieces)
        self.in_order(number, version.pieces)
        things = {name: self.lines(number, name) for n, name in self.corner if n == number}
        for i, entry in enumerate(version.rules):
            self.entries.append((number, i, entry, self.entry(entry, things)))

    def place(self, number, name, corner, size):
        self.corner[number, name], self.extent[number, name] = corner, size

    def lines(self, number, name):
        c, e = self.corner[number, name], self.extent[number, name]
        half = Fraction(1, 2)
        return {"left": c["across"], "right": c["across"] + e["across"], "top": c["down"],
                "bottom": c["down"] + e["down"], "width": e["across"], "height": e["down"],
                "centre-across": c["across"] + e["across"] * half, "centre-down": c["down"] + e["down"] * half}

    def entry(self, text, things):
        return statement(text, things, lambda said: Lin(const=self.marks(length(said, self.versions[0].unit)))).options

    def piece(self, number, p):
        for key in BEYOND:
            if p.keys.get(key):
                raise Unsupported(key)
        if (number, p.on) not in self.corner:
            raise Unsupported(f"on {p.on}")
        q = {side: self.quantity(number, p.name, side) for side in ENDS}
        q |= {e: self.quantity(number, p.name, e) for e in EXTENT.values()}
        host = self.extent[number, p.on]
        cut = p.kind == "window" or p.cut in ("trimmer", "by hand") and not p.keys.get("stamped")
        for way, (low, high) in LOW_HIGH.items():
            self.zeros.append(Lin({q[low]: 1, q[EXTENT[way]]: 1, q[high]: 1}) - host[way])
            self.ranges[q[EXTENT[way]]].at_least(1 if cut else 0)
            self.ranges[q[EXTENT[way]]].on_marks = cut
        for side in ENDS:
            least = 1 if p.kind == "window" and not leaves_some(p.wishes.get("frame")) else 0
            self.ranges[q[side]].at_least(least)
        corner = {way: self.corner[number, p.on][way] + Lin({q[LOW_HIGH[way][0]]: 1}) for way in LOW_HIGH}
        self.place(number, p.name, corner, {way: Lin({q[EXTENT[way]]: 1}) for way in LOW_HIGH})
        self.pieces.append((number, p))
        self.sides(number, p, "border", p.border, q)
        if "frame" in p.wishes:
            self.sides(number, p, "frame", {"all": p.wishes["frame"]}, q)
        for key, wish in p.wishes.items():
            if key in ("width", "height"):
                self.asks(number, wish, p.name, key, "", [q[key]], self.like(number, key))
            elif key.startswith("from-"):
                self.asks(number, wish, p.name, key, "", [q[key[5:]]])
        if p.size:
            for extent, value in zip(("width", "height"), p.size):
                self.equal(Lin({q[extent]: 1}), self.marks(value))
        even = any(w.even for w in p.border.values())
        for way, to in p.align.items():
            low, high = LOW_HIGH[way]
            if to == "centre":
                self.equal(Lin({q[low]: 1}), Lin({q[high]: 1}))
            elif not even:
                self.equal(Lin({q[to]: 1}), self.aligned(p, to))
        self.artwork(number, p, q)
        if not set(p.keys) & set(PLACE_KEYS) and not p.artwork and p.kind == "layer":
            self.bare.setdefault(p.name, []).extend(q[side] for side in ENDS)

    def like(self, number, key):
        return lambda name, q: self.extent[number, name]["across" if key == "width" else "down"]

    def aligned(self, p, to):
        wishes = [p.border[k] for k in ("all", ENDS[to], to) if k in p.border]
        wishes += [p.wishes[k] for k in (f"from-{to}",) if k in p.wishes]
        least = [w.at_least for w in wishes if w.at_least is not None]
        about = [w.about for w in wishes if w.about is not None]
        if wishes and any(w.exact() is None for w in wishes):
            raise Unsupported("aligned within a range")
        return self.marks(max(least) if least else about[0] if about else 0)

    def sides(self, number, p, key, wishes, q):
        for part, wish in wishes.items():
            own = [q[side] for side in ENDS if part in ("all", side, ENDS[side])]
            if wish.even:
                for other in own[1:]:
                    self.equal(Lin({own[0]: 1}), Lin({other: 1}))
            like = (lambda name, o: Lin({(number, name) + o[2:]: 1})) if key == "border" else None
            self.asks(number, wish, p.name, key, "" if part == "all" else part, own, like)

    def artwork(self, number, p, q):
        if not p.artwork:
            return
        m = {side: self.quantity(number, p.name, "margin " + side) for side in ENDS}
        for (way, (low, high)), side in zip(LOW_HIGH.items(), p.artwork):
            self.zeros.append(Lin({m[low]: 1, m[high]: 1, q[EXTENT[way]]: -1}) + self.marks(side))
        for side in ENDS:
            self.ranges[m[side]].at_least(0)
        self.sides(number, p, "margin", p.margin, m)
        if not p.margin:
            self.unsaid.setdefault(p.name, []).extend(m.values())

    def beside(self, number, p, pieces):
        on = {o.name: o.on for o in pieces}
        for key, name in p.beside:
            if on.get(name) != p.on:
                raise Unsupported("beside what lies elsewhere")
            gap = self.quantity(number, p.name, f"gap {key} {name}")
            self.ranges[gap].at_least(0)
            way = "across" if key in ("left-of", "right-of") else "down"
            first, then = (p.name, name) if key in ("left-of", "above") else (name, p.name)
            low = LOW_HIGH[way][0]
            self.zeros.append(Lin({(number, first, low): 1, (number, first, EXTENT[way]): 1, gap: 1,
                                   (number, then, low): -1}))
        if "gap" in p.wishes:
            own = [q for q in self.ranges if q[:2] == (number, p.name) and q[2].startswith("gap")]
            self.asks(number, p.wishes["gap"], p.name, "gap", "", own)
        for line, name in p.level_with:
            if on.get(name) != p.on or line not in ENDS:
                raise Unsupported("level otherwise")
            self.equal(self.lines(number, p.name)[line], self.lines(number, name)[line])

    def in_order(self, number, pieces):
        """Each two layers on the same thing must be in a stated order, directly or through others."""
        after = {p.name: set() for p in pieces}
        for way in (("left-of", "right-of"), ("above", "below")):
            direct = {(p.name, n) if key == way[0] else (n, p.name) for p in pieces for key, n in p.beside if key in way}
            more = True
            while more:
                wider = direct | {(a, d) for a, b in direct for c, d in direct if b == c}
                more, direct = wider != direct, wider
            for a, b in direct:
                after[a].add(b)
        for i, a in enumerate(pieces):
            for b in pieces[i + 1:]:
                together = a.on == b.on and a.kind == b.kind
                ink = b.kind == "layer" and any(o.name == b.on and o.artwork for o in pieces)
                if ink or together and b.name not in after[a.name] and a.name not in after[b.name]:
                    raise Unsupported(f"{a.name} and {b.name} in no order")
