#!/usr/bin/env python3
"""What the program says of cards that cannot be built, held against integer programs (CBC) and cvc5.

usage: run_why.py PROGRAM [--cards N] [--seed S] [--jobs J] [--only SEED ...] [--case FILE ...]

Every generated card, and every card of cases/unbuildable, is checked by the program. Each conflict told must be
smallest, and all of them those that trying all subsets finds; each change offered is put into the file and tried, and
none nearer may do; the smallest set of changes must be as small as an integer program finds; cvc5 must refute the card
with only a conflict's wishes and find sizes for the mended one. Of thickness and shares only what is offered is tried.
One line for each failure, with the card kept in a folder that is named at the end; a summary of what was compared; the
last line counts. Exit status 0 when nothing failed.
"""
import argparse
import gc
import glob
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
import traceback
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field

import test_why
import why_areas
from cards import PATTERNS, coverage
from keeping import kept_only
from run import SECONDS, cvc5_verdict, timed
from stated import Card
from unbuildable import generate
from why_answer import can_be_built, judge

LATE_SHARE = 0.02  # more late answers than this, and the run fails
LEAST_FEW = 0.9  # of the cards, at least, must have so few wishes that all subsets are tried
HERE = os.path.dirname(os.path.abspath(__file__))


@dataclass
class Report:
    name: str
    text: str = ""
    verdict: str = ""
    conflicts: int = 0
    passed: Counter = field(default_factory=Counter)  # check -> how many
    failures: list = field(default_factory=list)
    late: list = field(default_factory=list)
    seconds: dict = field(default_factory=dict)


def call(program, command, path, option):
    ran = subprocess.run([program, command, path, option], capture_output=True, text=True, timeout=120)
    return ran.returncode, ran.stdout, ran.stderr


def checked(report, program, path):
    status, out, err = timed(report, "evenmat", call, program, "check", path, "--json")
    try:
        answer = json.loads(out)
    except ValueError:
        report.failures.append(f"no JSON; exit status {status}: {err.strip()[:300]}")
        return None
    report.verdict = answer["verdict"]
    expected = {"buildable": 0, "conflict": 1, "invalid": 2}.get(report.verdict, 3)
    if status != expected:
        report.failures.append(f"{report.verdict} with exit status {status}")
    if report.verdict == "invalid":
        report.failures.append(f"said to be invalid: {json.dumps(answer['errors'])[:300]}")
    if report.verdict == "undecided":
        report.late.append("the program")
    return answer if report.verdict in ("buildable", "conflict") else None


def by_cvc5(report, program, folder, what, text, expected):
    path = os.path.join(folder, "other.toml")
    with open(path, "w") as f:
        f.write(text)
    status, smt2, err = timed(report, "evenmat", call, program, "size", path, "--smt2")
    if not smt2:
        report.failures.append(f"{what}: nothing for cvc5, exit status {status}: {err.strip()[:300]} {text!r}")
        return
    verdict = timed(report, "cvc5", cvc5_verdict, smt2)
    if verdict is None:
        report.late.append(f"{what} by cvc5")
    elif verdict != expected:
        report.failures.append(f"{what}: by cvc5 {verdict}: {text!r}")
    else:
        report.passed[f"{what} by cvc5"] += 1


def sizing(report, program, folder):
    """Gives the program's answer to another text."""
    path = os.path.join(folder, "other.toml")

    def size(text):
        with open(path, "w") as f:
            f.write(text)
        return json.loads(timed(report, "evenmat", call, program, "size", path, "--json")[1])

    return size


def compare(job):
    program, name, text = job
    report = Report(name, text if isinstance(text, str) else "")
    try:
        report.text = text = text if isinstance(text, str) else timed(report, "making cards", generate, text)
        with tempfile.TemporaryDirectory(prefix="oracle-") as folder:
            path = os.path.join(folder, "card.toml")
            with open(path, "w") as f:
                f.write(text)
            answer = checked(report, program, path)
            if answer is None:
                return report
            if why_areas.asks(text):
                held, wrong = timed(report, "judging", why_areas.judge, text, answer, sizing(report, program, folder))
                report.passed["changes of thickness and shares"] += held
                report.failures += wrong
                return report
            if timed(report, "judging", can_be_built, text):
                report.failures.append("this card can be built")
                return report
            card = Card(text)
            judgement = timed(report, "judging", judge, text, answer, card)
            report.conflicts = len(judgement.told)
            report.passed.update(judgement.passed)
            report.failures += judgement.failures
            report.late += judgement.late
            for wishes in judgement.told:
                by_cvc5(report, program, folder, "a conflict", kept_only(card, wishes), "conflict")
            if judgement.mended:
                by_cvc5(report, program, folder, "a mended card", judgement.mended, "buildable")
    except Exception:  # whatever it is, it is a failure of this card and not of the run
        report.failures.append("the check itself failed: " + traceback.format_exc().replace("\n", " | ")[-900:])
    return report


def jobs_of(options):
    if options.only is not None:
        return [(f"seed {s}", s) for s in options.only]
    files = options.case or sorted(glob.glob(os.path.join(HERE, "..", "..", "cases", "unbuildable", "*.toml")))
    jobs = []
    for path in files:
        with open(path) as f:
            jobs.append((os.path.basename(path), f.read()))
    if options.case:
        return jobs
    return jobs + [(f"seed {s}", s) for s in range(options.seed, options.seed + options.cards)]


def summary(reports, took):
    total, seconds = Counter(), Counter()
    for r in reports:
        total.update(r.passed)
        seconds.update(r.seconds)
    verdicts = Counter(r.verdict for r in reports)
    print(f"{len(reports)} cards: " + ", ".join(f"{n} {v or 'without an answer'}" for v, n in verdicts.most_common()))
    for name, n in sorted(total.items()):
        print(f"  {name}: {n} compared")
    print("conflicts in a card: " + ", ".join(f"{k} in {n}" for k, n in sorted(Counter(r.conflicts for r in reports)
                                                                               .items())))
    used = Counter(name for r in reports for name in coverage(r.text))
    print("cards with: " + ", ".join(f"{k} {n}" for k, n in used.most_common()))
    if set(PATTERNS) - set(used):
        print("in no card: " + ", ".join(sorted(set(PATTERNS) - set(used))))
    for what in ("evenmat", "judging"):
        slow = sorted(reports, key=lambda r, what=what: -r.seconds.get(what, 0))[:4]
        print(f"slowest by {what}: " + ", ".join(f"{r.name} {r.seconds.get(what, 0):.1f} s" for r in slow))
    print(f"{took:.0f} s; of processor time, roughly: " + ", ".join(f"{k} {v:.0f} s" for k, v in seconds.items()))


def keep(report, folder):
    folder = folder or tempfile.mkdtemp(prefix="oracle-cards-")
    path = os.path.join(folder, report.name.replace(" ", "-").removesuffix(".toml") + ".toml")
    with open(path, "w") as f:
        f.write(report.text)
    return folder


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--cards", type=int, default=250)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--only", type=int, nargs="+", help="just the generated cards of these seeds")
    parser.add_argument("--case", nargs="+", help="just these card files")
    options = parser.parse_args()
    for tool in (options.program, "cbc", "cvc5"):
        if shutil.which(tool) is None:
            print(f"{tool} is not there to be run (cbc: Debian's coinor-cbc; cvc5: Debian's cvc5)\n0 passed, 1 failed")
            return 1
    start = time.monotonic()
    folder, reports, passed, failed = None, [], 0, 0
    with ProcessPoolExecutor(options.jobs, initializer=gc.disable) as pool:  # nothing here refers in circles
        whole = options.only is None and not options.case
        selfcheck = pool.submit(test_why.run) if whole else None
        for report in pool.map(compare, [(options.program, name, text) for name, text in jobs_of(options)]):
            reports.append(report)
            passed += sum(report.passed.values())
            failed += len(report.failures)
            if report.failures or report.late:
                folder = keep(report, folder)
            for line in report.failures:
                print(f"FAIL {report.name}: {line}", flush=True)
            for line in report.late:
                print(f"late {report.name}: {line}", flush=True)
        if selfcheck:
            done, broken = selfcheck.result()
            passed += done
            failed += len(broken)
            for line in broken:
                print("FAIL self-check: " + line)
    summary(reports, time.monotonic() - start)
    late = sum(len(r.late) for r in reports)
    print(f"{late} answers took longer than {SECONDS} s")
    if late > LATE_SHARE * len(reports):
        failed += 1
        print("FAIL too many late answers")
    if whole and sum(r.passed["all subsets"] > 0 for r in reports) < LEAST_FEW * len(reports) and not failed:
        failed += 1
        print("FAIL all subsets were tried of too few cards")
    if folder:
        print(f"cards that failed or were late are in {folder}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
