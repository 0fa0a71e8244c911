"""Pieces drawn together: one inside another, windows, rows of siblings and what relates them. Lengths are in
marks."""
import math
from fractions import Fraction

from pieces import Pieces


class Arrangements(Pieces):
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
        elif self.chance(0.25):
            self.shared(on)
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

    def shared(self, on):
        """Two or three strips that share the length of what they are on, and seldom come out equal."""
        l, t, r, b = self.host_box(on)
        down, count = self.chance(0.5), self.rng.choice([2, 3])
        low, high = (t, b) if down else (l, r)
        gap, edge = Fraction(self.rng.randint(0, 2)), Fraction(self.rng.randint(0, 2))
        room = high - low - 2 * edge - gap * (count - 1)
        each = Fraction(math.floor(room / count))
        if each < 4 or len(self.pieces) + count > self.target + 1:
            return
        begin, end = ("top", "bottom") if down else ("left", "right")
        at = low + edge
        for i in range(count):
            to = at + each if i < count - 1 else low + edge + gap * (count - 1) + math.floor(room)
            q = self.new("layer", on, (l, at, r, to) if down else (at, t, to, b), role="strip")
            if self.chance(0.4):
                across = b - t if not down else r - l
                q.keys["height" if not down else "width"] = "at most " + self.say.length(math.ceil(across))
            if i:
                q.keys["below" if down else "right-of"] = self.pieces[-2].name
                self.named.add(self.pieces[-2].name)
                q.keys["gap"] = self.say.length(gap) if self.chance(0.7) else self.say.wish(gap)
            else:
                q.keys[f"from-{begin}"] = self.say.length(edge)
            if i == count - 1:
                rest = high - to
                q.keys[f"from-{end}"] = self.say.wish(rest) if self.chance(0.5) else \
                    "at least " + self.say.length(edge)
            at = to + gap

    def relate(self, kids, down):
        for a, b in zip(kids, kids[1:]):
            gap = b.box[1] - a.box[3] if down else b.box[0] - a.box[2]
            exact = a.exact and b.exact
            first, second = (a, b) if self.chance(0.7) else (b, a)
            if self.chance(0.6) and ("gap" not in second.keys or "copies" in second.keys):
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
            unplaced = not a.keys.get("border") and not {"border", "align", "from-left"} & set(b.keys)
            left_a, left_b = (p.sides(self.host_box(p.on))["left"] for p in (a, b))
            if unplaced and left_a == left_b and self.chance(0.2):
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

    def frame(self, p):
        return "closed" if p.face in self.closed_faces else p.face

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

    def tucked(self):
        """A layer on the reveal that reaches under the front."""
        box = self.host_box("reveal")
        tuck = Fraction(2)
        past = {s: tuck if s in self.at_front else -1 for s in ("left", "top", "right", "bottom")}
        inner = (box[0] - past["left"], box[1] - past["top"], box[2] + past["right"], box[3] + past["bottom"])
        p = self.new("layer", "reveal", inner)
        p.keys["tuck"] = self.say.wish(tuck, about=False)
        p.plain = False
