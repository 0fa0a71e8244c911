"""Small card files, made up from a seed. Each is drawn first (every piece gets a rectangle that fits) and then
described by wishes that the drawing satisfies, so it can be built; some get one fault put in afterwards.

Lengths inside are in marks. `generate(seed)` gives the text; `coverage(text)` names the wishes it uses."""
import math
import random
import re
from fractions import Fraction

from arrangements import Arrangements
from boxes import opposite
from words import Speller


class Maker(Arrangements):
    folds = ["flat", "side", "side", "top"]
    most = [2, 3, 4, 4, 5, 5, 6, 6, 7, 8, 10]  # pieces, one of these

    def __init__(self, seed):
        super().__init__()
        self.rng = random.Random(seed)
        rng = self.rng
        self.unit, self.mark = rng.choice(
            [("in", Fraction(1, 16))] * 4 + [("in", Fraction(1, 8))] * 3 + [("in", Fraction(1, 32))]
            + [("mm", Fraction(1))] * 3 + [("mm", Fraction(1, 2))])
        self.say = Speller(rng, self.unit, self.mark)
        self.rules = []
        self.fold = rng.choice(self.folds)
        self.target = rng.choice(self.most)
        self.base()

    # --- base ----------------------------------------------------------------------------------------
    def base(self):
        rng = self.rng
        per = 1 / self.mark
        sizes = [(4, 6), ("17/4", "11/2"), (5, 5), (5, 7), ("7/2", 5)] if self.unit == "in" else \
            [(100, 140), (105, 148), (120, 120), (95, 130)]
        self.w, self.h = (Fraction(s) * per for s in rng.choice(sizes))
        if self.chance(0.08):
            self.w += Fraction(1, 2)
        elif self.chance(0.05):
            self.w += Fraction(1, 3)
        self.keys = {"fold": self.fold, "front": self.say.size(self.w, self.h)}
        if self.unit == "in" and (self.w * self.mark, self.h * self.mark) == (Fraction(17, 4), Fraction(11, 2)) \
                and self.chance(0.4):
            self.keys["front"] = "us A2"
        if (self.w, self.h, self.unit) == (105 * per, 148 * per, "mm") and self.chance(0.5):
            self.keys["front"] = "iso A6"
        whole = (Fraction(0), Fraction(0), self.w, self.h)
        self.hosts = {"front": whole, "back": whole}
        if self.fold != "flat":
            self.hosts["inside"] = self.hosts["inside front"] = whole
            if self.chance(0.1):
                self.keys["opens"] = "left" if self.fold == "side" else "top"
            if self.chance(0.35):
                self.cut_back()

    def cut_back(self):
        free = self.keys.get("opens", "right" if self.fold == "side" else "bottom")
        edge = free
        if self.chance(0.15):
            edge = self.rng.choice(["bottom", "top"] if self.fold == "side" else ["left", "right"])
        extent = self.w if edge in ("left", "right") else self.h
        cut = Fraction(math.floor(extent / self.rng.choice([3, 4, 5])))
        wish = self.say.length(cut) if self.chance(0.5) else self.say.wish(cut, loose=0.8)
        self.keys["cut-back"] = wish if edge == free and self.chance(0.8) else {"edge": edge, "by": wish}
        w, h = self.w, self.h
        self.hosts["front"] = {"right": (0, 0, w - cut, h), "left": (cut, 0, w, h), "bottom": (0, 0, w, h - cut),
                               "top": (0, cut, w, h)}[edge]
        self.hosts["reveal"] = {"right": (w - cut, 0, w, h), "left": (0, 0, cut, h), "bottom": (0, h - cut, w, h),
                                "top": (0, 0, w, cut)}[edge]
        del self.hosts["inside front"]
        self.at_front = (opposite(edge),)

    # --- rules, variants, faults ---------------------------------------------------------------------
    def rule(self):
        rng = self.rng
        known = [p for p in self.pieces if p.exact]
        if not known:
            return None
        a = rng.choice(known)
        others = [p for p in known if self.frame(p) == self.frame(a)]
        b = rng.choice(others)
        self.named |= {a.name, b.name}

        def value(p, line):
            l, t, r, bottom = p.box
            return {"left": l, "right": r, "top": t, "bottom": bottom, "width": p.size[0], "height": p.size[1],
                    "centre-across": (l + r) / 2, "centre-down": (t + bottom) / 2}[line]

        def name(p, line):
            return (f"'{p.name}'" if self.chance(0.2) else p.name) + "." + line

        if self.chance(0.4):
            lines = ["width", "height"]
        else:
            lines = rng.choice([["left", "right", "centre-across"], ["top", "bottom", "centre-down"]])
        x, y = rng.choice(lines), rng.choice(lines)
        factor = rng.choice([1, 1, 1, 2, 3])
        left = (f"{factor} * " if factor > 1 else "") + name(a, x)
        difference = factor * value(a, x) - value(b, y)
        if difference == 0 and self.chance(0.6) and (a, x) != (b, y):
            return f"{left} = {name(b, y)}"
        op, slack = rng.choice([("<=", math.ceil(difference) + rng.randint(0, 2)),
                                (">=", math.floor(difference) - rng.randint(0, 2))])
        tail = "" if slack == 0 else f" {'+' if slack > 0 else '-'} {self.say.length(abs(slack), plain=True)}"
        return f"{left} {op} {name(b, y)}{tail}"

    def add_rules(self):
        for _ in range(self.rng.choice([0, 0, 1, 1, 2])):
            first = self.rule()
            if first is None:
                return
            if self.chance(0.2):
                first += " and " + self.rule()
            if self.chance(0.25):
                other = self.rule().replace("<=", "≤").replace(">=", "<=").replace("≤", ">=")
                first = " or ".join(self.rng.sample([first, other], 2))
            self.rules.append(first)

    def variants(self):
        out = []
        if not self.chance(0.3):
            return out
        for i in range(self.rng.choice([1, 1, 2])):
            v = {"name": f"for table {i + 1}", "cards": self.rng.randint(1, 3)}
            changes = {}
            for p in self.rng.sample(self.pieces, min(2, len(self.pieces))):
                self.change(p, changes)
            if changes:
                v["set"] = changes
            leaves = [p for p in self.pieces if p.name not in self.named
                      and not any(q.on == p.name for q in self.pieces)
                      and not any(path.startswith(p.name + ".") for path in changes)]
            if leaves and len(self.pieces) > 2 and self.chance(0.4):
                v["without"] = [self.rng.choice(leaves).name]
            if len(v) > 2:
                out.append(v)
        return out

    def change(self, p, changes):
        """A wish of a piece said otherwise."""
        sides = p.sides(self.host_box(p.on))
        for key, value in (("width", p.size[0]), ("height", p.size[1]),
                           *((f"from-{s}", sides[s]) for s in ("left", "right", "top", "bottom"))):
            if key in p.keys and p.exact and self.chance(0.6):
                changes[f"{p.name}.{key}"] = self.say.wish(value)
                return
        if isinstance(p.keys.get("border"), str) and min(sides.values()) >= 0:
            changes[f"{p.name}.border"] = self.around(p, sides)
        elif "size" in p.keys and self.chance(0.6):
            changes[f"{p.name}.size"] = self.say.size(max(p.size[0] - 2, 1), max(p.size[1] - 1, 1))
        elif "artwork" in p.keys:
            changes[f"{p.name}.artwork"] = self.say.size(Fraction(3, 2), Fraction(2))

    def fault(self):
        """One thing that probably cannot be."""
        rng, p = self.rng, self.rng.choice([p for p in self.pieces if p.kind == "layer"])
        box = self.host_box(p.on)
        w, h = box[2] - box[0], box[3] - box[1]
        kind = rng.randrange(8)
        if kind == 0:
            p.keys.pop("width", None), p.keys.pop("height", None)
            p.keys["size"] = self.say.size(w + 2, h)
        elif kind == 1:
            p.keys["width"] = self.say.length(p.size[0] + Fraction(1, 3))
        elif kind == 2:
            p.keys["border"] = "at least " + self.say.length(math.ceil(min(w, h) / 2) + 1)
        elif kind == 3:
            side = rng.choice(["left", "right"])
            p.keys[f"from-{side}"] = "at least " + self.say.length(math.ceil(w))
        elif kind == 5:
            self.keys["front"] = self.say.size(self.w - rng.choice([0, 1]), self.h - 1)
        elif kind == 6:
            p.keys["height"] = self.say.length(p.size[1] + rng.choice([-1, 1]))
        elif kind == 4:
            q = rng.choice(self.pieces)
            self.named |= {p.name, q.name}
            self.rules.append(f"{p.name}.width >= {q.name}.width + {self.say.length(math.ceil(self.w), plain=True)}")
        else:
            a, b = self.rng.sample(["left", "right", "top", "bottom"], 2)
            p.keys["border"] = {a: self.say.length(math.ceil(w / 2)), b: self.say.length(math.ceil(h / 2) + 1)}
            p.keys.setdefault("width", "at least " + self.say.length(math.ceil(w / 2) + 1))

    def make(self, faulty):
        first = "front" if "front" in self.hosts else next(iter(self.hosts))
        starts = [first, first, first] + [f for f in self.hosts if f != first]
        for on in [first] + self.rng.sample(starts, len(starts)):
            if not self.full() and not any(p.on == on for p in self.pieces):
                if on == "reveal" and self.chance(0.25):
                    self.tucked()
                else:
                    self.fill(on)
        if not self.pieces:
            self.nested(first)
        self.far_relations()
        self.add_rules()
        if faulty:
            self.fault()
        return self.text(self.variants())

    def text(self, variants):
        say = self.say
        out = [f'unit = "{self.unit}"', f"mark = {say.toml(say.length(1))}",
               f"cards = {sum(v['cards'] for v in variants) + self.rng.randint(1, 9)}"]
        if self.rules:
            out.append("rules = [" + ", ".join(say.toml(r) for r in self.rules) + "]")
        out += ["", "[base]"] + [f"{k} = {say.toml(v)}" for k, v in self.keys.items()]
        for p in self.pieces:
            out += ["", f"[[{p.kind}]]", f"name = {say.toml(p.name)}",
                    f"{'in' if p.kind == 'window' else 'on'} = {say.toml(p.on)}"]
            out += [f"{k} = {say.toml(v)}" for k, v in p.keys.items()]
        for v in variants:
            out += ["", "[[variant]]"] + [f"{k} = {say.toml(value)}" for k, value in v.items()]
        return "\n".join(out) + "\n"


def generate(seed):
    """A card file's text; four in ten have a fault put in, which three do not survive."""
    return Maker(seed).make(faulty=seed % 10 in (2, 4, 5, 8))


PATTERNS = {
    "flat": r'fold = "flat"', "side": r'fold = "side"', "top": r'fold = "top"', "gate": r'fold = "gate"',
    "z": r'fold = "z"', "tri": r'fold = "tri"', "leaves": r"\nleaves =", "scores": r"\nscores =", "raised": r"\nraised",
    "adhesive": r"\nadhesive", "show all": r'show = "all"', "show a share": r'show = "at', "limit": r"\[limit\]",
    "mail": r"\[mail\]", "allowance": r"\[allowance\]", "cut-back exact": r'cut-back = "\d',
    "cut-back wished": r'cut-back = "[a-z]|by = "[a-z]|by = "[^"]* to ', "cut-back edge": r"edge = ",
    "reveal": r'on = "reveal"', "inside": r'on = "inside"', "back": r'on = "back"', "window": r"\[\[window\]\]",
    "window in a layer": r'\[\[window\]\]\nname = "[^"]*"\nin = "[^"]* ', "opens": r"\nopens =",
    "tuck": r"tuck", "frame": r"frame", "border exact": r'border = "?[\d.]', "border even": r'border = "even',
    "border table": r"border = \{", "about": r"about", "range": r'"[\d/ .]+ to [\d/ .]+', "one of": r"one of",
    "at least": r"at least", "at most": r"at most", "same as": r"same as", "size": r"\nsize =",
    "ratio": r"ratio", "artwork": r"artwork", "margin": r"margin", "align": r"align", "from-*": r"from-",
    "beside": r"\n(above|below|left-of|right-of) =", "gap": r"\ngap", "gap even": r'gap = "even"',
    "level-with": r"level-with", "clear-of": r"clear-of", "clearance": r"clearance", "over": r"\nover =",
    "overhang": r"overhang", "copies": r"copies", "columns": r"columns", "tilt": r"tilt",
    "tilt by 5 or the like": r"tilt = -?(5|12|7)\b", "stamped": r"stamped", "die": r'"die"', "rules": r"rules",
    "and": r"rules.* and ", "or": r"rules.* or ", "variant": r"\[\[variant\]\]", "set": r"\nset =",
    "without": r"\nwithout =", "inches": r'unit = "in"', "mm": r'unit = "mm"', "other unit": r"\d (mm|in|cm)\b",
}


def coverage(text):
    return {name for name, pattern in PATTERNS.items() if re.search(pattern, text)}
