"""Does the check of the card as a thing itself work? Folds and sheets worked out by hand, the grid held against the
clipping, and the program's answers spoilt number by number: each must be refused."""
import copy
import math
import random
import tomllib
from fractions import Fraction

import body
import folds
from reading import read
from sheets import (Sheet, half_girth, rect, share_by_clipping, share_by_grid, thickest_by_clipping, thickest_by_grid)

# [base] -> blank, scores, and the box on the closed card of faces that look the way the front does
FOLDS = {
    'fold = "side"\nfront = "4 1/4 x 5 1/2"': (
        "17/2 11/2", "17/4", {"front": "0 0 17/4 11/2", "inside": "0 0 17/4 11/2"}),
    'fold = "side"\nfront = "4 1/4 x 5 1/2"\nopens = "left"\nleaves = "4 1/4, 3 1/4"': (
        "15/2 11/2", "17/4", {"front": "1 0 17/4 11/2", "reveal": "0 0 1 11/2"}),
    'fold = "z"\nfront = "5 1/2 x 4 1/4"\nleaves = "2 3/4, 2 3/4, 5 1/2"': (
        "11 17/4", "11/4 11/2", {"front": "0 0 11/4 17/4", "reveal": "11/4 0 11/2 17/4"}),
    'fold = "gate"\nfront = "5 1/2 x 4 1/4"': (
        "175/16 17/4", "87/32 263/32", {"left front": "0 0 87/32 17/4", "reveal": "87/32 0 89/32 17/4"}),
    'fold = "gate"\nfront = "4 1/4 x 5 1/2"\nopens = "top"\ncut-back = "1/2"': (
        "17/4 175/16", "87/32 263/32", {"top front": "0 0 17/4 71/32", "reveal": "0 71/32 17/4 105/32"}),
    'fold = "tri"\nfront = "3 11/16 x 8 1/2"': (
        "11 17/2", "59/16 59/8", {"flap": "1/16 0 59/16 17/2", "inside": "0 0 59/16 17/2"}),
    'fold = "tri"\nfront = "3 11/16 x 8 1/2"\nopens = "left"': (
        "11 17/2", "29/8 117/16", {"flap": "0 0 29/8 17/2", "inside": "0 0 59/16 17/2"}),
    'fold = "top"\nfront = "5 1/2 x 4 1/4"\nscores = ["1"]\n[allowance]\nfold = "1/8"': (
        "11/2 69/8", "1 69/16", {"front": "0 0 11/2 17/4"}),
}
SPOIL = ("visible", "visible_closed")


def fractions(text):
    return [Fraction(part) for part in text.split()]


def by_hand(expect):
    for base, (sides, scores, boxes) in FOLDS.items():
        v = read(f'unit = "in"\n[base]\n{base}\n')[0]
        w, h, at = folds.blank(v)
        expect([w, h] == fractions(sides) and at == fractions(scores), f"blank and scores of {base!r}")
        cut = v.cut_back.at_least if v.cut_back else 0
        found = {f.name: folds.cut_face(f.box, f.trimmed, cut) if f.trimmed else f.box
                 for f in folds.faces(v, *v.front)}
        opening = folds.reveal(v, *v.front, cut)
        found.update({"reveal": opening[0]} if opening else {})
        for name, box in boxes.items():
            expect(list(found[name]) == fractions(box), f"{name} of {base!r} is {found[name]}")


def flat(*box, thickness=0, holes=()):
    return Sheet("", [rect(*map(Fraction, box))], [rect(*map(Fraction, hole)) for hole in holes], Fraction(thickness))


def sheets_by_hand(expect):
    print_, boat = flat(0, 0, 4, 4), flat(1, 1, 3, 3)
    diamond = Sheet("", [((2, 0), (4, 2), (2, 4), (0, 2))])
    for share in (share_by_grid, share_by_clipping):
        expect(abs(share(print_, [boat]) - Fraction(3, 4)) < 1e-12, "a quarter is covered")
        expect(abs(share(flat(0, 0, 4, 4, holes=[(1, 1, 3, 3)]), [flat(0, 0, 4, 2)]) - 0.5) < 1e-12,
               "half of a frame is covered")
        expect(abs(share(print_, [flat(0, 0, 4, 4, holes=[(1, 1, 3, 3)])]) - 0.25) < 1e-12, "a quarter seen through")
    expect(abs(share_by_clipping(print_, [diamond]) - 0.5) < 1e-12, "a square on its corner covers half")
    expect(not diamond.exact() and print_.exact(), "which of them stand upright")
    # 4 wide and 1/2 thick: 4 1/2. On a sheet of no thickness a lump 1 high, 1 1/2 from either edge.
    expect(half_girth([flat(0, 0, 4, 2, thickness="1/2")]) == 4.5, "half way round a flat card")
    lump = [flat(0, 0, 4, 2), flat("3/2", 1, "5/2", 2, thickness=1)]
    expect(abs(half_girth(lump) - (4 + 1 + 2 * math.hypot(1.5, 1)) / 2) < 1e-12, "half way round a lump")
    expect(abs(half_girth(lump, True) - (2 + 1 + 1 + math.hypot(1, 1)) / 2) < 1e-12, "a lump at the edge, down")


def agree(expect):
    """The grid and the clipping, on stacks of upright sheets with openings."""
    rng = random.Random(4)
    for _ in range(60):
        stack = []
        for _ in range(rng.randint(2, 9)):
            l, t, w, h = (rng.randint(0, 9), rng.randint(0, 9), rng.randint(2, 9), rng.randint(2, 9))
            holes = [(l + 1, t + 1, l + w - rng.randint(0, 1), t + h - 1)] if w > 2 and h > 2 and rng.random() < .4 else ()
            stack.append(flat(l, t, l + w, t + h, thickness=rng.randint(1, 4), holes=holes))
        for i, sheet in enumerate(stack):
            one, other = share_by_grid(sheet, stack[i + 1:]), share_by_clipping(sheet, stack[i + 1:])
            expect(abs(one - other) < 1e-9, f"a share of {one} over the grid, {other} by clipping")
        expect(thickest_by_grid(stack) == thickest_by_clipping(stack), "the thickest place")


def refuses(expect, says, text, answer):
    """An answer is taken as it is, and not with any one number of it changed."""
    wrong = body.compare(text, answer)[1]
    expect(not wrong, f"{says}: refused: {wrong[:1]}")
    if wrong:
        return

    def spoilt(what, change):
        other = copy.deepcopy(answer)
        change(other)
        expect(body.compare(text, other)[1], f"{says}: another {what} is accepted")

    def nudge(table, key, by):
        table[key] = str(Fraction(table[key]) + by)

    step = Fraction(1, 10**6)
    for i, layer in enumerate(answer["layers"]):
        for key in SPOIL:
            spoilt(f"{key} of {layer['name']}", lambda a, i=i, key=key: nudge(a["layers"][i], key, step))
    for key in ("width", "height"):
        spoilt(f"{key} of the blank", lambda a, key=key: nudge(a["base"]["blank"], key, step))
        spoilt(f"{key} over all", lambda a, key=key: nudge(a["closed"]["over_all"], key, step))
    for i in range(len(answer["base"]["scores"])):
        spoilt("score", lambda a, i=i: nudge(a["base"]["scores"], i, step))
    for key in ("thickness", "girth_across", "girth_down"):
        if key in answer["closed"]:
            spoilt(key, lambda a, key=key: nudge(a["closed"], key, step))
    if "grams" in answer["closed"]:
        spoilt("weight", lambda a: a["closed"].update(grams=a["closed"]["grams"] + 0.01))
    limit = tomllib.loads(text).get("limit", {}).get("thickness")
    if limit is not None and "thickness" in answer["closed"]:
        less = text.replace(f'thickness = "{limit}"', 'thickness = "0.0001"')
        expect(body.compare(less, answer)[1], f"{says}: more than its limit is accepted")


def run(expect):
    by_hand(expect)
    sheets_by_hand(expect)
    agree(expect)
