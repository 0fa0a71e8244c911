"""Small card files, made up from a seed. Each is drawn first (every piece gets a rectangle that fits) and then
described by wishes that the drawing satisfies, so it can be built; some get one fault put in afterwards.

Lengths inside are in marks. `generate(seed)` gives the text; `coverage(text)` names the wishes it uses."""
import math
import random
import re
from fractions import Fraction

from words import Speller

NOUNS = "heron fern plum tide clay ember moss cedar pebble lark ochre slate reed dune maple frost".split()
KINDS = {"mat": "mat", "panel": "panel", "strip": "strip", "sentiment": "note", "image": "tag"}


class Drawn:
    """A piece with the rectangle it is drawn at: its cut size, and its box (of all its copies) on its face."""

    def __init__(self, kind, name, on, box, size, face):
        self.kind, self.name, self.on, self.box, self.size, self.face = kind, name, on, box, size, face
        self.keys = {}
        self.plain = True  # square on its face, one of it: others may sit on it
        self.exact = True  # its box has no rounding in it
        self.art = None  # artwork's distances to the edges: left, right, top, bottom

    def sides(self, host):
        l, t, r, b = self.box
        return {"left": l - host[0], "top": t - host[1], "right": host[2] - r, "bottom": host[3] - b}


class Maker:
    def __init__(self, seed):
        self.rng = random.Random(seed)
        rng = self.rng
        self.unit, self.mark = rng.choice(
            [("in", Fraction(1, 16))] * 4 + [("in", Fraction(1, 8))] * 3 + [("in", Fraction(1, 32))]
            + [("mm", Fraction(1))] * 3 + [("mm", Fraction(1, 2))])
        self.say = Speller(rng, self.unit, self.mark)
        self.pieces, self.boxes, self.used, self.rules = [], {}, set(), []
        self.named = set()  # pieces that something refers to
        self.fold = rng.choice(["flat", "side", "side", "top"])
        self.target = rng.choice([2, 3, 4, 4, 5, 5, 6, 6, 7, 8, 10])
        self.base()

    def chance(self, p):
        return self.rng.random() < p

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
        self.toward_front = {"right": "left", "left": "right", "bottom": "top", "top": "bottom"}[edge]

    # --- pieces --------------------------------------------------------------------------------------
    def new(self, kind, on, box, size=None, role=None):
        role = role or self.rng.choice(list(KINDS))
        while True:
            name = self.rng.choice(NOUNS) + " " + ("opening" if kind == "window" else KINDS[role])
            if self.chance(0.1):
                name += f" {self.rng.randint(1, 9)}"
            if name not in self.used:
                break
        self.used.add(name)
        host = next((p for p in self.pieces if p.name == on), None)
        face = {"reveal": "inside"}.get(on, on) if host is None else host.face
        if host and host.kind == "window" and host.on == "front":
            face = "inside"
        p = Drawn(kind, name, on, box, size or (box[2] - box[0], box[3] - box[1]), face)
        if kind == "layer" and self.chance(0.7):
            p.keys["role"] = role
        self.pieces.append(p)
        self.boxes[name] = box
        return p

    def full(self):
        return len(self.pieces) >= self.target

    def host_box(self, on):
        return self.hosts.get(on) or self.boxes[on]

    def fill(self, on, depth=0):
        """Puts something on a face, layer, window or the reveal."""
        box = self.host_box(on)
        w, h = box[2] - box[0], box[3] - box[1]
        if self.full() or min(w, h) < 8:
            return
        kinds = ["nest"] * (5 if depth < 2 else 1) + ["row"] * (3 if min(w, h) > 14 else 0) + ["one", "one"]
        kind = self.rng.choice(kinds)
        if kind == "nest":
            p = self.nested(on)
            if p is not None and self.chance(0.15):
                self.windows(p)
            elif p is not None and self.chance(0.9):
                self.fill(p.name, depth + 1)
        elif kind == "one":
            self.cell(on, box)
        else:
            self.row(on)
        if depth == 0 and on == "front" and self.fold != "flat" and self.chance(0.2):
            self.window(on, box)

    def nested(self, on):
        """A layer that takes its size from its borders."""
        box = self.host_box(on)
        rng = self.rng
        b = rng.choice([1, 1, 2, 2, 3, 4])
        frac = (box[2] - box[0]) % 1
        if frac:
            b += frac / 2
        same = not frac or self.chance(0.5)
        sides = {s: Fraction(b) for s in ("left", "top", "right", "bottom")}
        if not same or self.chance(0.3):
            sides = {s: Fraction(rng.randint(0, 5)) for s in sides}
            sides["right"] += frac
            same = False
        inner = (box[0] + sides["left"], box[1] + sides["top"], box[2] - sides["right"], box[3] - sides["bottom"])
        if min(inner[2] - inner[0], inner[3] - inner[1]) < 4:
            return None
        p = self.new("layer", on, inner, role=rng.choice(["mat", "panel"]))
        style = rng.random()
        if (inner[3] - inner[1]) % 1 or (inner[2] - inner[0]) % 1:
            p.keys["cut"] = "die"
        like = [q for q in self.pieces[:-1] if q.plain and "border" in q.keys
                and q.sides(self.host_box(q.on)) == sides]
        if like and self.chance(0.3):
            p.keys["border"] = "same as " + like[-1].name
            self.named.add(like[-1].name)
        elif same and sides["left"] == sides["top"] and style < 0.55:
            p.keys["border"] = self.say.wish(sides["left"]) if self.chance(0.7) else \
                self.say.even(sides["left"])
        elif style < 0.65:
            if same and self.chance(0.6):
                p.keys["border"] = {"across": self.say.wish(sides["left"]), "down": self.say.wish(sides["top"])}
            else:
                p.keys["border"] = {s: self.say.wish(v) for s, v in sides.items() if self.chance(0.9)}
                if not p.keys["border"]:
                    del p.keys["border"]
        elif style < 0.75:
            p.keys.update({f"from-{s}": self.say.wish(v) for s, v in sides.items() if self.chance(0.8)})
        elif style < 0.85:
            pass  # no wish at all
        else:
            p.keys["border"] = self.around(p, sides)
            if self.chance(0.5):
                p.keys[rng.choice(["width", "height"])] = "at least " + self.say.length(4)
            if self.chance(0.4):
                p.keys["align"] = "centre"
                if not same:
                    del p.keys["align"]
        return p

    def windows(self, p):
        """One window in a layer, or two beside each other."""
        l, t, r, b = p.box
        if self.chance(0.5) or r - l < 20:
            self.window(p.name, p.box)
            return
        middle = math.floor((l + r) / 2)
        self.window(p.name, (l, t, middle, b))
        self.window(p.name, (middle, t, r, b))

    def window(self, on, room):
        """A window within a part of what it is in."""
        box = self.host_box(on)
        l, t, r, b = room
        taken = [p.box for p in self.pieces if p.on == on and p.kind == "layer"]
        if self.full() or taken and self.chance(0.5):
            return
        w, h = math.floor((r - l) / 2), math.floor((b - t) / 2)
        if min(w, h) < 6:
            return
        x, y = l + math.floor((r - l - w) / 2), t + math.floor((b - t - h) / 2)
        p = self.new("window", on, (x, y, x + w, y + h))
        sides = p.sides(box)
        if self.chance(0.6):
            p.keys["size"] = self.say.size(w, h)
            if self.chance(0.5):
                p.keys["from-top"] = self.say.wish(sides["top"])
        else:
            p.keys["frame"] = self.say.wish(min(sides.values()), least=True)
            if len(set(sides.values())) > 1 and not p.keys["frame"].startswith("at least"):
                p.keys["frame"] = "at least " + self.say.length(math.floor(min(sides.values())))
            if self.chance(0.5):
                p.keys["width"] = self.say.wish(Fraction(w))
        if self.full():
            return
        if self.chance(0.6):
            tuck = Fraction(self.rng.randint(1, 3))
            q = self.new("layer", p.name, (x - tuck, y - tuck, x + w + tuck, y + h + tuck), role="panel")
            q.keys["tuck"] = self.say.wish(tuck, about=False)
            q.plain = False
        else:
            self.fill(p.name, 2)

    # --- siblings ------------------------------------------------------------------------------------
    def row(self, on):
        box = self.host_box(on)
        rng = self.rng
        down = self.chance(0.6)
        low, high = (box[1], box[3]) if down else (box[0], box[2])
        count = rng.choice([2, 2, 3]) if high - low > 24 else 2
        gap = Fraction(rng.randint(0, 3))
        each = Fraction(math.floor((high - low - gap * (count + 1)) / count))
        if each < 5:
            return
        kids, at = [], low + gap
        for _ in range(count):
            if self.full():
                break
            cell = (box[0], at, box[2], at + each) if down else (at, box[1], at + each, box[3])
            kid = self.cell(on, cell, kids)
            at += each + gap
            if kid:
                kids.append(kid)
        self.relate(kids, down)
        if kids and not self.full() and self.chance(0.2):
            self.on_top(on, rng.choice(kids))
        for kid in kids:
            if kid.plain and kid.art is None and self.chance(0.35):
                self.fill(kid.name, 2)

    def relate(self, kids, down):
        for a, b in zip(kids, kids[1:]):
            gap = b.box[1] - a.box[3] if down else b.box[0] - a.box[2]
            exact = a.exact and b.exact
            if self.chance(0.6):
                first, second = (a, b) if self.chance(0.7) else (b, a)
                key = {(True, True): "below", (True, False): "above", (False, True): "right-of",
                       (False, False): "left-of"}[down, first is a]
                free = not any(k in second.keys for k in ("above", "below", "left-of", "right-of", "gap"))
                if "copies" in second.keys and gap != 1:
                    free = False
                second.keys[key] = first.name
                self.named.add(first.name)
                if self.chance(0.7) and free:
                    second.keys["gap"] = self.say.wish(gap) if exact else \
                        "at least " + self.say.length(math.floor(gap))
            elif self.chance(0.4):
                b.keys["clear-of"] = [a.name] if self.chance(0.7) else a.name
                self.named.add(a.name)
                if self.chance(0.7):
                    b.keys["clearance"] = self.say.wish(Fraction(math.floor(gap)), least=True, about=False)
            if not exact or a.art or b.art:
                continue
            for line, i in (("left", 0), ("top", 1), ("right", 2), ("bottom", 3)):
                if a.box[i] == b.box[i] and self.chance(0.25):
                    b.keys.setdefault("level-with", f"{line} of {a.name}")
                    self.named.add(a.name)
            for key, i in (("width", 0), ("height", 1)):
                if a.size[i] == b.size[i] and "size" not in b.keys and "ratio" not in b.keys and self.chance(0.6):
                    b.keys[key] = "same as " + a.name
                    self.named.add(a.name)
            if not a.keys.get("border") and not b.keys.get("border") and "align" not in b.keys and a.sides(self.host_box(a.on))["left"] == \
                    b.sides(self.host_box(b.on))["left"] and "from-left" not in b.keys and self.chance(0.2):
                b.keys["from-left"] = "same as " + a.name
                self.named.add(a.name)

    def on_top(self, on, under):
        """A sibling that lies over another."""
        if under.art is not None or not under.exact:
            return
        l, t, r, b = under.box
        if min(r - l, b - t) < 4:
            return
        box = (l, t, r - 2, b - 2)
        w, h = Fraction(math.floor(box[2] - l)), Fraction(math.floor(box[3] - t))
        p = self.new("layer", on, (l, t, l + w, t + h))
        p.keys["size"] = self.say.size(w, h)
        p.keys["over"] = [under.name]
        self.named.add(under.name)
        p.plain = False
        sides = p.sides(self.host_box(on))
        for s in ("left", "top"):
            if self.chance(0.5):
                p.keys[f"from-{s}"] = self.say.wish(sides[s])

    def cell(self, on, cell, before=()):
        """One piece somewhere in a part of what it is on."""
        w, h = cell[2] - cell[0], cell[3] - cell[1]
        if min(w, h) < 5 or self.full():
            return None
        pick = self.rng.random()
        if pick < 0.05 and min(w, h) >= 14:
            return self.words_and_tag(on, cell)
        if pick < 0.22:
            return self.artwork(on, cell)
        if pick < 0.34 and min(w, h) >= 8:
            return self.grid(on, cell)
        if pick < 0.50 and min(w, h) >= 8:
            return self.tilted(on, cell)
        return self.sized(on, cell, before)

    def spot(self, cell, w, h):
        """A corner for a w x h box in a cell: against an edge, in the middle, or anywhere on the marks."""
        x_room, y_room = cell[2] - cell[0] - w, cell[3] - cell[1] - h

        def along(room):
            return self.rng.choice([Fraction(0), room, room / 2, Fraction(self.rng.randint(0, math.floor(room)))])

        return cell[0] + along(x_room), cell[1] + along(y_room)

    def sized(self, on, cell, before):
        rng = self.rng
        w = Fraction(rng.randint(max(3, math.floor((cell[2] - cell[0]) / 3)), math.floor(cell[2] - cell[0])))
        h = Fraction(rng.randint(max(3, math.floor((cell[3] - cell[1]) / 3)), math.floor(cell[3] - cell[1])))
        if before and self.chance(0.5):
            kw, kh = before[-1].size
            w, h = (kw if kw <= cell[2] - cell[0] else w), (kh if kh <= cell[3] - cell[1] else h)
        x, y = self.spot(cell, w, h)
        p = self.new("layer", on, (x, y, x + w, y + h))
        if w % 1 or h % 1:
            p.keys["cut"] = "die"
        elif self.chance(0.2):
            p.keys["cut"] = rng.choice(["die", "by hand", "ready-made"])
        elif self.chance(0.07):
            p.keys["stamped"] = True
        self.wish_size(p, w, h)
        self.wish_place(p)
        return p

    def wish_size(self, p, w, h):
        how = self.rng.random()
        if how < 0.35:
            p.keys["size"] = self.say.size(w, h)
        elif how < 0.75:
            p.keys["width"], p.keys["height"] = self.say.wish(w), self.say.wish(h)
        elif how < 0.85:
            p.keys["ratio"] = f"{w.numerator * h.denominator}:{h.numerator * w.denominator}"
            if self.chance(0.5):
                p.keys["width"] = self.say.wish(w)
        elif how < 0.95:
            axis, value = self.rng.choice([("width", w), ("height", h)])
            p.keys[axis] = self.say.wish(value)

    def wish_place(self, p):
        sides = p.sides(self.host_box(p.on))
        how = self.rng.random()
        if how < 0.3:
            for axis in (("left", "right"), ("top", "bottom")):
                if self.chance(0.7):
                    s = self.rng.choice(axis)
                    p.keys[f"from-{s}"] = self.loosely(p, sides[s])
        elif how < 0.55:
            self.align(p, sides)
        elif how < 0.75:
            p.keys["border"] = self.around(p, sides) if self.chance(0.6) else \
                {s: self.loosely(p, v) for s, v in sides.items() if self.chance(0.4)}
            if not p.keys["border"]:
                del p.keys["border"]
            elif not isinstance(p.keys["border"], dict) and self.chance(0.25):
                self.align(p, sides)
        elif how < 0.8 and p.exact and not p.on == "reveal":
            p.keys["overhang"] = "at most " + self.say.length(2)

    def around(self, p, sides):
        """A border wish for all sides at once."""
        if p.exact and len(set(sides.values())) == 1:
            return self.say.wish(sides["left"])
        low = math.floor(max(min(sides.values()) - self.rng.choice([0, 0, 1]), 0))
        text = "at least " + self.say.length(low)
        if p.exact and self.chance(0.2):
            return f"{self.say.length(low)} to {self.say.length(max(sides.values()) + 1)}"
        return text + f", about {self.say.length(low + 2)}" if self.chance(0.3) else text

    def loosely(self, p, value, least=False):
        """A wish for a distance; where the drawing is rounded, only one that leaves room."""
        return self.say.wish(value, least=least) if p.exact else "at least " + self.say.length(math.floor(value))

    def align(self, p, sides):
        words = []
        border = p.keys.get("border")
        if border is not None and not (isinstance(border, str) and border.startswith("at least")):
            return
        least = min(sides.values()) if border is not None else 0
        for low, high in (("left", "right"), ("top", "bottom")):
            if sides[low] == sides[high] and p.exact:
                words.append("centre across" if low == "left" else "centre down")
            elif border is None and sides[low] == least:
                words.append(low)
            elif border is None and sides[high] == least:
                words.append(high)
        words = [w for w in words if self.chance(0.8)]
        if words == ["centre across", "centre down"] and self.chance(0.5):
            words = [self.rng.choice(["centre", "center"])]
        if words and (len(words) == 1 or not any("centre" in w for w in words)):
            p.keys["align"] = " ".join(words[::-1])

    def artwork(self, on, cell):
        rng = self.rng
        most_w, most_h = math.floor(cell[2] - cell[0]), math.floor(cell[3] - cell[1])
        w, h = rng.randint(5, most_w), rng.randint(5, max(5, most_h * 2 // 3))
        m = rng.choice([0, 1, 1, 2])
        part = rng.choice([Fraction(0), Fraction(0), Fraction(1, 2), Fraction(1, 4)])
        aw, ah = w - 2 * m - part, h - 2 * m - part
        if min(aw, ah) <= 0:
            return None
        x, y = self.spot(cell, w, h)
        p = self.new("layer", on, (x, y, x + w, y + h), role="sentiment")
        p.art = (m + part / 2, m + part / 2, m + part / 2, m + part / 2)
        p.keys["artwork"] = self.say.size(aw, ah)
        how = rng.random()
        if how < 0.6:
            p.keys["margin"] = self.say.wish(m + part / 2, least=True)
        elif how < 0.75:
            p.keys["margin"] = {s: self.say.wish(m + part / 2) for s in ("left", "top", "across", "down")
                                if self.chance(0.5)}
            if not p.keys["margin"]:
                del p.keys["margin"]
        elif how < 0.85:
            p.keys["margin"] = "even"
        elif how < 0.95 and any(q.art == p.art for q in self.pieces[:-1]):
            like = next(q for q in self.pieces if q.art == p.art)
            p.keys["margin"] = "same as " + like.name
            self.named.add(like.name)
        self.wish_place(p)
        return p

    def words_and_tag(self, on, cell):
        """A layer whose artwork keeps to one side, and something on the rest of it."""
        w, h = math.floor(cell[2] - cell[0]), math.floor(cell[3] - cell[1])
        x, y = self.spot(cell, w, h)
        p = self.new("layer", on, (x, y, x + w, y + h), role="sentiment")
        aw, ah = Fraction(w // 2 - 2), Fraction(h - 4)
        p.art = (Fraction(1), w - aw - 1, Fraction(2), Fraction(2))
        p.keys["artwork"] = self.say.size(aw, ah)
        p.keys["margin"] = {"left": self.say.wish(1)} if self.chance(0.6) else "at least 0"
        p.keys["size"] = self.say.size(w, h)
        tag_w, tag_h = Fraction(w - w // 2 - 1), Fraction(self.rng.randint(3, h))
        if self.full():
            return p
        left = x + w // 2
        if self.chance(0.7):
            q = self.new("layer", p.name, (left, y, left + tag_w, y + tag_h), role="image")
        else:
            q = self.new("layer", on, (left, y, left + tag_w, y + tag_h), role="image")
            q.keys["over"] = p.name
            self.named.add(p.name)
        q.plain = False
        q.keys["size"] = self.say.size(tag_w, tag_h)
        if self.chance(0.5):
            q.keys["from-top"] = self.say.wish(q.sides(self.host_box(q.on))["top"])
        return p

    def grid(self, on, cell):
        rng = self.rng
        w_room, h_room = math.floor(cell[2] - cell[0]), math.floor(cell[3] - cell[1])
        columns, rows = rng.randint(1, min(4, w_room // 4)), rng.randint(1, min(3, h_room // 4))
        copies = columns * rows - (rng.randint(0, columns - 1) if rows > 1 else 0)
        if copies < 2:
            return None
        gx, gy = Fraction(rng.randint(0, 2)), Fraction(rng.randint(0, 2))
        if self.chance(0.5):
            gy = gx
        w = Fraction(math.floor((w_room - gx * (columns - 1)) / columns))
        h = Fraction(math.floor((h_room - gy * (rows - 1)) / rows))
        if min(w, h) < 2:
            return None
        w, h = Fraction(rng.randint(2, int(w))), Fraction(rng.randint(2, int(h)))
        gw, gh = columns * w + (columns - 1) * gx, rows * h + (rows - 1) * gy
        x, y = self.spot(cell, gw, gh)
        p = self.new("layer", on, (x, y, x + gw, y + gh), (w, h), role="image")
        p.plain = False
        p.keys["copies"] = copies
        if rows > 1 or self.chance(0.3):
            p.keys["columns"] = columns
        if gx == gy and self.chance(0.7):
            p.keys["gap"] = self.rng.choice(["even", self.say.wish(gx)])
        if self.chance(0.6):
            p.keys["size"] = self.say.size(w, h)
        else:
            self.wish_size(p, w, h)
        self.wish_place(p)
        return p

    def tilted(self, on, cell):
        rng = self.rng
        degrees = rng.choice([90, 90, 180, 270, 5, 5, 12, -7])
        cos, sin = abs(math.cos(math.radians(degrees))), abs(math.sin(math.radians(degrees)))
        for _ in range(8):
            w = Fraction(rng.randint(3, math.floor(max(cell[2] - cell[0], cell[3] - cell[1]))))
            h = Fraction(rng.randint(3, math.floor(max(cell[2] - cell[0], cell[3] - cell[1]))))
            if degrees % 90 == 0:
                bw, bh = (w, h) if degrees % 180 == 0 else (h, w)
            else:
                bw, bh = (Fraction(math.ceil((cos * float(a) + sin * float(b)) * 64 + 1), 64)
                          for a, b in ((w, h), (h, w)))
            if bw <= cell[2] - cell[0] and bh <= cell[3] - cell[1]:
                break
        else:
            return None
        x, y = self.spot(cell, bw, bh)
        p = self.new("layer", on, (x, y, x + bw, y + bh), (w, h), role="image")
        p.plain, p.exact = False, degrees % 90 == 0
        p.keys["tilt"] = degrees
        if p.exact:
            self.wish_size(p, w, h)
        else:
            p.keys["size"] = self.say.size(w, h)
        if self.chance(0.6):
            self.wish_place(p)
        return p

    # --- rules, variants, faults ---------------------------------------------------------------------
    def frame(self, p):
        return "closed" if p.face in ("front", "inside") else p.face

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

    def far_relations(self):
        """Pieces on different things that are level, in line with, or clear of each other."""
        for b in self.pieces:
            if not b.exact or not b.plain or b.art or not self.chance(0.25):
                continue
            for a in self.pieces[:self.pieces.index(b)]:
                if not a.exact or a.on == b.on or self.frame(a) != self.frame(b) or a.name == b.on or \
                        any(k in b.keys for k in ("level-with", "align", "clear-of")):
                    continue
                level = [line for line, i in (("left", 0), ("top", 1), ("right", 2), ("bottom", 3))
                         if a.box[i] == b.box[i]]
                if level:
                    b.keys["level-with"] = f"{self.rng.choice(level)} of {a.name}"
                elif a.box[2] < b.box[0] or a.box[3] < b.box[1]:
                    b.keys["clear-of"] = [a.name]
                else:
                    continue
                self.named.add(a.name)
                break

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
        if isinstance(p.keys.get("border"), str):
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
        kind = rng.randrange(6)
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
        elif kind == 4:
            q = rng.choice(self.pieces)
            self.named |= {p.name, q.name}
            self.rules.append(f"{p.name}.width >= {q.name}.width + {self.say.length(math.ceil(self.w), plain=True)}")
        else:
            a, b = self.rng.sample(["left", "right", "top", "bottom"], 2)
            p.keys["border"] = {a: self.say.length(math.ceil(w / 2)), b: self.say.length(math.ceil(h / 2) + 1)}
            p.keys.setdefault("width", "at least " + self.say.length(math.ceil(w / 2) + 1))

    def make(self, faulty):
        starts = ["front", "front", "front"] + [f for f in self.hosts if f != "front"]
        for on in ["front"] + self.rng.sample(starts, len(starts)):
            if not self.full() and not any(p.on == on for p in self.pieces):
                if on == "reveal" and self.chance(0.25):
                    self.tucked()
                else:
                    self.fill(on)
        if not self.pieces:
            self.nested("front")
        self.far_relations()
        self.add_rules()
        if faulty:
            self.fault()
        return self.text(self.variants())

    def tucked(self):
        """A layer on the reveal that reaches under the front."""
        box = self.host_box("reveal")
        tuck = Fraction(2)
        l, t, r, b = box
        inner = {"left": (l - tuck, t + 1, r - 1, b - 1), "right": (l + 1, t + 1, r + tuck, b - 1),
                 "top": (l + 1, t - tuck, r - 1, b - 1), "bottom": (l + 1, t + 1, r - 1, b + tuck)}[self.toward_front]
        p = self.new("layer", "reveal", inner)
        p.keys["tuck"] = self.say.wish(tuck, about=False)
        p.plain = False

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
    """A card file's text; about three in ten have a fault put in."""
    return Maker(seed).make(faulty=seed % 10 in (2, 5, 8))


PATTERNS = {
    "flat": r'fold = "flat"', "side": r'fold = "side"', "top": r'fold = "top"', "cut-back exact": r'cut-back = "\d',
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
