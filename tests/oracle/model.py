"""What a card asks of its rectangles: rules, and the sums that each choosing step looks at. Written from
the card language alone. All lengths are in marks. No solving here."""
import math
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import folds
from boxes import ACROSS, AXIS, DOWN, SIDES, Rect, apart, inside
from linear import Lin, Model, Pair, Rel, Rule, Space, Var, eq, ge, le, lin
from paper_rules import shown_whole, thickness_limit
from reading import length
from statements import statement

SIZE_OR_PLACE = ("artwork border size width height ratio align from-left from-right from-top from-bottom above below "
                 "left-of right-of level-with clear-of copies tuck").split()
TURNS = {0: (1, 0), 90: (0, 1), 180: (1, 0), 270: (0, 1)}


def turn(degrees):
    """(|cos|, |sin|) of a tilt; bounded from above within 1e-12 unless it is a multiple of 90 degrees."""
    degrees = degrees % 360
    if degrees in TURNS:
        return TURNS[degrees]
    angle = math.radians(float(degrees))
    return tuple(Fraction(math.floor(abs(f(angle)) * 10**13) + 2, 10**13) for f in (math.cos, math.sin))


class Builder:
    def __init__(self, version, prefix):
        self.card, self.prefix = version, prefix
        self.per_unit = 1 / version.mark
        self.model = Model()
        self.rect, self.lines, self.on, self.size, self.gaps, self.art = {}, {}, {}, {}, {}, {}
        self.side, self.margin = {}, {}  # name -> side -> distance
        self.as_cut = {}  # layers and windows without their tilt and copies
        self.least_cut = Fraction(1, 10**9)
        self.source = None  # of the wish that is being written down
        self.piece = {p.name: p for p in version.pieces}

    # --- small helpers -------------------------------------------------------------------------------
    def marks(self, value):
        return Fraction(value) * self.per_unit

    def var(self, name, low, high, whole=False):
        self.model.variables[self.prefix + name] = Var(Fraction(low), Fraction(high), whole)
        return Lin.var(self.prefix + name)

    def given(self, rel, says):
        self.model.rules.append(Rule([[rel]], says, stated=False))

    def stated(self, rel, says):
        self.model.rules.append(Rule([[rel]], says, source=self.source))

    def choice(self, options, says, stated=False):
        self.model.rules.append(Rule(options, says, stated, self.source if stated else None))

    def ask(self, wish, value, like, says, terms=1):
        """`value` satisfies the wish; `like` gives the other piece's value for `same as`."""
        self.source = wish.source
        if wish.at_least is not None and wish.at_least == wish.at_most:
            self.stated(eq(value, self.marks(wish.at_least)), says)
        else:
            if wish.at_least is not None:
                self.stated(ge(value, self.marks(wish.at_least)), says)
            if wish.at_most is not None:
                self.stated(le(value, self.marks(wish.at_most)), says)
        if wish.one_of:
            self.choice([[eq(value, self.marks(v))] for v in sorted(set(wish.one_of))], says, stated=True)
        if wish.same_as is not None:
            self.stated(eq(value, like(wish.same_as)), says)
        if wish.about is not None:
            self.model.about += [value - self.marks(wish.about)] * terms

    def apart_by(self, a, b, gap, says, stated=False):
        self.choice([[ge(d, gap)] for d in apart(a, b).values()], says, stated)

    # --- what a card under question has open, and this one has not -----------------------------------
    def front(self, w, h):
        """The front's width and height, which are at most w and h."""
        return w, h

    def exact_cut(self, exact, most):
        return lin(self.marks(exact))

    def artwork_size(self, p, room):
        return [self.marks(side) for side in p.artwork]

    def reach(self, p):
        """How far past what it is on a piece can be."""
        return self.marks(p.wishes["overhang"].at_most) if "overhang" in p.wishes else Fraction(0)

    def artwork_reach(self, p):
        """How far past its layer's edge artwork can be."""
        return 0

    def artwork_inside(self, p, s):
        self.given(ge(self.margin[p.name][s], 0), f"{p.name}: artwork inside the layer, {s}")

    def edge_inside(self, p, s):
        self.given(ge(self.side[p.name][s], self.reach(p) * -1), f"{p.name}: inside {p.on}, {s}")

    def entry(self, number, text):
        """An entry of `rules`."""
        def amount(said):
            return lin(length(said, self.card.unit)) * self.per_unit

        self.source = ("", "rules", number)
        self.model.rules.append(statement(text, self.lines, amount))
        self.model.rules[-1].source = self.source

    # --- faces ---------------------------------------------------------------------------------------
    def in_marks(self):
        """The version with the lengths of its folds in marks."""
        v = self.card
        return replace(v, front=tuple(map(self.marks, v.front)), leaves=list(map(self.marks, v.leaves)),
                       doors=self.marks(v.doors), flap=self.marks(v.flap))

    def faces(self):
        card = self.in_marks()
        most_w, most_h = card.front
        w, h = self.front(most_w, most_h)

        def face(name, box, frame):
            left, top, right, bottom = map(lin, box)
            self.rect[name] = Rect(left, top, right, bottom, (0, 0), (most_w, most_h), frame)
            self.lines[name] = self.rect[name].lines(right - left, bottom - top)

        all_faces = folds.faces(card, w, h)
        self.folds = {f.name: f for f in all_faces}
        self.cut = self.cut_back(card, all_faces, w, h) if card.trimmed else None
        for f in all_faces:
            face(f.name, folds.cut_face(f.box, f.trimmed, self.cut) if f.trimmed else f.box, f.frame)
        self.page = {f.name: folds.behind(card, f.name) for f in all_faces}
        self.small = {f.name for f in folds.faces(card, most_w, most_h)
                      if (f.box[2] - f.box[0], f.box[3] - f.box[1]) != (most_w, most_h)}
        open_ = folds.reveal(card, w, h, self.cut or 0)
        if open_:
            box, self.at_front, self.page["reveal"] = open_
            face("reveal", box, folds.CLOSED)

    def cut_back(self, card, all_faces, w, h):
        """What is taken off the front's free edge, of a gate off each door's."""
        along = 0 if card.trimmed in ACROSS else 1
        extents = [f.box[along + 2] - f.box[along] for f in all_faces if f.trimmed and f.frame == folds.CLOSED]
        exact = card.cut_back.exact()
        if exact is not None:
            cut = self.exact_cut(exact, card.front[along])
            self.given(Rel(cut * -1 + self.least_cut), "a cut-back is more than 0")
        else:
            most = math.ceil(card.front[along]) - 1
            cut = self.var("cut-back", 1, most, whole=True)
            self.given(ge(cut, 1), "a cut-back is at least a mark")
            box = folds.reveal(card, w, h, cut)[0]
            self.model.sizes += [Space.of(extents[0] - cut, "what is left of the front"),
                                 Space.of(box[along + 2] - box[along], "the reveal")]
        for extent in extents:
            self.given(Rel(cut - extent + self.least_cut), "a cut-back leaves some front")
        self.ask(card.cut_back, cut, None, "cut-back")
        return cut

    def face_of(self, name):
        """The face that a face, reveal, layer, or what is behind a window, lies on."""
        if name in self.piece:
            p = self.piece[name]
            face = self.face_of(p.on)
            return self.page[face] if p.kind == "window" and p.on not in self.piece else face
        return self.page["reveal"] if name == "reveal" else name

    # --- rectangles ----------------------------------------------------------------------------------
    def rectangle(self, p):
        # What is on a tilted layer, or on one of several, is placed on it as it is cut, before it is turned.
        host = self.as_cut.get(p.on, self.rect[p.on])
        reach = [self.reach(p)] * 2  # across and down
        low, high = list(host.low), list(host.high)
        if "tuck" in p.wishes:
            behind = self.rect[self.face_of(p.on)]
            low, high = list(behind.low), list(behind.high)
        for axis in (0, 1):
            low[axis], high[axis] = low[axis] - reach[axis], high[axis] + reach[axis]
        left = self.var(p.name + ".left", low[0], high[0])
        top = self.var(p.name + ".top", low[1], high[1])
        room = [high[0] - low[0], high[1] - low[1]]
        cos, sin = turn(p.tilt)
        # Dies and bought pieces have the size they have; ink is not cut.
        on_marks = p.kind == "window" or p.cut in ("trimmer", "by hand") and not p.keys.get("stamped", False)
        least = 1 if on_marks else 0

        def extent(name, across, down):
            most = min([room[i] / f for i, f in ((0, across), (1, down)) if f])
            return self.var(p.name + name, least, max(math.floor(most) if on_marks else most, least), on_marks)

        width, height = extent(".width", cos, sin), extent(".height", sin, cos)
        for name, value in (("width", width), ("height", height)):
            self.given(ge(value, least), f"{p.name}: {name} more than nothing")
        box_w, box_h = width * cos + height * sin, width * sin + height * cos
        self.gaps[p.name] = {}
        if p.copies is not None:
            columns = min(p.columns or p.copies, p.copies) if p.copies else 0
            rows = -(-p.copies // columns)
            for axis, count, extent_now in (("across", columns, room[0]), ("down", rows, room[1])):
                if count > 1:
                    self.gaps[p.name][axis] = gap = self.var(f"{p.name}.gap {axis}", 0, extent_now)
                    self.given(ge(gap, 0), f"{p.name}: copies do not overlap")
            box_w = box_w * columns + self.gaps[p.name].get("across", Lin()) * (columns - 1)
            box_h = box_h * rows + self.gaps[p.name].get("down", Lin()) * (rows - 1)
        rect = Rect(left, top, left + box_w, top + box_h, low, high, self.rect[p.on].frame)
        self.rect[p.name], self.size[p.name] = rect, (width, height)
        self.as_cut[p.name] = Rect(left, top, left + width, top + height, low, high, rect.frame)
        self.lines[p.name] = rect.lines(width, height)
        self.side[p.name] = inside(rect, host)
        if p.tilt % 90:
            # The reported box is rounded outward to 1e-9 of the unit.
            for v in (left, top):
                self.model.inexact[next(iter(v.terms))] = self.marks(Fraction(1, 10**9))
            for v in (width, height):
                self.model.inexact[next(iter(v.terms))] = Fraction(0)
        if p.artwork:
            aw, ah = self.artwork_size(p, room)
            past = self.artwork_reach(p)
            ax = self.var(p.name + ".artwork left", -past, room[0] + past)
            ay = self.var(p.name + ".artwork top", -past, room[1] + past)
            self.art[p.name] = Rect(left + ax, top + ay, left + ax + aw, top + ay + ah, low, high, rect.frame)
            self.margin[p.name] = {"left": ax, "right": width - ax - aw, "top": ay, "bottom": height - ay - ah}
            for s in SIDES:
                self.artwork_inside(p, s)

    def within(self, p):
        """Where a piece may lie on what it is on."""
        tuck = p.wishes.get("tuck")
        for s in SIDES:
            d = self.side[p.name][s]
            if tuck is not None and (p.on != "reveal" or s in self.at_front):
                self.ask(tuck, d * -1, None, f"{p.name}: tuck {s}")
                continue
            self.edge_inside(p, s)
        frame = p.wishes.get("frame")
        if p.kind == "window" and (frame is None or frame.at_least is None and not frame.one_of):
            for s in SIDES:
                self.given(ge(self.side[p.name][s], 1), f"{p.name}: paper around it, {s}")
        through = p.on == "reveal" or p.on in self.piece and self.piece[p.on].kind == "window"
        # An opening lies over a page as large as the front, but not over all of a smaller one.
        if through and (tuck is not None or self.face_of(p.on) in self.small):
            behind = inside(self.rect[p.name], self.rect[self.face_of(p.on)])
            for s in SIDES:
                self.given(ge(behind[s], 0), f"{p.name}: inside the face behind {p.on}, {s}")

    # --- wishes --------------------------------------------------------------------------------------
    def side_wishes(self, wishes, distance, other, says):
        """A border's, margin's or frame's wishes about four distances."""
        for key, w in wishes.items():
            bound = {"all": SIDES, "across": ACROSS, "down": DOWN}.get(key, (key,))
            for s in bound:
                self.ask(w, distance[s], lambda name, s=s: other[name][s], f"{says} {key}, {s}")
            self.source = w.source
            if w.even:
                for s in bound[1:]:
                    self.stated(eq(distance[s], distance[bound[0]]), f"{says} even, {s}")

    def sizes(self, p):
        width, height = self.size[p.name]
        self.source = (p.name, "size")
        if p.size:
            for value, wanted in zip((width, height), p.size):
                self.stated(eq(value, self.marks(wanted)), f"{p.name}: size")
        for axis, value in (("width", width), ("height", height)):
            if axis in p.wishes:
                self.ask(p.wishes[axis], value, lambda name, axis=axis: self.lines[name][axis], f"{p.name}: {axis}")
        self.source = (p.name, "ratio")
        if p.ratio:
            self.stated(eq(width * p.ratio[1], height * p.ratio[0]), f"{p.name}: ratio")

    def wishes_for(self, p, s):
        """The border wishes that bind one side."""
        return [p.border[k] for k in ("all", AXIS[s], s) if k in p.border]

    def align(self, p):
        distance = self.side[p.name]
        self.source = (p.name, "align")
        for axis, to in p.align.items():
            if any(w.even for w in p.border.values()):
                continue
            low, high = ACROSS if axis == "across" else DOWN
            if to == "centre":
                self.stated(eq(distance[low], distance[high]), f"{p.name}: align centre {axis}")
                continue
            wishes = self.wishes_for(p, to)
            least = [w.at_least for w in wishes if w.at_least is not None]
            about = [w.about for w in wishes if w.about is not None]
            want = max(least) if least else about[0] if about else 0
            self.stated(eq(distance[to], self.marks(want)), f"{p.name}: align {to}")

    def neighbours(self, p):
        rect = self.rect[p.name]
        for key, other in p.beside:
            gap = apart(rect, self.rect[other])[key]
            self.source = (p.name, key, other)
            self.stated(ge(gap, 0), f"{p.name}: {key} {other}")
            if "gap" in p.wishes:
                self.ask(p.wishes["gap"], gap, None, f"{p.name}: gap to {other}")
        if p.copies is not None and "gap" in p.wishes:
            for axis, gap in self.gaps[p.name].items():
                self.ask(p.wishes["gap"], gap, None, f"{p.name}: gap {axis}")
            if p.wishes["gap"].even and len(self.gaps[p.name]) == 2:
                self.stated(eq(*self.gaps[p.name].values()), f"{p.name}: gap even")
        for i, (line, other) in enumerate(p.level_with):
            self.source = (p.name, "level-with", i)
            self.stated(eq(self.lines[p.name][line], self.lines[other][line]), f"{p.name}: level with {other}")
        clearance = p.wishes["clearance"].at_least if "clearance" in p.wishes else None
        for other in p.clear_of:
            # Clear of others by one amount is one wish.
            self.source = (p.name, "clearance") if clearance is not None else (p.name, "clear-of", other)
            self.apart_by(rect, self.rect[other], self.marks(clearance or 0), f"{p.name}: clear of {other}", True)

    def pairs(self):
        """Pieces that may not overlap. A gap in a stated direction is a space; pairs that are linked by a chain of
        such gaps are no neighbours; what is left are `pairs`."""
        apart_pairs, linked = [], {"across": set(), "down": set()}
        for a, b in combinations(self.card.pieces, 2):
            if a.kind != b.kind or a.on != b.on or a.name in b.over or b.name in a.over:
                continue
            self.apart_by(self.rect[a.name], self.rect[b.name], 0, f"{a.name} and {b.name} do not overlap")
            stated = [(p, key, q) for p, q in ((a, b), (b, a)) for key, other in p.beside if other == q.name]
            apart_pairs.append((a, b, stated))
            for p, key, q in stated:
                axis = "across" if key in ("left-of", "right-of") else "down"
                linked[axis].add((p.name, q.name) if key in ("left-of", "above") else (q.name, p.name))
        chains = [chained(links) for links in linked.values()]
        for a, b, stated in apart_pairs:
            gaps = apart(self.rect[a.name], self.rect[b.name])
            if stated:
                own = [apart(self.rect[p.name], self.rect[q.name])[key] for p, key, q in stated]
                self.model.spaces.append(Space([own], f"between {a.name} and {b.name}"))
            elif not any({(a.name, b.name), (b.name, a.name)} & chain for chain in chains):
                self.model.pairs.append(Pair(a.name, b.name, list(gaps.values())))

    def artworks(self):
        for p in self.card.pieces:
            covers = [p.on] + p.over if p.kind == "layer" else [p.on]
            for name in covers:
                if name in self.art:
                    self.apart_by(self.rect[p.name], self.art[name], 0, f"{p.name} keeps off the artwork of {name}")

    # --- what is chosen ------------------------------------------------------------------------------
    def usual_border(self, p):
        on_layer = p.on in self.piece and self.piece[p.on].kind == "layer"
        inch = {True: Fraction(1, 16), False: Fraction(1, 8)}
        mm = {True: Fraction(2), False: Fraction(3)}
        return self.marks((inch if self.card.unit == "in" else mm)[on_layer])

    def border_steps(self, p):
        if p.kind != "layer":
            return
        distance, usual = self.side[p.name], self.usual_border(p)
        open_sides = [s for s in SIDES if self.wishes_for(p, s)
                      and all(w.exact() is None for w in self.wishes_for(p, s))]
        for low, high in (ACROSS, DOWN):
            if low in open_sides and high in open_sides:
                self.model.sides.append(distance[low] - distance[high])
        named = any(p.name in other.clear_of or any(p.name == name for _, name in other.beside + other.level_with)
                    for other in self.card.pieces)
        bare = not named and not any(key in p.keys for key in SIZE_OR_PLACE)
        free = [distance[s] for s in (SIDES if bare else open_sides)]
        if p.copies is not None and ("gap" not in p.wishes or p.wishes["gap"].exact() is None):
            free += self.gaps[p.name].values()
        self.model.usual += [d - usual for d in free]
        self.model.on_marks += free

    def steps(self):
        m = self.model
        self.pairs()
        if self.cut is not None and self.cut.terms:
            front = self.lines["front"]
            m.larger.append(front["width" if self.card.trimmed in ACROSS else "height"])
        for p in self.card.pieces:
            width, height = self.size[p.name]
            self.border_steps(p)
            if p.kind == "layer":
                m.alike[p.name, "width"], m.alike[p.name, "height"] = width, height
            if p.artwork:
                m.artwork += [width, height]
            else:
                m.sizes += [Space.of(width, f"{p.name}: width"), Space.of(height, f"{p.name}: height")]
            m.larger += [width, height]
            m.spaces += [Space.of(self.side[p.name][s], f"{p.name}: {s}") for s in SIDES]
            m.spaces += [Space.of(gap, f"{p.name}: gap {axis}") for axis, gap in self.gaps[p.name].items()]
            m.places += [self.rect[p.name].left, self.rect[p.name].top]
        for name, margin in self.margin.items():
            m.spaces += [Space.of(margin[s], f"{name}: artwork {s}") for s in SIDES]
        for name in self.margin:
            m.places += [self.margin[name]["left"], self.margin[name]["top"]]

    def build(self):
        self.faces()
        waiting = list(self.card.pieces)
        while waiting:
            ready = [p for p in waiting if p.on in self.rect]
            if not ready:
                raise ValueError("pieces on each other in a circle, or on nothing")
            for p in ready:
                self.rectangle(p)
            waiting = [p for p in waiting if p not in ready]
        for p in self.card.pieces:
            self.within(p)
            self.side_wishes(p.border, self.side[p.name], self.side, f"{p.name}: border")
            if p.artwork:
                self.side_wishes(p.margin, self.margin[p.name], self.margin, f"{p.name}: margin")
            if "frame" in p.wishes:
                self.side_wishes({"all": p.wishes["frame"]}, self.side[p.name], self.side, f"{p.name}: frame")
            for s in SIDES:
                if f"from-{s}" in p.wishes:
                    self.ask(p.wishes[f"from-{s}"], self.side[p.name][s],
                             lambda name, s=s: self.side[name][s], f"{p.name}: from-{s}")
            self.sizes(p)
            self.align(p)
            self.neighbours(p)
        self.artworks()
        shown_whole(self)
        self.model.limit_is_written = thickness_limit(self)
        for number, text in enumerate(self.card.rules):
            self.entry(number, text)
        self.steps()
        return self.model


def chained(links):
    """All (first, last) that a chain of links joins."""
    out = set(links)
    while True:
        more = {(a, d) for a, b in out for c, d in out if b == c} - out
        if not more:
            return out
        out |= more


def build(version, number):
    """(model, builder) of one version; its variables start with its number."""
    b = Builder(version, f"{number}/")
    return b.build(), b
