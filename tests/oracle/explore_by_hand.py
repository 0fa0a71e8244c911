"""Answers of `explore` written by hand: what the checks of explored cards are tried on."""
import copy
from fractions import Fraction

F = Fraction


# --- answers written by hand ---------------------------------------------------------------------------
def layer(name, on, box, within, role="mat", seen="1", corner=("0", "0")):
    """`box`: its left, top, width and height on what it is on, which is `within` wide and high from `corner`."""
    left, top, w, h = map(F, box)
    return {"name": name, "role": role, "on": on, "face": "front", "left": str(left + F(corner[0])),
            "top": str(top + F(corner[1])), "width": str(w), "height": str(h), "from_left": str(left),
            "from_top": str(top), "from_right": str(F(within[0]) - left - w),
            "from_bottom": str(F(within[1]) - top - h), "visible": seen, "visible_closed": seen}


def version(front, layers):
    """A flat card."""
    w, h = front
    return {"layers": layers, "windows": [], "base": {"blank": {"width": w, "height": h}, "scores": []},
            "closed": {"width": w, "height": h, "over_all": {"width": w, "height": h}, "girth_across": w,
                       "girth_down": h, "no_thickness": ["", "clay"]}, "mail": [], "verdict": "buildable"}


def alternative(number, amounts, body, papers, as_sized=False, unbeaten=True, **counts):
    out = {"number": number, "as_sized": as_sized, "unbeaten": unbeaten, "amounts": amounts, **body, "papers": papers,
           **counts}
    del out["verdict"]
    return out


def explored(opened, alternatives):
    return {"verdict": "explored", "unit": "in", "shown": len(alternatives), "count": len(alternatives),
            "complete": True, "compared": len(alternatives), "open": opened, "alternatives": alternatives}


def paper(name, sheets, missing, cards, **more):
    return {"paper": name, "sheets": sheets, "at_least": sheets, "proven": True, "missing": missing,
            "cards_a_sheet": cards, **more}


# Mats of four borders from a sheet that gives four of the second, and two of the first, which is wanted.
MATS = """cards = 4
[base]
fold = "flat"
front = "4 1/4 x 5 1/2"
[[layer]]
name = "clay mat"  # = one
on = "front"
border = "1/16 to 1/4, about 1/16"
paper = "clay"
[[paper]]
name = "clay"
sheet = "8 x 10 1/2"
have = 1
"""


def mat(border):
    b = F(border)
    box = b, b, F(17, 4) - 2 * b, F(11, 2) - 2 * b
    return version(("17/4", "11/2"), [layer("clay mat", "front", box, ("17/4", "11/2"))])


def mats():
    opened = [{"name": "clay mat", "key": "border", "line": 8, "column": 10, "as_sized": "1/16", "least": "1/16",
               "most": "1/4"}]
    # Of 84 square inches a sheet: 4 times 33/8 x 43/8 of two sheets, 4 x 21/4, 31/8 x 41/8 and 15/4 x 5 of one.
    found = [alternative(1, ["1/16"], mat("1/16"), [paper("clay", 2, 1, 2)], True, False, waste="1269/2688",
                         border="1/16", seen="1"),
             alternative(2, ["1/8"], mat("1/8"), [paper("clay", 1, 0, 4)], waste="0", border="1/8", seen="1"),
             alternative(3, ["3/16"], mat("3/16"), [paper("clay", 1, 0, 4)], waste="73/1344", border="3/16", seen="1"),
             alternative(4, ["1/4"], mat("1/4"), [paper("clay", 1, 0, 4)], waste="3/28", border="1/4", seen="1")]
    return MATS, sized("1/16"), explored(opened, found)


def sized(border):
    return mat(border) | {"unit": "in"}


# Two panels that share what is left beside them; the second follows from the first.
PANELS = """mark = "1/2"
[base]
fold = "flat"
front = "3 x 4"
[[layer]]
name = "plum"
role = "panel"
on = "front"
border = { left = "1/2", down = "1/2" }
width = "at least 1/2"
[[layer]]
name = "reed"
role = "panel"
on = "front"
right-of = "plum"
gap = "1/2"
border = { right = "1/2", down = "1/2" }
"""


def panels():
    def two(first):
        w = F(first)
        return version(("3", "4"), [layer("plum", "front", ("1/2", "1/2", w, 3), ("3", "4"), "panel"),
                                    layer("reed", "front", (1 + w, "1/2", F(3, 2) - w, 3), ("3", "4"), "panel")])

    opened = [{"name": "plum", "key": "width", "line": 10, "column": 9, "as_sized": "1", "least": "1/2", "most": "1"}]
    found = [alternative(1, ["1/2"], two("1/2"), [], border="1/2", seen="1"),
             alternative(2, ["1"], two("1"), [], True, border="1/2", seen="1")]
    return PANELS, two("1") | {"unit": "in"}, explored(opened, found)


# A panel on a mat, of which the mat alone is open: half of it shows at the least.
SEEN = """mark = "1"
[base]
fold = "flat"
front = "10 x 10"
[[layer]]
name = "moss"
role = "panel"
on = "front"
border = "1 to 2"
[[layer]]
name = "lark"
role = "image"
on = "moss"
size = "6 x 4"
align = "top left"
"""


def half_seen():
    def both(b, share):
        side = 10 - 2 * b
        return version(("10", "10"), [layer("moss", "front", (b, b, side, side), ("10", "10"), "panel", share),
                                      layer("lark", "moss", (0, 0, 6, 4), (side, side), "image", "1", (b, b))])

    opened = [{"name": "moss", "key": "border", "line": 9, "column": 10, "as_sized": "1", "least": "1", "most": "2"}]
    found = [alternative(1, ["1"], both(1, "5/8"), [], True, border="1", seen="5/8"),
             alternative(2, ["2"], both(2, "1/3"), [], border="2", seen="1/3")]
    return SEEN, both(1, "5/8") | {"unit": "in"}, explored(opened, found)


BY_HAND = [mats, panels, half_seen]
UNJUDGED = {"role", "face", "cards_a_sheet", "visible_closed", "no_thickness"}  # told beside what is judged, or by its name alone


def fitted():
    text, own, answer = mats()
    start = copy.deepcopy(answer["alternatives"][0])
    best = copy.deepcopy(answer["alternatives"][1])
    best["number"] = 1
    for a in (start, best):
        del a["unbeaten"]
    change = {"name": "clay mat", "key": "border", "line": 8, "column": 10, "from": "1/16", "to": "1/8"}
    return text, own, {**answer, "shown": 1, "alternatives": [best], "as_sized": start, "loosen": [],
                       "fit": {"enough": True, "proven": True, "at_least": 1, "changes": [change]}}


def loosened():
    """The border is settled, and takes a sheet more than there is."""
    text = MATS.replace("1/16 to 1/4, about 1/16", "1/16")
    a = copy.deepcopy(mats()[2]["alternatives"][0]) | {"amounts": []}
    loosen = [{"name": "clay mat", "key": "border", "line": 8, "column": 10, "from": "1/16", "to": "1/8", "by": "1/16"}]
    return text, sized("1/16"), {"verdict": "short", "unit": "in", "shown": 1, "count": 1, "complete": True, "open": [],
                                 "alternatives": [a], "as_sized": a, "loosen": loosen,
                                 "fit": {"enough": False, "proven": True, "at_least": 2, "changes": []}}
