"""What a batch of cards needs from each paper and what there is of it, from the card files and the sizes in the answers
of `size FILE --json`. Written from the card language alone; nothing is planned here. Lengths are in the unit of the
first file."""
import os
import tomllib
from collections import Counter
from dataclasses import dataclass, field, replace
from fractions import Fraction

import folds
from checker import Mismatch, answers_of, entries_of, same
from reading import INCH_IN_MM, length, read, size

# By unit. Common practice, no source.
ROUGH = {"in": Fraction(1, 4), "mm": Fraction(6)}  # what a rough piece is larger each way, in all
LIP = {"in": Fraction(1, 4), "mm": Fraction(6)}  # what a hollow mat keeps under the layer on it, on every side
USUAL_TRIMMER = {"in": {"longest": Fraction(12), "blade-loss": Fraction(0), "hold": Fraction(1),
                        "sliver": Fraction(1, 8)},
                 "mm": {"longest": Fraction(305), "blade-loss": Fraction(0), "hold": Fraction(25),
                        "sliver": Fraction(3)}}


@dataclass(frozen=True)
class Need:
    """Pieces of one layer of one version, all alike. `size` is what is cut from the sheet, upright."""

    file: int
    layer: str  # "base" for a base
    variant: str
    size: tuple
    finished: tuple
    rough: bool
    base: bool
    fold_down: bool = None  # of a base: whether its first score runs down; None where it has none
    count: int = 0

    @property
    def use(self):
        return self.file, self.layer, self.variant


@dataclass(frozen=True)
class Stack:
    """Sheets of one size, upright as stated."""

    size: tuple
    have: int = None
    cost: Fraction = None
    trim_first: Fraction = Fraction(0)
    up: bool = False
    grain: str = ""
    more: bool = False  # left over from an earlier job

    def grain_down(self):
        """None where it is not said, or means nothing."""
        w, h = self.size
        if not self.grain or w == h:
            return None
        return (h > w) == (self.grain == "long")

    def takes(self, need):
        return all(a <= b for a, b in zip(sorted(need.size), sorted(self.size)))

    def lying(self, size):
        """The stack as it lies with sides `size`; None where it may not lie so."""
        if size == self.size:
            return self
        return replace(self, size=size) if size == self.size[::-1] and not self.up and not self.trim_first else None

    def turns(self, need, grain_along_fold):
        """Which ways a piece may lie on a sheet: False upright, True turned."""
        out = {False} if self.up else {False, True}
        if grain_along_fold and need.fold_down is not None and self.grain_down() is not None:
            out &= {need.fold_down != self.grain_down()}
        return frozenset(out)


@dataclass
class PaperNeeds:
    needs: list = field(default_factory=list)
    stacks: list = field(default_factory=list)
    offcuts: Counter = field(default_factory=Counter)  # (from, width, height) -> how many the batch makes

    def up(self):
        return any(s.up for s in self.stacks)

    def offcut_turns(self, need):
        """As Stack.turns: bases are never cut from offcuts, and a print keeps its way up."""
        return frozenset() if need.base else frozenset({False} if self.up() else {False, True})


@dataclass
class CardFile:
    name: str  # as it was called
    text: str
    answer: dict  # of `size`

    def __post_init__(self):
        self.top = tomllib.loads(self.text, parse_float=Fraction)
        self.unit = self.top.get("unit", "in")
        self.versions = read(self.text)
        self.answers = answers_of(self.answer, len(self.versions))

    def stated_counts(self):
        """Of each version; the spares go to the plain card, or where nothing is left of it to the first variant."""
        counts = [v.cards for v in self.versions]
        spare = self.top.get("spare", 0)
        counts[0 if counts[0] > 0 or len(counts) == 1 else 1] += spare
        return counts


class Batch:
    """`more`: texts of files of paper left over."""

    def __init__(self, files, more=(), grain_along_fold=False):
        self.files, self.more, self.grain_along_fold = list(files), list(more), grain_along_fold
        self.unit = self.files[0].unit

    def file_of(self, name):
        """The number of a file that an answer names."""
        for same_name in (lambda f: f.name == name, lambda f: os.path.basename(f.name) == os.path.basename(name)):
            found = [i for i, f in enumerate(self.files) if same_name(f)]
            if len(found) == 1:
                return found[0]
        raise Mismatch(f"no file is called {name}")

    def stated_counts(self):
        return [f.stated_counts() for f in self.files]

    def factor(self, unit):
        if unit == self.unit:
            return Fraction(1)
        return 1 / INCH_IN_MM if self.unit == "in" else INCH_IN_MM

    def trimmer(self):
        """Of each key what the first file that states it says, else the usual."""
        out = dict(USUAL_TRIMMER[self.unit])
        for f in reversed(self.files):
            for key, value in f.top.get("trimmer", {}).items():
                out[key] = length(value, f.unit) * self.factor(f.unit)
        return out

    # --- pieces --------------------------------------------------------------------------------------
    def papers(self, counts):
        """name -> PaperNeeds, of every paper that something is cut from."""
        out = {}
        for i, f in enumerate(self.files):
            for version, answer, count in zip(f.versions, f.answers, counts[i]):
                if count > 0:
                    self.version(i, f, version, answer, count, out)
        for name, paper in out.items():
            paper.stacks = self.stacks(name)
        return out

    def version(self, i, f, version, answer, count, out):
        per = self.factor(f.unit)
        entries = entries_of(answer, version)

        def sized(name):
            return tuple(Fraction(entries[name][k]) * per for k in ("width", "height"))

        w, h, scores = folds.blank(version)
        blank = w * per, h * per
        if version.paper is not None:
            told = answer["base"]["blank"]
            same((Fraction(told["width"]) - w) ** 2 + (Fraction(told["height"]) - h) ** 2, 0, "blank")
            down = version.across if scores else None
            out.setdefault(version.paper, PaperNeeds()).needs.append(
                Need(i, "base", version.name, blank, blank, False, True, down, count))
        for p in version.pieces:
            if not is_cut(p):
                continue
            finished = sized(p.name)
            rough = p.cut in ("die", "by hand") or p.keys.get("stamp-first", False)
            more = ROUGH[f.unit] * per if rough else 0
            out.setdefault(p.keys["paper"], PaperNeeds()).needs.append(
                Need(i, p.name, version.name, (finished[0] + more, finished[1] + more), finished, rough, False, None,
                     count * (p.copies or 1)))
        for paper, offcut, each in offcuts(f, version, answer, entries):
            what, w, h = offcut
            out.setdefault(paper, PaperNeeds()).offcuts[(what, w * per, h * per)] += each * count

    # --- sheets --------------------------------------------------------------------------------------
    def stacks(self, name):
        """The n-th entry of a name and size is the same stack in every card file; what is left over adds. A print that
        may not turn is that on every sheet."""
        found = {}
        for f in self.files:
            seen = Counter()
            for stack in stacks_in(f.top, name, f.unit, self.factor(f.unit), False):
                key = stack.size, seen[stack.size]
                seen[stack.size] += 1
                found[key] = stack if key not in found else both(found[key], stack)
        out = list(found.values())
        for text in self.more:
            top = tomllib.loads(text, parse_float=Fraction)
            unit = top.get("unit", "in")
            out += stacks_in(top, name, unit, self.factor(unit), True)
        up = any(stack.up for stack in out)
        return [replace(stack, up=up) for stack in out]

    def grain_unsaid(self, papers):
        """Papers of which a base is to be folded along the grain, and some sheet that takes it does not say it."""
        if not self.grain_along_fold:
            return []
        return [name for name, p in papers.items()
                if any(n.fold_down is not None and not s.grain and s.takes(n) for n in p.needs for s in p.stacks)]

    # --- beside the paper ----------------------------------------------------------------------------
    def not_cut(self):
        """(named at the least, named at the most): (file, layer) of what is paper and is cut from none."""
        least, most = set(), set()
        for i, f in enumerate(self.files):
            for version, count in zip(f.versions, f.stated_counts()):
                own = {(i, p.name) for p in version.pieces if p.kind == "layer" and not p.keys.get("stamped")
                       and not is_cut(p)}
                if version.paper is None:
                    own.add((i, "base"))
                most |= own
                if count > 0:
                    least |= own
        return least, most

    def totals(self, counts):
        """(area of foam, length once round all that is glued flat, name -> supplies)"""
        foam = around = Fraction(0)
        supplies = {}
        for f, own in zip(self.files, counts):
            per = self.factor(f.unit)
            for version, answer, count in zip(f.versions, f.answers, own):
                entries = entries_of(answer, version)
                for p in version.pieces:
                    if p.kind != "layer" or p.keys.get("stamped"):
                        continue
                    w, h = (Fraction(entries[p.name][k]) * per for k in ("width", "height"))
                    each = count * (p.copies or 1)
                    if p.raised:
                        foam += w * h * each
                    else:
                        around += 2 * (w + h) * each
            for s in f.top.get("supply", []):
                if "per-card" in s:
                    supplies[s["name"]] = supplies.get(s["name"], 0) + Fraction(s["per-card"]) * sum(own)
        return foam, around, supplies


def is_cut(p):
    return p.kind == "layer" and "paper" in p.keys and not p.keys.get("stamped") and p.cut != "ready-made"


def stacks_in(top, name, unit, per, more):
    out = []
    for p in top.get("paper", []):
        if p["name"] == name and "sheet" in p:
            w, h = size(p["sheet"], unit)
            out.append(Stack((w * per, h * per), p.get("have"), Fraction(p["cost"]) if "cost" in p else None,
                             length(p.get("trim-first", 0), unit) * per, p.get("up", False), p.get("grain", ""), more))
    return out


def both(a, b):
    """Two files' entries of one stack: what either says."""
    return Stack(a.size, a.have if a.have is not None else b.have, a.cost if a.cost is not None else b.cost,
                 a.trim_first or b.trim_first, a.up or b.up, a.grain or b.grain, a.more)


# --- what the work itself gives ------------------------------------------------------------------------
def offcuts(f, version, answer, entries):
    """(paper, (from, width, height), how many a card) in the file's unit."""
    if version.trimmed and version.paper is not None:
        by = Fraction(answer["base"]["cut_back"]["by"])
        for face in folds.faces(version, *version.front):
            if face.trimmed and face.leaf and face.frame == folds.CLOSED and by > 0:
                left, top, right, bottom = face.box
                sideways = face.trimmed in ("left", "right")
                yield version.paper, ("cut-back", by if sideways else right - left, bottom - top if sideways else by), 1
    piece = {p.name: p for p in version.pieces}
    for p in version.pieces:
        box = box_on(p, entries)
        if p.kind == "window":
            host = piece.get(p.on)
            paper = version.paper if host is None else host.keys["paper"] if is_cut(host) else None
            if paper is not None:
                yield paper, ("window", box[2] - box[0], box[3] - box[1]), host.copies or 1 if host else 1
        elif p.keys.get("hollow") and is_cut(p):
            for hole in holes_under(p, version, entries, LIP[f.unit]):
                yield p.keys["paper"], ("hollow", hole[2] - hole[0], hole[3] - hole[1]), 1


def box_on(p, entries):
    """Its rectangle from the corner of what it is on."""
    e = entries[p.name]
    left, top, w, h = (Fraction(e[k]) for k in ("from_left", "from_top", "width", "height"))
    return left, top, left + w, top + h


def holes_under(mat, version, entries, lip):
    """What may be cut out of a mat without showing: under one upright layer that has no opening, less the lip."""
    w, h = (Fraction(entries[mat.name][k]) for k in ("width", "height"))
    windows = [box_on(p, entries) for p in version.pieces if p.kind == "window" and p.on == mat.name]
    for p in version.pieces:
        hidden = p.kind == "layer" and p.on == mat.name and not p.keys.get("stamped") and (p.copies or 1) == 1 \
            and p.tilt % 180 == 0 and not any(q.kind == "window" and q.on == p.name for q in version.pieces)
        if not hidden:
            continue
        left, top, right, bottom = box_on(p, entries)
        hole = left + lip, top + lip, right - lip, bottom - lip
        inside = hole[0] < hole[2] and hole[1] < hole[3] and min(left, top) >= 0 and right <= w and bottom <= h
        clear = all(o[2] <= hole[0] or o[0] >= hole[2] or o[3] <= hole[1] or o[1] >= hole[3] for o in windows)
        if inside and clear:
            yield hole
