"""How a folded base is made and how it lies: its leaves on the blank, score lines, faces, and where each is when the
card is closed. Written from the card language and the contract of the folds; the front's sides may be numbers or sums
over variables, in any unit. Nothing is solved here."""
from dataclasses import dataclass
from fractions import Fraction

from boxes import ACROSS, opposite

CLOSED = "closed"  # the frame of the faces that look the way the front does
USUAL_OPENING = {"side": "right", "top": "bottom", "gate": "right", "tri": "right", "z": "left"}
HIGH = ("right", "bottom")


@dataclass
class Leaf:
    name: str
    toward: str  # the face that looks the way the front does when the card is closed
    away: str
    length: object
    at: object  # its low edge on the closed card, along
    depth: int  # 0 foremost


@dataclass
class Face:
    name: str
    frame: str
    box: tuple  # left, top, right, bottom in its frame, before cutting back
    leaf: Leaf = None  # absent for the whole front of a gate
    trimmed: str = None  # the edge of it that a cut-back moves inward
    turned: str = None  # how its own directions lie on the closed card: None, or "across" or "down" swapped
    corner: tuple = (0, 0)  # its left and top edge on the closed card


def folds_across(fold, opens):
    """Whether the leaves follow each other from left to right."""
    return fold in ("flat", "side") or fold != "top" and opens not in ("top", "bottom")


def lengths(version, whole):
    """Of the leaves in their order on the blank: stated, or the usual ones of a front that is `whole` along."""
    if version.leaves:
        return list(version.leaves)
    out = {"flat": [whole], "side": [whole, whole], "top": [whole, whole], "z": [whole] * 3}.get(version.fold)
    if version.fold == "gate":
        door = (whole - version.doors) * Fraction(1, 2)
        out = [door, whole, door]
    if version.fold == "tri":
        out = [whole, whole, whole - version.flap]
        if version.opens not in HIGH:
            out.reverse()
    return out


def leaves(version, whole):
    """In their order on the blank, from its left or top edge on."""
    n = lengths(version, whole)
    if version.fold == "flat":
        return [Leaf("front", "front", "back", n[0], 0, 0)]
    if version.fold == "gate":
        low, high = ("left", "right") if version.across else ("top", "bottom")
        return [Leaf(low + " door", f"{low} front", f"inside {low} front", n[0], 0, 0),
                Leaf("back", "inside", "back", n[1], 0, 1),
                Leaf(high + " door", f"{high} front", f"inside {high} front", n[2], whole - n[2], 0)]
    # Of a card that opens at its high edge; a z at its low one.
    mirrored = (version.opens in HIGH) == (version.fold == "z")
    if mirrored:
        n.reverse()
    if version.fold == "z":
        out = [Leaf("front", "front", "inside front", n[0], n[1] - n[0], 0),
               Leaf("middle", "inside", "inside middle", n[1], 0, 1), Leaf("back", "inside back", "back", n[2], 0, 2)]
    else:
        out = [Leaf("front", "front", "inside front", n[0], 0, 0), Leaf("back", "inside", "back", n[1], 0, 1)]
    if version.fold == "tri":
        out[1].depth = 2
        out.append(Leaf("flap", "flap", "inside flap", n[2], n[1] - n[2], 1))
    if mirrored:
        for leaf in out:
            leaf.at = whole - leaf.at - leaf.length
        out.reverse()
    return out


def blank(version):
    """(width, height, score lines) in the card's unit, scores from the left or top edge."""
    w, h = version.front
    n = lengths(version, w if version.across else h)
    along, scores = Fraction(0), []
    for i, part in enumerate(n):
        along += part
        if i + 1 < len(n):
            scores.append(along + version.fold_takes / 2)
            along += version.fold_takes
    sides = (along, h) if version.across else (w, along)
    return (*sides, sorted(scores + list(version.scores)))


def strip(low, high, whole, across):
    """A box from `low` to `high` along and `whole` the other way."""
    return (low, 0, high, whole) if across else (0, low, whole, high)


def faces(version, w, h):
    """All faces but the reveal, of a front that is w x h."""
    along, other = (w, h) if version.across else (h, w)
    out = [Face("front", CLOSED, (0, 0, w, h))] if version.fold == "gate" else []
    parts = leaves(version, along)
    for leaf in parts:
        box = strip(leaf.at, leaf.at + leaf.length, other, version.across)
        trimmed = None
        if version.trimmed and leaf.depth == 0:
            trimmed = version.trimmed
            if version.fold == "gate":
                trimmed = (("right", "left") if version.across else ("bottom", "top"))[leaf is parts[-1]]
        out.append(Face(leaf.toward, CLOSED, box, leaf, trimmed, None, box[:2]))
        sideways = leaf.away == "back" or version.across
        if trimmed and (trimmed in ACROSS) == sideways:
            trimmed = opposite(trimmed)
        out.append(Face(leaf.away, leaf.away, strip(0, leaf.length, other, version.across), leaf, trimmed,
                        "across" if sideways else "down", box[:2]))
    return out


def cut_face(box, edge, cut):
    """A box with `cut` taken off one edge."""
    left, top, right, bottom = box
    return {"left": (left + cut, top, right, bottom), "right": (left, top, right - cut, bottom),
            "top": (left, top + cut, right, bottom), "bottom": (left, top, right, bottom - cut)}[edge]


def reveal(version, w, h, cut=0):
    """(box, its sides next to the front, the face it is of), or None: what the front lays open."""
    if version.fold == "flat":
        return None
    along, other = (w, h) if version.across else (h, w)
    low, high = ("left", "right") if version.across else ("top", "bottom")
    parts = leaves(version, along)
    if version.fold == "gate":
        box = strip(parts[0].length - cut, parts[2].at + cut, other, version.across)
        return box, (low, high), "inside"
    front = next(leaf for leaf in parts if leaf.depth == 0)
    behind = sorted((leaf for leaf in parts if leaf.depth), key=lambda leaf: leaf.depth)
    edge = version.trimmed
    if edge and edge not in (low, high):
        box = {"left": (0, 0, cut, h), "right": (w - cut, 0, w, h), "top": (0, 0, w, cut),
               "bottom": (0, h - cut, w, h)}[edge]
        return box, (opposite(edge),), behind[0].toward
    end = front.at + front.length
    if edge:
        at_low = edge == low
    elif not version.leaves:
        return None  # the usual leaves lay nothing open, but between a gate's doors
    elif front.at == 0 and end == along:
        return None
    else:
        at_low = end == along
    box = strip(0, front.at + (cut if edge else 0), other, version.across) if at_low else \
        strip(end - (cut if edge else 0), along, other, version.across)
    page = behind[0].toward
    if version.leaves:
        span = (Fraction(0), front.at) if at_low else (end, along)
        page = next((leaf.toward for leaf in behind
                     if leaf.at < span[1] and leaf.at + leaf.length > span[0]), page)
    return box, (high,) if at_low else (low,), page


def behind(version, face):
    """The face seen through an opening in one that looks toward you."""
    if version.fold == "gate":
        return "inside" if face.endswith("front") and not face.startswith("inside") else face
    along = version.front[0 if version.across else 1]
    parts = leaves(version, along)
    own = next((leaf for leaf in parts if leaf.toward == face), None)
    if own is None:
        return face
    deeper = [leaf for leaf in parts if leaf.depth > own.depth and leaf.at < own.at + own.length
              and leaf.at + leaf.length > own.at]
    return min(deeper, key=lambda leaf: leaf.depth).toward if deeper else face
