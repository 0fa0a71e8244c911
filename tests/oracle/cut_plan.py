"""The plan for one paper held against what is needed of it: every sheet is cut again with the plan's own cuts, one
after the other, and what comes of that must be its pieces and leftovers and nothing else. Knows nothing of how a plan
is found. Whatever is wrong is said; nothing is mended."""
from collections import Counter, defaultdict
from dataclasses import replace
from fractions import Fraction

from cut_needs import Stack

SHEETS = ("stated", "more")


def numbers(entry, *keys):
    return tuple(Fraction(entry[k]) for k in keys)


def rectangle(entry):
    return numbers(entry, "x", "y", "width", "height")


def overlap(a, b):
    return a[0] < b[0] + b[2] and b[0] < a[0] + a[2] and a[1] < b[1] + b[3] and b[1] < a[1] + a[3]


def within(a, b):
    return a[0] >= b[0] and a[1] >= b[1] and a[0] + a[2] <= b[0] + b[2] and a[1] + a[3] <= b[1] + b[3]


def numbered(values, index):
    """As values[index], but not from the end."""
    if index < 0:
        raise IndexError(index)
    return values[index]


def told(rect):
    return " x ".join(map(str, rect[-2:])) + (f" at {rect[0]}, {rect[1]}" if len(rect) == 4 else "")


def halves(rect, across, at, blade):
    """What a cut makes of a rectangle: what lies before it, and what is left behind it (None when nothing is)."""
    x, y, w, h = rect
    if across:
        rest = (x, y + at + blade, w, h - at - blade)
        return (x, y, w, at), rest if rest[3] > 0 else None
    rest = (x + at + blade, y, w - at - blade, h)
    return (x, y, at, h), rest if rest[2] > 0 else None


def same_stack(a, b):
    """On a square sheet neither side is the longer: either word for its grain may be right, as it lies."""
    if a is not None and a.size[0] == a.size[1] and a.grain and b.grain:
        a = replace(a, grain=b.grain)
    return a == b


class Cutting:
    """One sheet, cut as the plan says."""

    def __init__(self, entry, trim_first, trimmer, says):
        self.entry, self.says = entry, says
        self.trim_first, self.blade = trim_first, trimmer["blade-loss"]
        self.longest, self.sliver = trimmer["longest"], trimmer["sliver"]
        self.sheet = (Fraction(0), Fraction(0), *numbers(entry, "width", "height"))
        self.pieces = [rectangle(p) for p in entry["pieces"]]
        self.leftovers = [rectangle(r) for r in entry["leftovers"]]
        self.comes_of = {}  # rectangle -> (what was cut for it, across)

    def run(self):
        self.places()
        self.areas()
        in_hand = self.cut()
        want = Counter(self.pieces + self.leftovers)
        for rect, n in (in_hand - want).items():
            self.says(f"the cuts leave {told(rect)}, {n} times more than the plan has it")
        for rect, n in (want - in_hand).items():
            self.says(f"the cuts never give {told(rect)}")
        self.trims(in_hand)
        self.untrue_edge()

    def places(self):
        all_of_it = [("piece", r) for r in self.pieces] + [("leftover", r) for r in self.leftovers]
        for i, (what, rect) in enumerate(all_of_it):
            if min(rect[2:]) <= 0:
                self.says(f"a {what} of {told(rect)}")
            if not within(rect, self.sheet):
                self.says(f"the {what} {told(rect)} reaches out of the sheet")
            for other, near in all_of_it[:i]:
                if overlap(rect, near):
                    self.says(f"the {what} {told(rect)} overlaps the {other} {told(near)}")

    def areas(self):
        whole = self.sheet[2] * self.sheet[3]
        pieces = sum(r[2] * r[3] for r in self.pieces)
        covered = pieces + sum(r[2] * r[3] for r in self.leftovers)
        if covered > whole or self.blade == 0 and covered != whole:
            self.says(f"pieces and leftovers cover {covered} of {whole}")
        if abs(Fraction(str(self.entry["used"])) - 100 * pieces / whole) > Fraction(1, 20):
            self.says(f"{self.entry['used']} % is said to be used, not {float(100 * pieces / whole):.2f}")

    def cut(self):
        """The rectangles in hand after all cuts."""
        in_hand, last = Counter([self.sheet]), 0
        for number, cut in enumerate(self.entry["cuts"]):
            rect, at, across = rectangle(cut), Fraction(cut["at"]), cut["across"]
            if cut["step"] < last:
                self.says(f"cut {number + 1} is of step {cut['step']}, after one of step {last}")
            last = cut["step"]
            if not in_hand[rect]:
                self.says(f"cut {number + 1} is of {told(rect)}, which is not in hand")
                continue
            if not 0 < at < rect[3 if across else 2]:
                self.says(f"cut {number + 1} at {at} does not go through {told(rect)}")
                continue
            if at + self.blade > rect[3 if across else 2]:
                self.says(f"cut {number + 1} leaves less than the blade takes away")
            if rect[2 if across else 3] > self.longest:
                self.says(f"cut {number + 1} is {rect[2 if across else 3]} long, more than {self.longest}")
            in_hand[rect] -= 1
            for part in halves(rect, across, at, self.blade):
                if part:
                    in_hand[part] += 1
                    self.comes_of[part] = rect, across
        return +in_hand

    def trims(self, in_hand):
        """What is cut off without a piece in it is at least as wide as the sliver limit."""
        holds = set(self.pieces)
        for rect in self.pieces:
            while rect in self.comes_of:
                rect = self.comes_of[rect][0]
                holds.add(rect)
        for rect, (parent, across) in self.comes_of.items():
            if rect in holds or rect == self.trimmed_off():
                continue
            if parent not in holds and self.pieces:
                self.says(f"{told(parent)} is cut though it holds no piece")
            elif rect[3 if across else 2] < self.sliver:
                self.says(f"a trim {rect[3 if across else 2]} wide is left, {told(rect)}")

    def trimmed_off(self):
        """The untrue edge, as its size is stated; the blade's loss may be a part of it."""
        if not self.trim_first or not self.entry["cuts"]:
            return None
        first = self.entry["cuts"][0]
        return halves(rectangle(first), first["across"], Fraction(first["at"]), self.blade)[1]

    def untrue_edge(self):
        if not self.trim_first:
            return
        first = self.entry["cuts"][0] if self.entry["cuts"] else None
        height = self.sheet[3]
        at = (height - self.trim_first, height - self.trim_first - self.blade)
        if first is None or rectangle(first) != self.sheet or not first["across"] or Fraction(first["at"]) not in at:
            self.says(f"the untrue edge, {self.trim_first} at the bottom, does not come off first")
        if any(r[1] + r[3] > height - self.trim_first for r in self.pieces):
            self.says("a piece lies in the untrue edge")
        for rect, leftover in zip(self.leftovers, self.entry["leftovers"]):
            if leftover["keep"] and rect[1] + rect[3] > height - self.trim_first:
                self.says("the untrue edge is said to be worth keeping")


class PaperCheck:
    """`needs` of the batch as it is planned; `paper` is the answer's entry."""

    def __init__(self, paper, needs, batch):
        self.paper, self.needs, self.batch = paper, needs, batch
        self.trimmer = batch.trimmer()
        self.wrong = []
        self.by_use = {n.use: n for n in needs.needs}
        self.lying = {}  # number in the answer's stock -> the stack as it lies

    def says(self, what):
        self.wrong.append(f"{self.paper['paper']}: {what}")

    def run(self):
        self.stock()
        self.kinds()
        for entry in self.paper["plan"]:
            self.sheet(entry)
        self.all_there()
        self.counts()
        self.left_over()
        return self.wrong

    # --- what is to be cut ---------------------------------------------------------------------------
    def use_of(self, entry):
        return self.batch.file_of(entry["file"]), entry["layer"], entry["variant"]

    def kinds(self):
        """Each need in one kind, of its size, and no two kinds that are alike."""
        found, alike = Counter(), Counter()
        for kind in self.paper["kinds"]:
            dims = numbers(kind, "width", "height")
            base = set()
            for use in kind["uses"]:
                need = self.by_use.get(self.use_of(use))
                if need is None:
                    self.says(f"nobody needs {use['count']} of {use['layer']!r}")
                    continue
                found[need.use] += use["count"]
                base.add(need.base)
                if dims != need.size and (dims != need.size[::-1] or frozenset({False}) in self.ways(kind)):
                    self.says(f"{use['layer']!r} is cut {told(dims)}, not {told(need.size)}")
                if numbers(use, "finished_width", "finished_height") != need.finished:
                    self.says(f"{use['layer']!r} is not {told(need.finished)} when it is finished")
                if (use["rough"] not in ("", "none")) != need.rough:
                    self.says(f"{use['layer']!r}: rough is {use['rough']!r}")
            if kind["count"] != sum(use["count"] for use in kind["uses"]):
                self.says(f"{kind['count']} of a kind, but its uses do not add up to that")
            self.turning(kind, dims)
            turning = kind["may_turn"] and dims[0] != dims[1]
            alike[(tuple(sorted(dims)) if turning else dims, kind["may_turn"], tuple(sorted(base)))] += 1
        for need in self.needs.needs:
            if found[need.use] != need.count:
                self.says(f"kinds have {found[need.use]} of {need.layer!r}, not {need.count}")
        for key, n in alike.items():
            if n > 1:
                self.says(f"{n} kinds are alike: {told(key[0])}")

    def ways(self, kind):
        """The ways in which its pieces may lie, of each stack."""
        return {stack.turns(self.by_use[use], self.batch.grain_along_fold) for stack in self.lying.values()
                for use in map(self.use_of, kind["uses"]) if use in self.by_use}

    def turning(self, kind, dims):
        """Where all sheets are alike in that, whether it may turn is plain."""
        ways = self.ways(kind)
        unclear = self.batch.grain_along_fold and any(s.grain and s.grain_down() is None for s in self.needs.stacks)
        if dims[0] != dims[1] and len(ways) == 1 and not unclear:
            if kind["may_turn"] != (ways == {frozenset({False, True})}):
                self.says(f"a kind of {told(dims)} {'may' if kind['may_turn'] else 'may not'} turn")

    def stock(self):
        """The sheets that the files state, each once as it lies, and offcuts that the work gives."""
        left, offcuts = list(self.needs.stacks), Counter()
        for i, s in enumerate(self.paper["stock"]):
            size = numbers(s, "width", "height")
            if s["from"] not in SHEETS:
                offcuts[(s["from"], *size)] += s["have"]
                if bool(s.get("up")) != self.needs.up():
                    self.says(f"an offcut of {told(size)}: {s.get('up')}")
                continue
            cost = None if s.get("cost") is None else Fraction(s["cost"])
            like = Stack(size, s.get("have"), cost, Fraction(s.get("trim_first") or 0), bool(s.get("up")),
                         s.get("grain") or "", s["from"] == "more")
            found = next((stack for stack in left if same_stack(stack.lying(size), like)), None)
            if found is None:
                self.says(f"sheets that nobody states: {like}")
                continue
            left.remove(found)
            self.lying[i] = like
        for stack in left:
            self.says(f"sheets are left out: {stack}")
        for key, n in offcuts.items():
            if n > self.needs.offcuts[key]:
                self.says(f"{n} offcuts {told(key[1:])} of a {key[0]}; the work gives {self.needs.offcuts[key]}")

    # --- sheet by sheet ------------------------------------------------------------------------------
    def sheet(self, entry):
        name = f"sheet {entry['sheet']}"

        def says(what):
            self.says(f"{name}: {what}")

        stock = numbered(self.paper["stock"], entry["stock"])
        offcut = stock["from"] not in SHEETS
        stack = self.lying.get(entry["stock"])
        if entry["offcut"] != offcut:
            says("what is an offcut is not said to be one" if offcut else "a sheet is said to be an offcut")
        if numbers(entry, "width", "height") != numbers(stock, "width", "height"):
            says("it is not of its stock's size")
        if entry["times"] < 1:
            says(f"cut {entry['times']} times")
        if not entry["pieces"]:
            says("it holds no piece")
        Cutting(entry, stack.trim_first if stack else Fraction(0), self.trimmer, says).run()
        for p in entry["pieces"]:
            need = self.by_use.get(self.use_of(p))
            if need is None:
                says(f"nobody needs {p['layer']!r} of {p['variant']!r}")
            elif offcut or stack:
                self.direction(p, need, self.needs.offcut_turns(need) if offcut else
                               stack.turns(need, self.batch.grain_along_fold), says)

    def direction(self, p, need, turns, says):
        size, turned = numbers(p, "width", "height"), p["turned"]
        if size not in (need.size, need.size[::-1]):
            says(f"{p['layer']!r} is {told(size)}, not {told(need.size)}")
        elif size != (need.size[::-1] if turned else need.size):
            says(f"{p['layer']!r} is said to be {'turned' if turned else 'upright'} and lies otherwise")
        if turned not in turns:
            says(f"{p['layer']!r} may not lie {told(size)}, {'turned' if turned else 'upright'}, there")
        kind = numbered(self.paper["kinds"], p["kind"])
        if need.use not in map(self.use_of, kind["uses"]):
            says(f"{p['layer']!r} is not of kind {p['kind']}")
        elif sorted(size) != sorted(numbers(kind, "width", "height")):
            says(f"{p['layer']!r} is not of its kind's size")

    # --- all together --------------------------------------------------------------------------------
    def all_there(self):
        got = Counter()
        for entry in self.paper["plan"]:
            for p in entry["pieces"]:
                got[self.use_of(p)] += entry["times"]
        for need in self.needs.needs:
            if got[need.use] != need.count:
                self.says(f"{got[need.use]} of {need.layer!r} {need.variant!r}, not {need.count}")
        used = Counter()
        for entry in self.paper["plan"]:
            used[entry["stock"]] += entry["times"]
        for i, n in used.items():
            have = self.paper["stock"][i].get("have")
            if have is not None and n > have:
                self.says(f"{n} sheets of {told(numbers(self.paper['stock'][i], 'width', 'height'))}, of {have}")
        alike = defaultdict(set)
        for entry in self.paper["plan"]:
            alike[entry["sheet"]].add((entry["stock"], *(tuple(sorted((*rectangle(c), c["across"], Fraction(c["at"]),
                                                                       c["step"]) for c in entry["cuts"])),)))
        for letter, ways in alike.items():
            if len(ways) > 1:
                self.says(f"sheets {letter} are not cut alike")

    def counts(self):
        p, stock = self.paper, self.paper["stock"]
        sheets = [e for e in p["plan"] if stock[e["stock"]]["from"] in SHEETS]
        total = sum(e["times"] for e in sheets)
        if p["sheets"] != total:
            self.says(f"{p['sheets']} sheets are told, {total} are cut")
        if p["at_least"] > p["sheets"]:
            self.says(f"at least {p['at_least']} sheets, but {p['sheets']} do")
        if all(s.cost is None for s in self.needs.stacks):
            if p["proven"] and p["at_least"] != p["sheets"]:
                self.says(f"proven with {p['at_least']} to {p['sheets']} sheets")
            return
        cost = sum(e["times"] * Fraction(stock[e["stock"]].get("cost") or 0) for e in sheets)
        if Fraction(p["cost"]) != cost:
            self.says(f"the cost is told as {p['cost']}, and is {cost}")
        if Fraction(p["cost_at_least"]) > cost:
            self.says(f"a cost of at least {p['cost_at_least']}, but {cost} does")
        if p["proven"] and Fraction(p["cost_at_least"]) != cost:
            self.says(f"proven with a cost of {p['cost_at_least']} to {cost}")

    def left_over(self):
        """Those worth keeping, however they lie."""
        want, got = Counter(), Counter()
        for entry in self.paper["plan"]:
            for r in entry["leftovers"]:
                if r["keep"]:
                    want[tuple(sorted(numbers(r, "width", "height")))] += entry["times"]
        for r in self.paper["leftovers"]:
            got[tuple(sorted(numbers(r, "width", "height")))] += r["count"]
        if got != want:
            self.says(f"leftovers are told as {[(told(k), n) for k, n in got.items()]}, "
                      f"and are {[(told(k), n) for k, n in want.items()]}")
