#!/usr/bin/env python3
"""What `evenmat explore` answers held against every card that a card file allows, listed by plain arithmetic.

usage: run_explore.py PROGRAM [--cards N] [--fit N] [--seed S] [--most N] [--jobs J] [--only SEED ...] [--case FILE ...]

Every generated card that can be built is explored: how many cards there are, how far each amount goes, and what is shown
must be what the list here has; cards that are few enough are shown whole. For some of them sizes are fitted to the paper,
wishes loosened, one amount swept, sizes kept, values stated, and an alternative is written as a file, sized and cut.
One line for each failure, with the card kept in a folder that is named at the end; a summary of what was compared; the
last line counts. Exit status 0 when nothing failed.
"""
import argparse
import json
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
import traceback
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from functools import partial

import explore_cards
import test_explore
from checker import Mismatch
from explore_answer import judge
from explore_costs import Papers
from explore_fit import judge_all_loosened, judge_fit, judge_loosening
from explore_list import Space
from explore_more import BEST, amount_name, judge_order, judge_sweep, judge_written, stated_text, wish_path
from explore_sums import Unsupported
from spots import spots

MOST_COUNTED = 10_000  # that the program counts
MOST_SHOWN = 5_000
LEAST_JUDGED = 0.5  # of the generated cards, at least, must be of a kind that can be listed
SECONDS = 200


@dataclass
class Report:
    name: str
    text: str
    outcome: str = ""
    cards: int = 0
    whole: bool = False
    passed: Counter = field(default_factory=Counter)
    failures: list = field(default_factory=list)
    unproven: int = 0
    fitted: bool = False
    fit_searched: bool = False
    seconds: Counter = field(default_factory=Counter)

    def take(self, judgement, call=""):
        self.passed.update(judgement.passed)
        self.failures += [w + (f"   [{call}]" if call else "") for w in judgement.wrong[:6]]
        self.unproven += judgement.unproven


class Run:
    """One card and the calls about it."""

    def __init__(self, report, program, folder, options):
        self.report, self.program, self.folder, self.options = report, program, folder, options
        self.known = {}
        self.path = self.write("card.toml", report.text)
        self.rng = random.Random(report.name)

    def write(self, name, text):
        path = os.path.join(self.folder, name)
        with open(path, "w") as f:
            f.write(text)
        return path

    def call(self, command, path, *more):
        start = time.monotonic()
        ran = subprocess.run([self.program, command, path, *more, "--json"], capture_output=True, text=True,
                             timeout=SECONDS)
        self.report.seconds[command] += time.monotonic() - start
        try:
            return ran.returncode, json.loads(ran.stdout)
        except ValueError as error:
            raise Mismatch(f"{command} {more}: no JSON; exit status {ran.returncode}: {ran.stderr.strip()[:300]}") \
                from error

    def size_of(self, text):
        if text not in self.known:
            self.known[text] = self.call("size", self.write("other.toml", text))[1]
        return self.known[text]

    # --- parts ---------------------------------------------------------------------------------------
    def whole(self):
        report, text = self.report, self.report.text
        sized = self.size_of(text)
        if sized["verdict"] != "buildable":
            report.outcome = sized["verdict"]
            status, answer = self.call("explore", self.path)
            want = {"conflict": 1, "invalid": 2}.get(sized["verdict"], 3)
            if (answer["verdict"], status) != (sized["verdict"], want):
                report.failures.append(f"{sized['verdict']}, and explored {answer['verdict']} with status {status}")
            report.passed["cards that cannot be built"] += 1
            return
        try:
            space = self.listed(text, sized)
        except Unsupported as beyond:
            report.outcome = f"beyond the list: {str(beyond).split(':')[-1].strip()}"
            return
        report.outcome, report.cards = "explored", len(space.cards)
        report.whole = space.complete and len(space.cards) <= self.options.most
        papers = Papers(text)
        show = ("--show", str(MOST_SHOWN)) if report.whole else ()
        self.judged(space, sized, report.whole, papers, *show)
        if not space.complete:
            return
        if self.options.fit_too:
            self.fit(space, sized, papers)
        turn = self.rng.random()
        if turn < 0.25:
            self.sweep(space)
        elif turn < 0.4:
            self.keep(sized)
        elif turn < 0.55:
            self.stated(space)
        elif turn < 0.7:
            self.varied(space)
        elif turn < 0.8:
            best = self.rng.choice(sorted(BEST))
            call = ("--best", best, "--show", "60")
            report.take(judge_order(self.call("explore", self.path, *call)[1], best), " ".join(call))
        if self.rng.random() < 0.3:
            self.written(space)

    def listed(self, text, sized, keep=()):
        start = time.monotonic()
        try:
            return Space(text, sized, MOST_COUNTED, keep)
        finally:
            self.report.seconds["listing"] += time.monotonic() - start

    def judged(self, space, sized, whole, papers, *options, path=None):
        status, answer = self.call("explore", path or self.path, *options)
        start = time.monotonic()
        self.report.take(judge(space, sized, answer, status, whole, papers), " ".join(options))
        self.report.seconds["judging"] += time.monotonic() - start

    def fit(self, space, sized, papers):
        if not any("have" in p or "sheet" in p for p in space.sums.versions[0].papers):
            return
        start = time.monotonic()
        status, answer = self.call("explore", self.path, "--fit")
        j, searched = judge_fit(space, sized, answer, status, papers)
        self.report.fitted, self.report.fit_searched = True, searched
        if searched:
            judge_loosening(j, space, answer, self.size_of)
            if answer["verdict"] == "short":
                judge_all_loosened(j, space, answer, self.size_of)
        self.report.take(j, "--fit")
        self.report.seconds["fitting"] += time.monotonic() - start

    def open_stated(self, space):
        """Amounts that stand in the file."""
        there = spots(space.text)
        return [o for o in space.open if wish_path(space, o) in there]

    def sweep(self, space):
        found = self.open_stated(space)
        if not found:
            return
        o = self.rng.choice(found)
        i = space.open.index(o)
        low, high = space.ends[i]
        low, high = int(max(low - 1, 0)), int(min(high + 1, low + 12))
        if low == high:
            return
        call = ("--vary", f"{amount_name(o)}={low * space.mark} to {high * space.mark}")
        _, answer = self.call("explore", self.path, *call)
        if "nothing_open" in answer or answer["verdict"] != "explored":
            self.report.passed["sweeps with nothing open"] += 1
            return
        self.report.take(judge_sweep(space, o, (low, high), answer, self.size_of), " ".join(call))

    def changed(self, text, *call):
        """The same asked of a file that says it."""
        sized = self.size_of(text)
        if sized["verdict"] != "buildable":
            return
        try:
            space = self.listed(text, sized)
        except Unsupported:
            return
        whole = space.complete and len(space.cards) <= self.options.most
        status, answer = self.call("explore", self.path, *call, "--show", str(MOST_SHOWN if whole else 8))
        for o in answer.get("open", ()):  # spots are those of the file as it is changed, on which this has no say
            o.pop("line", None), o.pop("column", None)
        j = judge(space, sized, answer, status, whole, Papers(text))
        j.wrong = [w for w in j.wrong if not w.endswith("None") and "line and column" not in w]
        self.report.take(j, " ".join(call))

    def stated(self, space):
        found = self.open_stated(space)
        if not found or not space.cards:
            return
        o = self.rng.choice(found)
        value = self.rng.choice(space.cards).amounts[space.open.index(o)] * space.mark
        self.changed(stated_text(space, o, str(value)), "--set", f"{amount_name(o)}={value}")

    def varied(self, space):
        found = self.open_stated(space)
        if not found:
            return
        o = self.rng.choice(found)
        low, high = space.ends[space.open.index(o)]
        value = f"{low * space.mark} to {(high + 1) * space.mark}"
        self.changed(stated_text(space, o, value), "--vary", f"{amount_name(o)}={value}")

    def keep(self, sized):
        if not sized["layers"]:
            return
        name = self.rng.choice([layer["name"] for layer in sized["layers"]])
        try:
            space = self.listed(self.report.text, sized, (name,))
        except Unsupported:
            return
        whole = space.complete and len(space.cards) <= self.options.most
        self.judged(space, sized, whole, Papers(space.text), "--keep-same", name, "--show",
                    str(MOST_SHOWN if whole else 8))

    def written(self, space):
        out = os.path.join(self.folder, "written.toml")
        show = ("--show", "30")
        _, answer = self.call("explore", self.path, *show)
        which = self.rng.choice(answer["alternatives"])
        status, answer = self.call("explore", self.path, *show, "--write", str(which["number"]), out)
        if not os.path.exists(out):
            self.report.failures.append(f"--write {which['number']}: no file, with exit status {status}")
            return
        with open(out) as f:
            text = f.read()
        _, sized = self.call("size", out)
        status, cut = self.call("cut", out)
        if cut["verdict"] == "invalid":
            if answer["no_costs"]:
                return
            raise Mismatch(f"written: cut is invalid: {cut['errors'][:1]}")
        self.report.take(judge_written(space, which, out, text, sized, cut, status), f"--write {which['number']}")


def compare(job, program, options):
    name, text, fit_too = job
    report = Report(name, text)
    options = argparse.Namespace(**vars(options), fit_too=fit_too)
    with tempfile.TemporaryDirectory(prefix="oracle-") as folder:
        try:
            Run(report, program, folder, options).whole()
        except Mismatch as error:
            report.failures.append(f"the answer lacks something: {error}")
        except Exception:  # whatever it is, it is a failure of this card and not of the run
            report.failures.append("the check itself failed: " + traceback.format_exc().replace("\n", " | ")[-900:])
    return report


def jobs_of(options):
    if options.only is not None:
        return [(f"seed {s}", explore_cards.generate(s), True) for s in options.only]
    if options.case:
        return [(os.path.basename(f), open(f).read(), True) for f in options.case]
    return [(f"seed {options.seed + i}", explore_cards.generate(options.seed + i), i < options.fit)
            for i in range(options.cards)]


def summary(reports, took):
    total, seconds = Counter(), Counter()
    for r in reports:
        total.update(r.passed)
        seconds.update(r.seconds)
    outcomes = Counter(r.outcome or "without an answer" for r in reports)
    print(f"{len(reports)} cards: " + ", ".join(f"{n} {v}" for v, n in outcomes.most_common()))
    for name, n in sorted(total.items()):
        print(f"  {name}: {n} compared")
    found = [r for r in reports if r.outcome == "explored"]
    print(f"{sum(r.cards for r in found)} cards listed, {sum(r.cards for r in found if r.whole)} of them, of "
          f"{sum(r.whole for r in found)} files, compared one by one")
    print(f"{sum(r.fit_searched for r in reports)} of {sum(r.fitted for r in reports)} fitted ones searched whole; "
          f"{sum(r.unproven for r in reports)} papers not proven fewest")
    slow = sorted(reports, key=lambda r: -r.seconds["explore"])[:4]
    print("slowest by the program: " + ", ".join(f"{r.name} {r.seconds['explore']:.1f} s" for r in slow))
    print(f"{took:.0f} s; of each, roughly: " + ", ".join(f"{k} {v:.0f} s" for k, v in seconds.items()))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--cards", type=int, default=95)
    parser.add_argument("--fit", type=int, default=50, help="so many of them fitted to their paper too")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--most", type=int, default=60, help="cards of one file that are shown and compared whole")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--only", type=int, nargs="+", help="just the generated cards of these seeds")
    parser.add_argument("--case", nargs="+", help="just these card files")
    options = parser.parse_args()
    if shutil.which(options.program) is None:
        print(f"{options.program} is not there to be run\n0 passed, 1 failed")
        return 1
    generated = options.only is None and not options.case
    start = time.monotonic()
    folder, reports, passed, failed = None, [], 0, 0
    with ProcessPoolExecutor(options.jobs) as pool:
        selfcheck = pool.submit(test_explore.run) if generated else None
        for report in pool.map(partial(compare, program=options.program, options=options), jobs_of(options)):
            reports.append(report)
            passed += sum(report.passed.values())
            failed += len(report.failures)
            if report.failures:
                folder = folder or tempfile.mkdtemp(prefix="oracle-cards-")
                name = report.name.removesuffix(".toml").replace(" ", "-") + ".toml"
                with open(os.path.join(folder, name), "w") as f:
                    f.write(report.text)
            for line in report.failures:
                print(f"FAIL {report.name}: {line}", flush=True)
        if selfcheck:
            done, broken = selfcheck.result()
            passed += done
            failed += len(broken)
            for line in broken:
                print("FAIL self-check: " + line)
    summary(reports, time.monotonic() - start)
    if generated and sum(r.outcome == "explored" for r in reports) < LEAST_JUDGED * len(reports):
        failed += 1
        print("FAIL too few cards are of a kind that can be listed")
    if folder:
        print(f"cards that failed are in {folder}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
