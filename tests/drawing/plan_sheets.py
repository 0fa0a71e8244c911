"""The sheets in the SVG of a plan, or of a worksheet, held against the plan that `cut --json` tells: sheet by sheet in its
order, all of one paper to one scale, each piece, each leftover and each cut just once and where it is told to be, and nothing
else. Corner and scale of a sheet are taken from its own outline; nothing the drawing says of itself is believed."""
import copy
import itertools

from outlines import EDGE_OF_LAYER, EDGE_OF_LEAF, INK, is_edge, near, told, unmatched

CUT = 1.1
LEFT = {True: 0.6, False: 0.4}  # the edge of what is worth keeping, and of scrap
WHITE = "rgb(100%,100%,100%)"
SOFT = "rgb(45%,46%,52%)"


def sheet_edges(drawn):
    """Where they are among the paths: what has the edge of a leaf around something white."""
    white, out = [], []
    for i, path in enumerate(drawn):
        if path.fill == WHITE and not path.stroke and path.corners:
            white.append(path)
        elif is_edge(path, EDGE_OF_LEAF) and not path.fill and any(near(path.box, one.box) for one in white):
            out.append(i)
    return out


def is_piece(path):
    return is_edge(path, EDGE_OF_LAYER) or is_edge(path, EDGE_OF_LEAF) and bool(path.fill)


def is_left(path, keep):
    return abs(path.stroke - LEFT[keep]) < 1e-3 and path.colour == SOFT and len(path.corners) == 4


def is_cut(path):
    return bool(path.line) and abs(path.stroke - CUT) < 1e-3 and path.colour == INK and not path.dashes


def within(path, box):
    left, top, right, bottom = path.box
    e = 0.02
    return left > box[0] - e and top > box[1] - e and right < box[2] + e and bottom < box[3] + e


def sheets(drawn):
    """[(its box, pieces, {keep: leftovers}, cuts)], each a list of boxes: pieces are drawn before the outline of their
    sheet, cuts after it."""
    edges, out = sheet_edges(drawn), []
    for before, here, after in zip([-1] + edges, edges, edges[1:] + [len(drawn)]):
        box = drawn[here].box
        under = [p for p in drawn[before + 1:here] if p.corners and within(p, box)]
        out.append((box, [p.box for p in under if is_piece(p)],
                    {keep: [p.box for p in under if is_left(p, keep)] for keep in LEFT},
                    [p.box for p in drawn[here + 1:after] if is_cut(p) and within(p, box)]))
    return out


def number(text):
    top, _, bottom = text.partition("/")
    return int(top) / int(bottom or 1)


def lies(entry):
    x, y, width, height = (number(entry[key]) for key in ("x", "y", "width", "height"))
    return x, y, x + width, y + height


def cut_at(cut):
    left, top, right, bottom = lies(cut)
    at = number(cut["at"])
    return (left, top + at, right, top + at) if cut["across"] else (left + at, top, left + at, bottom)


def faults_of_sheet(laid, sheet, scale):
    box, pieces, left, cuts = sheet
    whole = box[0], box[1], box[0] + number(laid["width"]) * scale, box[1] + number(laid["height"]) * scale
    if not near(box, whole):
        return [f"its outline is {told(box)}, to the paper's scale {told(whole)}"]

    def on_page(named):
        return [(name, tuple(box[i % 2] + v * scale for i, v in enumerate(one))) for name, one in named]

    wrong = unmatched(on_page([(p["layer"], lies(p)) for p in laid["pieces"]]), pieces, "piece")
    for keep, what in ((True, "what is worth keeping"), (False, "scrap")):
        of_kind = [one for one in laid["leftovers"] if one["keep"] == keep]
        wrong += unmatched(on_page([(f"{one['width']} x {one['height']}", lies(one)) for one in of_kind]), left[keep], what)
    return wrong + unmatched(on_page([(f"of step {cut['step']}", cut_at(cut)) for cut in laid["cuts"]]), cuts, "cut")


def faults(drawn, answer):
    """`drawn`: the paths of the SVG; `answer`: of `cut --json`."""
    found = sheets(drawn)
    # Those that are cut alike are told apart where their pieces go to other cards.
    all_laid = [(paper["paper"], next(alike)) for paper in answer["papers"]
                for _, alike in itertools.groupby(paper["plan"], lambda laid: laid["sheet"])]
    if len(found) != len(all_laid):
        return [f"{len(found)} sheets are drawn, {len(all_laid)} are planned"]
    scales, wrong = {}, []
    for (paper, laid), (box, *_) in zip(all_laid, found):  # from the longest side: least rounded
        for length, key in ((box[2] - box[0], "width"), (box[3] - box[1], "height")):
            scales[paper] = max(scales.get(paper, (0, 1)), (length, length / number(laid[key])))
    for (paper, laid), sheet in zip(all_laid, found):
        wrong += [f"{paper}, sheet {laid['sheet']}: {line}" for line in faults_of_sheet(laid, sheet, scales[paper][1])]
    return wrong


def unnoticed(drawn, answer):
    """What is not noticed when a sheet, a piece, a leftover or a cut is missing, moved by a fortieth of a point, or there
    twice: the first of each."""
    wrong, edges = [], sheet_edges(drawn)
    boxes = [drawn[edge].box for edge in edges]
    kinds = {"sheet": lambda i: i in edges, "piece": lambda i: is_piece(drawn[i]), "cut": lambda i: is_cut(drawn[i]),
             "leftover": lambda i: is_left(drawn[i], True) or is_left(drawn[i], False)}
    for what, is_one in kinds.items():
        spot = next((i for i in range(len(drawn)) if is_one(i) and any(within(drawn[i], box) for box in boxes)), None)
        if spot is None:
            continue
        moved = copy.deepcopy(drawn[spot])
        moved.corners, moved.line = ([(x + 0.025, y) for x, y in ends] for ends in (moved.corners, moved.line))
        changes = [("missing", []), ("there twice", 2 * [drawn[spot]])]
        if what != "sheet":  # all else is measured from its corner
            changes.append(("moved", [moved]))
        for how, middle in changes:
            if not faults(drawn[:spot] + middle + drawn[spot + 1:], answer):
                wrong.append(f"a {what} that is {how} is not noticed")
    return wrong
