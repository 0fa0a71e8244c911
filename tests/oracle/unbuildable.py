"""Small card files that cannot be built, made up from a seed: one or two faults of the kinds that makers make, each on
a face or layer of its own, among wishes that do no harm. `generate(seed)` gives the text. Lengths inside are in
marks."""
import random
from fractions import Fraction
from itertools import count

import cards
from faults import Faults
from model import build
from reading import read
from stated import Card
from steps import feasible
from why import is_extent
from words import Speller

MOST_STATED = 12
BORROWED = 8  # one seed in so many takes a card of the other generator


class Sketch(Faults):
    def __init__(self, seed):
        super().__init__()
        self.rng = random.Random(f"unbuildable {seed}")
        self.unit, self.mark = self.rng.choice([("in", Fraction(1, 16)), ("in", Fraction(1, 8)), ("in", Fraction(1, 8)),
                                                ("mm", Fraction(1)), ("mm", Fraction(1, 2))])
        self.say = Speller(self.rng, self.unit, self.mark)
        self.fold = self.rng.choice(["flat", "flat", "side", "side", "top"])
        self.w, self.h = Fraction(self.rng.randint(20, 44)), Fraction(self.rng.randint(24, 52))
        self.base = {"fold": self.fold, "front": self.say.size(self.w, self.h)}
        self.faces = {"front": (self.w, self.h), "back": (self.w, self.h)}
        if self.fold != "flat":
            self.faces["inside"] = (self.w, self.h)
            if self.chance(0.6):
                self.cut_back()

    def cut_back(self):
        extent = self.w if self.fold == "side" else self.h
        cut = Fraction(self.rng.randint(4, int(extent) // 2))
        self.base["cut-back"] = self.say.wish(cut, about=False) if self.chance(0.3) else self.say.length(cut)
        if self.chance(0.15):
            edge = {"side": "right", "top": "bottom"}[self.fold]
            self.base["cut-back"] = {"edge": edge, "by": self.base["cut-back"]}
        del self.faces["inside"]
        if self.fold == "side":
            self.faces["front"], self.faces["reveal"] = (self.w - cut, self.h), (cut, self.h)
        else:
            self.faces["front"], self.faces["reveal"] = (self.w, self.h - cut), (self.w, cut)

    def make(self):
        places = list(self.faces)
        if "reveal" in places and self.chance(0.6):
            places.sort(key=lambda on: on != "reveal")
        else:
            self.rng.shuffle(places)
        kinds = self.rng.sample(self.kinds(), self.rng.choice([1, 1, 1, 2, 2]))
        for on, kind in zip(places, kinds):
            kind(on, *self.faces[on])
        variants = self.variant() if self.chance(0.2) else []
        return self.text(variants)

    def variant(self):
        """The plain card, and one in which a wish is stated anew."""
        changed = {}
        for keys in self.rng.sample([k for _, k in self.pieces], min(2, len(self.pieces))):
            for name in ("width", "height"):
                if name in keys and self.chance(0.5):
                    changed[f"{keys['name']}.{name}"] = self.say.length(self.rng.randint(3, 30))
        if not changed:
            return []
        return [{"name": "for the far table", "cards": 2, "set": changed}]

    def text(self, variants):
        say = self.say
        out = [f'unit = "{self.unit}"', f"mark = {say.toml(say.length(1))}", "cards = 5"]
        if self.rules:
            out.append("rules = [" + ", ".join(say.toml(r) for r in self.rules) + "]")
        out += ["", "[base]"] + [f"{k} = {say.toml(v)}" for k, v in self.base.items()]
        for kind, keys in self.pieces:
            out += ["", f"[[{kind}]]"] + [f"{k} = {say.toml(v)}" for k, v in keys.items()]
        for v in variants:
            out += ["", "[[variant]]"] + [f"{k} = {say.toml(value)}" for k, value in v.items()]
        return "\n".join(out) + "\n"


def drawn(seed, attempt):
    if seed % BORROWED == 0:
        return cards.generate(100000 + 1000 * seed + 10 * (attempt // 4) + (2, 4, 5, 8)[attempt % 4])
    return Sketch(f"{seed}/{attempt}").make()


def suits(text):
    """Whether a text is a card of this kind: it cannot be built, all that is given can, few wishes are stated,
    and nothing is tilted so that it is only known roundly."""
    try:
        models = [build(version, i)[0] for i, version in enumerate(read(text))]
    except ValueError:
        return False
    if any(m.inexact for m in models) or all(feasible(m) for m in models):
        return False
    card = Card(text)
    pieces = [p for version in card.versions for p in version.pieces]
    if any(side <= 0 for p in pieces for side in (p.artwork or ()) + (p.size or ())):
        return False
    if any(v < is_extent(key) * card.mark for key, v in card.numbers.items() if key[1] != "at least"):
        return False
    return len(card.units) <= MOST_STATED and all(feasible(m) for m in card.models(set()))


def generate(seed):
    return next(text for text in (drawn(seed, attempt) for attempt in count()) if suits(text))
