"""The outlines in the SVG of a card held against the sizes and places that `size --json` tells: on every face that is
drawn, each layer (each of its copies) and each window just once, and nothing else. Where layers come to lie on their face is
worked out by the oracle beside this folder, from the answer and the card file alone."""
import pathlib
import sys
import tomllib
from fractions import Fraction

import svg

sys.path.append(str(pathlib.Path(__file__).resolve().parent.parent / "oracle"))
from body import Body  # noqa: E402
from checker import answers_of  # noqa: E402
from reading import read  # noqa: E402

NEAR = 0.01  # points; cairo writes whole 256ths of one
EDGE_OF_LAYER = 0.7, ()
EDGE_OF_STAMP = 0.5, (1.5, 1.2)  # ink
EDGE_OF_WINDOW = 0.7, (3.0, 1.5)
EDGE_OF_LEAF = 0.9, ()
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
    """(what, box) in the card's unit: of layers, of windows, of openings in layers."""
    layers, windows, openings = [], [], []
    for piece in body.version.pieces:
        if own_face(body, piece) != face:
            continue
        if piece.kind == "layer":
            quads = body.sheet[piece.name].outlines
            layers += [(piece, box_of(on_face(body, face, quad))) for quad in quads]
        else:
            box = box_of(on_face(body, face, body.window_quad(piece)))
            windows.append((piece, box))
            if piece.on in body.piece:
                openings.append((piece, box))
    return layers, windows, openings


def near(a, b):
    return all(abs(x - y) <= NEAR for x, y in zip(a, b))


def unmatched(boxes, found, what):
    """Pairs each named box with one outline; what is left of either is wrong."""
    wrong, left = [], list(found)
    for piece, box in boxes:
        match = next((one for one in left if near(one, box)), None)
        if match is None:
            wrong.append(f"{what} {piece.name!r} should be at {told(box)}")
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
    """`drawn`: the outlines of the whole picture; `stamped`: the names of layers that are ink."""
    layers, windows, openings = wanted(body, face)
    place = {name: [(piece, on_page(box, view, top)) for piece, box in all_of]
             for name, all_of in (("layers", layers), ("windows", windows), ("openings", openings))}
    whole = [float(v) for v in body.faces[face].box]
    if body.faces[face].turned:
        whole = 0, 0, whole[2] - whole[0], whole[3] - whole[1]
    whole = on_page(whole, view, top)
    boxes = [whole] + [box for all_of in place.values() for _, box in all_of]
    room = (min(b[0] for b in boxes) - 5, min(b[1] for b in boxes) - 5, max(b[2] for b in boxes) + 5,
            max(b[3] for b in boxes) + 5)
    here = [path for path in drawn if path.corners and room[0] < path.box[0] and room[1] < path.box[1]
            and path.box[2] < room[2] and path.box[3] < room[3]]
    leaves = [i for i, path in enumerate(here) if is_edge(path, EDGE_OF_LEAF)]
    # What is drawn before the face is under it: of a flat card, what is on its back.
    here = here[leaves[-1] + 1:] if leaves else here
    paper = [(p, b) for p, b in place["layers"] if p.name not in stamped] + place["openings"]
    stamps = [(p, b) for p, b in place["layers"] if p.name in stamped]
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
            if face:
                body = all_bodies[view.get("variant", "")]
                seen.add((view.get("variant", ""), face))
                wrong += faults_of_view(body, stamped, view, face, page["top"], drawn)
    for piece in plain.version.pieces:
        face = own_face(plain, piece)
        if ("", face) not in seen:
            wrong.append(f"the {face}, where {piece.name!r} is, is not drawn")
    return wrong
