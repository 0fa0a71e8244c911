"""A card file as values: lengths, wishes, sizes, pieces, versions. What the wishes ask of rectangles is
in model.py. Reads correct files only: mistakes are not explained here, they raise."""
import re
import tomllib
from dataclasses import dataclass, field
from fractions import Fraction

from folds import USUAL_OPENING, folds_across

INCH_IN_MM = Fraction(254, 10)
GLYPHS = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
NUMBER = r"\d+(?:\s*-\s*|\s+)\d+/\d+|\d+/\d+|\d+\.\d+|\.\d+|\d+"
LENGTH = re.compile(rf"\s*(-?)\s*({NUMBER})\s*(in|mm|cm|\"|inches|inch)?\s*$")

# Width x height, upright. ISO 216 in millimetres; the rest in inches (trade sizes, and letter sheets).
ISO = {"A": [(841, 1189), (594, 841), (420, 594), (297, 420), (210, 297), (148, 210), (105, 148), (74, 105),
             (52, 74), (37, 52), (26, 37)]}
US = {"a1": ("3 1/2", "4 7/8"), "a2": ("4 1/4", "5 1/2"), "a6": ("4 1/2", "6 1/4"), "a7": ("5", "7"),
      "slimline": ("3 1/2", "8 1/2"), "letter": ("8 1/2", "11")}


def number(text):
    mixed = re.fullmatch(r"(\d+)(?:\s*-\s*|\s+)(\d+/\d+)", text)
    return Fraction(mixed[1]) + Fraction(mixed[2]) if mixed else Fraction(text)


def length(value, unit):
    """A length in `unit` ("in" or "mm") from its text or TOML number."""
    if isinstance(value, (int, Fraction)):
        return Fraction(value)
    text = value
    for glyph, plain in GLYPHS.items():
        text = re.sub(rf"(\d)\s*{glyph}", rf"\1 {plain}", text).replace(glyph, plain)
    m = LENGTH.match(text)
    if not m:
        raise ValueError(f"no length: {value!r}")
    amount = number(m[2]) * (-1 if m[1] else 1)
    own = {None: unit, "mm": "mm", "cm": "cm"}.get(m[3], "in")
    if own == unit:
        return amount
    in_mm = amount * {"mm": 1, "cm": 10, "in": INCH_IN_MM}[own]
    return in_mm if unit == "mm" else in_mm / INCH_IN_MM


def size(value, unit):
    """(width, height) from `W x H` or a named size."""
    text = value.strip().lower()
    turned = text.endswith(" turned")
    if turned:
        text = text[: -len(" turned")].strip()
    iso = re.fullmatch(r"iso a(\d+)", text)
    if iso:
        w, h = (length(f"{side} mm", unit) for side in ISO["A"][int(iso[1])])
    elif text.startswith("us "):
        w, h = (length(side + " in", unit) for side in US[text[3:].strip()])
    else:
        w, h = (length(side, unit) for side in re.split(r"\s*[x×]\s*", text))
    return (h, w) if turned else (w, h)


@dataclass
class Wish:
    at_least: Fraction = None
    at_most: Fraction = None
    about: Fraction = None
    one_of: list = field(default_factory=list)
    same_as: str = None
    even: bool = False
    source: tuple = None  # the name of its piece, or "base", and the keys that find it there

    def exact(self):
        """The one value it leaves, if it leaves one."""
        if self.one_of:
            left = [v for v in set(self.one_of) if (self.at_least is None or v >= self.at_least)
                    and (self.at_most is None or v <= self.at_most)]
            return left[0] if len(left) == 1 else None
        if self.at_least is not None and self.at_least == self.at_most:
            return self.at_least
        return None


def wish(value, unit):
    w = Wish()

    def low(v):
        w.at_least = v if w.at_least is None else max(v, w.at_least)

    def high(v):
        w.at_most = v if w.at_most is None else min(v, w.at_most)

    listing = False
    for part in [value] if not isinstance(value, str) else value.split(","):
        word = part.strip() if isinstance(part, str) else part
        if not isinstance(word, str):
            low(length(word, unit)), high(length(word, unit))
            continue
        bounds = re.split(r"\s+to\s+", word)
        if word.startswith("one of"):
            listing = True
            w.one_of.append(length(word[6:], unit))
        elif word.startswith("at least"):
            low(length(word[8:], unit))
        elif word.startswith("at most"):
            high(length(word[7:], unit))
        elif word.startswith("about"):
            w.about = length(word[5:], unit)
        elif word.startswith("same as"):
            w.same_as = word[7:].strip()
        elif word == "even":
            w.even = True
        elif len(bounds) == 2:
            low(length(bounds[0], unit)), high(length(bounds[1], unit))
        elif listing:
            w.one_of.append(length(word, unit))
            continue
        else:
            low(length(word, unit)), high(length(word, unit))
        listing = word.startswith("one of")
    return w


def sides(value, unit):
    """The wishes of a border or margin by key: all, or left right top bottom across down."""
    if isinstance(value, dict):
        return {key: wish(v, unit) for key, v in value.items()}
    return {"all": wish(value, unit)}


def names(value):
    return [value] if isinstance(value, str) else list(value or [])


@dataclass
class Piece:
    kind: str  # "layer" or "window"
    name: str
    on: str
    keys: dict  # as in the file
    border: dict = field(default_factory=dict)
    margin: dict = field(default_factory=dict)
    wishes: dict = field(default_factory=dict)  # width, height, from-*, gap, clearance, overhang, tuck, frame
    size: tuple = None
    artwork: tuple = None
    ratio: tuple = None
    align: dict = field(default_factory=dict)  # "across", "down" -> left, centre, right, top, bottom
    beside: list = field(default_factory=list)  # (key, name)
    level_with: list = field(default_factory=list)  # (line, name)
    clear_of: list = field(default_factory=list)
    over: list = field(default_factory=list)
    copies: int = None
    columns: int = None
    tilt: Fraction = Fraction(0)
    cut: str = "trimmer"
    show: Fraction = None  # the least share that is seen; 1 for "all"
    adhesive: Fraction = Fraction(0)
    raised: Fraction = Fraction(0)


def alignment(text):
    words = text.replace("center", "centre").replace(",", " ").split()
    out = {}
    for i, word in enumerate(words):
        if word in ("left", "right"):
            out["across"] = word
        elif word in ("top", "bottom"):
            out["down"] = word
        elif word == "centre" and i + 1 < len(words) and words[i + 1] in ("across", "down"):
            out[words[i + 1]] = "centre"
    bare = any(w == "centre" and (i + 1 == len(words) or words[i + 1] not in ("across", "down"))
               for i, w in enumerate(words))
    if bare:
        out.setdefault("across", "centre")
        out.setdefault("down", "centre")
    return out


def level(text):
    m = re.fullmatch(r"(left|right|top|bottom|centre-across|centre-down|centre across|centre down) of (.+)",
                     text.replace("center", "centre").strip())
    return (m[1].replace(" ", "-"), m[2]) if m else ("centre-down", text.strip())


WISH_KEYS = ("width", "height", "from-left", "from-right", "from-top", "from-bottom", "gap", "clearance",
             "overhang", "tuck", "frame")


def piece(kind, keys, unit):
    p = Piece(kind, keys["name"], keys["in" if kind == "window" else "on"], keys)
    p.border = sides(keys["border"], unit) if "border" in keys else {}
    p.margin = sides(keys["margin"], unit) if "margin" in keys else {}
    p.wishes = {k: wish(keys[k], unit) for k in WISH_KEYS if k in keys}
    for key, wishes in (("border", p.border), ("margin", p.margin)):
        for side, w in wishes.items():
            w.source = (p.name, key, side) if isinstance(keys[key], dict) else (p.name, key)
    for key, w in p.wishes.items():
        w.source = (p.name, key)
    p.size = size(keys["size"], unit) if "size" in keys else None
    p.artwork = size(keys["artwork"], unit) if "artwork" in keys else None
    if "ratio" in keys:
        p.ratio = tuple(number(part.strip()) for part in keys["ratio"].split(":"))
    p.align = alignment(keys["align"]) if "align" in keys else {}
    p.beside = [(k, n) for k in ("above", "below", "left-of", "right-of") for n in names(keys.get(k))]
    p.level_with = [level(n) for n in names(keys.get("level-with"))]
    p.clear_of = names(keys.get("clear-of"))
    p.over = names(keys.get("over"))
    p.copies = keys.get("copies")
    p.columns = keys.get("columns")
    p.tilt = length(keys.get("tilt", 0), unit)
    p.cut = keys.get("cut", "trimmer")
    p.adhesive, p.raised = (thickness(keys.get(key, 0), unit) for key in ("adhesive", "raised"))
    if "show" in keys:
        p.show = share(keys["show"])
    return p


def share(value):
    """The least share that a `show` asks for."""
    text = str(value).removeprefix("at least").strip()
    return Fraction(1) if text == "all" else number(text[:-1].strip()) / 100 if text.endswith("%") else number(text)


@dataclass
class Version:
    """One buildable card: the plain one (name "") or a variant with its changes made."""

    name: str
    cards: int
    unit: str
    mark: Fraction
    fold: str
    front: tuple
    opens: str  # the free edge
    across: bool  # whether the leaves follow each other from left to right
    leaves: list  # their stated lengths; empty: the usual ones
    scores: list  # the extra ones
    trimmed: str  # the edge a cut-back trims, or None
    cut_back: Wish
    pieces: list
    rules: list
    paper: str  # of the base
    papers: list  # as in the file
    doors: Fraction  # what the trade leaves: between doors, off a flap, at a fold, in an envelope
    flap: Fraction
    fold_takes: Fraction
    ease: Fraction
    limit: Wish  # of the thickness
    envelopes: list

    def thickness(self, paper):
        """Of a paper: the first entry of that name that states one; None where none does."""
        return next((thickness(p["thickness"], self.unit) for p in self.papers
                     if p["name"] == paper and "thickness" in p), None)


def thickness(value, unit):
    """A length, or points: thousandths of an inch."""
    points = re.fullmatch(rf"\s*({NUMBER})\s*pt\s*", value) if isinstance(value, str) else None
    return length(f"{number(points[1])} in", unit) / 1000 if points else length(value, unit)


def version(name, cards, top, base, pieces):
    unit = top.get("unit", "in")
    mark = length(top["mark"], unit) if "mark" in top else Fraction(1, 16) if unit == "in" else Fraction(1)
    free = base.get("opens", USUAL_OPENING.get(base["fold"]))
    by, edge, source = base.get("cut-back"), free, ("base", "cut-back")
    if isinstance(by, dict):
        edge, by, source = by.get("edge", free), by["by"], source + ("by",)
    cut_back = None if by is None else wish(by, unit)
    if cut_back is not None:
        cut_back.source = source
    limit = wish(f"at most {top['limit']['thickness']}", unit) if "thickness" in top.get("limit", {}) else None
    if limit is not None:
        limit.source = ("limit", "thickness")
    out = Version(name, cards, unit, mark, base["fold"], size(base["front"], unit), free,
                  folds_across(base["fold"], free), several(base.get("leaves", []), unit),
                  several(base.get("scores", []), unit), edge if by is not None else None, cut_back,
                  [piece(kind, keys, unit) for kind, keys in pieces], list(top.get("rules", [])),
                  base.get("paper"), top.get("paper", []), None, None, None, None, limit,
                  names(top.get("mail", {}).get("envelope")))
    allowances(out, top.get("allowance", {}))
    return out


def several(value, unit):
    """Lengths, as a list or in one text."""
    return [length(part, unit) for part in (value.split(",") if isinstance(value, str) else value)]


def allowances(version, stated):
    inch = version.unit == "in"
    twice = 2 * (version.thickness(version.paper) or 0)
    usual = {"doors": max(twice, Fraction(1, 16) if inch else Fraction(1)),
             "flap": max(twice, Fraction(1, 16) if inch else Fraction(2)),
             "fold": Fraction(0), "envelope": Fraction(1, 16) if inch else Fraction(3, 2)}
    usual.update({key: length(value, version.unit) for key, value in stated.items()})
    version.doors, version.flap, version.fold_takes, version.ease = usual.values()


def with_changes(top, base, pieces, changes):
    """The file's values after a variant's `set`: "NAME.KEY" for a piece, "base.KEY" for the base."""
    base, pieces = dict(base), [(kind, dict(keys)) for kind, keys in pieces]
    for path, value in changes.items():
        owner, key = path.rsplit(".", 1)
        targets = [keys for _, keys in pieces if keys["name"] == owner] or ([base] if owner == "base" else [])
        if len(targets) != 1:
            raise ValueError(f"nothing to change at {path}")
        targets[0][key] = value
    return base, pieces


def read(text):
    """All versions of a card file, the plain one first."""
    top = tomllib.loads(text, parse_float=Fraction)
    # The order of layers among windows is only in the text.
    order = re.findall(r"^\s*\[\[\s*(layer|window)\s*\]\]", text, re.M)
    queues = {kind: iter(top.get(kind, [])) for kind in ("layer", "window")}
    pieces = [(kind, next(queues[kind])) for kind in order]
    variants = top.get("variant", [])
    claimed = sum(v.get("cards", 1) for v in variants)
    out = [version("", top.get("cards", 1) - claimed, top, top["base"], pieces)]
    for v in variants:
        base, own = with_changes(top, top["base"], pieces, v.get("set", {}))
        gone = set(v.get("without", []))
        out.append(version(v["name"], v.get("cards", 1), top, base,
                           [(kind, keys) for kind, keys in own if keys["name"] not in gone]))
    return out
