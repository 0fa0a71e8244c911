#!/usr/bin/env python3
"""Cutting plans of the program held against cards, hands and exhaustive search.

usage: run_cut.py PROGRAM [--cards N] [--small N] [--seed S] [--jobs J] [--only SEED ...] [--only-small SEED ...]
                  [--case FILE ...]

Every generated batch, and every card of cases/, is sized and then cut by the program. The plan is cut again with its
own cuts and done again by its own steps; pieces, sheets and directions must be those that the cards ask for. Of the
small batches the sheets must be as few, the verdict and the most cards the same as exhaustive search finds.
One line for each failure, with the card kept in a folder that is named at the end; a summary of what was compared; the
last line counts. Exit status 0 when nothing failed.
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
import tomllib
import traceback
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from fractions import Fraction

import cut_cards
import test_cut
from checker import Mismatch
from cut_answer import judge
from cut_needs import Batch, CardFile
from cut_plan import numbers
from reading import size

HERE = os.path.dirname(os.path.abspath(__file__))
LEAST_SEARCHED = 0.9  # of the small batches, at least, exhaustive search must reach the end


@dataclass
class Report:
    job: cut_cards.Job
    verdict: str = ""
    passed: Counter = field(default_factory=Counter)
    failures: list = field(default_factory=list)
    unproven: int = 0
    searched: bool = False
    seconds: dict = field(default_factory=Counter)


def call(report, program, command, *options):
    start = time.monotonic()
    ran = subprocess.run([program, command, *options, "--json"], capture_output=True, text=True, timeout=200)
    report.seconds[command] += time.monotonic() - start
    try:
            return ran.returncode, json.loads(ran.stdout)
    except ValueError as error:
        raise Mismatch(f"{command}: no JSON; exit status {ran.returncode}: {ran.stderr.strip()[:300]}") from error


def write(folder, name, text):
    path = os.path.join(folder, name)
    with open(path, "w") as f:
        f.write(text)
    return path


def kept(report, path, answer):
    """What is worth keeping is written as paper that the next job can read."""
    want = Counter((p["paper"], *sorted(numbers(r, "width", "height"))) for p in answer["papers"]
                   for r in p["leftovers"] for _ in range(r["count"]))
    got = Counter()
    if os.path.exists(path):
        with open(path) as f:
            top = tomllib.loads(f.read(), parse_float=Fraction)
        if top.get("unit", "in") != answer["unit"]:
            report.failures.append(f"leftovers in {top.get('unit', 'in')}")
        for p in top["paper"]:
            got[(p["name"], *sorted(size(p["sheet"], answer["unit"])))] += p["have"]
    if want - got:
        report.failures.append(f"worth keeping and not written: {list((want - got).items())[:3]}")
    else:
        report.passed["leftovers kept"] += 1


def compare(job_and_program):
    job, program = job_and_program
    report = Report(job)
    with tempfile.TemporaryDirectory(prefix="oracle-") as folder:
        try:
            compare_in(report, job, program, folder)
        except Mismatch as error:
            report.failures.append(f"the answer lacks something: {error}")
        except Exception:  # whatever it is, it is a failure of this batch and not of the run
            report.failures.append("the check itself failed: " + traceback.format_exc().replace("\n", " | ")[-900:])
    return report


def compare_in(report, job, program, folder):
    paths = [write(folder, f"card-{i}.toml", text) for i, text in enumerate(job.texts)]
    sized = [call(report, program, "size", path)[1] for path in paths]
    options = list(job.options)
    for i, text in enumerate(job.more):
        options += ["--also", write(folder, f"more-{i}.toml", text)]
    keep = os.path.join(folder, "kept.toml")
    status, answer = call(report, program, "cut", *paths, *options, "--keep", keep)
    report.verdict = answer["verdict"]
    if any(each["verdict"] != "buildable" for each in sized):
        worst = min((each["verdict"] for each in sized), key=["invalid", "conflict", "buildable"].index)
        if (answer["verdict"], status) != (worst, 2 if worst == "invalid" else 1):
            report.failures.append(f"a card is {worst}, and the cut {answer['verdict']} with exit status {status}")
        return
    batch = Batch([CardFile(*each) for each in zip(paths, job.texts, sized)], job.more,
                  "--grain-along-fold" in job.options)
    start = time.monotonic()
    judgement = judge(batch, answer, status, job.most, job.search)
    report.seconds["judging"] += time.monotonic() - start
    report.passed.update(judgement.passed)
    report.failures += judgement.wrong
    report.unproven = judgement.unproven
    report.searched = job.search and not judgement.too_large
    if answer["verdict"] == "planned":
        kept(report, keep, answer)
        if sum(map(ord, job.name)) % 8 == 0:
            again = call(report, program, "cut", *paths, *options)[1]
            answer.pop("kept", None)
            report.passed["the same again"] += again == answer
            if again != answer:
                report.failures.append("another answer the second time")


def jobs_of(options):
    if options.only is not None or options.only_small is not None:
        return [cut_cards.whole(s) for s in options.only or ()] + [cut_cards.small(s) for s in options.only_small or ()]
    files = options.case or sorted(glob.glob(os.path.join(HERE, "..", "..", "cases", "*.toml")))
    jobs = []
    for path in files:
        with open(path) as f:
            jobs.append(cut_cards.Job(os.path.basename(path), [f.read()]))
    if options.case:
        return jobs
    seeds = range(options.seed, options.seed + max(options.cards, options.small))
    return jobs + [cut_cards.whole(s) for s in seeds[:options.cards]] + [cut_cards.small(s) for s in
                                                                         seeds[:options.small]]


def keep_job(job, folder):
    for i, text in enumerate(job.texts):
        write(folder, job.name.removesuffix(".toml").replace(" ", "-") + (f"-{i}" if i else "") + ".toml", text)
    for i, text in enumerate(job.more):
        write(folder, f"{job.name.replace(' ', '-')}-more-{i}.toml", text)


def summary(reports, took):
    total, seconds = Counter(), Counter()
    for r in reports:
        total.update(r.passed)
        seconds.update(r.seconds)
    verdicts = Counter((r.verdict or "without an answer") + (", most" if r.job.most else "") for r in reports)
    print(f"{len(reports)} batches: " + ", ".join(f"{n} {v}" for v, n in verdicts.most_common()))
    for name, n in sorted(total.items()):
        print(f"  {name}: {n} compared")
    print(f"{sum(r.searched for r in reports)} of {sum(r.job.search for r in reports)} small ones searched to the end; "
          f"{sum(r.unproven for r in reports)} papers not proven fewest, "
          f"{sum(r.unproven for r in reports if r.job.search)} of them of small ones")
    for what in ("cut", "judging"):
        slow = sorted(reports, key=lambda r, what=what: -r.seconds[what])[:4]
        print(f"slowest, {what}: " + ", ".join(f"{r.job.name} {r.seconds[what]:.1f} s" for r in slow))
    print(f"{took:.0f} s; of each, roughly: " + ", ".join(f"{k} {v:.0f} s" for k, v in seconds.items()))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--cards", type=int, default=60, help="layered cards as makers state them")
    parser.add_argument("--small", type=int, default=300, help="batches for exhaustive search")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--only", type=int, nargs="+", help="just the layered cards of these seeds")
    parser.add_argument("--only-small", type=int, nargs="+", help="just the small batches of these seeds")
    parser.add_argument("--case", nargs="+", help="just these card files")
    options = parser.parse_args()
    if shutil.which(options.program) is None:
        print(f"{options.program} is not there to be run\n0 passed, 1 failed")
        return 1
    whole = options.only is None and options.only_small is None and not options.case
    start = time.monotonic()
    folder, reports, passed, failed = None, [], 0, 0
    with ProcessPoolExecutor(options.jobs) as pool:
        selfcheck = pool.submit(test_cut.run) if whole else None
        for report in pool.map(compare, [(job, options.program) for job in jobs_of(options)], chunksize=4):
            reports.append(report)
            passed += sum(report.passed.values())
            failed += len(report.failures)
            if report.failures:
                folder = folder or tempfile.mkdtemp(prefix="oracle-cards-")
                keep_job(report.job, folder)
            for line in report.failures:
                print(f"FAIL {report.job.name}: {line}" + (f" ({' '.join(report.job.options)})" if report.job.options
                                                           else ""), flush=True)
        if selfcheck:
            done, broken = selfcheck.result()
            passed += done
            failed += len(broken)
            for line in broken:
                print("FAIL self-check: " + line)
    summary(reports, time.monotonic() - start)
    small = [r for r in reports if r.job.search]
    if whole and sum(r.searched for r in small) < LEAST_SEARCHED * len(small) and not failed:
        failed += 1
        print("FAIL exhaustive search reached the end of too few")
    if folder:
        print(f"cards that failed are in {folder}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
