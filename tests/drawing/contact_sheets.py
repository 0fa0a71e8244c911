"""Contact sheets (`explore --draw`): the alternatives that `explore --json` tells, each as a picture of its own, in their
order, all to one scale: the card closed and, where they differ on faces that are not seen closed from the front, opened out.
Every layer that is seen has its outline in the picture of its card, at the size and place told of that alternative."""
import json
import pathlib
import tomllib
from fractions import Fraction

import pdf
import svg
from calling import Made, run
from outlines import (  # finds the oracle beside this folder
    EDGE_OF_LAYER, EDGE_OF_LEAF, EDGE_OF_STAMP, box_of, is_edge, near, on_page, own_face, wanted_opened)
from svg import Path

import folds  # noqa: E402
from body import Body  # noqa: E402
from reading import read  # noqa: E402


def draw(program, card, source, folder, ending, *more):
    path = pathlib.Path(folder) / f"{card}.alternatives.{ending}"
    return Made(card, "alternatives", pathlib.Path(source), path,
                run([program, "explore", source, "--draw", path, "--json", "--force", *more]))


def faults_of_text(made):
    """Each picture has its number."""
    shown = len(json.loads(made.ran.out)["alternatives"])
    words = [word.text for _, _, words in pdf.pages(made.path) for word in words]
    return [f"{words.count(f'{n}.')} times {n}." for n in range(1, shown + 1) if words.count(f"{n}.") != 1]


def closed_boxes(body):
    """Of layers that are seen closed from the front, in the closed card's frame; copies too."""
    return [(piece.name, box_of(quad)) for piece in body.stacks.layers
            if Fraction(body.entry[piece.name]["visible_closed"]) and seen_from_front(body, piece)
            for quad in body.sheet[piece.name].outlines]


def seen_from_front(body, piece):
    return body.faces[own_face(body, piece)].frame == folds.CLOSED


def places(entry):
    return [tuple(one[key] for key in ("left", "top", "width", "height"))
            for one in entry["layers"] + entry["windows"] if one["face"] != "front"]


def deepest(body):
    """The box of the leaf that is hindmost: it is drawn before the others."""
    return box_of(body.leaves[-1][1].outlines[0])


def scale_of(leaves, size):
    """From the first outline of a leaf that has the proportions of the first card's hindmost one."""
    width, height = size[2] - size[0], size[3] - size[1]
    for path in leaves:
        left, top, right, bottom = path.box
        scale = (right - left) / width
        if abs((bottom - top) - height * scale) < 0.02:
            return scale
    return 1


def whole_leaf(body):
    """Where on the blank the first leaf lies that no cut-back takes anything of."""
    v, start = body.version, Fraction(0)
    width, height, _ = folds.blank(v)
    for leaf in folds.leaves(v, v.front[0 if v.across else 1]):
        if leaf.depth > 0:
            return folds.strip(start, start + leaf.length, height if v.across else width, v.across)
        start += leaf.length + v.fold_takes
    raise ValueError("it has one leaf")


class Pictures:
    """Found one after the other."""

    def __init__(self, drawn, stamped):
        self.leaves = [path for path in drawn if is_edge(path, EDGE_OF_LEAF)]
        self.papers = [path.box for path in drawn if is_edge(path, EDGE_OF_LAYER)]
        self.inks = [path.box for path in drawn if is_edge(path, EDGE_OF_STAMP)]
        self.stamped = stamped
        self.next = 0  # of the leaves
        self.found = []  # boxes of layers

    def find(self, leaf, boxes, scale):
        """The next outline of such a leaf that has all these about it: what lacks of the one that lacks least, if not."""
        best = None
        for i in range(self.next, len(self.leaves)):
            box = self.leaves[i].box
            view = {"left": box[0] - float(leaf[0]) * scale, "top": box[1] - float(leaf[1]) * scale, "scale": scale}
            if not near(box, on_page([float(v) for v in leaf], view, 0)):
                continue
            lacks, found = [], []
            for name, one in boxes:
                place = on_page([float(v) for v in one], view, 0)
                there = any(near(place, other) for other in (self.inks if name in self.stamped else self.papers))
                found.append(place) if there else lacks.append(name)
            if not lacks:
                self.next, self.found = i + 1, self.found + found
                return []
            if best is None or len(lacks) < len(best):
                best = lacks
        return ["no picture of its leaf"] if best is None else [f"no outline of {name!r} where it is told" for name in best]


def judged(made, drawn):
    """What is wrong with these paths, and the pictures that are found among them."""
    explored = json.loads(made.ran.out)
    text = made.source.read_text(encoding="utf-8")
    version, entries = read(text)[0], explored["alternatives"]
    stamped = {layer["name"] for layer in tomllib.loads(text).get("layer", []) if layer.get("stamped")}
    inside = version.fold != "flat" and any(places(one) != places(entries[0]) for one in entries)
    pictures, scale, wrong = Pictures(drawn, stamped), None, []
    for entry in entries:
        body = Body(version, entry)
        scale = scale or scale_of(pictures.leaves, deepest(body))
        views = [("closed", deepest(body), closed_boxes(body))]
        if inside:
            views.append(("opened out", whole_leaf(body), [(piece.name, box) for piece, box in wanted_opened(body)[0]]))
        for what, leaf, boxes in views:
            wrong += [f"card {entry['number']} {what}: {line}" for line in pictures.find(leaf, boxes, scale)]
    return wrong if entries else ["no alternatives"], pictures


def faults(made):
    return judged(made, svg.paths(made.path.read_bytes()))[0]


def unnoticed(made):
    """What is not noticed of the last picture missing, or of one layer of it missing or moved by a twentieth of a point."""
    drawn = svg.paths(made.path.read_bytes())
    pictures = judged(made, drawn)[1]
    last, layer = pictures.leaves[pictures.next - 1], pictures.found[-1]
    others = [path for path in drawn if not (path.corners and near(path.box, layer))]
    moved = [Path([(x + 0.05, y) for x, y in path.corners], path.stroke, path.dashes, path.colour, path.fill)
             for path in drawn if path not in others]
    bad = {"picture missing": drawn[:drawn.index(last)], "layer missing": others, "layer moved": others + moved}
    return [f"{what} is not noticed" for what, paths in bad.items() if not judged(made, paths)[0]]
