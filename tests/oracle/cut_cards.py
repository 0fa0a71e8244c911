"""Batches made up from a seed: card files, files of paper left over, and the options of the call. `small` ones have few
pieces of stated sizes, for exhaustive search; `whole` ones are layered cards as makers state them."""
import random
from dataclasses import dataclass, field
from fractions import Fraction

NOUNS = "heron fern plum tide clay ember moss cedar pebble lark ochre slate reed dune maple frost".split()
BASE = {"in": "60 x 60", "mm": "1500 x 1500"}


@dataclass
class Job:
    name: str
    texts: list
    more: list = field(default_factory=list)
    options: list = field(default_factory=list)
    search: bool = False  # exhaustively too

    @property
    def most(self):
        return "--most" in self.options


def toml(value):
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{named(key)} = {toml(v)}" for key, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(toml, value)) + "]"
    if isinstance(value, Fraction):
        return f'"{said(value)}"'
    return str(value) if isinstance(value, int) else f'"{value}"'


def named(key):
    return key if key.replace("-", "").isalnum() else f'"{key}"'


def said(value):
    whole, part = divmod(Fraction(value), 1)
    return f"{whole} {part}" if whole and part else str(part or whole)


def by(w, h):
    return f"{said(w)} x {said(h)}"


def table(head, keys):
    return f"\n{head}\n" + "".join(f"{named(key)} = {toml(v)}\n" for key, v in keys.items())


class Maker:
    def __init__(self, seed):
        self.rng = random.Random(seed)
        self.unit = "mm" if self.chance(0.2) else "in"
        self.used = set()

    def chance(self, p):
        return self.rng.random() < p

    def new(self, noun):
        while True:
            name = f"{self.rng.choice(NOUNS)} {noun}"
            if self.chance(0.1):
                name += f" {self.rng.randint(1, 9)}"
            if name not in self.used:
                self.used.add(name)
                return name


# --- small ---------------------------------------------------------------------------------------------
class Small(Maker):
    """Layers side by side on a large base that is cut from nothing, or a small card with layers that fit in it."""

    def make(self, name):
        rng = self.rng
        self.trimmer()
        self.sheets()
        self.layers, self.base = [], {"fold": "flat", "front": BASE[self.unit]}
        self.cards = rng.choice([1, 1, 2, 2, 3])
        self.pieces = 0
        if self.chance(0.15):
            self.folded()
        self.at = Fraction(0)
        kinds = rng.randint(2, 4)
        for _ in range(kinds):
            self.layer(max(1, (rng.randint(6, 12) - self.pieces) // (kinds * self.cards)))
        job = Job(name, [self.text()], search=True)
        if all("have" in p for p in self.papers) and not self.variants and self.chance(0.5):
            job.options.append("--most")
        return job

    def trimmer(self):
        """Keys of [trimmer], and the steps that sizes fall on."""
        rng, inch = self.rng, self.unit == "in"
        self.step = Fraction(rng.choice(["1/2", "1/2", "1/4", "1/4", "1/8"])) if inch else \
            Fraction(rng.choice([10, 10, 5]))
        self.keys = {}
        pick = rng.random()
        if pick < 0.3:
            self.keys["sliver"] = Fraction(0)
        elif pick < 0.6:
            self.keys["sliver"] = self.step * rng.choice([2, 3]) if not self.chance(0.2) else self.step * 3 / 2
        if self.chance(0.12):
            self.keys["blade-loss"] = Fraction(1, 8) if inch else Fraction(2)
        if self.chance(0.12):
            self.keys["longest"] = rng.choice([5, 6, 7]) if inch else rng.choice([120, 150, 170])
        if self.chance(0.2):
            self.keys["hold"] = rng.choice([0, 2]) if inch else rng.choice([0, 50])

    def stepped(self, low, high):
        return self.step * self.rng.randint(round(low / self.step), round(high / self.step))

    def sheets(self):
        rng, unit = self.rng, 1 if self.unit == "in" else 25
        self.name, self.papers = self.new("paper"), []
        for i in range(rng.choice([1, 1, 1, 2, 2, 3])):
            w, h = self.stepped(3 * unit, 7 * unit), self.stepped(4 * unit, 9 * unit)
            if self.chance(0.15):  # one that a piece may just not fill
                w += Fraction(1, 16) if self.unit == "in" else 1
            p = {"name": self.name, "sheet": by(w, h)}
            if self.chance(0.45):
                p["have"] = rng.choice([1, 2, 2, 3, 4, 6]) if not self.chance(0.03) else 0
            self.papers.append(p)
        if self.chance(0.25):
            for p in self.papers:
                if self.chance(0.8):
                    p["cost"] = rng.choice([1, 2, 3, 3, 5])
        up = self.chance(0.25)
        for p in self.papers:
            if up or self.chance(0.04):
                p["up"] = True
            if "blade-loss" not in self.keys and self.chance(0.1):
                p["trim-first"] = self.step
        self.sides = [(Fraction(3 * unit), Fraction(4 * unit))] if self.chance(0.05) else \
            [tuple(length(side) for side in p["sheet"].split(" x ")) for p in self.papers]

    def folded(self):
        """A base that is cut from the same paper, perhaps cut back."""
        w, h = (max(self.step * 2, self.part(side)) for side in self.rng.choice(self.sides))
        self.base = {"fold": "side", "front": by(w / 2, h), "paper": self.name}
        self.pieces += self.cards
        if self.chance(0.5):
            self.base["cut-back"] = min(self.step, w / 4)
        self.inside = w / 2, h

    def part(self, side):
        """A side of a piece, for a sheet's."""
        share = self.rng.choice([Fraction(1), Fraction(1, 2), Fraction(1, 2), Fraction(1, 3), Fraction(2, 3),
                                 Fraction(self.rng.randint(25, 85), 100)])
        off = self.rng.choice([0, 0, 0, 0, 1, -1]) if share < 1 else -self.rng.randint(0, 1)
        return max(self.step * 2, side * share // self.step * self.step + off * self.step)

    def layer(self, most):
        w, h = (self.part(side) for side in self.rng.choice(self.sides))
        if self.chance(0.3) and not any("up" in p for p in self.papers):
            w, h = h, w
        copies = self.rng.randint(1, most)
        keys = {"name": self.new("piece"), "on": "front", "size": by(w, h), "paper": self.name}
        if "paper" in self.base:
            room = self.inside
            keys["on"] = "inside"
            if w > room[0] or h > room[1]:
                w, h = max(self.step, room[0] / 2 // self.step * self.step), room[1]
                keys["size"] = by(w, h)
            if self.layers:
                keys["over"] = [layer["name"] for layer in self.layers]
        else:
            keys |= {"from-left": self.at, "from-top": Fraction(0)}
            if copies > 1:
                keys |= {"copies": copies, "gap": Fraction(0)}
            self.at += copies * w
        if self.chance(0.1):
            keys["cut"] = self.rng.choice(["die", "by hand"])
        self.pieces += copies * self.cards
        self.layers.append(keys)

    def text(self):
        self.variants = []
        if len(self.layers) > 1 and self.chance(0.3):
            gone = self.rng.sample([layer["name"] for layer in self.layers], 1)
            self.cards += self.chance(0.5)
            self.variants = [{"name": self.new("crew"), "cards": self.rng.randint(1, self.cards), "without": gone}]
        out = f'unit = "{self.unit}"\ncards = {self.cards}\n' + table("[base]", self.base)
        for head, entries in (("layer", self.layers), ("paper", self.papers), ("variant", self.variants)):
            out += "".join(table(f"[[{head}]]", e) for e in entries)
        return out + (table("[trimmer]", self.keys) if self.keys else "")


def length(text):
    return sum(map(Fraction, text.split()))


def small(seed):
    return Small(seed).make(f"small {seed}")


# --- whole cards ---------------------------------------------------------------------------------------
# Whose blanks a letter or A4 sheet takes.
FRONTS = {"in": ["us A2", "5 1/2 x 4 1/4", "4 x 4", "3 1/2 x 5"],
          "mm": ["iso A6", "100 x 100", "iso A6 turned", "99 x 140"]}
LONG_FRONTS = {"in": ["3 1/2 x 5", "3 1/2 x 4"], "mm": ["99 x 140", "90 x 90"]}  # of three leaves
SHEETS = {"in": ["us letter", "12 x 12", "us letter turned", "9 x 12", "6 x 6"],
          "mm": ["iso A4", "iso A5", "iso A4 turned", "305 x 305"]}


class Whole(Maker):
    def make(self, name):
        rng = self.rng
        self.along = self.chance(0.25)
        shared = [self.new("card"), self.new("paper"), self.new("print")]
        self.entries = {paper: self.sheets(paper) for paper in shared}
        files = 2 if self.chance(0.2) else 1
        texts = [self.card(shared) for _ in range(files)]
        job = Job(name, texts)
        if self.chance(0.25):
            job.more.append(self.left_over(shared))
        limited = all("have" in p for entries in self.entries.values() for p in entries)
        if limited and files == 1 and rng.random() < 0.3:
            job.options.append("--most")
        if self.along or self.chance(0.05):
            job.options.append("--grain-along-fold")
        return job

    def small_length(self, inch, mm):
        return Fraction(inch) if self.unit == "in" else Fraction(mm)

    def sheets(self, paper):
        rng, out = self.rng, []
        sizes = rng.sample(SHEETS[self.unit], rng.choice([1, 1, 2]))
        if paper.endswith("card"):
            sizes = sorted({rng.choice(SHEETS[self.unit][0:3:2]), *sizes[1:]})
        for size in sizes:
            p = {"name": paper, "sheet": size}
            if self.chance(0.6):
                p["have"] = rng.choice([2, 4, 8, 20, 40])
            if self.chance(0.3):
                p["cost"] = rng.choice([1, 2, 5])
            if self.along or self.chance(0.2):
                p["grain"] = rng.choice(["long", "short"])
            if self.chance(0.15):
                p["trim-first"] = self.small_length("1/4", 5)
            if paper.endswith("print") and self.chance(0.6):
                p["up"] = True
            out.append(p)
        return out

    def left_over(self, shared):
        out = f'unit = "{self.unit}"\n'
        for _ in range(self.rng.randint(1, 3)):
            size = self.rng.choice(["5 1/2 x 4 1/4", "3 x 8 1/2", "2 1/2 x 11"] if self.unit == "in" else
                                   ["105 x 148", "80 x 210", "60 x 297"])
            out += table("[[paper]]", {"name": self.rng.choice(shared), "sheet": size, "have": self.rng.randint(1, 3)}
                         | ({"grain": "long"} if self.along else {}))
        return out

    def card(self, papers):
        rng = self.rng
        fold = rng.choice(["side", "side", "side", "top", "gate", "z", "tri", "flat"])
        base = {"fold": fold, "front": rng.choice((LONG_FRONTS if fold in ("z", "tri") else FRONTS)[self.unit])}
        if self.chance(0.9):
            base["paper"] = papers[0]
        if fold in ("side", "top", "gate") and self.chance(0.4):
            base["cut-back"] = self.small_length("1/2", 12) if fold == "gate" else \
                self.small_length(rng.choice(["3/4", "1"]), rng.choice([15, 20]))
        face = "inside" if fold == "gate" else "front"
        if fold in ("side", "top") and self.chance(0.15):
            return self.text(base, self.behind_a_window(papers), papers)
        pieces = [("layer", {"name": self.new("mat"), "role": "mat", "on": face, "paper": papers[1],
                             "border": self.small_length("1/8", 3)})]
        mat = pieces[0][1]
        if self.chance(0.4):
            mat["hollow"] = True
        panel = {"name": self.new("panel"), "role": "panel", "on": mat["name"], "paper": papers[2],
                 "border": self.small_length("1/16", 2)}
        pieces.append(("layer", panel))
        if self.chance(0.25):
            pieces.append(("window", {"name": self.new("window"), "in": panel["name"],
                                      "size": by(*[self.small_length("1", 25)] * 2),
                                      "from-top": self.small_length("1/8", 3)}))
        tags = {"name": self.new("tag"), "on": panel["name"], "paper": rng.choice(papers), "align": "bottom",
                "border": "at least 0", "size": by(self.small_length("3/4", 20), self.small_length("1/2", 12))}
        pieces.append(("layer", tags))
        if self.chance(0.5):
            tags |= {"copies": 2, "columns": 2, "gap": self.small_length("1/8", 3)}
        if self.chance(0.4):
            tags["cut"] = rng.choice(["die", "by hand", "ready-made"])
        elif self.chance(0.3):
            tags["stamp-first"] = True
        if self.chance(0.3):
            tags["raised"] = self.small_length("1/16", 2)
        if self.chance(0.4) and fold != "flat":
            pieces.append(("layer", {"name": self.new("label"), "on": "back", "align": "bottom", "border": "at least 0",
                                     "size": by(self.small_length("2", 50), self.small_length("3/4", 20)),
                                     **({"paper": rng.choice(papers)} if self.chance(0.8) else {})}))
        if self.chance(0.2):
            pieces.append(("layer", {"name": self.new("stamp"), "on": "back" if fold == "flat" else "inside front"
                                     if fold != "gate" else "back", "stamped": True, "align": "top",
                                     "size": by(*[self.small_length("1/2", 12)] * 2), "border": "at least 0"}))
        return self.text(base, pieces, papers)

    def behind_a_window(self, papers):
        window = {"name": self.new("window"), "in": "front", "size": by(*[self.small_length("7/4", 45)] * 2)}
        view = {"name": self.new("panel"), "on": window["name"], "tuck": self.small_length("1/4", 6),
                "paper": papers[2]}
        label = {"name": self.new("label"), "on": "inside", "size": by(*[self.small_length("3/4", 20)] * 2),
                 "align": "bottom", "border": "at least 0", "paper": papers[0]}
        return [("window", window), ("layer", view), ("layer", label)]

    def text(self, base, pieces, papers):
        rng = self.rng
        cards = rng.choice([1, 4, 6, 10, 12, 20, 24])
        out = f'unit = "{self.unit}"\ncards = {cards}\n'
        if self.chance(0.3):
            out += f"spare = {rng.randint(1, 2)}\n"
        out += table("[base]", base) + "".join(table(f"[[{kind}]]", keys) for kind, keys in pieces)
        layers = [keys for kind, keys in pieces if kind == "layer" and "paper" in keys]
        if self.chance(0.35):
            first = rng.randint(1, cards)
            own = [{"name": self.new("crew"), "cards": first}]
            if cards > first and self.chance(0.4):
                own.append({"name": self.new("crew"), "cards": cards - first})
            for v in own:
                if self.chance(0.5):
                    v["set"] = {f"{rng.choice(layers)['name']}.paper": rng.choice(papers)}
                else:
                    v["without"] = [layers[-1]["name"]]
                out += table("[[variant]]", v)
        out += "".join(table("[[paper]]", p) for paper in papers for p in self.entries[paper])
        if self.chance(0.4):
            out += table("[[supply]]", {"name": self.new("ribbon"), "per-card": rng.choice([1, 2, Fraction(1, 2)])})
        return out


def whole(seed):
    return Whole(1_000_000 + seed).make(f"whole {seed}")
