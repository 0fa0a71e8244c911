"""An answer of `explore FILE --json` held against all cards that the file allows: what is open, how many there are, how
far every amount goes, each card that is shown, its costs, and which are marked as beaten by none."""
import tomllib
from fractions import Fraction

import body
from checker import Mismatch, answers_of, check
from cut_answer import Judgement
from explore_costs import Papers, counts_of, least_seen, made, narrowest_border, thickest, unbeaten, waste
from explore_list import Listed, broken, sized_values
from spots import spots

BODIES = 12  # alternatives of one answer of which the card in the hand is worked out again
LAYER_LINES = ("left", "top", "width", "height", "from_left", "from_top", "from_right", "from_bottom", "on")


def marks(space, text):
    return Fraction(text) / space.mark


class OpenList:
    """The amounts of an answer in the order of the list here. Ways of `rules` stand apart."""

    def __init__(self, j, space, answer):
        self.space = space
        self.told = answer["open"]
        ids = [(o["name"], o["key"], o.get("part", "")) for o in self.told if "ways" not in o]
        if len(set(ids)) != len(ids):
            j.wrong.append(f"open: an amount twice in {ids}")
        mine = [o.id for o in space.open]
        extremes = space.ends
        for which, (name, (least, most)) in enumerate(zip(mine, extremes)):
            if least != most and name not in ids and space.complete:
                j.wrong.append(f"open lacks {name}, which goes from {least * space.mark} to {most * space.mark}")
        for name in ids:
            if name not in mine:
                j.wrong.append(f"open has {name}, which is settled or not there")
        self.where = {name: i for i, name in enumerate((o["name"], o["key"], o.get("part", "")) for o in self.told)}
        j.same("ways", sum("ways" in o for o in self.told) <= sum(len(w) > 1 for *_, w in space.sums.entries), True)

    def amounts(self, told):
        """Of an alternative, by place in the list here; what is not told does not vary."""
        if len(told) != len(self.told):
            raise Mismatch(f"{len(told)} amounts for {len(self.told)} that are open")
        out = []
        for i, o in enumerate(self.space.open):
            if o.id in self.where:
                out.append(marks(self.space, told[self.where[o.id]]))
            else:
                out.append(o.as_sized)
        return tuple(out)

    def compare(self, j):
        """Values as sized, extremes and spots."""
        places = spots(self.space.text)
        for i, o in enumerate(self.space.open):
            if o.id not in self.where:
                continue
            told = self.told[self.where[o.id]]
            j.same("as sized", marks(self.space, told["as_sized"]), o.as_sized, f"{o.id} as sized, in marks")
            if self.space.complete:
                got = marks(self.space, told["least"]), marks(self.space, told["most"])
                j.same("extremes", got, self.space.ends[i], f"{o.id}: least and most, in marks")
            path = wish_path(self.space, o)
            place = (places[path].line, places[path].column) if path in places else None
            got = (told["line"], told["column"]) if "line" in told else None
            j.same("spots", got, place, f"{o.id}: line and column")


def wish_path(space, o):
    """Where its wish stands in the file; a path that is not there where nothing is stated."""
    if o.name == "base":
        stated = tomllib.loads(space.text)["base"].get(o.key)
        return ("base", o.key, "by") if isinstance(stated, dict) else ("base", o.key)
    top = tomllib.loads(space.text)
    for kind in ("layer", "window"):
        for i, keys in enumerate(top.get(kind, [])):
            if keys["name"] == o.name:
                return (kind, i, o.key) + ((o.part,) if o.part else ())
    raise Mismatch(f"nothing is called {o.name}")


# --- alternatives --------------------------------------------------------------------------------------
def compare_alternatives(j, space, answer, opened):
    """Returns the listed card of each; None where it is none."""
    known, found, taken = space.known, [], []
    for i, a in enumerate(answer["alternatives"]):
        says = f"alternative {a['number']}"
        j.same("numbers", a["number"], i + 1, says)
        amounts = opened.amounts(a["amounts"])
        card = known.get(amounts)
        if card is None and not space.complete and not broken(space.sums, sized_values(space.sums, a)):
            card = Listed(amounts, {})  # beyond the list here
        found.append(card)
        if card is None:
            j.wrong.append(f"{says}: no card has the amounts {[str(v * space.mark) for v in amounts]}")
            continue
        values = sized_values(space.sums, a)
        j.holds("rules by sums", [f"{says}: {w}" for w in broken(space.sums, values)][:3])
        different = [f"{says}: {q} is {values[q] * space.mark}, not {v * space.mark}" for q, v in card.values.items()
                     if values[q] != v]
        j.holds("sizes and places", different[:3])
        taken.append((says, values))
        own = all(values[q] == amounts[k] for k, o in enumerate(space.open) for q in o.binds)
        j.same("amounts as built", own, True, f"{says}: an amount told is not that of its layers")
    j.holds("rules", rules_broken(space, answer["alternatives"]))
    alike = {}
    for says, values in taken:
        key = tuple(sorted(values.items()))
        if key in alike:
            j.wrong.append(f"{says} has the same sizes and places as {alike[key]}")
        alike[key] = says
    return found


def rules_broken(space, alternatives, most=40):
    """By the other writing down of the rules, of some alternatives."""
    step = max(1, len(alternatives) // most)
    return [f"alternative {a['number']}: {w}" for a in alternatives[::step]
            for w in check(space.text, a | {"verdict": "buildable"})[2]][:4]


def same_card(one, other, count):
    """What of layers and windows differs between two answers."""
    out = []
    for a, b in zip(answers_of(one, count), answers_of(other, count)):
        for kind in ("layers", "windows"):
            for x, y in zip(a.get(kind, []), b.get(kind, [])):
                out += [f"{x['name']}: {line} {x[line]}, not {y[line]}" for line in LAYER_LINES
                        if x.get(line) != y.get(line)]
    return out


# --- costs ---------------------------------------------------------------------------------------------
def compare_costs(j, space, alternative, papers, says):
    """What one costs; returns what it takes of each paper."""
    taken = papers.of(alternative)
    told = {p["paper"]: p for p in alternative["papers"]}
    j.same("papers", sorted(told), sorted(taken), f"{says}: papers")
    for name, t in taken.items():
        if t is None or name not in told:
            j.passed["papers not searched"] += 1
            continue
        p = told[name]
        j.same("never", p.get("never", False), t.never, f"{says}, {name}: never")
        if t.never or "sheets" not in p:
            continue
        if p["sheets"] != t.sheets and not papers.thorough:
            taken[name] = t = papers.again(alternative)[name] or t
        j.same("fewest sheets", (p["sheets"], p["missing"]), (t.sheets, t.missing),
               f"{says}, {name}: sheets and missing ones")
        if p["at_least"] > t.sheets:
            j.wrong.append(f"{says}, {name}: at least {p['at_least']} sheets, and {t.sheets} do")
        j.unproven += not p["proven"]
        if p["proven"] and t.cost is None and p["at_least"] != p["sheets"]:
            j.wrong.append(f"{says}, {name}: proven, and at least {p['at_least']} of {p['sheets']} sheets")
        j.same("cost", Fraction(p["cost"]) if "cost" in p else None, t.cost, f"{says}, {name}: cost")
    whole = all(t is not None for t in taken.values())
    if whole and not any(t.never for t in taken.values()):
        want = waste(taken)
        got = Fraction(alternative["waste"]) if "waste" in alternative else None
        if any(t.offcuts for t in taken.values()):
            j.holds("waste, at the least", [] if got >= want else [f"{says}: waste {got}, not even {want}"])
        else:
            j.same("waste", got, want, f"{says}: waste")
        costs = [t.cost for t in taken.values() if t.cost is not None]
        j.same("cost of all", Fraction(alternative["cost"]) if "cost" in alternative else None,
               sum(costs) if costs else None, f"{says}: cost of all papers")
    own = made(space, alternative)
    looks = [("border", narrowest_border(own)), ("thickness", thickest(own))]
    if not any(version.get("windows") for version in own):
        looks.append(("seen", least_seen(own)))
    for key, want in looks:
        j.same(key, Fraction(alternative[key]) if key in alternative else None, want, f"{says}: {key}")
    return taken


def compare_unbeaten(j, answer):
    marks_told = [a["unbeaten"] for a in answer["alternatives"]]
    want = unbeaten([counts_of(a) for a in answer["alternatives"]])
    wrong = [f"alternative {a['number']}: unbeaten is {got}, not {right}"
             for a, got, right in zip(answer["alternatives"], marks_told, want) if got != right]
    j.holds("unbeaten", wrong[:4])


# --- an answer -----------------------------------------------------------------------------------------
def judge(space, sized, answer, status=0, whole=True, papers=None):
    """`whole`: every card was asked for. Raises Mismatch, KeyError or the like where the answer lacks something."""
    j = Judgement()
    j.holds("the list here", space.wrong)
    j.same("verdict", (answer["verdict"], status), ("explored", 0), "verdict and exit status")
    j.same("unit", answer["unit"], space.sums.versions[0].unit)
    j.same("shown", answer["shown"], len(answer["alternatives"]))
    if space.complete:
        j.same("count", (answer["count"], answer["complete"]), (len(space.cards), True), "count, and whether it is all")
    else:
        j.same("count, not all", answer["complete"], False, f"{answer['count']} of more than {len(space.cards)}, all")
    opened = OpenList(j, space, answer)
    opened.compare(j)
    found = compare_alternatives(j, space, answer, opened)
    if whole and space.complete:
        have = {c.amounts for c in found if c is not None}
        lost = [a for a in space.known if a not in have]
        j.holds("every card", [f"not shown: {[str(v * space.mark) for v in a]}" for a in lost[:2]])
        j.same("as many as there are", len(found), len(space.cards))
    as_sized = [a for a in answer["alternatives"] if a["as_sized"]]
    if whole and space.complete:
        j.same("the card as sized", len(as_sized), 1, "alternatives that are the card as sized")
    for a in as_sized:
        j.holds("as size answers it", same_card(a, sized, len(space.sums.versions))[:3])
    papers = papers or Papers(space.text)
    for a in answer["alternatives"]:
        compare_costs(j, space, a, papers, f"alternative {a['number']}")
    step = max(1, len(answer["alternatives"]) // BODIES)
    for a in answer["alternatives"][::step]:
        compared, wrong = body.compare(space.text, a)
        j.passed["body"] += sum(compared.values())
        j.wrong += [f"alternative {a['number']}: {w}" for w in wrong[:2]]
    if answer["compared"] == answer["count"] == len(answer["alternatives"]):
        compare_unbeaten(j, answer)
    elif whole and space.complete:
        j.wrong.append(f"{answer['compared']} compared of {answer['count']}")
    return j
