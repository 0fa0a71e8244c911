"""Rules that come of paper lying over paper: a layer that is to be seen whole, and a limit to how thick the closed card
is. Takes a builder of model.py, whose rectangles stand."""
from itertools import combinations

from boxes import SIDES, Rect, apart
from folds import CLOSED
from linear import ge
from stacking import Stacks

MOST_SETS = 40  # of things too thick together; more are not written as rules


def shown_whole(builder):
    """A layer of which all is to be seen keeps apart from every layer that lies above it."""
    stacks = Stacks(builder.card, builder.face_of)
    for p in builder.card.pieces:
        if p.show != 1:
            continue
        builder.source = (p.name, "show")
        if "tuck" in p.wishes:
            for s in SIDES:
                builder.stated(ge(builder.side[p.name][s], 0), f"{p.name}: nothing of it is tucked under, {s}")
        through = stacks.seen_through(p)
        for q in stacks.above(p) + nearer(builder, stacks, p):
            if q.on == p.name:
                builder.choice([], f"{q.name} covers {p.name}", True)
            elif q not in through:
                builder.apart_by(builder.rect[q.name], builder.rect[p.name], 0, f"{q.name} does not cover {p.name}",
                                 True)


def nearer(builder, stacks, p):
    """Layers that may hide one that is seen through an opening of the closed card: those on leaves before it."""
    on = builder.piece.get(p.on)
    if p.on != "reveal" and (on is None or on.kind != "window"):
        return []
    faces = {name: f.leaf.depth if f.leaf else 0 for name, f in builder.folds.items() if f.frame == CLOSED}
    depth = faces.get(stacks.page[p.name], 0)
    return [q for q in stacks.layers if faces.get(stacks.page[q.name], depth) < depth]


def on_closed(rect, face):
    """A rectangle on a face as it lies on the closed card, seen facing its front."""
    if face.turned is None:
        return rect
    left, top, right, bottom = rect.left, rect.top, rect.right, rect.bottom
    if face.turned == "across":
        width = face.box[2] - face.box[0]
        left, right = width - right, width - left
    else:
        height = face.box[3] - face.box[1]
        top, bottom = height - bottom, height - top
    x, y = face.corner
    return Rect(left + x, top + y, right + x, bottom + y, rect.low, rect.high, CLOSED)


def own_thickness(version, p):
    """Of a layer, in the card's unit: paper, adhesive and foam."""
    if p.keys.get("stamped", False):
        return 0
    return (version.thickness(p.keys.get("paper")) or 0) + p.adhesive + p.raised


def can_be_modelled(version):
    """Whether all that lies over each other is upright rectangles without openings."""
    return all(p.kind == "layer" and p.copies is None and not p.tilt % 90 for p in version.pieces)


def thickness_limit(builder):
    """Of every few things that are too thick together some two lie apart: rectangles that overlap two by two have a
    place in common. False where that cannot be said of this card."""
    version = builder.card
    if version.limit is None:
        return True
    if not can_be_modelled(version):
        return False
    base = version.thickness(version.paper) or 0
    things = [(builder.rect[f.name], base) for f in builder.folds.values() if f.leaf and f.frame == CLOSED]
    for p in version.pieces:
        thick = own_thickness(version, p)
        if thick:
            things.append((on_closed(builder.rect[p.name], builder.folds[builder.face_of(p.on)]), thick))
    most, heavy = version.limit.at_most, []
    for count in range(1, len(things) + 1):
        for some in combinations(range(len(things)), count):
            if sum(things[i][1] for i in some) > most and not any(set(h) <= set(some) for h in heavy):
                heavy.append(some)
                if len(heavy) > MOST_SETS:
                    return False
    builder.source = version.limit.source
    for some in heavy:
        pairs = combinations([things[i][0] for i in some], 2)
        options = [[ge(gap, 0)] for a, b in pairs for gap in apart(a, b).values()]
        builder.choice(options, f"no thicker than {most}", True)
    return True
