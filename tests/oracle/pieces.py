"""One piece drawn somewhere on what it is on, and described by wishes that the drawing satisfies. Lengths are in
marks."""
import math
from fractions import Fraction

NOUNS = "heron fern plum tide clay ember moss cedar pebble lark ochre slate reed dune maple frost".split()
KINDS = {"mat": "mat", "panel": "panel", "strip": "strip", "sentiment": "note", "image": "tag"}


class Drawn:
    """A piece with the rectangle it is drawn at: its cut size, and its box (of all its copies) on its face."""

    def __init__(self, kind, name, on, box, size, face):
        self.kind, self.name, self.on, self.box, self.size, self.face = kind, name, on, box, size, face
        self.keys = {}
        self.plain = True  # square on its face, one of it: others may sit on it
        self.exact = True  # its box has no rounding in it
        self.low = None  # the border's least amount, where it has one
        self.art = None  # artwork's distances to the edges: left, right, top, bottom

    def sides(self, host):
        l, t, r, b = self.box
        return {"left": l - host[0], "top": t - host[1], "right": host[2] - r, "bottom": host[3] - b}


class Pieces:
    """Draws pieces. `pieces` are those drawn so far, `boxes` their rectangles by name, `hosts` those of the faces;
    `named` are the pieces that something refers to, so that no variant leaves them out."""

    rng = say = fold = hosts = None
    target = 0  # how many pieces are wanted
    page = {"reveal": "inside", "front": "inside"}  # what is seen through an opening in a face
    closed_faces = ("front", "inside")  # which share a frame

    def __init__(self):
        self.pieces, self.boxes, self.used, self.named = [], {}, set(), set()

    def chance(self, p):
        return self.rng.random() < p

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
        face = on if host is None else host.face
        if on == "reveal" or host and host.kind == "window" and host.on in self.hosts:
            face = self.page.get("reveal" if on == "reveal" else host.on, face)
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
            elif not isinstance(p.keys["border"], dict) and self.chance(0.4):
                self.align(p, sides)
        elif how < 0.8 and p.exact and not p.on == "reveal":
            p.keys["overhang"] = "at most " + self.say.length(2)

    def around(self, p, sides):
        """A border wish for all sides at once."""
        if p.exact and len(set(sides.values())) == 1:
            return self.say.wish(sides["left"])
        low = math.floor(max(min(sides.values()) - self.rng.choice([0, 0, 1]), 0))
        text = "at least " + self.say.length(low)
        p.low = Fraction(low)
        if p.exact and self.chance(0.2):
            return f"{self.say.length(low)} to {self.say.length(max(sides.values()) + 1)}"
        return text + f", about {self.say.length(low + 2)}" if self.chance(0.3) else text

    def loosely(self, p, value, least=False):
        """A wish for a distance; where the drawing is rounded, only one that leaves room."""
        return self.say.wish(value, least=least) if p.exact else "at least " + self.say.length(math.floor(value))

    def align(self, p, sides):
        words = []
        border = p.keys.get("border")
        if border is not None and p.low is None:
            return
        least = p.low or 0
        for low, high in (("left", "right"), ("top", "bottom")):
            if sides[low] == sides[high] and p.exact:
                words.append("centre across" if low == "left" else "centre down")
            elif sides[low] == least:
                words.append(low)
            elif sides[high] == least:
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
        self.some_artwork(p, w, h)
        self.wish_place(p)
        return p

    def some_artwork(self, p, w, h):
        """Artwork on a piece that is tilted or one of several."""
        if min(w, h) > 3 and self.chance(0.2):
            p.keys["artwork"] = self.say.size(w - 2, h - 3)
            p.art = (Fraction(1), Fraction(1), Fraction(3, 2), Fraction(3, 2))
            p.keys["margin"] = "at least " + self.say.length(1)

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
        self.some_artwork(p, w, h)
        if self.chance(0.6):
            self.wish_place(p)
        return p
