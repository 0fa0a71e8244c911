"""Wishes about areas and thickness that no linear rule here says in full: a share less than all that is to be seen, and
a thickness limit among openings, copies and tilted things. A card is asked about with and without them: where what is
chosen without them keeps them, they must change nothing; elsewhere an answer must only keep them."""
import re
from fractions import Fraction

import body
from checker import answers_of
from reading import read

SHARE = re.compile(r'^show\s*= "at least .*\n', re.M)
LIMIT = re.compile(r'^\[limit\]\nthickness\s*= .*\n', re.M)
GIVEN = ("name", "left", "top", "width", "height")  # what of each piece must stay


def without(text, models):
    """The text without such wishes, or None where it has none."""
    out = SHARE.sub("", text)
    if not all(m.limit_is_written for m in models):
        out = LIMIT.sub("", out)
    return out if out != text else None


def keeps(text, answer):
    """Whether an answer, given to the text without them, keeps all such wishes of the text."""
    versions = read(text)
    for version, own in zip(versions, answers_of(answer, len(versions))):
        here = body.Body(version, own)
        if version.limit is not None and here.thickness() > version.limit.at_most:
            return False
        if any(p.show is not None and here.shown(p) < p.show for p in here.stacks.layers):
            return False
    return True


def differences(answer, other):
    """Which pieces differ between two answers to one card."""
    out = []
    for one, two in zip([answer] + answer.get("variants", []), [other] + other.get("variants", [])):
        for kind in ("layers", "windows"):
            for a, b in zip(one.get(kind, []), two.get(kind, [])):
                if any(a[key] != b[key] if key == "name" else Fraction(a[key]) != Fraction(b[key]) for key in GIVEN):
                    out.append(a["name"])
    return out
