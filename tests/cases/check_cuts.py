#!/usr/bin/env python3
"""Cuts the batches of cases/ and compares the plans with the answers worked out by hand (cut_answers.json).

usage: check_cuts.py PROGRAM [TOP]      TOP: the top of the sources, where cases/ is

cut_answers.json gives, for each card, a list of calls of `cut`:

  "with"      more arguments; files among them as seen from the top of the sources
  "instead"   [from, to]: the card with this one change of its text
  "status"    the exit status, 0 unless it is said
  "answer"    any part of the program's JSON, as in check_cases.py
  "papers"    of each paper, all of them, in their order:
    "sheets", "at_least", "proven", "cost", ...  as the JSON has them
    "pieces"    every kind that is cut, no other: [width, height, count, may turn, {layer: count}]; a layer of a
                variant is "layer / variant". The plan must hold exactly as many, each of that size or turned.
    "sheets_of" how many sheets of each size the plan cuts, as "width x height"
    "offcuts"   how many offcuts of the work it cuts; "offcuts_least": at least so many
    "largest"   [width, height] of the largest leftover of the paper that is listed, and [count] of it

That no more sheets are cut than there are, and that as many are told as are cut, is looked at in each of `papers`. A
name that is no card fails.
"""
import json
import pathlib
import subprocess
import sys
import tempfile
from collections import Counter
from fractions import Fraction

sys.dont_write_bytecode = True  # nothing is left behind beside the sources
from check_cases import differences  # noqa: E402

HERE = pathlib.Path(__file__).resolve().parent
OWN = {"pieces", "sheets_of", "offcuts", "offcuts_least", "largest"}


def label(use):
    return use["layer"] + (f" / {use['variant']}" if use["variant"] else "")


def compare_pieces(want, paper, where):
    """The kinds that are cut, and the pieces that the plan has of them."""
    wrong = []
    got = {(kind["width"], kind["height"]): kind for kind in paper["kinds"]}
    sizes = [(width, height) for width, height, *_ in want]
    if sorted(got) != sorted(sizes):
        return [f"{where}: the pieces are {sorted(got)}, by hand {sorted(sizes)}"]
    laid = Counter()
    for entry in paper["plan"]:
        for piece in entry["pieces"]:
            laid[piece["kind"], label(piece)] += entry["times"]
            kind = paper["kinds"][piece["kind"]]
            lies = (piece["height"], piece["width"]) if piece["turned"] else (piece["width"], piece["height"])
            if lies != (kind["width"], kind["height"]) or (piece["turned"] and not kind["may_turn"]):
                wrong.append(f"{where}: {label(piece)} lies as {piece['width']} x {piece['height']}")
    for width, height, count, may_turn, uses in want:
        kind = got[width, height]
        have = {"count": kind["count"], "may turn": kind["may_turn"], "uses": {label(u): u["count"] for u in kind["uses"]},
                "laid": {layer: n for (k, layer), n in laid.items() if paper["kinds"][k] is kind}}
        hand = {"count": count, "may turn": may_turn, "uses": uses, "laid": uses}
        wrong += [f"{where}: {width} x {height}, {key}: {have[key]}, by hand {hand[key]}"
                  for key in hand if have[key] != hand[key]]
    return wrong


def compare_sheets(want, paper, where):
    """How many sheets of each size and how many offcuts are cut; no more than there are."""
    used = Counter()
    for entry in paper["plan"]:
        used[entry["stock"]] += entry["times"]
    wrong = [f"{where}: {n} of stock {i}, which has {paper['stock'][i].get('have')}"
             for i, n in used.items() if n > paper["stock"][i].get("have", n)]
    sheets, offcuts = Counter(), 0
    for i, n in used.items():
        stock = paper["stock"][i]
        if stock["from"] in ("stated", "more"):
            sheets[f"{stock['width']} x {stock['height']}"] += n
        else:
            offcuts += n
    if sum(sheets.values()) != paper["sheets"]:
        wrong.append(f"{where}: {paper['sheets']} sheets are told, {sum(sheets.values())} are cut")
    if want.get("sheets_of", sheets) != sheets:
        wrong.append(f"{where}: cut of sheets {dict(sheets)}, by hand {want['sheets_of']}")
    if want.get("offcuts", offcuts) != offcuts or want.get("offcuts_least", 0) > offcuts:
        wrong.append(f"{where}: {offcuts} offcuts, by hand {want.get('offcuts', want.get('offcuts_least'))}")
    return wrong


def compare_largest(want, paper, where):
    def area(left):
        return Fraction(left["width"]) * Fraction(left["height"])

    largest = max(paper["leftovers"], key=area, default=None)
    got = [largest[key] for key in ("width", "height", "count")][: len(want)] if largest else None
    return [] if got == want else [f"{where}: the largest leftover is {got}, by hand {want}"]


def compare_paper(want, paper, where):
    wrong = differences({key: value for key, value in want.items() if key not in OWN}, paper, where)
    wrong += compare_pieces(want["pieces"], paper, where) if "pieces" in want else []
    wrong += compare_sheets(want, paper, where)
    return wrong + (compare_largest(want["largest"], paper, where) if "largest" in want else [])


def compare_batch(want, answer):
    wrong = differences(want.get("answer", {}), answer, "answer")
    if "papers" in want:
        got = {paper["paper"]: paper for paper in answer.get("papers", [])}
        if list(got) != list(want["papers"]):
            return wrong + [f"the papers are {list(got)}, by hand {list(want['papers'])}"]
        for name, values in want["papers"].items():
            wrong += compare_paper(values, got[name], name)
    return wrong


def run_call(program, top, path, call):
    with tempfile.TemporaryDirectory() as folder:
        if "instead" in call:
            old, new = call["instead"]
            text = path.read_text(encoding="utf-8")
            if text.count(old) != 1:
                return [f"{old!r} stands {text.count(old)} times in the card"]
            path = pathlib.Path(folder) / path.name
            path.write_text(text.replace(old, new), encoding="utf-8")
        run = subprocess.run([program, "cut", str(path), *call.get("with", []), "--json"], cwd=top,
                             capture_output=True, text=True, timeout=120)
    if run.returncode != call.get("status", 0):
        return [f"exit status {run.returncode}: {(run.stderr or run.stdout).strip()[:400]}"]
    return compare_batch(call, json.loads(run.stdout))


def check_itself():
    """What the comparison takes and refuses, by a plan that is right and the same with one thing wrong each."""
    def plan(**change):
        piece = {"layer": "mat", "variant": "", "kind": 0, "width": "3", "height": "2", "turned": False}
        made = {"paper": "moss", "sheets": 2, "proven": True,
                "kinds": [{"width": "3", "height": "2", "count": 2, "may_turn": False,
                           "uses": [{"layer": "mat", "variant": "", "count": 2}]}],
                "stock": [{"from": "stated", "width": "4", "height": "4", "have": 2}],
                "plan": [{"stock": 0, "times": 2, "pieces": [piece]}],
                "leftovers": [{"width": "1", "height": "4", "count": 2}, {"width": "4", "height": "2", "count": 1}]}
        for path, value in change.items():
            at = made
            *way, last = path.split("__")
            for key in way:
                at = at[int(key) if isinstance(at, list) else key]
            at[last] = value
        return {"papers": [made]}

    want = {"papers": {"moss": {"sheets": 2, "proven": True, "pieces": [["3", "2", 2, False, {"mat": 2}]],
                                "sheets_of": {"4 x 4": 2}, "offcuts": 0, "largest": ["4", "2", 1]}}}
    wrong = [{"sheets": 3}, {"proven": False}, {"kinds__0__count": 3}, {"kinds__0__width": "4"},
             {"kinds__0__uses__0__count": 1}, {"plan__0__times": 1}, {"plan__0__pieces__0__turned": True},
             {"plan__0__pieces__0__height": "3"}, {"stock__0__have": 1}, {"stock__0__from": "window"},
             {"stock__0__width": "5"}, {"leftovers__0__width": "3"}, {"leftovers": []}, {"paper": "sand"}]
    return not compare_batch(want, plan()) and all(compare_batch(want, plan(**change)) for change in wrong)


def main(program, top=HERE.parent.parent):
    program, top = str(pathlib.Path(program).resolve()), pathlib.Path(top).resolve()
    answers = json.loads((HERE / "cut_answers.json").read_text(encoding="utf-8"))
    passed, failed = (1, 0) if check_itself() else (0, 1)
    if failed:
        print("FAIL the comparison of plans takes what it should refuse, or refuses what it should take")
    for name, calls in answers.items():
        path = top / "cases" / f"{name}.toml"
        for call in calls:
            told = " ".join([name, *call.get("with", []), *[repr(text) for text in call.get("instead", [])]])
            wrong = run_call(program, top, path, call) if path.exists() else ["there are answers but no card"]
            failed, passed = failed + bool(wrong), passed + (not wrong)
            print(f"{'FAIL' if wrong else 'ok  '} {told}")
            for line in wrong:
                print(f"       {line}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
