"""Rectangles on a face and the distances between their edges, as sums. Which rectangles there are is in model.py."""
from fractions import Fraction

from linear import lin

ACROSS, DOWN = ("left", "right"), ("top", "bottom")
SIDES = ACROSS + DOWN
AXIS = {"left": "across", "right": "across", "top": "down", "bottom": "down"}


class Rect:
    """Edges on a face, as sums. `low`, `high`: bounds on the edges across and down."""

    def __init__(self, left, top, right, bottom, low, high, frame):
        self.left, self.top, self.right, self.bottom = map(lin, (left, top, right, bottom))
        self.low, self.high, self.frame = low, high, frame

    def lines(self, width, height):
        return {"left": self.left, "right": self.right, "top": self.top, "bottom": self.bottom,
                "centre-across": (self.left + self.right) * Fraction(1, 2),
                "centre-down": (self.top + self.bottom) * Fraction(1, 2), "width": width, "height": height}


def inside(rect, host):
    """The distances of a rectangle's edges to those of what it is on."""
    return {"left": rect.left - host.left, "right": host.right - rect.right,
            "top": rect.top - host.top, "bottom": host.bottom - rect.bottom}


def apart(a, b):
    """The gap in each direction, named by where `a` is."""
    return {"left-of": b.left - a.right, "right-of": a.left - b.right,
            "above": b.top - a.bottom, "below": a.top - b.bottom}


def opposite(edge):
    return {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}[edge]

