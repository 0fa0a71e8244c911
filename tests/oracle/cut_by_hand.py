"""Cutting plans written by hand, and ways to spoil them: what the checks of plans are tried on."""
import copy
from collections import Counter
from fractions import Fraction

from cut_plan import halves

F = Fraction
FLAT = '[base]\nfold = "flat"\nfront = "30 x 30"\n'

# --- plans written by hand -----------------------------------------------------------------------------
# A tree: ("across" or "down", setting, what comes off, what stays), a piece (kind, use, turned), or None: left over.
# `ways` of a paper: (stock, times, tree).


def piece(kind=0, use=0, turned=False):
    return kind, use, turned


def fraction_text(value):
    return str(F(value))


class ByHand:
    """One paper's entry in an answer, from trees. Every cut is a step of its own, but those one after another at the
    same setting are one step."""

    def __init__(self, name, kinds, stock, ways, blade=0, hold=1):
        self.kinds, self.stock, self.blade, self.hold = kinds, stock, F(blade), F(hold)
        self.plan, self.steps, kept = [], [], Counter()
        for letter, (which, times, tree) in zip("ABCDEFG", ways):
            w, h = (F(stock[which][k]) for k in ("width", "height"))
            self.entry = {"sheet": letter, "stock": which, "offcut": stock[which]["from"] not in ("stated", "more"),
                          "times": times, "width": fraction_text(w), "height": fraction_text(h), "pieces": [],
                          "cuts": [], "leftovers": []}
            self.part(tree, (F(0), F(0), w, h))
            used = sum(F(p["width"]) * F(p["height"]) for p in self.entry["pieces"]) / (w * h)
            self.entry["used"] = f"{float(100 * used):.1f}"
            self.plan.append(self.entry)
            for r in self.entry["leftovers"]:
                kept[(r["width"], r["height"])] += times * r["keep"]
        sheets = sum(e["times"] for e in self.plan if not e["offcut"])
        self.paper = {"paper": name, "sheets": sheets, "at_least": sheets, "proven": True, "kinds": kinds,
                      "stock": stock, "plan": self.plan, "steps": self.steps,
                      "leftovers": [{"width": w, "height": h, "count": n} for (w, h), n in kept.items() if n]}
        if any("cost" in s for s in stock):
            cost = sum(e["times"] * F(stock[e["stock"]].get("cost", 0)) for e in self.plan if not e["offcut"])
            self.paper |= {"cost": str(cost), "cost_at_least": str(cost)}

    def part(self, tree, rect):
        where = dict(zip(("x", "y", "width", "height"), map(fraction_text, rect)))
        if tree is None:
            trim = F(self.stock[self.entry["stock"]].get("trim_first", 0))
            untrue = trim and rect[1] + rect[3] == F(self.entry["height"])
            self.entry["leftovers"].append(where | {"keep": bool(min(rect[2:]) >= 1 and not untrue)})
        elif len(tree) == 3:
            kind, use, turned = tree
            of = self.kinds[kind]["uses"][use]
            self.entry["pieces"].append({"layer": of["layer"], "variant": of["variant"], "file": of["file"],
                                         "kind": kind, "turned": turned, **where})
        else:
            self.cut(tree, rect, where)

    def cut(self, tree, rect, where):
        way, at, first, second = tree
        across = way == "across"
        off, stays = halves(rect, across, F(at), self.blade)
        if not self.steps or F(self.steps[-1]["set"]) != F(at):
            self.steps.append({"step": len(self.steps) + 1, "set": fraction_text(F(at)), "works": []})
        self.entry["cuts"].append(where | {"across": across, "at": fraction_text(F(at)), "step": len(self.steps)})
        sides = [F(at), (stays[3] if across else stays[2]) if stays else F(0)]
        yields = []
        for part, what in ((off, first), (stays, second)):
            if part:
                made = self.made(part, what)
                same = [y for y in yields if {**y, "count": 0} == {**made, "count": 0}]
                if same:
                    same[0]["count"] += made["count"]
                else:
                    yields.append(made)
        self.steps[-1]["works"].append({
            "sheet": self.entry["sheet"], "across": across, "cuts": 1, "hold": min(sides) < self.hold,
            "from": {"what": "strip", "width": where["width"], "height": where["height"], "count": self.entry["times"]},
            "yields": yields})
        self.part(first, off)
        if stays:
            self.part(second, stays)

    def made(self, rect, tree):
        out = {"what": "leftover" if tree is None else "piece" if len(tree) == 3 else "strip",
               "width": fraction_text(rect[2]), "height": fraction_text(rect[3]), "count": self.entry["times"]}
        return out | {"kind": tree[0]} if out["what"] == "piece" else out


def use(layer, count, w, h, rough="", variant=""):
    return {"file": "card.toml", "layer": layer, "variant": variant, "count": count, "rough": rough,
            "finished_width": fraction_text(F(w)), "finished_height": fraction_text(F(h))}


def kind(w, h, *uses, may_turn=True):
    return {"width": fraction_text(F(w)), "height": fraction_text(F(h)), "count": sum(u["count"] for u in uses),
            "may_turn": may_turn, "uses": list(uses)}


def sheets(w, h, **more):
    return {"width": fraction_text(F(w)), "height": fraction_text(F(h)), "from": "stated"} | more


def answer(cards, papers, no_paper=(), foam="0", adhesive="0", supplies=(), **more):
    return {"verdict": "planned", "unit": "in", "cards": [{"file": "card.toml", "title": "", "versions": [
        {"name": name, "cards": n} for name, n in cards.items()]}], "papers": papers, "missing": [],
        "no_paper": [{"file": "card.toml", "layer": layer, "says": ""} for layer in no_paper], "foam": foam,
        "adhesive": adhesive, "supplies": [{"name": n, "total": t} for n, t in supplies]} | more


def halves_of_letter():
    """Ten blanks 8 1/2 x 5 1/2 from five letter sheets."""
    text = 'cards = 10\n[base]\nfold = "side"\nfront = "4 1/4 x 5 1/2"\npaper = "moss"\n' \
           '[[paper]]\nname = "moss"\nsheet = "us letter"\nhave = 5\n[[supply]]\nname = "ribbon"\nper-card = 2\n'
    sized = {"verdict": "buildable", "layers": [], "base": {"blank": {"width": "17/2", "height": "11/2"}}}
    paper = ByHand("moss", [kind("17/2", "11/2", use("base", 10, "17/2", "11/2"))], [sheets("17/2", 11, have=5)],
                   [(0, 5, ("across", "11/2", piece(), piece()))]).paper
    return text, sized, answer({"": 10}, [paper], supplies=[("ribbon", "20")])


def entry(name, on, w, h, left="0", top="0"):
    return {"name": name, "on": on, "width": w, "height": h, "left": left, "top": top, "from_left": left,
            "from_top": top}


def five_to_a_sheet():
    """Mats 3 x 5 1/4: two upright beside three turned. Eight of them, and two tags cut rough with a die."""
    text = 'cards = 4\n' + FLAT + \
        '[[layer]]\nname = "mat"\non = "front"\nsize = "3 x 5 1/4"\ncopies = 2\npaper = "moss"\n' \
        '[[layer]]\nname = "tag"\non = "front"\nsize = "1 x 2"\nraised = "1/16"\ncut = "die"\npaper = "moss"\n' \
        '[[paper]]\nname = "moss"\nsheet = "us letter"\ncost = 2\n'
    copies = [{"from_left": "0", "from_top": "0"}, {"from_left": "3", "from_top": "0"}]
    sized = {"verdict": "buildable", "layers": [entry("mat", "front", "3", "21/4") | {"copies": copies},
                                               entry("tag", "front", "1", "2", top="10")],
             "base": {"blank": {"width": "30", "height": "30"}}}
    kinds = [kind(3, "21/4", use("mat", 8, 3, "21/4")), kind("5/4", "9/4", use("tag", 4, 1, 2, "die"))]
    turned = piece(0, 0, True)
    upright = ("across", "21/4", piece(), ("across", "21/4", piece(), None))
    lying = ("across", 3, turned, ("across", 3, turned, ("across", 3, turned, None)))
    first = ("down", 3, upright, ("down", "21/4", lying, None))
    tags = ("across", "9/4", piece(1), ("across", "9/4", piece(1), None))
    second = ("across", "21/4", ("down", 3, piece(), ("down", 3, piece(), ("down", "5/4", tags, None))),
              ("down", 3, ("across", "21/4", piece(), None), ("across", "9/4",
               ("down", "5/4", piece(1), ("down", "5/4", piece(1), None)), None)))
    paper = ByHand("moss", kinds, [sheets("17/2", 11, cost="2")], [(0, 1, first), (0, 1, second)]).paper
    return text, sized, answer({"": 4}, [paper], no_paper=["base"], foam="8", adhesive="132")


def strips_of_a_cut_back():
    """A print that may not turn, with an untrue edge and blade loss; greetings from what the fronts give up."""
    text = 'cards = 2\n[base]\nfold = "side"\nfront = "4 x 5"\ncut-back = "1"\npaper = "bone"\n' \
           '[[layer]]\nname = "print"\non = "front"\nsize = "2 x 3"\npaper = "leaf print"\n' \
           '[[layer]]\nname = "words"\non = "front"\nsize = "3/4 x 2"\npaper = "bone"\n' \
           '[[paper]]\nname = "bone"\nsheet = "9 x 11"\nhave = 3\n' \
           '[[paper]]\nname = "leaf print"\nsheet = "6 x 4"\nup = true\ntrim-first = "1/2"\n' \
           '[[paper]]\nname = "leaf print"\nsheet = "9 x 9"\nup = true\n[trimmer]\nblade-loss = "1/8"\n'
    base = {"blank": {"width": "8", "height": "5"}, "cut_back": {"by": "1"}}
    sized = {"verdict": "buildable", "base": base, "layers": [entry("print", "front", "2", "3"),
                                                             entry("words", "front", "3/4", "2", left="2")]}
    bases = kind(8, 5, use("base", 2, 8, 5))
    words = kind("3/4", 2, use("words", 2, "3/4", 2))
    strip = {"width": "1", "height": "5", "from": "cut-back", "of": "front", "have": 2}
    bone = ByHand("bone", [bases, words], [sheets(9, 11, have=3), strip],
                  [(0, 1, ("down", 8, ("across", 5, piece(), ("across", 5, piece(), None)), None)),
                   (1, 1, ("down", "3/4", ("across", 2, piece(1), ("across", 2, piece(1), None)), None))], "1/8").paper
    prints = kind(2, 3, use("print", 2, 2, 3), may_turn=False)
    leaf = ByHand("leaf print", [prints], [sheets(6, 4, up=True, trim_first="1/2"), sheets(9, 9, up=True)],
                  [(0, 1, ("across", "7/2",
                           ("across", 3, ("down", 2, piece(), ("down", 2, piece(), None)), None), None))], "1/8").paper
    return text, sized, answer({"": 2}, [bone, leaf], adhesive="31")


BY_HAND = (halves_of_letter, five_to_a_sheet, strips_of_a_cut_back)


# --- ways to spoil a plan ------------------------------------------------------------------------------
def first_of(spoilt, what, paper=0, sheet=0):
    return spoilt["papers"][paper]["plan"][sheet][what]


def moved(entry, key, by):
    entry[key] = fraction_text(F(entry[key]) + F(by))


def piece_moved(a):
    moved(first_of(a, "pieces")[0], "x", "1/8")


def piece_on_another(a):
    pieces = first_of(a, "pieces")
    pieces[1]["x"], pieces[1]["y"] = pieces[0]["x"], pieces[0]["y"]


def piece_missing(a):
    first_of(a, "leftovers").append({**{k: first_of(a, "pieces")[0][k] for k in ("x", "y", "width", "height")},
                                     "keep": False})
    del first_of(a, "pieces")[0]


def piece_twice(a):
    first_of(a, "pieces").append(first_of(a, "pieces")[0])


def cut_not_to_the_edge(a):
    moved(first_of(a, "cuts")[0], "width", -1)


def cut_beyond(a):
    first_of(a, "cuts")[0]["at"] = "100"


def cut_missing(a):
    first_of(a, "cuts").pop()


def cuts_in_another_order(a):
    if len(first_of(a, "cuts", 0, -1)) > 1:
        first_of(a, "cuts", 0, -1).reverse()
    else:
        cut_missing(a)


def cut_the_other_way(a):
    first_of(a, "cuts")[0]["across"] ^= True


def leftover_lost(a):
    for p in a["papers"]:
        for e in p["plan"]:
            if e["leftovers"]:
                e["leftovers"].pop()
                return
    piece_missing(a)


def one_sheet_less(a):
    a["papers"][0]["plan"][0]["times"] -= 1


def step_lost(a):
    a["papers"][0]["steps"].pop()


def step_set_wrong(a):
    moved(a["papers"][0]["steps"][-1], "set", "1/8")


def steps_the_other_way_round(a):
    steps = a["papers"][0]["steps"]
    if len(steps) > 1:
        steps[0], steps[1] = steps[1], steps[0]
    else:
        steps[0]["step"] = 2


def yields_too_much(a):
    a["papers"][0]["steps"][0]["works"][0]["yields"][0]["count"] += 1


def another_kind(a):
    a["papers"][0]["kinds"].append(copy.deepcopy(a["papers"][0]["kinds"][0]))


def paper_unplanned(a):
    a["papers"].pop()


SPOILS = (piece_moved, piece_on_another, piece_missing, piece_twice, cut_not_to_the_edge, cut_beyond, cut_missing,
          cuts_in_another_order, cut_the_other_way, leftover_lost, one_sheet_less, step_lost, step_set_wrong,
          steps_the_other_way_round, yields_too_much, another_kind, paper_unplanned)


def leaves(value, path=()):
    """Everything in an answer that is no table and no list, with the way to it."""
    if isinstance(value, (dict, list)):
        for key, v in value.items() if isinstance(value, dict) else enumerate(value):
            yield from leaves(v, path + (key,))
    else:
        yield path, value


WORDS = {"title", "says", "of"}  # not judged here


def spoilt_values(path, value):
    """Other values for one thing, each of which makes the answer wrong."""
    if path[-1] in WORDS:
        return []
    if isinstance(value, bool):
        # Which of a strip's sides must be held is a matter of taste where only one of them is narrow; a bound may be
        # equal and not be said to be proven.
        return [] if path[-1] in ("hold", "proven") else [not value]
    if isinstance(value, int):
        # Not every offcut need be offered.
        least = path[-1] == "at_least" or path[-1] == "have" and path[-2] == 1
        return [value + 1] if least else [value + 1, value - 1]
    if path[-1] == "rough":
        return ["" if value else "die"]
    try:
        number = F(value)
    except ValueError:
        return ["something else"]
    if path[-1] == "cost_at_least":
        return [str(number + 1)]
    if path[-1] == "used":  # rounded
        return [str(number + F(1, 8)), str(number - F(1, 8))]
    return [str(number + F(1, 2)), str(number - F(1, 16))]


def put(value, path, new):
    for key in path[:-1]:
        value = value[key]
    value[path[-1]] = new
