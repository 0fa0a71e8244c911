"""Calls of the program, many at a time, and counting what came of the checks. Knows no drawing."""
import json
import os
import pathlib
import subprocess
import threading
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

SUBJECTS = ["card", "plan", "worksheet", "recipe", "templates"]
SECONDS = 120  # for one call of anything


@dataclass
class Ran:
    status: int
    out: str
    err: str


def run(command, **more):
    # What a drawing is named by may be no text at all.
    ran = subprocess.run([str(word) for word in command], capture_output=True, timeout=SECONDS, **more)
    return Ran(ran.returncode, ran.stdout.decode("utf-8", "replace"), ran.stderr.decode("utf-8", "replace"))


@dataclass
class Made:
    """A drawing that was asked for."""

    card: str  # what checks are named by
    subject: str
    source: pathlib.Path
    path: pathlib.Path  # where it should be
    ran: Ran

    @property
    def name(self):
        return f"{self.card} {self.subject}{self.path.suffix}"

    @property
    def pages(self):
        return json.loads(self.ran.out)["pages"]


def draw(program, card, source, folder, subject, ending, *more):
    path = pathlib.Path(folder) / f"{card}.{subject}.{ending}"
    what = [] if subject == "card" else [f"--{subject}"]
    ran = run([program, "draw", source, "-o", path, *what, "--json", "--force", *more])
    return Made(card, subject, pathlib.Path(source), path, ran)


class Tally:
    def __init__(self):
        self.passed = self.failed = 0
        self.lock = threading.Lock()

    def note(self, name, wrong):
        """One check: what is wrong, a sentence each."""
        with self.lock:
            self.passed, self.failed = self.passed + (not wrong), self.failed + bool(wrong)
            if wrong:
                print(f"FAIL {name}")
                for line in wrong[:6]:
                    print(f"       {line[:400]}")
                if len(wrong) > 6:
                    print(f"       and {len(wrong) - 6} more")


class Pool:
    """As many things at a time as there are processors: they wait for programs, not for Python."""

    def __init__(self):
        self.threads = ThreadPoolExecutor(os.cpu_count() or 2)

    def all(self, f, argument_lists):
        return list(self.threads.map(lambda arguments: f(*arguments), argument_lists))

    def check(self, tally, named):
        """Pairs of a name and a function that gives what is wrong."""
        def one(name, f):
            try:
                wrong = f()
            except Exception as error:  # a check that cannot be done has failed
                wrong = [f"{type(error).__name__}: {error}"]
            tally.note(name, wrong)
        self.all(one, named)
