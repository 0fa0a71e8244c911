"""The faults that makers make, each as a few layers on one thing whose wishes do not go together, most of the time.
Lengths are in marks."""
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from pieces import KINDS, NOUNS


@dataclass
class Axis:
    extent: Fraction
    size: str
    low: str
    high: str
    both: str
    after: str
    before: str
    other: str  # the other axis's size


def across(w):
    return Axis(w, "width", "left", "right", "across", "right-of", "left-of", "height")


def down(h):
    return Axis(h, "height", "top", "bottom", "down", "below", "above", "width")


class Faults:
    """`pieces`: (kind, keys) in file order."""

    rng = say = None

    def __init__(self):
        self.pieces, self.rules, self.used = [], [], set()

    def chance(self, p):
        return self.rng.random() < p

    def some(self, low, high):
        return Fraction(self.rng.randint(int(low), max(int(low), int(high))))

    def layer(self, on, role=None, kind="layer", **keys):
        role = role or self.rng.choice(list(KINDS))
        names = [f"{n} {'opening' if kind == 'window' else KINDS[role]}" for n in NOUNS]
        name = self.rng.choice([n for n in names if n not in self.used])
        self.used.add(name)
        own = {"name": name, "in" if kind == "window" else "on": on}
        if kind == "layer" and self.chance(0.7):
            own["role"] = role
        own.update({k.replace("_", "-"): v for k, v in keys.items()})
        self.pieces.append((kind, own))
        return own

    def axis(self, w, h):
        """One of the two, and how long the other is."""
        return self.rng.choice([(across(w), h), (down(h), w)])

    def harmless(self, own, axis, room, p=0.5):
        """Something about the other axis that fits."""
        if self.chance(p):
            own[axis.other] = self.say.wish(self.some(3, max(3, room - 4)), about=False)

    def border(self, axis, amount, least=0.6):
        """A border of at least so much, for both sides of an axis or for all."""
        text = self.say.length(amount)
        text = "at least " + text if self.chance(least) else text
        return text if self.chance(0.4) else {axis.both: text}

    # --- one size against one space ------------------------------------------------------------------
    def too_wide(self, on, w, h):
        axis, room = self.axis(w, h)
        b = self.some(0, 3)
        size = axis.extent - 2 * b + self.some(1, 2 * b + 2)
        own = self.layer(on, **{axis.size: self.say.length(size)})
        own["border"] = self.border(axis, b)
        if isinstance(own["border"], dict):
            self.harmless(own, axis, room)

    def on_a_panel(self, on, w, h):
        axis, room = self.axis(w, h)
        size = self.some(axis.extent // 2, axis.extent - 2)
        panel = self.layer(on, "panel", **{axis.size: self.say.length(size)})
        self.harmless(panel, axis, room)
        b = self.some(1, 3)
        strip = self.layer(panel["name"], "strip", **{axis.size: self.say.length(size - 2 * b + self.some(1, b + 1))})
        strip["border"] = {axis.both: "at least " + self.say.length(b)}

    def words(self, on, w, h):
        axis, room = self.axis(w, h)
        m = self.some(1, 3)
        size = self.some(axis.extent // 2, axis.extent)
        art = {axis.size: size - 2 * m + self.some(1, 2 * m), axis.other: self.some(2, room // 2)}
        own = self.layer(on, "sentiment", artwork=self.say.size(art["width"], art["height"]))
        text = "at least " + self.say.length(m)
        own["margin"] = text if self.chance(0.6) else {axis.low: self.say.length(m), axis.high: text}
        if self.chance(0.75):
            own[axis.size] = self.say.length(size)
        else:
            own["border"] = {axis.both: self.say.length((axis.extent - size) / 2)}

    def past_marks(self, on, w, h):
        axis, room = self.axis(w, h)
        part = self.rng.choice([Fraction(1, 4), Fraction(1, 2), Fraction(1, 3), Fraction(3, 4)])
        how = self.rng.randrange(4)
        own = self.layer(on)
        if how == 0:
            own[axis.size] = self.say.length(self.some(4, axis.extent - 4) + part)
        elif how == 1:
            own["border"] = {axis.low: self.say.length(self.some(0, 3) + part),
                             axis.high: self.say.length(self.some(0, 3))}
        elif how == 2:
            own["border"] = self.say.length(self.some(0, 3) + Fraction(part.numerator, 2 * part.denominator))
        else:
            own["border"] = {axis.both: self.say.length(self.some(1, 3))}
            inner = self.layer(own["name"], "panel")
            inner["border"] = {axis.low: self.say.length(1), axis.high: self.say.length(1 + part)}
        self.harmless(own, axis, room, 0.3 if how != 2 else 0)

    def ratios(self, on, w, h):
        a, b = self.rng.choice([(3, 4), (2, 3), (1, 1), (5, 7)])
        wide = self.some(6, w - 2)
        high = ceil(wide * b / a) + self.rng.choice([-3, -2, 2, 3])
        own = self.layer(on, ratio=f"{a}:{b}")
        own["width"] = self.say.length(wide) if self.chance(0.5) else f"at least {self.say.length(wide)}"
        how = "" if own["width"][0].isdigit() else "at most "
        high = high if not how else ceil(wide * b / a) - self.some(1, 3)
        if self.chance(0.7):
            own["height"] = how + self.say.length(max(high, 1))
        else:
            own["border"] = {"down": "at least " + self.say.length(ceil((h - min(high, h)) / 2) + 1)}

    def dies(self, on, w, h):
        axis, room = self.axis(w, h)
        b = self.some(1, 3)
        sizes = sorted({axis.extent - 2 * b + self.some(1, 4) for _ in range(3)})
        own = self.layer(on, **{axis.size: "one of " + ", ".join(self.say.length(s, plain=True) for s in sizes)})
        if self.chance(0.5):
            own["cut"] = "die"
        own["border"] = {axis.both: "at least " + self.say.length(b)}
        self.harmless(own, axis, room)

    def ranges(self, on, w, h):
        axis, room = self.axis(w, h)
        b = self.some(1, 3)
        if self.chance(0.5):  # too long
            low, high = axis.extent - 2 * b + self.some(1, 3), axis.extent + 4
        else:  # does not fill
            high = axis.extent - 2 * (b + 2) - self.some(1, 3)
            low = high - self.some(1, 3)
        own = self.layer(on, **{axis.size: f"{self.say.length(low)} to {self.say.length(high)}"})
        own["border"] = {axis.both: f"{self.say.length(b)} to {self.say.length(b + 2)}"}
        self.harmless(own, axis, room)

    def not_filled(self, on, w, h):
        axis, room = self.axis(w, h)
        left, right = self.some(0, 4), self.some(0, 4)
        size = axis.extent - left - right + self.rng.choice([-2, -1, 1, 2])
        own = self.layer(on, **{axis.size: self.say.length(size)})
        if left == right:
            own["border"] = {axis.both: self.say.length(left)}
        elif self.chance(0.5):
            own["border"] = {axis.low: self.say.length(left), axis.high: self.say.length(right)}
        else:
            own[f"from-{axis.low}"], own[f"from-{axis.high}"] = self.say.length(left), self.say.length(right)
        self.harmless(own, axis, room)

    def evenly(self, on, w, h):
        own = self.layer(on, border="even")
        b = self.some(1, 3)
        own["width"] = self.say.length(w - 2 * b)
        own["height"] = self.say.length(h - 2 * b + self.rng.choice([-2, -1, 1, 2]))

    # --- several pieces ------------------------------------------------------------------------------
    def apart(self, on, w, h):
        c = self.some(1, 3)
        w1, h1 = self.some(w // 3, w * 2 // 3), self.some(h // 2 + 1, h - 2)
        w2, h2 = w - w1 - c + self.some(1, c), h - h1 - c + self.some(1, c)
        one = self.layer(on, "image", size=self.say.size(w1, h1))
        if self.chance(0.4):
            del one["size"]
            one["width"], one["height"] = self.say.length(w1), self.say.length(h1)
        two = self.layer(on, "image", size=self.say.size(w2, max(h2, 1)))
        two["clear-of"] = [one["name"]] if self.chance(0.5) else one["name"]
        two["clearance"] = self.say.length(c)

    def in_a_row(self, on, w, h):
        axis, room = self.axis(w, h)
        g = self.some(1, 3)
        first = self.some(axis.extent // 3, axis.extent // 2)
        second = axis.extent - first - g + self.some(1, 2)
        one = self.layer(on, **{axis.size: self.say.length(first)})
        two = self.layer(on, **{axis.size: self.say.length(second)})
        two[axis.after if self.chance(0.6) else axis.before] = one["name"]
        two["gap"] = self.say.wish(g, least=True, about=False)
        self.harmless(one, axis, room, 0.3)

    def three_high(self, on, w, h):
        axis, _ = self.axis(w, h)
        each = axis.extent // 3
        over = None
        for i in range(3):
            size = each + (self.some(1, 3) if i == 2 else 0)
            own = self.layer(on, **{axis.size: self.say.length(size)})
            if over:
                own[axis.after] = over["name"]
            over = own

    def copies(self, on, w, h):
        n, g = self.rng.choice([2, 3, 4]), self.some(1, 2)
        size = max((w - (n - 1) * g) // n, 0) + self.some(1, 2)
        own = self.layer(on, "image", copies=n, gap=self.say.length(g))
        own["width"] = ("" if self.chance(0.7) else "at least ") + self.say.length(size)
        if self.chance(0.4):
            own["copies"], own["columns"] = 2 * n, n
        if self.chance(0.3):
            own["border"] = {"across": "at least " + self.say.length(1)}

    def alike(self, on, w, h):
        axis, room = self.axis(w, h)
        size = self.some(axis.extent // 2, axis.extent - 1)
        panel = self.layer(on, "panel", **{axis.size: self.say.length(size)})
        panel["border"] = {axis.low: "at least 0"}
        mat = self.layer(panel["name"], "mat", **{axis.size: "same as " + panel["name"]})
        mat["border"] = {axis.both: "at least " + self.say.length(self.some(1, 2))}
        self.harmless(panel, axis, room, 0.3)

    def level(self, on, w, h):
        axis, _ = self.axis(w, h)
        one = self.layer(on, **{f"from-{axis.low}": self.say.wish(self.some(1, 4), about=False)})
        two = self.layer(on, **{"level-with": f"{axis.low} of {one['name']}"})
        two[f"from-{axis.low}"] = "at least " + self.say.length(self.some(8, 10))
        two["over"] = [one["name"]]
        if self.chance(0.4):
            two[axis.size] = self.say.length(self.some(3, 6))

    def nested(self, on, w, h):
        axis, room = self.axis(w, h)
        b1, b2 = self.some(1, 3), self.some(1, 3)
        mat = self.layer(on, "mat")
        mat["border"] = self.border(axis, b1, 0.3)
        panel = self.layer(mat["name"], "panel")
        panel["border"] = self.border(axis, b2, 0.3)
        tag = self.layer(panel["name"], "image")
        tag[axis.size] = self.say.wish(axis.extent - 2 * (b1 + b2) + self.some(1, 3), about=False, loose=0.2)
        self.harmless(tag, axis, room - 12, 0.3)

    def covered(self, on, w, h):
        note = self.layer(on, "sentiment", size=self.say.size(w - 2, h - 2))
        note["artwork"] = self.say.size((w - 2) // 2, (h - 2) // 2)
        side = self.some(max(w, h) * 3 // 4, max(w, h) - 2)
        tag = self.layer(note["name"], "image", size=self.say.size(min(side, w - 2), min(side, h - 2)))
        if self.chance(0.3):
            tag["border"] = "at least " + self.say.length(1)

    # --- openings, edges, rules ----------------------------------------------------------------------
    def framed(self, on, w, h):
        if on == "reveal":
            return self.too_wide(on, w, h)
        axis, room = self.axis(w, h)
        f = self.some(2, 4)
        size = axis.extent - 2 * f + self.some(1, 2 * f)
        own = self.layer(on, kind="window", **{axis.size: self.say.length(size)})
        own["frame"] = "at least " + self.say.length(f)
        own[axis.other] = self.say.length(max(room - 2 * f - 2, 1))
        return None

    def tucked(self, on, w, h):
        if on != "reveal":
            return self.on_a_panel(on, w, h)
        axis = across(w) if h == self.h else down(h)
        t, r = self.some(1, 3), self.some(0, 2)
        own = self.layer(on, tuck="at least " + self.say.length(t))
        own[axis.size] = self.say.length(axis.extent - r + t - self.some(1, t))
        own[f"from-{axis.high}"] = self.say.length(r)
        return None

    def far_out(self, on, w, h):
        axis, _ = self.axis(w, h)
        past = self.some(1, 3)
        own = self.layer(on, overhang="at most " + self.say.length(past))
        own[axis.size] = self.say.length(axis.extent + 2 * past + self.some(1, 3))

    def at_an_edge(self, on, w, h):
        axis, _ = self.axis(w, h)
        own = self.layer(on, align=axis.low)
        if self.chance(0.5):
            own["border"] = "at least " + self.say.length(self.some(1, 2))
        if self.chance(0.5):
            own[f"from-{axis.low}"] = self.say.length(self.some(3, 5))
        else:
            own[axis.size] = self.say.length(axis.extent // 2)
            own[f"from-{axis.high}"] = "at most " + self.say.length(self.some(1, axis.extent // 4))

    def entry(self, on, w, h):
        axis, _ = self.axis(w, h)
        size, more = self.some(4, axis.extent // 2), self.some(2, 5)
        one = self.layer(on, **{axis.size: self.say.length(size)})
        two = self.layer(one["name"] if self.chance(0.3) else on)
        two[axis.size] = self.say.wish(size + more - self.some(1, 3), about=False, loose=0.3)
        a, b = one["name"], two["name"]
        how = self.rng.randrange(4)
        by = self.say.length(more, plain=True)
        if how == 0:
            self.rules.append(f"{b}.{axis.size} >= {a}.{axis.size} + {by}")
        elif how == 1:
            self.rules.append(f"{a}.{axis.size} + {by} <= {b}.{axis.size} and {a}.top >= 0")
        elif how == 2:
            self.rules.append(f"{b}.{axis.size} = {a}.{axis.size} + {by} or "
                              f"{b}.{axis.size} >= 2 * {a}.{axis.size} + {by}")
        else:
            far = self.say.length(axis.extent - size + self.some(1, 3), plain=True)
            self.rules.append(f"'{a}'.{axis.low} >= {far}")
        if self.chance(0.2):
            self.rules.append(f"{a}.{axis.size} <= {self.say.length(axis.extent, plain=True)}")

    def kinds(self):
        return [self.too_wide, self.on_a_panel, self.words, self.past_marks, self.ratios, self.dies, self.ranges,
                self.not_filled, self.evenly, self.apart, self.in_a_row, self.three_high, self.copies, self.alike,
                self.level, self.nested, self.covered, self.framed, self.tucked, self.far_out, self.at_an_edge,
                self.entry]
