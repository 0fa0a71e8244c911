"""The outlines in the SVG of a card held against the sizes and places that `size --json` tells: on every face that is
drawn and on the card opened out, each layer (each of its copies) and each window just once, and nothing else. Where layers
come to lie on their face, and faces on the blank, is worked out by the oracle beside this folder, from the answer and the
card file alone."""
import pathlib
import sys
import tomllib
from fractions import Fraction

import svg

sys.path.append(str(pathlib.Path(__file__).resolve().parent.parent / "oracle"))
import folds  # noqa: E402
from body import Body  # noqa: E402
from checker import answers_of  # noqa: E402
from reading import read  # noqa: E402

NEAR = 0.01  # points; cairo writes whole 256ths of one
EDGE_OF_LAYER = 0.7, ()
EDGE_OF_STAMP = 0.5, (1.5, 1.2)  # ink
EDGE_OF_WINDOW = 0.7, (3.0, 1.5)
EDGE_OF_LEAF = 0.9, ()
OPENED = "Opened out"
INK = "rgb(13%,14%,20%)"


def box_of(points):
    xs, ys = [float(x) for x, _ in points], [float(y) for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def bodies(text, answer):
    """The plain card and each variant, by name ("" for the plain card)."""
    versions = read(text)
    own = answers_of(answer, len(versions))
    names = [""] + [variant["name"] for variant in answer.get("variants", [])]
    return {name: Body(version, one) for name, version, one in zip(names, versions, own)}


def on_face(body, face, quad):
    """From the closed card's frame, which the oracle has them in, to the face's own; the same way as back."""
    f = body.faces[face]
    out = []
    for x, y in quad:
        x, y = (x - f.corner[0], y - f.corner[1]) if f.turned else (x, y)
        if f.turned == "across":
            x = f.box[2] - f.box[0] - x
        elif f.turned == "down":
            y = f.box[3] - f.box[1] - y
        out.append((x, y))
    return out


def own_face(body, piece):
    if piece.kind == "layer":
        return body.stacks.page[piece.name]
    return body.face_in(piece) if piece.on not in body.piece else body.stacks.page[root_layer(body, piece)]


def root_layer(body, window):
    on = body.piece[window.on]
    return on.name if on.kind == "layer" else root_layer(body, on)


def wanted(body, face):
    """(what, box) in the card's unit: of layers, of windows. A window that is cut from the leaf's other side is one too."""
    layers, windows, leaf = [], [], body.faces[face].leaf
    through = {leaf.toward, leaf.away} | ({"front"} if leaf.depth == 0 else set()) if leaf else set()
    for piece in body.version.pieces:
        own = own_face(body, piece)
        if piece.kind == "layer" and own == face:
            quads = body.sheet[piece.name].outlines
            layers += [(piece, box_of(on_face(body, face, quad))) for quad in quads]
        elif piece.kind == "window" and (own == face or piece.on not in body.piece and own in through):
            windows.append((piece, box_of(on_face(body, face, body.window_quad(piece)))))
    return layers, windows


def extent(body, face):
    """Of the face's own frame what it takes."""
    f = body.faces[face]
    return (0, 0, f.box[2] - f.box[0], f.box[3] - f.box[1]) if f.turned else f.box


def opened(body):
    """The faces that the blank shows as it lies before it is folded, and where their frame is on it: a z lies with its
    front up and every other leaf turned over, any other card with its inside up."""
    v = body.version
    leaves = folds.leaves(v, v.front[0 if v.across else 1])
    out, start = [], Fraction(0)
    for leaf in leaves:
        toward = leaf.depth % 2 == 0 if v.fold == "z" else leaf.name == "back"
        face = leaf.toward if toward else leaf.away
        left, top = extent(body, face)[:2]
        out.append((face, (start - left, -top) if v.across else (-left, start - top)))
        start += leaf.length + v.fold_takes
    return out


def wanted_opened(body):
    """As `wanted`, of all that is seen of the card opened out, on the blank."""
    out = [], []
    for face, (x, y) in opened(body):
        for all_of, here in zip(out, wanted(body, face)):
            all_of += [(piece, (box[0] + x, box[1] + y, box[2] + x, box[3] + y)) for piece, box in here]
    return out


def near(a, b):
    return all(abs(x - y) <= NEAR for x, y in zip(a, b))


def unmatched(boxes, found, what):
    """Pairs each named box with one outline; what is left of either is wrong."""
    wrong, left = [], list(found)
    for name, box in boxes:
        match = next((one for one in left if near(one, box)), None)
        if match is None:
            wrong.append(f"{what} {name!r} should be at {told(box)}")
        else:
            left.remove(match)
    return wrong + [f"an outline of {what} at {told(box)} that nothing accounts for" for box in left]


def told(box):
    return " ".join(f"{v:.3f}" for v in box)


def on_page(box, view, top):
    x, y, scale = view["left"], view["top"] + top, view["scale"]
    return x + box[0] * scale, y + box[1] * scale, x + box[2] * scale, y + box[3] * scale


def is_edge(path, kind):
    width, dashes = kind
    return abs(path.stroke - width) < 1e-3 and path.dashes == dashes and path.colour == INK and len(path.corners) == 4


def faults_of_view(body, stamped, view, face, top, drawn):
    """`face`: none of the card opened out. `drawn`: the outlines of the whole picture; `stamped`: the names of layers that
    are ink."""
    layers, windows = wanted(body, face) if face else wanted_opened(body)
    place = {name: [(piece, on_page(box, view, top)) for piece, box in all_of]
             for name, all_of in (("layers", layers), ("windows", windows))}
    whole = extent(body, face) if face else (0, 0, *folds.blank(body.version)[:2])
    whole = on_page([float(v) for v in whole], view, top)
    boxes = [whole] + [box for all_of in place.values() for _, box in all_of]
    room = (min(b[0] for b in boxes) - 5, min(b[1] for b in boxes) - 5, max(b[2] for b in boxes) + 5,
            max(b[3] for b in boxes) + 5)
    here = [path for path in drawn if path.corners and room[0] < path.box[0] and room[1] < path.box[1]
            and path.box[2] < room[2] and path.box[3] < room[3]]
    leaves = [i for i, path in enumerate(here) if is_edge(path, EDGE_OF_LEAF)]
    # What is drawn before the face is under it: of a flat card, what is on its back.
    here = here[leaves[0] + 1:] if leaves else here
    place = {kind: [(piece.name, box) for piece, box in all_of] for kind, all_of in place.items()}
    paper = [(name, box) for name, box in place["layers"] if name not in stamped]
    stamps = [(name, box) for name, box in place["layers"] if name in stamped]
    wrong = unmatched(paper, [p.box for p in here if is_edge(p, EDGE_OF_LAYER)], "layer")
    wrong += unmatched(stamps, [p.box for p in here if is_edge(p, EDGE_OF_STAMP)], "stamp")
    wrong += unmatched(place["windows"], [p.box for p in here if is_edge(p, EDGE_OF_WINDOW)], "window")
    if not leaves:
        wrong.append("the face itself has no outline")
    return [f"{view.get('variant') or 'the plain card'}, {view['view']}: {line}" for line in wrong]


def faults_of_closed(body, view, top, drawn):
    """Of the closed card: each layer of which something is seen. What is hidden may be drawn or not."""
    every = [path.box for path in drawn if is_edge(path, EDGE_OF_LAYER) or is_edge(path, EDGE_OF_STAMP)]
    wrong = []
    for piece in body.stacks.layers:
        if not Fraction(body.entry[piece.name]["visible_closed"]):
            continue
        for quad in body.sheet[piece.name].outlines:
            box = on_page(box_of(quad), view, top)
            if not any(near(one, box) for one in every):
                wrong.append(f"{view.get('variant') or 'the plain card'}, closed: {piece.name!r} should be at {told(box)}")
    return wrong


def faults(text, answer, made, picture=None):
    """`text`: of the card; `made`: its drawing. `picture`: bytes to look at instead of the file's."""
    drawn = svg.paths(picture if picture is not None else made.path.read_bytes())
    stamped = {layer["name"] for layer in tomllib.loads(text).get("layer", []) if layer.get("stamped")}
    all_bodies, wrong, seen = bodies(text, answer), [], set()
    plain = all_bodies[""]
    for page in made.pages:
        for view in page["views"]:
            # A card that does not fold is its front.
            face = "front" if plain.version.fold == "flat" and view["view"] == "The front" else view.get("face")
            if view["view"].startswith("Closed"):
                wrong += faults_of_closed(all_bodies[view.get("variant", "")], view, page["top"], drawn)
            if view["view"] == OPENED:
                wrong += faults_of_view(all_bodies[view.get("variant", "")], stamped, view, None, page["top"], drawn)
            if face:
                body = all_bodies[view.get("variant", "")]
                seen.add((view.get("variant", ""), face))
                wrong += faults_of_view(body, stamped, view, face, page["top"], drawn)
    for piece in plain.version.pieces:
        face = own_face(plain, piece)
        if ("", face) not in seen:
            wrong.append(f"the {face}, where {piece.name!r} is, is not drawn")
    return wrong
