"""Card files of real folds, made up from a seed: every fold, unequal leaves, unusual openings, cut-backs, windows in
leaves and layers, what lies behind them, tilted things with things on them, papers with weight and thickness, limits.
Drawn first and described afterwards, as in cards.py. `generate(seed)` gives the text."""
import math
from fractions import Fraction
from types import SimpleNamespace

import folds
from cards import Maker

OPENINGS = {"flat": [None], "side": [None, None, "left"], "top": [None, None, "top"], "gate": [None, None, "top"],
            "tri": [None, "right", "left", "bottom", "top"], "z": [None, "left", "right", "top", "bottom"]}
PAPERS = ["ivory", "plum card", "thin print"]


class RealMaker(Maker):
    most = [2, 3, 3, 4, 4, 5, 6]  # pieces, one of these
    folds = ["flat", "side", "side", "top", "gate", "gate", "gate", "z", "z", "tri", "tri"]

    # --- base ----------------------------------------------------------------------------------------
    def base(self):
        rng = self.rng
        sizes = [("11/2", "17/4"), ("17/4", "11/2"), (5, 5), (5, 7), (4, 9)] if self.unit == "in" else \
            [(148, 105), (105, 148), (120, 120), (99, 210)]
        self.w, self.h = (Fraction(s) / self.mark for s in rng.choice(sizes))
        opens = rng.choice(OPENINGS[self.fold])
        self.keys = {"fold": self.fold, "front": self.say.size(self.w, self.h)}
        if opens:
            self.keys["opens"] = opens
        opens = opens or folds.USUAL_OPENING.get(self.fold)
        across = folds.folds_across(self.fold, opens)
        self.tables = {}
        self.papers()
        v = SimpleNamespace(fold=self.fold, front=(self.w, self.h), opens=opens, across=across, leaves=[], trimmed=None,
                            doors=self.allowed("doors", 1), flap=self.allowed("flap", rng.randint(1, 3)))
        self.allowed("fold", Fraction(1, 2), 0.15)
        if self.chance(0.4):
            self.unequal(v)
        if self.chance(0.35):
            self.trim(v)
        self.faces_of(v)

    def allowed(self, what, usual, chance=0.7):
        """Something that the trade leaves: mostly stated in whole marks, so that what is drawn stays on them."""
        if not self.chance(chance):
            return self.usual_allowance(what)
        self.tables.setdefault("allowance", {})[what] = self.say.length(usual)
        return Fraction(usual)

    def usual_allowance(self, what):
        inch = self.unit == "in"
        usual = {"doors": Fraction(1, 16) if inch else Fraction(1), "flap": Fraction(1, 16) if inch else Fraction(2)}
        return max(usual.get(what, Fraction(0)), 2 * self.base_thickness) / self.mark

    def unequal(self, v):
        """Leaves of stated lengths that close to the front."""
        rng, whole = self.rng, v.front[0 if v.across else 1]

        def part(low, high):
            return Fraction(math.floor(whole * rng.randint(low, high) / 12))

        short = part(5, 9)
        n = {"side": rng.choice([[short, whole], [whole, short]]), "top": [short, whole], "z": [short, short, whole],
             "gate": [part(2, 5), whole, part(3, 6)], "tri": [rng.choice([whole, part(6, 9)]), whole, part(5, 11)]}
        if self.fold == "tri" and self.chance(0.3):
            n["tri"] = [whole, part(7, 10), part(5, 6)]  # the page is shorter than the front
        n["z"] = rng.choice([n["z"], [short, whole, whole], [whole, whole, short]])
        if self.fold not in n:
            return
        v.leaves = n[self.fold]
        usual_way = v.opens in folds.HIGH if self.fold != "z" else v.opens not in folds.HIGH
        if self.fold != "gate" and not usual_way:
            v.leaves.reverse()
        said = [self.say.length(part) for part in v.leaves]
        self.keys["leaves"] = ", ".join(said)

    def trim(self, v):
        rng = self.rng
        if self.fold == "flat" or self.fold == "z" and v.leaves:
            return
        edge = v.opens
        if not v.leaves and self.fold != "gate" and self.chance(0.2):
            edge = rng.choice(["top", "bottom"] if v.across else ["left", "right"])
        v.trimmed = edge
        fronts = [f.box for f in folds.faces(v, *v.front) if f.trimmed and f.frame == folds.CLOSED]
        i = 0 if edge in ("left", "right") else 1
        extent = min(box[i + 2] - box[i] for box in fronts)
        self.cut = Fraction(math.floor(extent / rng.choice([3, 4, 5])))
        wish = self.say.length(self.cut) if self.fold == "gate" or self.chance(0.6) else \
            self.say.wish(self.cut, loose=0.8)
        self.keys["cut-back"] = wish if edge == v.opens else {"edge": edge, "by": wish}

    def faces_of(self, v):
        rng = self.rng
        cut = self.cut if v.trimmed else 0
        faces = folds.faces(v, *v.front)
        self.hosts = {f.name: folds.cut_face(f.box, f.trimmed, cut) if f.trimmed else f.box for f in faces}
        self.page = {f.name: folds.behind(v, f.name) for f in faces}
        self.closed_faces = {f.name for f in faces if f.frame == folds.CLOSED}
        if self.fold == "gate":
            gone = rng.choice([{"left front", "right front", "top front", "bottom front"}, {"front"}, set()])
            self.hosts = {name: box for name, box in self.hosts.items() if name not in gone}
        opening = folds.reveal(v, *v.front, cut)
        if opening:
            self.hosts["reveal"], self.at_front, self.page["reveal"] = opening
        along = sum(folds.lengths(v, v.front[0 if v.across else 1]))
        if self.fold != "flat" and self.chance(0.15):
            self.keys["scores"] = [self.say.length(Fraction(math.floor(along / 7)))]

    def papers(self):
        rng, self.base_thickness = self.rng, Fraction(0)
        entries = []
        for name in PAPERS:
            points = rng.choice([8, 10, 12, 14])
            inches = Fraction(points, 1000)
            value = inches if self.unit == "in" else inches * Fraction(254, 10)
            p = {"name": name, "sheet": rng.choice(["24 in x 36 in", "700 mm x 1000 mm"]), "have": 50,
                 "weight": rng.choice(["80 lb cover", "65 lb cover", "110 lb index", "216 gsm", "24 lb bond",
                                       "100 lb text"]),
                 "thickness": rng.choice([f"{points} pt", f"0.{points:03} in"])}
            if self.chance(0.15):
                entries.append({"name": name, "sheet": "iso A1", "have": 1})
            if self.chance(0.1):
                del p[rng.choice(["weight", "thickness"])]
            entries.append(p)
            if name == "ivory" and "thickness" in p:
                self.base_thickness = value
        self.entries = entries
        if self.chance(0.85):
            self.keys["paper"] = "ivory"
        else:
            self.base_thickness = Fraction(0)

    # --- pieces --------------------------------------------------------------------------------------
    def fill(self, on, depth=0):
        super().fill(on, depth)
        through = on in self.closed_faces and self.page[on] != on and on in self.hosts
        if depth == 0 and through and self.chance(0.4):
            self.window(on, self.host_box(on))

    def tilted(self, on, cell):
        p = super().tilted(on, cell)
        if p is None or p.art is not None or min(p.size) < 6 or self.full() or not self.chance(0.5):
            return p
        # On it as it is cut, before it is turned.
        l, t = p.box[:2]
        self.boxes[p.name] = (l, t, l + p.size[0], t + p.size[1])
        q = self.new("window" if self.chance(0.2) else "layer", p.name,
                     (l + 1, t + 2, l + p.size[0] - 1, t + p.size[1] - 1))
        q.plain = q.exact = False
        q.keys["size"] = self.say.size(*q.size)
        if self.chance(0.5):
            q.keys["from-top"] = self.say.length(2)
        return p

    def finish(self):
        """Papers, foam and what is to be seen."""
        rng = self.rng
        self.tables["limit"] = {}
        sizes = {"in": ["1/16", "1/32", "0.04"], "mm": ["1", "2", "1.5"]}[self.unit]
        for p in self.pieces:
            if p.kind == "window" or p.keys.get("stamped"):
                continue
            if self.chance(0.8):
                p.keys["paper"] = rng.choice(PAPERS)
            if self.chance(0.2):
                p.keys["raised"] = rng.choice(sizes)
            if self.chance(0.15):
                p.keys["adhesive"] = {"in": "0.005", "mm": "0.1"}[self.unit]
            if self.chance(0.07) and not any(q.on == p.name for q in self.pieces):
                p.keys["show"] = "all"
            elif self.chance(0.05):
                p.keys["show"] = "at least " + rng.choice(["1/10", "1/4", "1/2"])
        if self.seed % 3 == 0:
            leaves = {"flat": 1, "side": 2, "top": 2, "gate": 2}.get(self.fold, 3)
            more = rng.choice([1, 2, 2, 3, 4, 5, 8]) * Fraction(1, 80) + rng.choice([0, 0, Fraction(1, 16)])
            least = leaves * self.base_thickness + (more if self.unit == "in" else more * Fraction(254, 10))
            self.tables["limit"]["thickness"] = f"{float(least):.4f}"
        if self.chance(0.5):
            self.tables["mail"] = {"envelope": rng.choice(["us A2", "iso C6", "us A7", "iso DL", "iso C5"])}

    def fault(self):
        if "leaves" not in self.keys:  # they would no longer close to another front
            super().fault()

    def make(self, faulty):
        self.seed = self.rng.randrange(3)
        return super().make(faulty)

    def text(self, variants):
        self.finish()
        out = super().text(variants)
        for name, table in self.tables.items():
            if table:
                out += f"\n[{name}]\n" + "".join(f"{k} = {self.say.toml(v)}\n" for k, v in table.items())
        for p in self.entries:
            out += "\n[[paper]]\n" + "".join(f"{k} = {self.say.toml(v)}\n" for k, v in p.items())
        return out


def generate(seed):
    return RealMaker(100_000 + seed).make(faulty=seed % 10 == 7)
