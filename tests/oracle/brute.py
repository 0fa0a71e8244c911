"""Very small cards, all of whose sizes and places are tried. A flat front of a few whole marks, up to three
layers, all lengths multiples of half a mark, all places tried on half marks. Rectangles are judged as they stand,
with none of the rules of model.py. An answer with all its places on half marks must be the best of those; one with
places in between may only be better."""
import random
import tomllib
from fractions import Fraction
from itertools import product

from reading import alignment, sides, size, wish

HALF = 2  # half marks to a mark
MARK = Fraction(1, 4)  # of an inch
MOST = 120_000  # combinations to try for one card
SIDES = ("left", "right", "top", "bottom")
FACING = {"left-of": ("right", "left"), "right-of": ("left", "right"), "above": ("bottom", "top"),
          "below": ("top", "bottom")}


def halves(value):
    """A length in inches as half marks."""
    return Fraction(value) / MARK * HALF


def meets(w, value):
    return not ((w.at_least is not None and value < halves(w.at_least))
                or (w.at_most is not None and value > halves(w.at_most))
                or (w.one_of and value not in [halves(v) for v in w.one_of]))


def off(w, value):
    """How far a value is from what it is about."""
    return 0 if w.about is None else abs(value - halves(w.about))


class Layer:
    def __init__(self, keys, front):
        self.keys, self.on, self.name = keys, keys["on"], keys["name"]
        self.border = sides(keys["border"], "in") if "border" in keys else {}
        self.margin = sides(keys["margin"], "in") if "margin" in keys else {}
        self.wishes = {k: wish(keys[k], "in") for k in ("width", "height", "gap", *(f"from-{s}" for s in SIDES))
                       if k in keys}
        self.size = [halves(v) for v in size(keys["size"], "in")] if "size" in keys else None
        self.art = [halves(v) for v in size(keys["artwork"], "in")] if "artwork" in keys else None
        self.ratio = [int(v) for v in keys["ratio"].split(":")] if "ratio" in keys else None
        self.align = alignment(keys["align"]) if "align" in keys else {}
        self.beside = [(k, keys[k]) for k in FACING if k in keys]
        self.front = front

    def binding(self, wishes, side):
        pair = "across" if side in ("left", "right") else "down"
        return [wishes[k] for k in ("all", pair, side) if k in wishes]

    def bare(self):
        return not self.named and not set(self.keys) - {"name", "on", "role"}

    def open_side(self, side):
        found = self.binding(self.border, side)
        return bool(found) and all(w.exact() is None for w in found)


def distances(box, host):
    return {"left": box[0] - host[0], "right": host[2] - box[2], "top": box[1] - host[1], "bottom": host[3] - box[3]}


def fits(layer, box, host):
    """Everything a layer asks of its own size and its place on what it is on, artwork aside."""
    d = distances(box, host)
    w, h = box[2] - box[0], box[3] - box[1]
    if min(d.values()) < 0:
        return False
    for s in SIDES:
        if not all(meets(x, d[s]) for x in layer.binding(layer.border, s)):
            return False
        if f"from-{s}" in layer.wishes and not meets(layer.wishes[f"from-{s}"], d[s]):
            return False
    even = any(x.even for x in layer.border.values())
    if even and len(set(d.values())) > 1:
        return False
    for axis, value in (("width", w), ("height", h)):
        if axis in layer.wishes and not meets(layer.wishes[axis], value):
            return False
    if layer.size and [w, h] != layer.size or layer.ratio and w * layer.ratio[1] != h * layer.ratio[0]:
        return False
    for axis, to in layer.align.items() if not even else ():
        low, high = ("left", "right") if axis == "across" else ("top", "bottom")
        if to == "centre":
            if d[low] != d[high]:
                return False
            continue
        least = [x.at_least for x in layer.binding(layer.border, to) if x.at_least is not None]
        about = [x.about for x in layer.binding(layer.border, to) if x.about is not None]
        if d[to] != halves(max(least) if least else about[0] if about else 0):
            return False
    return True


def artwork_cost(layer, w, h, at=None):
    """The least total distance of the margins from what they are about, over the places of the artwork (or at
    one place); None where the artwork does not fit."""
    if not layer.art:
        return 0
    total = 0
    room = (w - layer.art[0], h - layer.art[1])
    if min(room) < 0:
        return None
    if any(x.even for x in layer.margin.values()):
        if room[0] != room[1]:
            return None
        at = at or (room[0] / 2, room[1] / 2)
    for axis, (low, high) in enumerate((("left", "right"), ("top", "bottom"))):
        costs = []
        for a in [at[axis]] if at else [Fraction(i, 2) for i in range(int(room[axis]) * 2 + 1)]:
            found = [(x, v) for s, v in ((low, a), (high, room[axis] - a)) for x in layer.binding(layer.margin, s)]
            if v_ok(found):
                costs.append(sum(off(x, v) for x, v in found))
        if not costs:
            return None
        total += min(costs)
    return total


def v_ok(found):
    return all(v >= 0 and meets(x, v) for x, v in found)


def own_costs(layer, box, host, at=None):
    """(step 1, step 2 own sides, step 2 usual border, step 2 off marks, step 4), or None where artwork fails."""
    d = distances(box, host)
    w, h = box[2] - box[0], box[3] - box[1]
    about = artwork_cost(layer, w, h, at)
    if about is None:
        return None
    for s in SIDES:
        about += sum(off(x, d[s]) for x in layer.binding(layer.border, s))
        about += off(layer.wishes[f"from-{s}"], d[s]) if f"from-{s}" in layer.wishes else 0
    for axis, value in (("width", w), ("height", h)):
        about += off(layer.wishes[axis], value) if axis in layer.wishes else 0
    alike = sum(abs(d[a] - d[b]) for a, b in (("left", "right"), ("top", "bottom"))
                if layer.open_side(a) and layer.open_side(b))
    usual = halves(Fraction(1, 8) if layer.on == "front" else Fraction(1, 16))
    free = [d[s] for s in SIDES if layer.bare() or layer.open_side(s)]
    return (about, alike, sum(abs(v - usual) for v in free), sum(1 for v in free if v % HALF),
            w + h if layer.art else 0)


def pair_cost(a, b, box_a, box_b):
    """What two layers ask of each other: None where it fails, else the distance of their gap from its `about`."""
    cost = 0
    for p, q, box_p, box_q in ((a, b, box_a, box_b), (b, a, box_b, box_a)):
        for key, other in p.beside:
            if other != q.name:
                continue
            gap = {"left-of": box_q[0] - box_p[2], "right-of": box_p[0] - box_q[2],
                   "above": box_q[1] - box_p[3], "below": box_p[1] - box_q[3]}[key]
            if gap < 0 or "gap" in p.wishes and not meets(p.wishes["gap"], gap):
                return None
            cost += off(p.wishes["gap"], gap) if "gap" in p.wishes else 0
    if a.on == b.on and box_a[0] < box_b[2] and box_b[0] < box_a[2] and box_a[1] < box_b[3] and box_b[1] < box_a[3]:
        return None
    return cost


def key_of(layers, boxes, costs, gaps):
    """What the steps look at, in their order; the least is best."""
    open_sizes, every = [], []
    for layer, box in zip(layers, boxes):
        w, h = box[2] - box[0], box[3] - box[1]
        every += [-w, -h]
        if not layer.art:
            open_sizes += [w, h]
    totals = [sum(c[i] for c in costs) for i in range(5)]
    return (totals[0] + gaps, *totals[1:], tuple(-v for v in sorted(open_sizes)), tuple(every))


def places(layer, host):
    """Every box on half marks with a size on marks that suits the layer by itself."""
    out = []
    low_x, high_x, low_y, high_y = host[0], host[2], host[1], host[3]
    across = [(x, x + w) for w in range(HALF, int(high_x - low_x) + 1, HALF)
              for x in range(int(low_x), int(high_x - w) + 1)]
    down = [(y, y + h) for h in range(HALF, int(high_y - low_y) + 1, HALF)
            for y in range(int(low_y), int(high_y - h) + 1)]
    for (l, r), (t, b) in product(across, down):
        box = (l, t, r, b)
        if fits(layer, box, host):
            costs = own_costs(layer, box, host)
            if costs is not None:
                out.append((box, costs))
    return out



class TooMany(Exception):
    """More combinations than are worth trying."""


def best(text):
    """The best key there is, or None where nothing can be built."""
    top = tomllib.loads(text, parse_float=Fraction)
    front = (0, 0, *(int(halves(v)) for v in size(top["base"]["front"], "in")))
    layers = [Layer(keys, front) for keys in top["layer"]]
    for layer in layers:
        layer.named = any(name == layer.name for other in layers for _, name in other.beside)
    found, tried, cache = None, 0, {}

    def place(i, boxes, costs, gaps):
        nonlocal found, tried
        if i == len(layers):
            key = key_of(layers, boxes, costs, gaps)
            found = key if found is None or key < found else found
            return
        layer = layers[i]
        host = front if layer.on == "front" else boxes[[x.name for x in layers].index(layer.on)]
        if (i, host) not in cache:
            cache[i, host] = places(layer, host)
        for box, own in cache[i, host]:
            tried += 1
            if tried > MOST:
                raise TooMany
            extra = 0
            for other, at in zip(layers, boxes):
                cost = pair_cost(other, layer, at, box)
                if cost is None:
                    break
                extra += cost
            else:
                place(i + 1, boxes + [box], costs + [own], gaps + extra)

    place(0, [], [], 0)
    return found, layers, front


def reached(layers, front, answer):
    """The key of the program's answer, and whether all its places are on half marks."""
    entries = {e["name"]: e for e in answer["layers"]}
    boxes, costs = [], []
    for layer in layers:
        e = entries[layer.name]
        l, t, w, h = (halves(Fraction(e[k])) for k in ("left", "top", "width", "height"))
        at = tuple(halves(Fraction(e["artwork"][k])) for k in ("from_left", "from_top")) if layer.art else None
        box = (l, t, l + w, t + h)
        host = front if layer.on == "front" else boxes[[x.name for x in layers].index(layer.on)]
        if not fits(layer, box, host):
            raise ValueError(f"{layer.name} does not suit its wishes")
        costs.append(own_costs(layer, box, host, at))
        boxes.append(box)
    gaps = 0
    for i, a in enumerate(layers):
        for j in range(i):
            cost = pair_cost(layers[j], a, boxes[j], boxes[i])
            if cost is None:
                raise ValueError(f"{a.name} and {layers[j].name} overlap or miss their gap")
            gaps += cost
    return key_of(layers, boxes, costs, gaps), all(v.denominator == 1 for box in boxes for v in box)


def compare(report, answer):
    """Adds what was found to a report of run.py."""
    key, layers, front = best(report.text)
    verdict = "conflict" if key is None else "buildable"
    if verdict != report.verdict:
        report.failures.append(f"{report.verdict}, but by brute force {verdict}")
    elif key is not None:
        try:
            got, on_grid = reached(layers, front, answer)
        except (ValueError, TypeError) as error:
            report.failures.append(f"brute force: {error}")
            return
        if got != key and (on_grid or got > key):
            report.failures.append("the steps reach " + told(got) + ", by brute force " + told(key))
    report.passed["brute force"] += 1


def told(key):
    return " ".join(str([str(x) for x in part]) if isinstance(part, tuple) else str(part) for part in key)


# --- cards -------------------------------------------------------------------------------------------
def say(halves_):
    value = Fraction(halves_, HALF) * MARK
    whole, part = divmod(value, 1)
    return str(whole) if not part else (f"{whole} " if whole else "") + f"{part.numerator}/{part.denominator}"


def some_wish(rng, most, least=0):
    a = rng.randint(least, most)
    b = rng.randint(a, most + 1)
    return rng.choice([say(a), f"{say(a)} to {say(b)}" if a < b else say(a), "at least " + say(a),
                       "at most " + say(b + 1), "about " + say(a), f"at least {say(a)}, about {say(b)}",
                       f"one of {say(a)}, {say(b + 1)}"])


def some_layer(rng, i, names, room):
    on = rng.choice(["front", "front", *names])
    out = [f'name = "slip {i}"', f'on = "{on}"']

    def key(k, value):
        out.append(f'{k} = "{value}"')

    def whole():
        return say(HALF * rng.randint(1, room - 1))

    kind = rng.random()
    if kind < 0.2:
        key("artwork", f"{say(rng.randint(1, room))} x {say(rng.randint(1, room))}")
        if rng.random() < 0.7:
            key("margin", rng.choice([some_wish(rng, 2), "even"]))
    elif kind < 0.4:
        key("size", f"{whole()} x {whole()}")
    elif kind < 0.6:
        key(rng.choice(["width", "height"]), rng.choice([whole(), some_wish(rng, 2 * room, least=1)]))
    elif kind < 0.65:
        key("ratio", rng.choice(["1:2", "1:1", "3:2"]))
    place = rng.random()
    if place < 0.35:
        if rng.random() < 0.6:
            key("border", rng.choice([some_wish(rng, 2), "even"]))
        else:
            chosen = rng.sample(["left", "right", "top", "bottom", "across", "down"], 2)
            out.append("border = { " + ", ".join(f'{s} = "{some_wish(rng, 2)}"' for s in chosen) + " }")
    elif place < 0.55:
        key(f"from-{rng.choice(SIDES)}", some_wish(rng, 3))
    elif place < 0.7:
        key("align", rng.choice(["left", "centre", "top right", "centre across", "bottom"]))
    if names and rng.random() < 0.5:
        key(rng.choice(list(FACING)), rng.choice(names))
        if rng.random() < 0.6:
            key("gap", some_wish(rng, 2))
    return out


def generate(seed):
    """A tiny card that brute force can do."""
    for attempt in range(200):
        rng = random.Random(seed * 1000 + attempt)
        w, h = rng.randint(3, 5), rng.randint(3, 4)
        out = ['unit = "in"', f'mark = "{MARK}"', "", "[base]", 'fold = "flat"',
               f'front = "{say(HALF * w)} x {say(HALF * h)}"']
        names = []
        for i in range(rng.choice([1, 2, 2, 2, 3, 3])):
            out += ["", "[[layer]]"] + some_layer(rng, i + 1, names, min(w, h))
            names.append(f"slip {i + 1}")
        text = "\n".join(out) + "\n"
        if "artwork" in text and any(f'on = "{n}"' in text for n in names):
            continue  # what lies on a layer with artwork must keep off it: not tried here
        try:
            key, _, _ = best(text)
        except TooMany:
            continue
        if key is not None or seed % 4 == 0:
            return text
    raise RuntimeError("no tiny card found")
