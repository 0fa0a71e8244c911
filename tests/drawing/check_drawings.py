#!/usr/bin/env python3
"""Drawings looked at from outside: as files, as text, as pictures in two viewers, and with a ruler.

usage: check_drawings.py PROGRAM [--only WORD ...]     WORD: of the names of checks, such as "seen" or "kite-day"

Every card of cases/, generated ones, and some that are made to be hard are drawn, as everything that there is to draw; and
contact sheets of every other card of cases/. What is checked of them:

  made       the status is that of the card or its plan; there is a file, or none where there should be none
  picture    an SVG is well-formed and has nothing but shapes in it
  again      the same bytes a second time
  names      the name of every layer can be found in the text of a PDF
  words      no two words of a PDF lie over one another, none leaves its page
  outlines   on each face, and opened out, the SVG has the layers and windows that `size` tells, where it tells them, and no
             others
  plans      on each sheet of a plan the pieces, leftovers and cuts that `cut` tells, where it tells them, and no others
  contact    a picture of each card that `explore` tells, with the layers that are seen of it
  size       templates have their true size in print, their rulers too
  seen       Chromium and librsvg show the same
  harmless   names that mean something to a machine are only text
  refused    what cannot be drawn is told in one message, and nothing is written

Samples, so that all is done in about 80 s on two processors that do nothing else: the same bytes, of every seventh drawing
and every fifth contact sheet; viewers, of all drawings of the cards of cases/, built or not, of every third plan, worksheet,
recipe and set of templates, and of four contact sheets; plans and worksheets of every third generated card.

Needs poppler-utils, librsvg2-bin, chromium, python3-numpy and python3-pil. One line for each failure; the last line counts.
"""
import argparse
import itertools
import json
import pathlib
import random
import re
import shutil
import sys
import tempfile
import time
import tomllib

sys.dont_write_bytecode = True  # nothing is left behind beside the sources
import hard_cards  # noqa: E402
import outlines  # noqa: E402  (finds the oracle beside this folder)
import contact_sheets  # noqa: E402
import pdf  # noqa: E402
import plan_sheets  # noqa: E402
import print_size  # noqa: E402
import refusals  # noqa: E402
import svg  # noqa: E402
import viewers  # noqa: E402
from calling import SUBJECTS, Pool, Tally, draw, run  # noqa: E402
from cards import generate  # noqa: E402
from real import generate as generate_real  # noqa: E402

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
GENERATED = 50  # of each of two makers
CONTROLS = {chr(c) for c in [*range(32), 127, *range(128, 160)]} - set("\n\f\t")
TURNING = set("\u202a\u202b\u202d\u202e\u2066\u2067\u2068")  # what changes the direction of all that follows
KINDS = {"made", "picture", "again", "names", "words", "outlines", "plans", "contact", "size", "seen", "harmless",
         "refused"}
# The edge of a layer, in a path of its own or with its fill.
EDGES = re.compile(rb'<path style="[^"]*stroke-width:0\.7;[^"]*miterlimit:10;" d="M ([\d.]+)[^>]*/>\n')
# (card, paper, layers without a template): inches and millimetres, smaller and larger than a page.
MEASURED = [("quince-tags", "Letter", []), ("quince-tags", "A4", []), ("lantern-thanks", "Letter", []),
            ("moon-tag", "A4", []), ("harvest-menu", "A4", ["maker's mark"]), ("harvest-menu", "Letter", ["maker's mark"]),
            ("four-leaves", "Letter", []), ("kite-day", "A4", []), ("allotment-plan", "A4", [])]


class Checks:
    def __init__(self, program, folder, only):
        self.program, self.folder, self.only = program, folder, only
        self.tally, self.pool = Tally(), Pool()
        self.cases = {path.stem: path for path in sorted((TOP / "cases").glob("*.toml"))}
        self.unbuildable = {path.stem: path for path in sorted((TOP / "cases/unbuildable").glob("*.toml"))}
        self.hard = self.written(hard_cards.HARD)
        self.answers = {}  # of `size --json`, by card
        self.plans = {}  # of `cut --json`, by card, with its status
        self.to_be_seen = []  # in viewers

    def written(self, texts):
        paths = {}
        for name, text in texts.items():
            paths[name] = self.folder / f"{name}.toml"
            paths[name].write_text(text, encoding="utf-8")
        return paths

    def check(self, kind, named):
        """`named`: pairs of what it is of, and a check of it."""
        named = [(f"{kind}: {name}", f) for name, f in named]
        self.pool.check(self.tally, [(name, f) for name, f in named
                                     if not self.only or any(word in name for word in self.only)])

    def draw(self, cards, subjects, endings, *more):
        """Drawings of cards by name, in that order."""
        if self.only:
            cards = {name: path for name, path in cards.items() if self.may_be_asked(name)}
        every = itertools.product(cards.items(), subjects, endings)
        return self.pool.all(draw, [(self.program, name, path, self.folder, subject, ending, *more)
                                    for (name, path), subject, ending in every])

    def may_be_asked(self, card):
        known = [*self.cases, *self.unbuildable, *self.hard]
        words = [word for word in self.only if any(word in name for name in known)]
        return not words or any(word in card for word in words)

    def answer(self, name, path):
        ran = run([self.program, "size", path, "--json"])
        self.answers[name] = json.loads(ran.out)

    def plan(self, name, path):
        ran = run([self.program, "cut", path, "--json"])
        self.plans[name] = ran.status, json.loads(ran.out)

    # --- of any drawing ------------------------------------------------------------------------------
    def is_made(self, made, status, there=True, told=True):
        """`there`: whether there should be a file; `told`: whether it tells its pages."""
        wrong = [] if made.ran.status == status else [f"exit status {made.ran.status}, not {status}: {made.ran.err[:300]}"]
        if status == 2 or not there:
            return wrong + (["a file is there all the same"] if made.path.exists() else [])
        if not made.path.exists():
            return wrong + ["no file"]
        return wrong + (["no pages"] if told and not made.pages else [])

    def is_same_again(self, made):
        before = made.path.read_bytes()
        card, ending = f"{made.card} again", made.path.suffix[1:]
        again = (contact_sheets.draw(self.program, card, made.source, self.folder, ending) if made.subject == "alternatives"
                 else draw(self.program, card, made.source, self.folder, made.subject, ending))
        return [] if again.path.read_bytes() == before else ["other bytes the second time"]

    def has_names(self, made):
        text = pdf.squeezed(pdf.text_of(made.path))
        names = [layer["name"] for layer in self.answers[made.card]["layers"]]
        if made.subject == "templates":  # ink has none
            stated = tomllib.loads(made.source.read_text(encoding="utf-8")).get("layer", [])
            names = [name for name in names if not any(one["name"] == name and one.get("stamped") for one in stated)]
        return [f"{name!r} is not in its text" for name in names if pdf.squeezed(name) not in text]

    def look_at(self, drawings):
        """Those that were made: what goes for every file."""
        made = [one for one in drawings if one.path.exists()]
        self.check("picture", [(one.name, lambda o=one: svg.faults(o.path.read_bytes()))
                               for one in made if one.path.suffix == ".svg"])
        self.check("words", [(one.name, lambda o=one: pdf.faults(o.path)) for one in made if one.path.suffix == ".pdf"])

    # --- the cards -----------------------------------------------------------------------------------
    def case_cards(self):
        """All of cases/: everything that there is to draw."""
        self.pool.all(self.answer, list(self.cases.items()))
        self.pool.all(self.plan, list(self.cases.items()))
        drawings = self.draw(self.cases, SUBJECTS, ["svg", "pdf"])
        drawings += self.draw(dict(list(self.cases.items())[::8]), ["card", "templates"], ["png"])

        def status(made):
            return self.plans[made.card][0] if made.subject in ("plan", "worksheet") else 0

        self.check("made", [(made.name, lambda m=made: self.is_made(m, status(m))) for made in drawings])
        self.look_at(drawings)
        there = [made for made in drawings if made.path.exists()]
        self.check("names", [(made.name, lambda m=made: self.has_names(m)) for made in there
                             if made.path.suffix == ".pdf" and made.subject != "plan"])
        # Of each card another drawing, and all kinds of drawings among them.
        self.check("again", [(made.name, lambda m=made: self.is_same_again(m)) for made in there[::7]])
        cards = [made for made in there if made.subject == "card" and made.path.suffix == ".svg"]
        self.check("picture", [(f"what is none in {made.name} is noticed",
                                lambda m=made: svg.unnoticed(m.path.read_bytes())) for made in cards[:1]])
        self.check("words", [(f"moved ones in {made.name} are noticed", lambda m=made: pdf.unnoticed(m.path))
                             for made in there[::11] if made.path.suffix == ".pdf"])
        self.check("outlines", [(made.name, lambda m=made: self.has_outlines(m)) for made in cards])
        self.check("outlines", [("are missed and found too many", lambda: self.outlines_are_missed(cards))])
        plans = [made for made in there if made.subject in ("plan", "worksheet") and made.path.suffix == ".svg"]
        self.check("plans", [(made.name, lambda m=made: self.has_plan(m)) for made in plans])
        self.check("plans", [(f"a fault in {made.name} is noticed", lambda m=made: self.has_plan(m, plan_sheets.unnoticed))
                             for made in plans[::4]])
        pictures = [[made for made in there if made.subject == subject and made.path.suffix == ".svg"]
                    for subject in SUBJECTS[1:]]
        self.to_be_seen += cards + [made for i, all_of in enumerate(pictures) for made in all_of[i % 3::3]]

    def has_plan(self, made, judge=plan_sheets.faults):
        return judge(svg.paths(made.path.read_bytes()), self.plans[made.card][1])

    def has_outlines(self, made, picture=None):
        return outlines.faults(made.source.read_text(encoding="utf-8"), self.answers[made.card], made, picture)

    def outlines_are_missed(self, cards):
        """One shape taken away, moved by a fiftieth of a point, or drawn twice is told, on every card with layers."""
        wrong = []
        for made in cards:
            whole = made.path.read_bytes()
            spots = [m for m in EDGES.finditer(whole) if b"dasharray" not in m[0] and self.is_on_face(made, m[0])]
            if not spots:
                continue
            spot = random.Random(made.card).choice(spots)
            start, end = spot.span()
            moved = b'<g transform="matrix(1,0,0,1,0.02,0)">' + spot[0] + b"</g>"
            for what, middle in (("gone", b""), ("moved", moved), ("twice", 2 * spot[0])):
                if not self.has_outlines(made, whole[:start] + middle + whole[end:]):
                    wrong.append(f"{made.card}: a layer that is {what} is not noticed")
        return wrong if cards else ["no card to try it on"]

    @staticmethod
    def is_on_face(made, path):
        """Whether an outline lies where some face or the opened card is drawn, and is none of the closed card or a key."""
        y = float(re.search(rb'd="M [\d.]+ ([\d.]+)', path)[1])
        page = [page for page in made.pages if page["top"] <= y][-1]
        above = [view for view in page["views"] if page["top"] + view["top"] <= y + 1]
        last = max(above, key=lambda view: view["top"], default={})
        return "face" in last or last.get("view") == outlines.OPENED

    def contact_sheets(self):
        cards = {name: path for name, path in list(self.cases.items())[::2] if not self.only or self.may_be_asked(name)}
        drawings = self.pool.all(contact_sheets.draw, [(self.program, name, path, self.folder, ending)
                                                       for name, path in cards.items() for ending in ("svg", "pdf")])
        self.check("made", [(made.name, lambda m=made: self.is_made(m, 0, told=False)) for made in drawings])
        self.look_at(drawings)
        there = [made for made in drawings if made.path.exists()]
        self.check("again", [(made.name, lambda m=made: self.is_same_again(m)) for made in there[::5]])
        pictures = [made for made in there if made.path.suffix == ".svg"]
        self.check("contact", [(made.name, lambda m=made: contact_sheets.faults(m)) for made in pictures])
        self.check("contact", [(made.name, lambda m=made: contact_sheets.faults_of_text(m))
                               for made in there if made.path.suffix == ".pdf"])
        self.check("contact", [(f"a fault in {made.name} is noticed", lambda m=made: contact_sheets.unnoticed(m))
                               for made in pictures[::3]])
        self.to_be_seen += pictures[::4][:4]

    def unbuildable_cards(self):
        drawings = self.draw(self.unbuildable, ["card"], ["svg", "pdf"])
        self.to_be_seen += [made for made in drawings if made.path.exists() and made.path.suffix == ".svg"]
        self.check("made", [(made.name, lambda m=made: self.is_made(m, 1)) for made in drawings])
        self.look_at(drawings)

    def generated_cards(self):
        """Those of the oracle's makers of small cards and of real folds that can be built."""
        makers = ((f"generated {seed}", f, seed) for seed in range(GENERATED * 4) for f in (generate, generate_real))
        texts = {}
        for name, f, seed in makers:
            if seed % 10 in (0, 1, 3, 6, 7, 9) and len(texts) < 2 * GENERATED:  # the others have a fault put in
                texts[name + (" of real folds" if f is generate_real else "")] = f(seed)
        cards = self.written(texts)
        self.pool.all(self.answer, list(cards.items()))
        status = {"buildable": 0, "conflict": 1, "undecided": 3}
        drawings = self.draw(cards, ["card"], ["pdf", "svg"]) + self.draw(cards, ["recipe", "templates"], ["pdf"])
        some = dict(list(cards.items())[1::3])
        self.pool.all(self.plan, list(some.items()))
        planned = self.draw(some, ["plan", "worksheet"], ["pdf"]) + self.draw(some, ["plan"], ["svg"])

        def built(made):
            return self.answers[made.card]["verdict"] == "buildable"

        self.check("made", [(made.name, lambda m=made: self.is_made(m, status[self.answers[m.card]["verdict"]],
                                                                    built(m) or m.subject == "card")) for made in drawings])
        self.check("made", [(made.name, lambda m=made: self.is_made(m, self.plans[m.card][0], built(m))) for made in planned])
        self.look_at(drawings + planned)
        self.check("plans", [(made.name, lambda m=made: self.has_plan(m)) for made in planned
                             if made.path.suffix == ".svg" and made.path.exists()])
        self.check("outlines", [(made.name, lambda m=made: self.has_outlines(m)) for made in drawings
                                if made.path.suffix == ".svg" and self.answers[made.card]["verdict"] == "buildable"])

    def hard_ones(self):
        self.pool.all(self.answer, list(self.hard.items()))
        drawings = self.draw(self.hard, SUBJECTS, ["svg", "pdf"])
        self.check("made", [(made.name, lambda m=made: self.is_made(m, 0)) for made in drawings])
        self.look_at(drawings)
        self.check("outlines", [(made.name, lambda m=made: self.has_outlines(m)) for made in drawings
                                if made.path.suffix == ".svg" and made.subject == "card"])
        self.check("names", [(made.name, lambda m=made: self.has_names(m)) for made in drawings
                             if made.path.suffix == ".pdf" and made.subject != "plan" and made.card not in hard_cards.ODD])
        self.check("harmless", [(made.name, lambda m=made: self.is_harmless(m)) for made in drawings
                                if made.path.suffix == ".pdf" and made.card.startswith("hostile")])

    def is_harmless(self, made):
        text = pdf.text_of(made.path) + run(["pdfinfo", made.path]).out
        wrong = [f"{c!r} in its text" for c in sorted(set(text) & (CONTROLS | TURNING))]
        if made.card == "hostile names" and made.subject == "card":
            plain = pdf.squeezed(text)
            wrong += [f"{name!r} is not in its text" for name in hard_cards.HOSTILE[:3] if pdf.squeezed(name) not in plain]
        if re.search(rb"/(JavaScript|JS|Launch|URI|OpenAction)\b", made.path.read_bytes()):
            wrong.append("it does something when it is opened")
        return wrong

    # --- in print and in viewers ---------------------------------------------------------------------
    def true_sizes(self):
        def printed(name, paper, without):
            made = draw(self.program, f"{name} on {paper}", self.cases[name], self.folder, "templates", "pdf",
                        "--page", paper.lower(), "--only", "the plain card")
            return print_size.faults(self.program, made, paper, without)

        self.check("size", [(f"{name} on {paper}", lambda n=name, p=paper, w=without: printed(n, p, w))
                            for name, paper, without in MEASURED])
        self.check("size", [("a print at 99.5 per cent is noticed", self.small_print_is_noticed)])

    def small_print_is_noticed(self):
        """Every ruler, and every piece that is long enough to be a tenth of a millimetre off."""
        made = draw(self.program, "small", self.cases["lantern-thanks"], self.folder, "templates", "pdf", "--only",
                    "the plain card")
        wrong = print_size.faults(self.program, made, "Letter", share=0.995)
        for name in ("base", "dusk mat", "wall print", "ruler of 4 in", "ruler of 100 mm"):
            if not any(name in line for line in wrong):
                return [f"{name} is not noticed: {wrong}"]
        return []

    def in_viewers(self):
        browser = shutil.which("chromium") or shutil.which("chromium-browser") or "chromium"
        folder = self.folder / "viewers"
        folder.mkdir()
        shown = viewers.screenshots(browser, folder, [(made.name, made.path) for made in self.to_be_seen], self.pool)
        self.check("seen", [(name, lambda s=seen: viewers.faults(*s)) for name, seen in shown.items()])
        self.check("seen", [(f"a fault in {name} is noticed", lambda s=seen: viewers.unnoticed(*s))
                            for name, seen in list(shown.items())[::9]])

    def refused(self):
        self.check("refused", refusals.named(self.program))

    def run(self):
        files = {"made", "picture", "words", "outlines"}
        started = time.monotonic()
        for what, kinds, stage in (
                ("the cards of cases/", files | {"names", "again", "plans", "seen"}, self.case_cards),
                ("contact sheets", {"made", "picture", "words", "again", "contact", "seen"}, self.contact_sheets),
                ("those that cannot be built", files | {"seen"}, self.unbuildable_cards),
                ("generated ones", files | {"plans"}, self.generated_cards),
                ("hard ones", files | {"names", "harmless"}, self.hard_ones),
                ("true sizes", {"size"}, self.true_sizes),
                ("viewers", {"seen"}, self.in_viewers),
                ("what is refused", {"refused"}, self.refused)):
            asked = KINDS & set(self.only)
            if not asked or asked & kinds:
                stage()
                print(f"{what}: {time.monotonic() - started:.0f} s", flush=True)


def main():
    parser = argparse.ArgumentParser(usage="check_drawings.py PROGRAM [--only WORD ...]")
    parser.add_argument("program")
    parser.add_argument("--only", nargs="+", default=[])
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="drawings-") as folder:
        checks = Checks(str(pathlib.Path(asked.program).resolve()), pathlib.Path(folder), asked.only)
        checks.run()
    print(f"{checks.tally.passed} passed, {checks.tally.failed} failed")
    return 1 if checks.tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
