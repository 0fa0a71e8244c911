"""Sheets of paper lying over one another, looked at in two ways that share nothing: upright rectangles over a grid of
all their edges, exactly; turned ones by clipping convex polygons, in floating point. Knows no card."""
import math
from bisect import bisect_left
from dataclasses import dataclass, field
from fractions import Fraction

TINY = 1e-9  # area that is no more than rounding


@dataclass
class Sheet:
    """Outlines (of several copies) less its openings; each is four corners in their order around."""

    name: str
    outlines: list
    holes: list = field(default_factory=list)
    thickness: Fraction = Fraction(0)

    def exact(self):
        return all(isinstance(v, (int, Fraction)) for quad in self.outlines + self.holes for point in quad
                   for v in point) and all(upright(quad) for quad in self.outlines + self.holes)


def rect(left, top, right, bottom):
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def bounds(quads):
    xs, ys = [x for quad in quads for x, _ in quad], [y for quad in quads for _, y in quad]
    return min(xs), min(ys), max(xs), max(ys)


def upright(quad):
    left, top, right, bottom = bounds([quad])
    return all(x in (left, right) and y in (top, bottom) for x, y in quad)


# --- over a grid -------------------------------------------------------------------------------------
class Grid:
    """The cells between all edges of upright sheets; a row of cells is one whole number, a bit for each."""

    def __init__(self, sheets):
        boxes = [bounds([quad]) for s in sheets for quad in s.outlines + s.holes]
        self.xs = sorted({v for box in boxes for v in (box[0], box[2])})
        self.ys = sorted({v for box in boxes for v in (box[1], box[3])})

    def cells(self, sheet):
        rows = [0] * (len(self.ys) - 1)
        for quads, cut in ((sheet.outlines, False), (sheet.holes, True)):
            for quad in quads:
                left, top, right, bottom = bounds([quad])
                i, j = bisect_left(self.xs, left), bisect_left(self.xs, right)
                mask = (1 << j) - (1 << i)
                for k in range(bisect_left(self.ys, top), bisect_left(self.ys, bottom)):
                    rows[k] = rows[k] & ~mask if cut else rows[k] | mask
        return rows

    def area(self, rows):
        return sum((self.ys[k + 1] - self.ys[k])
                   * sum(self.xs[i + 1] - self.xs[i] for i in range(len(self.xs) - 1) if row >> i & 1)
                   for k, row in enumerate(rows))

    def heights(self, sheets):
        """(for each cell of each row: the total thickness, None where there is nothing)"""
        out = [[None] * (len(self.xs) - 1) for _ in range(len(self.ys) - 1)]
        for sheet in sheets:
            for k, row in enumerate(self.cells(sheet)):
                for i in range(len(self.xs) - 1):
                    if row >> i & 1:
                        out[k][i] = (out[k][i] or 0) + sheet.thickness
        return out


def share_by_grid(sheet, hiders):
    """The share of a sheet's paper that nothing above it hides."""
    grid = Grid([sheet, *hiders])
    paper, seen = grid.cells(sheet), grid.cells(sheet)
    for hider in hiders:
        seen = [row & ~over for row, over in zip(seen, grid.cells(hider))]
    whole = grid.area(paper)
    return grid.area(seen) / whole if whole else Fraction(0)


def thickest_by_grid(sheets):
    heights = Grid(sheets).heights(sheets)
    return max((h for row in heights for h in row if h is not None), default=Fraction(0))


def half_girth(sheets, down=False):
    """The most over all lines across (or from top to bottom) of half the way around the section."""
    grid = Grid(sheets)
    heights, edges = grid.heights(sheets), grid.xs
    if down:
        heights, edges = [list(column) for column in zip(*heights)], grid.ys
    most = 0.0
    for line in {tuple(line) for line in heights}:
        points = [(float(x), float(h)) for i, h in enumerate(line) if h is not None for x in edges[i:i + 2]]
        if points:
            most = max(most, (points[-1][0] - points[0][0] + around(points)) / 2)
    return most


def around(points):
    """The length of the upper outline of points in their order from left to right, from and to the ground."""
    hull = []
    for p in [(points[0][0], 0.0), *points, (points[-1][0], 0.0)]:
        while len(hull) > 1 and turn(hull[-2], hull[-1], p) >= 0:
            hull.pop()
        hull.append(p)
    return sum(math.dist(a, b) for a, b in zip(hull, hull[1:]))


def turn(a, b, c):
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


# --- by clipping -------------------------------------------------------------------------------------
def counter(quad):
    """In floating point, in the order in which `turn` is positive."""
    points = [(float(x), float(y)) for x, y in quad]
    return points if polygon_area(points) >= 0 else points[::-1]


def polygon_area(points):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1])) / 2


def cut(points, a, b):
    """A convex polygon on the left of a line (where `turn` is positive) and on the right of it."""
    sides = [turn(a, b, p) for p in points]
    left, right = [], []
    for i, p in enumerate(points):
        q, s, t = points[i - 1], sides[i], sides[i - 1]
        if s * t < 0:
            between = tuple(q[n] + (p[n] - q[n]) * (t / (t - s)) for n in (0, 1))
            left.append(between)
            right.append(between)
        if s >= 0:
            left.append(p)
        if s <= 0:
            right.append(p)
    return left, right


def split(points, other):
    """(what of a convex polygon lies in another, the pieces that lie outside it)"""
    outside = []
    for a, b in zip(other, other[1:] + other[:1]):
        points, beyond = cut(points, a, b)
        if len(beyond) > 2 and polygon_area(beyond) > TINY / 100:
            outside.append(beyond)
        if len(points) < 3 or polygon_area(points) <= TINY / 100:
            return [], outside
    return points, outside


def without(pieces, other):
    return [rest for points in pieces for rest in split(points, other)[1]]


def pieces_of(sheet):
    """A sheet as convex polygons that do not overlap."""
    out = []
    for quad in map(counter, sheet.outlines):
        new = [quad]
        for known in out:
            new = without(new, known)
        out += new
    for hole in map(counter, sheet.holes):
        out = without(out, hole)
    return out


def share_by_clipping(sheet, hiders):
    paper = seen = pieces_of(sheet)
    for hider in hiders:
        for piece in pieces_of(hider):
            seen = without(seen, piece)
    whole = sum(map(polygon_area, paper))
    return sum(map(polygon_area, seen)) / whole if whole else 0.0


def thickest_by_clipping(sheets, least=TINY):
    """The greatest total over a place larger than `least`."""
    places = []  # (polygon, total), no two overlap
    for sheet in sheets:
        for piece in pieces_of(sheet):
            rest, now = [piece], []
            for points, total in places:
                shared, outside = split(points, piece)
                if shared:
                    now.append((shared, total + sheet.thickness))
                    rest = without(rest, counter_of(shared))
                now += [(o, total) for o in outside]
            places = now + [(points, sheet.thickness) for points in rest]
    return max((total for points, total in places if polygon_area(points) > least), default=Fraction(0))


def counter_of(points):
    return points if polygon_area(points) >= 0 else points[::-1]
