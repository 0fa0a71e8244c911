#!/usr/bin/env python3
"""Folds the blanks that cases/README.md draws, and compares: what a drawing says must be what the program makes.

usage: check_folds.py PROGRAM [TOP]      TOP: the top of the sources

A drawing is a ```text block with boxes made of + - |, in two views of a blank: as it lies to be scored, and turned
over with its left (or top) edge still there. A box is a face: its name, and ^ or v where its top is. Beside a score
stand its distance from that edge and which way it folds; "- -" is an extra one. Below, "name (====" is the closed
card edge-on, the front uppermost, with ( and ) where a fold is.

Nothing here knows a fold by its name. A strip of paper with these faces and marks is folded along these scores, in
the order that the program gives; then it is seen which way up each face is, which leaf lies on which and where, and
where a small thing in the top left corner of each face comes to lie. The program is asked the same by a lump of foam
in that corner, which makes the card thickest there, and by a window. The mirror image of each drawing is compared
with the base that opens at the other side.
"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib
from dataclasses import dataclass, replace
from fractions import Fraction

sys.dont_write_bytecode = True  # nothing is left behind beside the sources
from check_guide import blocks  # noqa: E402

HERE = pathlib.Path(__file__).resolve().parent
OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
FOAM = Fraction(1, 4)  # the side of the lump


def number(text):
    """2 3/4 is 11/4."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


# ---- What is drawn


@dataclass
class Cell:
    name: str
    top_up: bool  # its top is up as drawn
    at: tuple  # columns of its left and right edge, rows of its top and bottom one


@dataclass
class Bar:
    leaf: str
    row: int
    left: int
    right: int
    folds: tuple  # whether a fold is at its left and right end


@dataclass
class Score:
    at: Fraction
    up: bool
    extra: bool


@dataclass
class Drawing:
    across: bool
    lies: str
    lying: list  # cells of the side that looks up, from the left or top edge on
    over: list  # of the other side, likewise
    scores: list
    bars: list


def cells(lines):
    """Every box: between a stretch of border and the like one next below."""
    stretches = [[(m.start(1), m.end(1) - 1) for m in re.finditer(r"(?=(\+-+\+))", line)] for line in lines]
    found = []
    for top, row in enumerate(stretches):
        for left, right in row:
            bottom = next((r for r in range(top + 1, len(lines)) if (left, right) in stretches[r]), None)
            inside = [line.ljust(right + 1)[left : right + 1] for line in lines[top + 1 : bottom or top + 1]]
            if not inside or any(line[0] not in "|+" or line[-1] not in "|+" for line in inside):
                continue
            words = " ".join(line[1:-1] for line in inside if line[0] == "|").split()
            marks = [word for word in words if word in ("^", "v")]
            name = " ".join(word for word in words if word not in ("^", "v"))
            if len(marks) != 1 or not name:
                raise ValueError(f"a face without a name or one mark: {words}")
            found.append(Cell(name, marks[0] == "^", (left, right, top, bottom)))
    return found


def views(found):
    """Boxes that share an edge are one view; by where they stand, from the top left."""
    groups = []
    for cell in sorted(found, key=lambda one: (one.at[2], one.at[0])):
        left, right, top, bottom = cell.at
        group = next((g for g in groups for l, r, t, b in [g[-1].at]
                      if (r == left and t == top and b == bottom) or (b == top and l == left and r == right)), None)
        if group is None:
            groups.append([cell])
        else:
            group.append(cell)
    return groups


def labels(lines, view, across):
    """What stands at the lines between faces, and whether the line is one of an extra score."""
    if not across:
        right = max(line.rfind("+") for line in lines)
        said = [(line[right + 1 :].strip(), re.search(r"- +-", line) is not None) for line in lines if "+" in line]
        return [(text, extra) for text, extra in said if text]
    bottom = view[0].at[3]
    below = []
    for line in lines[bottom + 1 :]:
        if not line.strip():
            break
        below.append(line)
    at = [cell.at[0] for cell in view[1:]] + [1000]
    return [(" ".join(line[a:b].strip() for line in below).strip(), False) for a, b in zip(at, at[1:])]


def read_drawing(text):
    lines = text.splitlines()
    groups = views(cells(lines))
    if len(groups) != 2 or len(groups[0]) != len(groups[1]):
        raise ValueError("two views of the same leaves are to be drawn")
    lying, over = groups
    across = len(lying) == 1 or lying[0].at[2] == lying[1].at[2]
    near = "left" if across else "top"
    if f"Turned over, its {near} edge still at the {near}" not in text:
        raise ValueError("the drawing does not say how it is turned over")
    scores = []
    for said, extra in labels(lines, lying, across) if len(lying) > 1 else []:
        at, way = re.fullmatch(r"([\d /]+), (towards you|away)", said).groups()
        scores.append(Score(number(at), way == "towards you", extra))
    bars = []
    for row, line in enumerate(lines):
        drawn = re.fullmatch(r" +([a-z ,]+?) +([(=][(=) ]*)", line)
        for name, bar in zip(drawn.group(1).split(", "), re.finditer(r"[(=)]+", line)) if drawn else []:
            bars.append(Bar(name, row, bar.start(), bar.end(), (bar[0][0] == "(", bar[0][-1] == ")")))
    closed = f"Closed, its {near} edge at the left"
    if (closed in text) != bool(bars) or bool(bars) != (len(lying) > 1):
        raise ValueError("a folded card is drawn closed, and it is said which edge is at the left")
    if not bars:
        bars = [Bar("card", 0, 0, 1, (False, False))]
    return Drawing(across, lines[0].strip().split("  ")[0].lower(), lying, over, scores, bars)


def mirrored(drawing, along):
    """The base that opens at the other side; what is drawn of a face stands the same way up."""
    end = max(bar.right for bar in drawing.bars)
    return replace(drawing, lying=drawing.lying[::-1], over=drawing.over[::-1],
                   scores=[replace(s, at=along - s.at) for s in reversed(drawing.scores)],
                   bars=[replace(b, left=end - b.right, right=end - b.left, folds=b.folds[::-1])
                         for b in drawing.bars])


# ---- A strip of paper


@dataclass
class Leaf:
    start: Fraction  # on the blank, along
    end: Fraction
    moved: bool = False  # folded over: turned around, its other side up
    shift: Fraction = Fraction(0)  # where along it lies now: start + shift, or shift - start when moved
    height: int = 0

    def now(self, along):
        return self.shift - along if self.moved else along + self.shift


def fold(lengths, scores, turns):
    """The leaves after folding, seen from above as the blank lay. Those at the ends move."""
    ends = [Fraction(0)]
    for length in lengths:
        ends.append(ends[-1] + length)
    leaves = [Leaf(a, b) for a, b in zip(ends, ends[1:])]
    for i in sorted(range(len(scores)), key=lambda one: turns[one]):
        moving = leaves[0] if i == 0 else leaves[-1]
        heights = [leaf.height for leaf in leaves]
        moving.moved = True
        moving.shift = 2 * scores[i].at
        moving.height = max(heights) + 1 if scores[i].up else min(heights) - 1
    return leaves


class Folded:
    """A drawn base, folded. Points are on the closed card, seen facing its front, from its top left."""

    def __init__(self, drawing, lengths, other, turns):
        self.drawing, self.other = drawing, other
        self.folds = [score for score in drawing.scores if not score.extra]
        self.leaves = fold(lengths, self.folds, turns)
        self.faces = {}  # by name: its leaf, and whether it is on the side that lay up
        for i, (up, over) in enumerate(zip(drawing.lying, drawing.over)):
            self.faces[up.name] = (i, True)
            self.faces[over.name] = (i, False)
        front = next(name for name in self.faces if name.endswith("front") and not name.startswith("inside"))
        self.from_above = self.looks_up(front)
        origin, self.right, self.down = self.corner(front)
        self.corner_at = origin
        reach = [self.seen(self.place(leaf, along, side)) for leaf in self.leaves
                 for along in (leaf.start, leaf.end) for side in (0, other)]
        self.least = (min(x for x, _ in reach), min(y for _, y in reach))

    def looks_up(self, name):
        leaf, lay_up = self.faces[name]
        return lay_up != self.leaves[leaf].moved

    def place(self, leaf, along, side):
        return (leaf.now(along), side) if self.drawing.across else (side, leaf.now(along))

    def corner(self, name):
        """The top left corner of a face, and which way are its right and its down, in the folded strip."""
        i, lay_up = self.faces[name]
        leaf = self.leaves[i]
        top_up = (self.drawing.lying if lay_up else self.drawing.over)[i].top_up
        # As drawn: left, top, right and bottom. Turned over, what runs along stays and the other way turns round.
        low, high = (0, self.other) if lay_up else (self.other, 0)
        if self.drawing.across:
            drawn = [(leaf.start, low), (leaf.end, low), (leaf.start, high), (leaf.end, high)]
        else:
            drawn = [(leaf.start, low), (leaf.start, high), (leaf.end, low), (leaf.end, high)]
        at = [self.place(leaf, *point) for point in (drawn if top_up else drawn[::-1])]

        def towards(point):
            return tuple((b > a) - (b < a) for a, b in zip(at[0], point))

        return at[0], towards(at[1]), towards(at[2])

    def seen(self, point):
        away = [p - c for p, c in zip(point, self.corner_at)]
        return (sum(a * r for a, r in zip(away, self.right)), sum(a * d for a, d in zip(away, self.down)))

    def on_card(self, point):
        return tuple(p - low for p, low in zip(self.seen(point), self.least))

    def top_left(self, name):
        """Where a square of foam in the top left corner of a face lies on the closed card."""
        at, right, down = self.corner(name)
        far = tuple(a + FOAM * (r + d) for a, r, d in zip(at, right, down))
        a, b = self.on_card(at), self.on_card(far)
        return tuple(sorted(pair) for pair in zip(a, b))

    def lies(self, i):
        """From and to, along the closed card."""
        leaf = self.leaves[i]
        axis = 0 if self.drawing.across else 1
        return sorted(self.on_card(self.place(leaf, along, 0))[axis] for along in (leaf.start, leaf.end))

    def depth(self, i):
        return -self.leaves[i].height if self.from_above else self.leaves[i].height

    def sides(self):
        """Of each leaf the side that looks away from the front, and the other."""
        pairs = [(up.name, over.name) for up, over in zip(self.drawing.lying, self.drawing.over)]
        return [pair if self.looks_up(pair[0]) != self.from_above else pair[::-1] for pair in pairs]

    def overlap(self, i, j):
        a, b = self.lies(i), self.lies(j)
        return a[0] < b[1] and b[0] < a[1]

    def fold_ends(self, i):
        """Whether a fold is at the low and the high end of a leaf, closed."""
        axis = 0 if self.drawing.across else 1
        at = [self.on_card(self.place(self.leaves[i], score.at, 0))[axis]
              for score, ends in zip(self.folds, zip(range(9), range(1, 9))) if i in ends]
        low, high = self.lies(i)
        return low in at, high in at


# ---- What the program says


def ask(program, folder, text, *more):
    path = pathlib.Path(folder) / "card.toml"
    path.write_text(text, encoding="utf-8")
    run = subprocess.run([program, "size", str(path), *more], capture_output=True, text=True, timeout=60)
    if run.returncode != 0:
        raise ValueError(f"status {run.returncode}: {(run.stderr or run.stdout)[:400]}")
    return json.loads(run.stdout) if "--json" in more else " ".join(run.stdout.split())


def base_text(card, opens=None, leaves=None, scores=None):
    """The base of a card as a file of its own, with what is given in place of what it states."""
    base = dict(card["base"])
    if opens:
        base["opens"] = opens
    for key, values in (("leaves", leaves), ("scores", scores)):
        if values and key in base:
            base[key] = ", ".join(map(str, values)) if key == "leaves" else [str(value) for value in values]
    # A mark on which any place falls: what is asked is where corners are.
    lines = [f'unit = "{card["unit"]}"', 'mark = "1/64"', "[base]", 'paper = "plain"']
    lines += [f"{key} = {json.dumps(value)}" for key, value in base.items() if key not in ("cut-back", "paper")]
    lines += ["[allowance]", *(f"{key} = {json.dumps(value)}" for key, value in card.get("allowance", {}).items())]
    return "\n".join([*lines, "[[paper]]", 'name = "plain"', 'thickness = "1/100"', ""])


def compare(drawing, answer, told):
    """What a drawing and the program do not agree on."""
    base = answer["base"]
    wrong = []

    def same(what, drawn, said):
        if drawn != said:
            wrong.append(f"{what}: drawn {drawn}, the program says {said}")

    same("as it lies", drawing.lies, base["lies"])
    same("scores", [(s.at, "towards you" if s.up else "away", s.extra) for s in drawing.scores],
         [(Fraction(s["at"]), s["folds"], s["extra"]) for s in base["score_lines"]])
    same("pairs of faces", [{a.name, b.name} for a, b in zip(drawing.lying, drawing.over)],
         [{leaf["toward"], leaf["away"]} for leaf in base["leaves"]])
    if wrong:
        return wrong, None
    for score in drawing.scores:
        beside = min((s for s in drawing.scores if not s.extra), key=lambda s: abs(s.at - score.at))
        if score.extra and score.up == beside.up:
            wrong.append("an extra score folds with the fold beside it")

    lengths = [Fraction(leaf["length"]) for leaf in base["leaves"]]
    other = Fraction(answer["closed"]["height" if drawing.across else "width"])
    turns = [line["turn"] for line in base["score_lines"] if not line["extra"]]
    folded = Folded(drawing, lengths, other, turns)
    toward = {name for name in folded.faces if folded.looks_up(name) == folded.from_above}
    same("faces that look the way the front does", toward, {leaf["toward"] for leaf in base["leaves"]})
    for name in toward:
        same(f"the top of {name}", folded.corner(name)[1:], (folded.right, folded.down))

    leaves = range(len(lengths))
    for i in leaves:
        said = base["leaves"][i]
        same(f"{said['name']}, closed", folded.lies(i)[0], Fraction(said["closed_from"]))
    bars = {bar.leaf: bar for bar in drawing.bars}
    same("leaves drawn closed", sorted(bars), sorted(leaf["name"] for leaf in base["leaves"]))
    if wrong:
        return wrong, folded

    def order(a, b):
        return (a > b) - (a < b)

    for i in leaves:
        one = base["leaves"][i]
        same(f"the folds of {one['name']}, closed", bars[one["name"]].folds, folded.fold_ends(i))
        for j in leaves:
            two = base["leaves"][j]
            a, b = bars[one["name"]], bars[two["name"]]
            pair = f"{one['name']} and {two['name']}, closed"
            same(f"left ends of {pair}", order(a.left, b.left), order(folded.lies(i)[0], folded.lies(j)[0]))
            same(f"right ends of {pair}", order(a.right, b.right), order(folded.lies(i)[1], folded.lies(j)[1]))
            same(f"depth of {pair}", order(a.row, b.row), order(one["depth"], two["depth"]))
            if folded.overlap(i, j):
                same(f"depth of {pair}, folded", order(a.row, b.row), order(folded.depth(i), folded.depth(j)))

    if len(lengths) > 1:
        rows = sorted({bar.row for bar in drawing.bars})
        pile = ", ".join(" beside ".join(bar.leaf for bar in drawing.bars if bar.row == row) for row in rows)
        way = "from left to right" if drawing.across else "from top to bottom"
        opened = f"Opened out, {way}: {', '.join(cell.name for cell in drawing.lying)}."
        lines = [f"Closed, front to back: {pile}.", opened]
        upside_down = [(away, other_side) for away, other_side in folded.sides()
                       if folded.corner(away)[2] != folded.down and away != "back"]
        lines += [f"the top of {away} lies behind the bottom of {other_side}" for away, other_side in upside_down]
        wrong += [f"the report lacks \"{line}\"" for line in lines if line not in told]
        same("faces that are upside down", len(upside_down), told.count("lies behind the bottom of"))
    return wrong, folded


def compare_corners(program, folder, text, folded):
    """A lump of foam in the top left corner of each face: where the closed card is thickest."""
    wrong = []
    for name in folded.faces:
        lump = ["[[layer]]", 'name = "lump"', f'on = "{name}"', f'size = "{FOAM} x {FOAM}"', 'align = "top left"',
                'cut = "die"', 'raised = "1"', 'paper = "plain"', ""]
        answer = ask(program, folder, text + "\n".join(lump), "--json")
        x, y = (Fraction(answer["closed"]["thickest_at"][axis]) for axis in "xy")
        across, down = folded.top_left(name)
        if not (across[0] < x < across[1] and down[0] < y < down[1]):
            wrong.append(f"the top left of {name}: drawn within {across} x {down}, the program has it at {x}, {y}")
    return wrong


def compare_windows(program, folder, text, folded, base):
    """Through a window in a face that looks the way the front does: the leaf next behind, on the side that looks so."""
    wrong = []
    for i, leaf in enumerate(base["leaves"]):
        behind = [j for j in range(len(base["leaves"])) if folded.overlap(i, j) and folded.depth(j) > folded.depth(i)]
        if not behind:
            continue
        nearest = min(behind, key=folded.depth)
        want = next(name for name, (j, _) in folded.faces.items()
                    if j == nearest and folded.looks_up(name) == folded.from_above)
        window = ["[[window]]", 'name = "pane"', f'in = "{leaf["toward"]}"', f'size = "{FOAM} x {FOAM}"',
                  'align = "centre"', "[[layer]]", 'name = "view"', 'on = "pane"', ""]
        answer = ask(program, folder, text + "\n".join(window), "--json")
        seen = answer["layers"][0]
        if seen["face"] != want:
            wrong.append(f"through {leaf['toward']}: drawn {want}, the program says {seen['face']}")
        if seen["visible_closed"] != ("1" if leaf["depth"] == 0 else "0"):
            wrong.append(f"through {leaf['toward']}, closed, {seen['visible_closed']} is seen")
    return wrong


def check_drawing(program, folder, body, card):
    drawing = read_drawing(body)
    wrong, asked = [], [(drawing, base_text(card))]
    fold_name = card["base"]["fold"]
    if fold_name not in ("flat", "gate"):
        answer = ask(program, folder, asked[0][1], "--json")
        lengths = [leaf["length"] for leaf in answer["base"]["leaves"]]
        along = sum(map(Fraction, lengths))
        usual = {"side": "right", "top": "bottom", "tri": "right", "z": "left"}[fold_name]
        other_way = mirrored(drawing, along)
        asked.append((other_way, base_text(card, OPPOSITE[card["base"].get("opens", usual)], lengths[::-1],
                                           [s.at for s in other_way.scores if s.extra])))
    for one, text in asked:
        answer = ask(program, folder, text, "--json")
        found, folded = compare(one, answer, ask(program, folder, text))
        if not found:
            found = compare_corners(program, folder, text, folded)
            found += compare_windows(program, folder, text, folded, answer["base"])
        wrong += [line + (" (mirror image)" if one is not drawing else "") for line in found]
    return wrong


# ---- What folding takes


def check_usual(program, folder, guide):
    """The usual values in the table of allowances, by what a base without any comes to."""
    wrong = []
    rows = re.findall(r"^\| `(doors|flap|fold|envelope)` \|.*\| ([\d/.]+) \| ([\d/.]+) \|$", guide, re.MULTILINE)
    if [key for key, _, _ in rows] != ["doors", "flap", "fold", "envelope"]:
        return ["the table of allowances is not as this reads it"]
    for key, inches, millimetres in rows:
        for unit, usual in (("in", inches), ("mm", millimetres)):
            usual = Fraction(usual)
            whole = 4 if unit == "in" else 100
            fold_name = {"doors": "gate", "flap": "tri"}.get(key, "side")
            card = {"unit": unit, "base": {"fold": fold_name, "front": f"{whole} x {whole + 1}"}}
            answer = ask(program, folder, base_text(card).replace("1/100", "1/1000"), "--json")
            blank = Fraction(answer["base"]["blank"]["width"])
            said = {"doors": 2 * whole - blank, "flap": 3 * whole - blank, "fold": blank - 2 * whole}.get(key)
            if key == "envelope":  # one just wide enough takes it, one that is a hair narrower does not
                girths = [Fraction(answer["closed"][f"girth_{way}"]) for way in ("across", "down")]
                fits = []
                for more in (usual, usual - Fraction(1, 1000)):
                    size = " x ".join(f"{float(girth + more) + 0.0001:.4f}" for girth in girths)
                    posted = base_text(card).replace("1/100", "1/1000") + f'[mail]\nenvelope = "{size}"\n'
                    fits.append(ask(program, folder, posted, "--json")["mail"][0]["fits"])
                if fits != [True, False]:
                    wrong.append(f"{key} in {unit}: {usual} is not the least ease")
            elif said != usual:
                wrong.append(f"{key} in {unit}: the table says {usual}, the program takes {said}")
    return wrong


def main(program, top=HERE.parent.parent):
    program, top = str(pathlib.Path(program).resolve()), pathlib.Path(top).resolve()
    guide = (top / "cases" / "README.md").read_text(encoding="utf-8")
    passed = failed = 0
    drawn = set()
    with tempfile.TemporaryDirectory() as folder:
        for block, card, _ in blocks(guide):
            kind, body = block.groups()
            if kind != "text" or not re.search(r"^ +\+-", body, re.MULTILINE):
                continue
            stated = tomllib.loads(card.text())
            name = stated["title"]
            drawn.add(stated["base"]["fold"])
            try:
                wrong = check_drawing(program, folder, body, stated)
            except (ValueError, AttributeError, KeyError, StopIteration) as trouble:
                wrong = [f"it cannot be read: {trouble!r}"]
            print(f"{'FAIL' if wrong else 'ok  '} {stated['base']['fold']}, {name}")
            for line in wrong:
                print(f"       {line}")
            failed, passed = failed + bool(wrong), passed + (not wrong)
        for what, wrong in (("every fold is drawn", sorted({"flat", "side", "top", "gate", "z", "tri"} ^ drawn)),
                            ("usual allowances", check_usual(program, folder, guide))):
            print(f"{'FAIL' if wrong else 'ok  '} {what}")
            for line in wrong:
                print(f"       {line}")
            failed, passed = failed + bool(wrong), passed + (not wrong)
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
