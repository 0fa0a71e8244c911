"""The card as a thing in the hand, worked out from the card file and the places and sizes in an answer alone: its
blank and scores, what is seen of each layer, how thick and how heavy it is, how far round and into which envelope.
Compared with what the answer says of them. The words of the contract are in folds.py and stacking.py."""
import math
import re
from fractions import Fraction

import folds
from checker import answers_of, entries_of
from folds import CLOSED
from paper_rules import own_thickness
from reading import INCH_IN_MM, number, read, size
from sheets import (Grid, Sheet, bounds, half_girth, rect, share_by_clipping, share_by_grid, thickest_by_clipping,
                    thickest_by_grid)
from stacking import Stacks

POUND = Fraction("453.59237")  # grams
# Basis weights are of 500 sheets of the trade's basic size, in inches.
BASIC = {"cover": (20, 26), "text": (25, 38), "book": (25, 38), "index": ("25 1/2", "30 1/2"),
         "bristol": ("22 1/2", "28 1/2"), "bond": (17, 22)}
# Laid flat. US trade sizes in inches, common practice; ISO 269 in millimetres.
ENVELOPES = {"us a1": ("3 5/8", "5 1/8", "in"), "us a2": ("4 3/8", "5 3/4", "in"), "us a6": ("4 3/4", "6 1/2", "in"),
             "us a7": ("5 1/4", "7 1/4", "in"), "iso c7": (81, 114, "mm"), "iso c6": (114, 162, "mm"),
             "iso c5": (162, 229, "mm"), "iso dl": (110, 220, "mm"), "iso b6": (125, 176, "mm"),
             "iso c4": (229, 324, "mm")}
NEAR = 1e-7  # of a share, where something is tilted
ROUND = 2e-9  # what is rounded to 1e-9


class Body:
    """One version of a card, with the entries of its answer."""

    def __init__(self, version, answer):
        self.version = version
        self.answer = answer
        self.entry = entries_of(answer, version)
        self.piece = {p.name: p for p in version.pieces}
        w, h = version.front
        self.faces = {f.name: f for f in folds.faces(version, w, h)}
        self.by = Fraction(answer["base"]["cut_back"]["by"]) if version.trimmed else Fraction(0)
        opening = folds.reveal(version, w, h, self.by)
        self.page = {f: folds.behind(version, f) for f in self.faces}
        if opening:
            self.page["reveal"] = opening[2]
        self.stacks = Stacks(version, self.face_of)
        self.leaves = self.leaf_sheets()
        self.sheet = {p.name: self.layer_sheet(p) for p in self.stacks.layers}

    def face_of(self, name):
        if name in self.piece:
            p = self.piece[name]
            face = self.face_of(p.on)
            return self.page[face] if p.kind == "window" and p.on not in self.piece else face
        return self.page["reveal"] if name == "reveal" else name

    # --- where everything lies on the closed card ----------------------------------------------------
    def number(self, name, key):
        return Fraction(self.entry[name][key])

    def turned(self, point, centre, degrees):
        turns = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}
        cos, sin = turns.get(degrees % 360) or (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))
        x, y = point[0] - centre[0], point[1] - centre[1]
        return (centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos)

    def box(self, name):
        """Of one copy: its corner, its size as cut, the middle of its bounding box."""
        p = self.piece[name]
        left, top, w, h = (self.number(name, k) for k in ("left", "top", "width", "height"))
        a = math.radians(p.tilt)
        cos, sin = {0: (1, 0), 90: (0, 1)}.get(p.tilt % 180) or (abs(math.cos(a)), abs(math.sin(a)))
        return (left, top), (w, h), ((w * cos + h * sin) / 2, (w * sin + h * cos) / 2)

    def to_face(self, on, point):
        """A point on a piece, as it is placed there, on the face: all on a tilted layer turns with it."""
        p = self.piece.get(on)
        if p is None:
            return point
        if p.kind == "layer" and p.tilt:
            (left, top), (w, h), (x, y) = self.box(on)
            centre = (left + x, top + y)
            point = self.turned((point[0] + x - w / 2, point[1] + y - h / 2), centre, p.tilt)
        return self.to_face(p.on, point)

    def to_closed(self, face, point):
        f = self.faces[face]
        x, y = point
        if f.turned == "across":
            x = f.box[2] - f.box[0] - x
        elif f.turned == "down":
            y = f.box[3] - f.box[1] - y
        return (x + f.corner[0], y + f.corner[1]) if f.turned else (x, y)

    def face_in(self, p):
        """The face whose frame a piece is placed in: that of what it is cut in or lies on."""
        while p.on in self.piece:
            p = self.piece[p.on]
        return p.on if p.on != "reveal" else self.page["reveal"]

    def quads(self, p):
        (left, top), (w, h), (x, y) = self.box(p.name)
        corners = [(left, top)]
        if p.copies is not None and self.entry[p.name].get("copies"):
            start = self.entry[p.name]
            corners = [(left + Fraction(c["from_left"]) - Fraction(start["from_left"]),
                        top + Fraction(c["from_top"]) - Fraction(start["from_top"]))
                       for c in start["copies"]]
        out = []
        for left, top in corners:
            centre = (left + x, top + y)
            flat = rect(centre[0] - w / 2, centre[1] - h / 2, centre[0] + w / 2, centre[1] + h / 2)
            own = [self.turned(point, centre, p.tilt) for point in flat] if p.tilt else flat
            out.append(tuple(self.to_closed(self.face_in(p), self.to_face(p.on, point)) for point in own))
        return out

    def window_quad(self, p):
        left, top, w, h = (self.number(p.name, k) for k in ("left", "top", "width", "height"))
        return tuple(self.to_closed(self.face_in(p), self.to_face(p.on, point))
                     for point in rect(left, top, left + w, top + h))

    def layer_sheet(self, p):
        holes = [self.window_quad(q) for q in self.version.pieces if q.kind == "window" and q.on == p.name]
        return Sheet(p.name, self.quads(p), holes, Fraction(own_thickness(self.version, p)))

    def leaf_sheets(self):
        """(leaf, its sheet), foremost first."""
        out, base = [], Fraction(self.version.thickness(self.version.paper) or 0)
        for f in sorted((f for f in self.faces.values() if f.frame == CLOSED and f.leaf), key=lambda f: f.leaf.depth):
            box = folds.cut_face(f.box, f.trimmed, self.by) if f.trimmed else f.box
            through = {f.leaf.toward, f.leaf.away} | ({"front"} if f.leaf.depth == 0 else set())
            holes = [self.window_quad(q) for q in self.version.pieces if q.kind == "window" and q.on in through]
            out.append((f.leaf, Sheet(f.leaf.name, [rect(*box)], holes, base)))
        return out

    # --- what is seen --------------------------------------------------------------------------------
    def share(self, p, hiders):
        """Exact where all is upright."""
        sheet = self.sheet[p.name]
        if sheet.exact() and all(h.exact() for h in hiders):
            return share_by_grid(sheet, hiders)
        return share_by_clipping(sheet, hiders)

    def visible(self, p):
        return self.share(p, [self.sheet[q.name] for q in self.stacks.above(p)])

    def visible_closed(self, p):
        """Behind leaves nearer to the eye and all that is on either side of them, and what lies above it."""
        face = self.faces[self.stacks.page[p.name]]
        toward = face.frame == CLOSED
        depth = face.leaf.depth if face.leaf else 0
        stack = self.layers_at(depth, toward) if toward else self.stacks.on_faces({face.name})
        hiders = [self.sheet[q.name] for q in stack[stack.index(p) + 1:]]
        for leaf, sheet in self.leaves:
            if leaf.depth < depth if toward else leaf.depth > depth:
                hiders.append(sheet)
        for nearer in {leaf.depth for leaf, _ in self.leaves}:
            if nearer < depth if toward else nearer > depth:
                hiders += [self.sheet[q.name] for side in (True, False) for q in self.layers_at(nearer, side)]
        return self.share(p, hiders)

    def layers_at(self, depth, toward):
        """On one side of the leaves of a depth, from below to above; what a gate has on its whole front is on top, then
        whatever hangs over the edge of one door, with all above it there: it lies over what is on the other."""
        faces = [f for f in self.faces.values() if (f.frame == CLOSED) == toward
                 and (f.leaf.depth if f.leaf else 0) == depth]
        below, above = [], []
        for f in sorted(faces, key=lambda f: f.leaf is None):
            hung = False
            for p in self.stacks.on_faces({f.name}):
                hung = hung or (len(faces) > 1 and self.hangs(p))
                (above if hung else below).append(p)
        return below + above

    def hangs(self, p):
        while p is not None:
            if "overhang" in p.wishes:
                return True
            p = self.piece.get(p.on)
        return False

    def shown(self, p):
        """What `show` speaks of: through an opening in a face the card is closed; through one in a layer, looked at."""
        on = self.piece.get(p.on)
        through = p.on == "reveal" or on is not None and on.kind == "window" and on.on not in self.piece
        return self.visible_closed(p) if through else self.visible(p)

    # --- thickness and weight ------------------------------------------------------------------------
    def paper(self):
        """All that has thickness, and leaves."""
        return [s for _, s in self.leaves] + [self.sheet[p.name] for p in self.stacks.layers
                                              if not p.keys.get("stamped", False)]

    def thickness(self):
        sheets = self.paper()
        return thickest_by_grid(sheets) if all(s.exact() for s in sheets) else thickest_by_clipping(sheets)

    def in_boxes(self):
        """The paper with what is tilted as the upright rectangles around it."""
        out = []
        for s in self.paper():
            if not s.exact():
                boxes = [tuple(map(Fraction, bounds([quad]))) for quad in s.outlines]
                s = Sheet(s.name, [rect(*box) for box in boxes], [], s.thickness)
            out.append(s)
        return out

    def over_all(self):
        left, top, right, bottom = bounds([quad for s in self.in_boxes() for quad in s.outlines])
        return right - left, bottom - top

    def grams(self):
        v = self.version
        square_metre = Fraction(1000) ** 2 / (INCH_IN_MM ** 2 if v.unit == "in" else 1)  # in the card's unit
        w, h, _ = folds.blank(v)
        other = v.front[1] if v.across else v.front[0]
        area = w * h
        for leaf, sheet in self.leaves:
            area -= leaf.length * other - paper_area(sheet)
        total = area * weight(v, v.paper)
        for p in self.stacks.layers:
            if not p.keys.get("stamped", False):
                holes = sum(self.number(q.name, "width") * self.number(q.name, "height")
                            for q in v.pieces if q.kind == "window" and q.on == p.name)
                each = self.number(p.name, "width") * self.number(p.name, "height")
                total += (each * (p.copies or 1) - holes) * weight(v, p.keys.get("paper"))
        return total / square_metre


def paper_area(sheet):
    grid = Grid([sheet])
    return grid.area(grid.cells(sheet))


def weight(version, name):
    """Grams for a square metre; the first entry that states it."""
    text = next((p["weight"] for p in version.papers if p["name"] == name and "weight" in p), None)
    if text is None:
        return Fraction(0)
    m = re.fullmatch(r"([\d. /]+?)\s*(?:lb\s+(\w+)|gsm|g/m2)", text)
    if m[2] is None:
        return number(m[1])
    w, h = (number(str(side)) * INCH_IN_MM / 1000 for side in BASIC[m[2]])
    return number(m[1]) * POUND / 500 / (w * h)


def envelope_size(name, unit):
    """In the card's unit; None for one that is not known here."""
    known = ENVELOPES.get(name.lower())
    if known:
        w, h, own = known
        return size(f"{w} {own} x {h} {own}", unit)
    if name.lower().startswith(("us ", "iso ")):
        return None
    try:
        return size(name, unit)
    except (KeyError, ValueError):
        return None


# --- held against the answer -------------------------------------------------------------------------
class Comparison:
    def __init__(self, version, answer):
        self.body, self.version, self.answer = Body(version, answer), version, answer
        self.wrong, self.compared = [], {}

    def same(self, what, got, want, off=0):
        if want == got or off and got is not None and abs(float(Fraction(got)) - float(want)) <= off:
            self.compared[what] = self.compared.get(what, 0) + 1
        else:
            self.wrong.append(f"{what} is {got}, not {want}")

    def exactly(self, what, got, want):
        self.same(what, Fraction(got) if got is not None else None, want, 0)

    def base(self):
        base = self.answer["base"]
        w, h, scores = folds.blank(self.version)
        self.exactly("the blank's width", base["blank"]["width"], w)
        self.exactly("the blank's height", base["blank"]["height"], h)
        self.same("scores", [Fraction(at) for at in base["scores"]], scores)

    def layers(self):
        for p in self.body.stacks.layers:
            e = self.body.entry[p.name]
            for key, share in (("visible", self.body.visible(p)), ("visible_closed", self.body.visible_closed(p))):
                tilted = isinstance(share, float)
                what = f"{key}, {'tilted' if tilted else 'upright'}"
                before = len(self.wrong)
                self.same(what, Fraction(e[key]), share, NEAR if tilted else 0)
                if len(self.wrong) > before:
                    self.wrong[-1] = f"{p.name}: {self.wrong[-1]}"
            if p.show is not None:
                if self.body.shown(p) < p.show - (NEAR if isinstance(self.body.shown(p), float) else 0):
                    self.wrong.append(f"{p.name}: {self.body.shown(p)} is shown, not {p.show}")
                self.same("what is to be shown", True, True)

    def closed(self):
        closed, body = self.answer["closed"], self.body
        tilted = any(not s.exact() for s in body.paper())
        thick = body.thickness()
        told = closed.get("thickness", "0")  # left out where nothing of it is known
        if tilted and Fraction(told) != thick:
            # A corner that only just touches: no more than rounding may decide.
            thick = thickest_by_clipping(body.paper(), 1e-12)
        self.exactly("thickness", told, thick)
        if self.version.limit is not None:
            self.same("thickness within its limit", thick <= self.version.limit.at_most, True)
        self.same("grams", closed.get("grams", 0), body.grams(), 0.0006)
        for key, down in (("girth_across", False), ("girth_down", True)):
            self.same(key, closed[key], half_girth(body.in_boxes(), down), ROUND + 1e-9)
        for key, want in zip(("width", "height"), self.version.front):
            self.exactly("closed " + key, closed[key], want)
        for key, want in zip(("width", "height"), body.over_all()):
            self.same("over all " + key, Fraction(closed["over_all"][key]), want, 4e-9 if tilted else 0)

    def mail(self):
        body = self.body
        girths = half_girth(body.in_boxes()), half_girth(body.in_boxes(), True)
        found = self.answer.get("mail", [])
        told = [m["name"] for m in found if m["kind"] == "envelope"]
        if self.version.envelopes:
            self.same("envelopes", told[:len(self.version.envelopes)], self.version.envelopes)
        for m in found:
            sides = envelope_size(m["name"], self.version.unit) if m["kind"] == "envelope" else None
            if sides is None:
                continue
            spare = [min(float(a - self.version.ease) - girths[0], float(b - self.version.ease) - girths[1])
                     for a, b in (sides, sides[::-1])]
            if abs(max(spare)) > 1e-8:
                self.same("goes into an envelope", m["fits"], max(spare) > 0)

    def run(self):
        self.base()
        self.layers()
        self.closed()
        self.mail()
        return self


def compare(text, answer):
    """(what was compared: how many, what is wrong) over all versions of a buildable answer."""
    compared, wrong = {}, []
    versions = read(text)
    for version, own in zip(versions, answers_of(answer, len(versions))):
        try:
            done = Comparison(version, own).run()
        except (KeyError, TypeError, ValueError) as error:
            wrong.append(f"{version.name or 'plain card'}: the answer lacks something: {error!r}")
            continue
        wrong += [f"{version.name or 'plain card'}: {says}" for says in done.wrong]
        for what, count in done.compared.items():
            compared[what] = compared.get(what, 0) + count
    return compared, wrong
