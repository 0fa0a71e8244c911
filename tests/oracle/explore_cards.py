"""Cards made up from a seed that leave a few amounts open, and few enough cards to list: mats and panels on a front,
panels side by side, a strip on a reveal, sentiments, windows, versions, inches and millimetres."""
from fractions import Fraction

from cut_cards import Maker, by, said, toml

FRONTS = {"in": [("4", "5"), ("4 1/4", "5 1/2"), ("5", "7"), ("3 1/2", "4 7/8"), ("4", "9"), ("105 mm", "148 mm")],
          "mm": [("105", "148"), ("120", "120"), ("90", "130"), ("4 in", "5 in")]}
SHEETS = {"in": ["8 1/2 x 11", "12 x 12", "6 x 6", "9 x 12", "5 1/2 x 8 1/2", "us letter", "iso A4"],
          "mm": ["210 x 297", "305 x 305", "150 x 200", "iso A5", "us letter"]}


class Card(Maker):
    def __init__(self, seed):
        super().__init__(seed)
        rng = self.rng
        self.mark = Fraction(rng.choice(["1/16", "1/16", "1/8"])) if self.unit == "in" else Fraction(1)
        self.room = rng.choice([2, 3, 4])  # about how many values an amount has
        self.layers, self.windows, self.papers, self.rules, self.variants = [], [], [], [], []
        self.order = []
        self.top = {"unit": self.unit, "mark": self.mark, "cards": rng.randint(1, 9)}
        if self.chance(0.15):
            self.top["spare"] = rng.randint(1, 2)
        self.inch = 1 if self.unit == "in" else 25

    # --- lengths and wishes --------------------------------------------------------------------------
    def marks(self, low, high):
        return self.mark * self.rng.randint(low, high)

    def near(self, inches):
        """A length on marks."""
        return round(Fraction(inches) * self.inch / self.mark) * self.mark

    def span(self, low):
        return low, low + self.mark * self.rng.randint(1, self.room)

    def wish(self, low):
        """More than one value, the least about `low`."""
        a, b = self.span(low)
        pick = self.rng.random()
        if pick < 0.5:
            return f"{said(a)} to {said(b)}"
        if pick < 0.6:
            return f"at least {said(a)}, at most {said(b)}"
        if pick < 0.75:
            return f"{said(a)} to {said(b)}, about {said(self.rng.choice([a, b, a + self.mark]))}"
        if pick < 0.8:
            return f"about {said(a)}, at most {said(b)}"
        if pick < 0.87:
            return f"{said(a - self.mark / 2)} to {said(b + self.mark / 2)}" if a > self.mark else f"at most {said(b)}"
        chosen = sorted({a, b, a + self.mark * self.rng.randint(1, 6)})
        return "one of " + ", ".join(map(said, chosen))

    def border(self, small=True):
        low = self.mark * self.rng.randint(0, 2) if small else self.near(self.rng.choice(["1/4", "1/2"]))
        pick = self.rng.random()
        if pick < 0.2:
            return low + self.mark
        if pick < 0.75:
            return self.wish(low)
        table = {"across": self.wish(low), "down": self.wish(low)}
        if pick < 0.85:
            return table
        if pick < 0.93:
            return {"left": self.wish(low), "right": low + self.mark, "down": low + self.mark}
        return {"across": low + self.mark, "top": self.wish(low), "bottom": low + 2 * self.mark}

    # --- parts ---------------------------------------------------------------------------------------
    def base(self, cut_back=False):
        w, h = self.rng.choice(FRONTS[self.unit])
        if cut_back:
            w, h = ("4 1/4", "5 1/2") if self.unit == "in" else ("105", "148")
        if self.chance(0.3):
            w, h = h, w
        fold = self.rng.choice(["side", "side", "top", "flat"]) if not cut_back else "side"
        self.bottom = {"fold": fold, "front": f"{w} x {h}"}
        if cut_back:
            self.bottom["cut-back"] = self.near("3/4") if self.chance(0.6) else self.wish(self.near("3/4"))
        if self.chance(0.5):
            self.bottom["paper"] = self.paper()

    def paper(self):
        rng = self.rng
        if self.papers and self.chance(0.35):
            return rng.choice(self.papers)["name"]
        p = {"name": self.new("paper"), "sheet": rng.choice(SHEETS[self.unit])}
        if self.chance(0.4):
            p["have"] = rng.randint(1, 4)
        if self.chance(0.25):
            p["thickness"] = Fraction(1, 100) if self.unit == "in" else Fraction(1, 4)
        if self.chance(0.1):
            p["up"] = True
        self.papers.append(p)
        return p["name"]

    def layer(self, role, on, keys):
        keys = {"name": self.new(role), "role": role, "on": on, **keys}
        if self.chance(0.75):
            keys["paper"] = self.paper()
        self.layers.append(keys)
        self.order.append(("layer", keys))
        return keys["name"]

    def stack(self, on="front"):
        """One thing on the other; what is on top."""
        for _ in range(self.rng.choice([1, 1, 2, 2, 3])):
            last, on = on, self.layer("mat", on, {"border": self.border()})
        if self.chance(0.12):  # one that states nothing
            keys = self.layers[-1]
            keys.pop("border")
            self.room = 2
        return on

    def side_by_side(self, on):
        rng, m = self.rng, self.mark
        edge, n = m * rng.randint(1, 3), rng.choice([2, 2, 3])
        across = self.chance(0.6)
        low, after, cross, extent = ("left", "right-of", "down", "width") if across else \
            ("top", "below", "across", "height")
        high = "right" if across else "bottom"
        names = []
        for i in range(n):
            keys = {"border": {cross: edge if self.chance(0.7) else self.wish(edge)}}
            if i == 0:
                keys["border"][low] = edge if self.chance(0.7) else self.wish(edge)
            else:
                keys[after] = names[-1]
                keys["gap"] = edge if self.chance(0.6) else self.wish(edge)
            if i == n - 1:
                keys["border"][high] = edge
            else:
                size = self.near(rng.choice(["3/4", "1"]))
                keys[extent] = size if self.chance(0.25) else self.wish(size)
            names.append(self.layer("panel", on, keys))
        a, b = rng.sample(names, 2)
        pick = rng.random()
        quoted = f"'{a}'" if self.chance(0.2) else a
        if pick < 0.2:
            self.rules.append(f"{quoted}.{extent} <= {b}.{extent} + {said(m * rng.randint(0, 3))}")
        elif pick < 0.3:
            self.rules.append(f"{names[0]}.{extent} + {names[1]}.{extent} >= {said(self.near('7/4'))}")
        elif pick < 0.4 and n == 3:
            self.rules.append(f"{names[0]}.{extent} = {names[1]}.{extent}")
        elif pick < 0.55:
            size = self.near("3/4")
            self.rules.append(f"{names[0]}.{extent} <= {said(size + m)} or {names[0]}.{extent} >= {said(size + 3 * m)}")
        elif pick < 0.65:
            self.rules.append(f"2 * {names[0]}.{extent} >= {names[1]}.{extent}")
        return names

    def strip(self):
        keys = {"border": "even"} if self.chance(0.7) else {"border": self.border()}
        if self.chance(0.8):
            keys["width"] = self.rng.choice([f"at least {said(self.near('1/2'))}", self.wish(self.near("3/8"))])
        return self.layer("strip", "reveal", keys)

    def sentiment(self, on):
        rng = self.rng
        art = self.near(rng.choice(["1", "5/4", "3/2"])), self.near(rng.choice(["3/8", "1/2"]))
        if self.chance(0.1):
            art = art[0] + self.mark / 2, art[1]
        keys = {"artwork": by(*art)}
        pick = rng.random()
        if pick < 0.6:
            keys["margin"] = self.wish(self.mark * rng.randint(0, 2))
        elif pick < 0.8:
            keys["margin"] = {"across": self.wish(self.mark), "down": self.mark * rng.randint(0, 2)}
        elif pick < 0.9:
            keys["margin"] = self.mark
        pick = rng.random()
        if pick < 0.3:
            keys["align"] = rng.choice(["left", "bottom", "centre", "top right"])
        elif pick < 0.45:
            keys["from-left"] = self.wish(self.near("1/4"))
        elif pick < 0.55:
            keys["border"] = f"at least {said(self.mark)}"
        return self.layer("sentiment", on, keys)

    def window(self, on):
        keys = {"name": self.new("window"), "in": on}
        pick = self.rng.random()
        if pick < 0.5:
            keys["frame"] = self.wish(self.near("1/2"))
        elif pick < 0.8:
            keys["frame"] = f"at least {said(self.near('1/2'))}"
            keys["width"] = self.wish(self.near("3/2"))
            keys["height"] = self.near("2")
        else:
            keys["size"] = by(self.near("3/2"), self.near("2"))
            keys["frame"] = f"at least {said(self.near('1/4'))}"
        self.order.append(("window", keys))
        if self.chance(0.5):
            self.layer("panel", keys["name"], {"border": self.wish(Fraction(0))})

    def sized(self, on):
        """One of a size, or of one of a few."""
        rng = self.rng
        keys = {"size": by(self.near(rng.choice(["1", "3/2"])), self.near("1"))}
        if self.chance(0.4):
            keys = {"width": self.wish(self.near("1")), "height": self.near("1"), "border": f"at least {said(self.mark)}"}
        elif self.chance(0.4):
            keys = {"width": f"one of {said(self.near('1'))}, {said(self.near('3/2'))}", "height": self.near("1")}
            if self.chance(0.5):
                keys["cut"] = "die"
        if self.chance(0.3):
            keys["from-top"] = self.wish(self.near("1/4"))
        return self.layer("image", on, keys)

    def variant(self):
        rng = self.rng
        free = [keys for keys in self.layers if "artwork" in keys or isinstance(keys.get("border"), Fraction)]
        v = {"name": self.new("version"), "cards": rng.randint(1, 2), "set": {}}
        self.top["cards"] += v["cards"]
        for keys in free[:2]:
            if "artwork" in keys:
                v["set"][f"{keys['name']}.artwork"] = by(self.near("3/4"), self.near("3/8"))
            else:
                v["set"][f"{keys['name']}.border"] = keys["border"] + self.mark * rng.randint(0, 2)
        on = {keys["on"] for _, keys in self.order if "on" in keys}
        named = " ".join(self.rules) + " ".join(str(v) for _, keys in self.order for k, v in keys.items() if k != "name")
        leaf = [keys["name"] for keys in self.layers if keys["name"] not in on and keys["name"] not in named]
        if leaf and self.chance(0.3) and len(self.layers) > 1:
            v["without"] = [leaf[-1]]
            v["set"] = {k: x for k, x in v["set"].items() if not k.startswith(leaf[-1] + ".")}
        if self.chance(0.3) and self.layers and "paper" in self.layers[0]:
            v["set"][f"{self.layers[0]['name']}.paper"] = self.paper()
        self.variants.append(v)

    # --- whole ---------------------------------------------------------------------------------------
    def make(self):
        rng = self.rng
        pick = self.rng.random()
        self.base(0.35 < pick < 0.5)
        if pick < 0.2:
            top = self.stack()
        elif pick < 0.35:
            self.side_by_side("front" if self.chance(0.4) else self.stack())
            top = None
        elif pick < 0.5:
            self.strip()
            top = self.stack() if self.chance(0.4) else None
        elif pick < 0.65:
            self.room = 2
            self.sentiment("front" if self.chance(0.3) else self.stack())
            top = None
        elif pick < 0.75:
            self.window("front" if self.chance(0.6) else self.stack())
            top = None
        elif pick < 0.9:
            self.sized("front" if self.chance(0.4) else self.stack())
            top = None
        else:
            self.room = 2
            self.side_by_side(self.stack())
            top = self.layers[-1]["name"]
        if top and self.chance(0.4):
            self.layer("panel", top, {"border": self.border()})
        if self.chance(0.2):
            self.variant()
        if self.papers and self.chance(0.25):  # too little paper, perhaps
            self.top["cards"] += rng.randint(2, 8)
            for p in self.papers:
                p["have"] = 1
        if self.papers and self.chance(0.2):
            for p in self.papers:
                p["cost"] = self.rng.randint(1, 5)
        return self.text()

    def text(self):
        rng = self.rng
        top = dict(self.top)
        if self.rules:
            top["rules"] = self.rules
        out = ["# " + rng.choice(["for the fair", "as agreed", "first try = best", "sizes: see below"])]
        out += self.keys(top) + self.table("[base]", self.bottom)
        for kind, keys in self.order:
            out += self.table(f"[[{kind}]]", keys)
        for p in self.papers:
            out += self.table("[[paper]]", p)
        for v in self.variants:
            out += self.table("[[variant]]", v)
        if rng.random() < 0.3:
            out += ["# the end"]
        return "\n".join(out) + "\n"

    def table(self, head, keys):
        return ["", head] + self.keys(keys)

    def keys(self, keys):
        out = []
        for key, value in keys.items():
            line = f"{key} = {toml(value)}"
            if self.chance(0.08):
                line += f"   # {self.rng.choice(['not sure', 'keep', 'border = wide?', 'as the first'])}"
            elif self.chance(0.04):
                out.append(f"# {self.rng.choice(['measured twice', 'width = 3 was too wide', 'ask about this'])}")
            out.append(line)
        return out


def generate(seed):
    return Card(seed).make()
