#!/usr/bin/env python3
"""The program held against integer programs (CBC), cvc5 and brute force.

usage: run.py PROGRAM [--cards N] [--real N] [--tiny N] [--seed S] [--jobs J] [--only SEED ...] [--case FILE ...]

Every generated card and every file of cases/ is sized by the program. Its verdict must be that of an integer
program written from the card alone and that of cvc5 for the rules the program exports; its answer must hold every
rule exactly and reach the optimum of every choosing step. What it says of the card as a thing (its blank, what is
seen of each layer, thickness, weight, girth, envelopes) is worked out again from the sizes and places. Small cards are
also compared with brute force; "real" ones have every fold, windows, tilted things, limits.
One line for each failure, with the card kept in a folder that is named at the end; a summary of what was
compared; the last line counts. Exit status 0 when nothing failed.
"""
import argparse
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

import areas
import body
import brute
import real
import test_oracle
from cards import PATTERNS, coverage, generate
from checker import broken_rules, check
from model import build
from problem import Contradiction
from reading import read
from steps import Comparison, feasible

SECONDS = 20  # for one call of CBC or cvc5
LATE_SHARE = 0.02  # more late answers than this, and the run fails
HERE = os.path.dirname(os.path.abspath(__file__))


@dataclass
class Report:
    name: str
    text: str
    verdict: str = ""
    passed: Counter = field(default_factory=Counter)  # check -> how many
    plain: Counter = field(default_factory=Counter)  # step -> settled without an integer program
    failures: list = field(default_factory=list)
    late: list = field(default_factory=list)
    calls: int = 0  # of CBC and cvc5
    seconds: dict = field(default_factory=dict)


def call(program, path, *more):
    ran = subprocess.run([program, "size", path, *more], capture_output=True, text=True, timeout=120)
    return ran.returncode, ran.stdout, ran.stderr


def cvc5_verdict(text):
    with tempfile.NamedTemporaryFile("w", suffix=".smt2") as f:
        f.write(text)
        f.flush()
        try:
            ran = subprocess.run(["cvc5", f"--tlimit={SECONDS * 1000}", f.name], capture_output=True, text=True,
                                 timeout=4 * SECONDS)
        except subprocess.TimeoutExpired:
            return None
    words = ran.stdout.split()
    if words[-1:] == ["sat"] or words[-1:] == ["unsat"]:
        return "buildable" if words[-1] == "sat" else "conflict"
    if "timeout" in ran.stdout + ran.stderr or "interrupted" in ran.stdout + ran.stderr:
        return None
    raise RuntimeError(f"cvc5 says {ran.stdout[:300]!r} {ran.stderr[:300]!r}")


def own_models(text):
    return [build(v, i)[0] for i, v in enumerate(read(text))]


def own_verdict(models):
    found = [feasible(m, SECONDS) for m in models]
    return None if None in found else "buildable" if all(found) else "conflict"


def timed(report, what, f, *args):
    start = time.monotonic()
    try:
        return f(*args)
    finally:
        report.seconds[what] = report.seconds.get(what, 0) + time.monotonic() - start


def sized(report, program, path):
    """The program's answer, or None."""
    status, out, err = timed(report, "evenmat", call, program, path, "--json")
    try:
        answer = json.loads(out)
    except ValueError:
        report.failures.append(f"no JSON; exit status {status}: {err.strip()[:300]}")
        return None
    if answer["verdict"] == "invalid":
        report.failures.append(f"said to be invalid: {json.dumps(answer['errors'])[:300]}")
        return None
    expected = {"buildable": 0, "conflict": 1}.get(answer["verdict"], 3)
    if status != expected:
        report.failures.append(f"{answer['verdict']} with exit status {status}")
    return answer


def compare_verdicts(report, program, path, answer, models):
    """`models` are those of the text at `path`."""
    _, smt2, err = timed(report, "evenmat", call, program, path, "--smt2")
    for who, verdict in (("cbc", timed(report, "verdict", own_verdict, models)),
                         ("cvc5", timed(report, "cvc5", cvc5_verdict, smt2))):
        report.calls += 1
        if verdict is None:
            report.late.append(f"verdict by {who}")
        elif verdict != answer["verdict"]:
            report.failures.append(f"{answer['verdict']}, but by {who} {verdict}")
        else:
            report.passed[f"verdict by {who}"] += 1


def compare_areas(report, program, folder, answer, models):
    """Whether the integer programs' rules say all that the card asks, as far as this answer goes. Where they do not,
    their verdict and steps are those of the card without the rest."""
    plainer = areas.without(report.text, models)
    if plainer is None:
        return True
    path = os.path.join(folder, "plainer.toml")
    with open(path, "w") as f:
        f.write(plainer)
    other = sized(report, program, path)
    if other is None:
        return False
    compare_verdicts(report, program, path, other, own_models(plainer))
    if other["verdict"] == "conflict":
        if answer["verdict"] != "conflict":
            report.failures.append("a conflict without its shares and limits, but not with them")
        return True
    if not areas.keeps(report.text, other):
        report.passed["shares and limits that bind"] += 1
        return False
    if answer["verdict"] != "buildable":
        report.failures.append(f"{answer['verdict']}, but what is chosen without shares and limits keeps them")
        return False
    different = areas.differences(answer, other)
    if different:
        report.failures.append(f"shares and limits that are kept anyway change {different}")
    report.passed["shares and limits kept anyway"] += 1
    return True


def compare_body(report, answer):
    compared, wrong = body.compare(report.text, answer)
    report.passed.update({f"body: {what}": count for what, count in compared.items()})
    report.failures += wrong[:6]


def compare_steps(report, answer, whole):
    """`whole`: whether the rules are all that the card asks."""
    models, values, wrong = timed(report, "rules", check, report.text, answer)
    if wrong:
        report.failures += [f"the answer does not hold: {w}" for w in wrong[:6]]
    else:
        report.passed["every rule"] += 1
    if not whole or any(set(m.variables) - set(values) or broken_rules(m, values) for m in models):
        return
    comparison = Comparison(models, values, SECONDS)
    try:
        timed(report, "steps", comparison.run)
    except Contradiction:
        report.failures.append("the answer contradicts the rules with what the steps reach")
    for step, tally in comparison.tally.items():
        report.calls += tally.compared + tally.late + len(tally.wrong)
        report.plain[step] += tally.plain
        report.late += [f"step {step}"] * tally.late
        report.failures += [f"step {w}" for w in tally.wrong]
        if tally.compared and not tally.wrong:
            report.passed[f"step {step}"] += tally.compared


def compare(job):
    program, name, text = job
    report = Report(name, text)
    with tempfile.TemporaryDirectory(prefix="oracle-") as folder:
        path = os.path.join(folder, "card.toml")
        with open(path, "w") as f:
            f.write(text)
        try:
            answer = sized(report, program, path)
            if answer is not None:
                report.verdict = answer["verdict"]
                models = own_models(text)
                whole = compare_areas(report, program, folder, answer, models)
                if whole:
                    compare_verdicts(report, program, path, answer, models)
                if report.verdict == "buildable":
                    timed(report, "body", compare_body, report, answer)
                    compare_steps(report, answer, whole)
            if answer is not None and name.startswith("tiny"):
                timed(report, "brute", brute.compare, report, answer)
        except Exception:  # whatever it is, it is a failure of this card and not of the run
            report.failures.append("the check itself failed: " + traceback.format_exc().replace("\n", " | ")[-900:])
    return report


def jobs_of(options):
    if options.only is not None:
        return [(f"seed {s}", generate(s)) for s in options.only]
    if options.only_real is not None:
        return [(f"real {s}", real.generate(s)) for s in options.only_real]
    if options.case:
        return [(os.path.basename(f), open(f).read()) for f in options.case]
    jobs = [(f"seed {s}", generate(s)) for s in range(options.seed, options.seed + options.cards)]
    jobs += [(f"real {s}", real.generate(s)) for s in range(options.seed, options.seed + options.real)]
    jobs += [(f"tiny {s}", brute.generate(s)) for s in range(options.seed, options.seed + options.tiny)]
    for f in sorted(glob.glob(os.path.join(HERE, "..", "..", "cases", "*.toml"))):
        with open(f) as text:
            jobs.append((os.path.basename(f), text.read()))
    return jobs


def summary(reports, took):
    total = Counter()
    for r in reports:
        total.update(r.passed)
    verdicts = Counter(r.verdict for r in reports)
    used = Counter(name for r in reports for name in coverage(r.text))
    print(f"{len(reports)} cards: " + ", ".join(f"{n} {v or 'without an answer'}" for v, n in verdicts.most_common()))
    plain = Counter()
    for r in reports:
        plain.update(r.plain)
    for name in sorted(set(total) | {f"step {s}" for s in plain}):
        settled = plain.get(name.removeprefix("step "), 0)
        print(f"  {name}: {total[name]} compared" + (f", {settled} settled without a program" if settled else ""))
    print("cards with: " + ", ".join(f"{k} {n}" for k, n in used.most_common()))
    if set(PATTERNS) - set(used):
        print("in no card: " + ", ".join(sorted(set(PATTERNS) - set(used))))
    slow = sorted(reports, key=lambda r: -r.seconds.get("evenmat", 0))[:3]
    print("slowest by the program: " + ", ".join(f"{r.name} {r.seconds.get('evenmat', 0):.1f} s" for r in slow))
    slow = sorted(reports, key=lambda r: -r.seconds.get("steps", 0))[:5]
    print("slowest to compare: " + ", ".join(f"{r.name} {r.seconds.get('steps', 0):.1f} s" for r in slow))
    seconds = Counter()
    for r in reports:
        seconds.update(r.seconds)
    print(f"{took:.0f} s; of processor time, roughly: " + ", ".join(f"{k} {v:.0f} s" for k, v in seconds.items()))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--cards", type=int, default=200)
    parser.add_argument("--real", type=int, default=40, help="cards of all folds, windows, paper")
    parser.add_argument("--tiny", type=int, default=30, help="cards for brute force")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--only", type=int, nargs="+", help="just the generated cards of these seeds")
    parser.add_argument("--only-real", type=int, nargs="+", help="just the real cards of these seeds")
    parser.add_argument("--case", nargs="+", help="just these card files")
    options = parser.parse_args()
    for tool in (options.program, "cbc", "cvc5"):
        if shutil.which(tool) is None:
            print(f"{tool} is not there to be run (cbc: Debian's coinor-cbc; cvc5: Debian's cvc5)\n0 passed, 1 failed")
            return 1
    start = time.monotonic()
    folder = None
    jobs = [(options.program, name, text) for name, text in jobs_of(options)]
    reports, failed = [], 0
    with ProcessPoolExecutor(options.jobs) as pool:
        for report in pool.map(compare, jobs):
            reports.append(report)
            failed += len(report.failures)
            if report.failures or report.late:
                folder = folder or tempfile.mkdtemp(prefix="oracle-cards-")
                path = os.path.join(folder, report.name.replace(" ", "-").removesuffix(".toml") + ".toml")
                with open(path, "w") as f:
                    f.write(report.text)
            for line in report.failures:
                print(f"FAIL {report.name}: {line}", flush=True)
            for line in report.late:
                print(f"late {report.name}: {line}", flush=True)
    passed = sum(sum(r.passed.values()) for r in reports)
    calls, late = sum(r.calls for r in reports), sum(len(r.late) for r in reports)
    if options.only is None and options.only_real is None and not options.case:
        done, broken = test_oracle.run(options.program)
        passed += done
        failed += len(broken)
        for line in broken:
            print("FAIL self-check: " + line)
    summary(reports, time.monotonic() - start)
    print(f"{late} of {calls} calls took longer than {SECONDS} s")
    if late > LATE_SHARE * calls:
        failed += 1
        print("FAIL too many late answers")
    if folder:
        print(f"cards that failed or were late are in {folder}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
