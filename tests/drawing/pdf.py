"""The words of a PDF and where they lie, by pdftotext: nothing of the program's own measures."""
import html
import re
import unicodedata
from dataclasses import dataclass

from calling import run

WORD = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>', re.S)
PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', re.S)
EDGE = 0.5  # points that words may share or leave the page by: no more than a hair's width on paper


@dataclass
class Word:
    text: str
    box: tuple  # left, top, right, bottom, in points: as high as its font, not as its ink


def pages(path):
    """[(width, height, words)]."""
    ran = run(["pdftotext", "-bbox", path, "-"])
    if ran.status != 0:
        raise RuntimeError(f"pdftotext: {ran.err.strip()}")
    return [(float(width), float(height),
             [Word(html.unescape(text), tuple(float(v) for v in box)) for *box, text in WORD.findall(body)])
            for width, height, body in PAGE.findall(ran.out)]


def squeezed(text):
    """Without white space and hyphens that a line was broken by, letters as they are written most plainly."""
    plain = unicodedata.normalize("NFKC", text)
    return "".join(c for c in plain if not c.isspace() and c not in "\u00ad\u200b")


def text_of(path):
    ran = run(["pdftotext", "-raw", path, "-"])
    if ran.status != 0:
        raise RuntimeError(f"pdftotext: {ran.err.strip()}")
    return ran.out


def inked(word):
    """The box less what letters leave free of it. DejaVu Sans reaches 0.93 em up and 0.24 em down, its capitals and
    ascenders 0.76 em up: so much of the height is no ink. Words that read upwards have it at their left."""
    left, top, right, bottom = word.box
    upward = len(word.text) > 2 and bottom - top > 1.3 * (right - left)
    if upward:
        return left + 0.14 * (right - left), top, right - 0.04 * (right - left), bottom
    return left, top + 0.14 * (bottom - top), right, bottom - 0.04 * (bottom - top)


def same_box(one, other):
    """Whether both are digits of one box that stands for a letter that no font has: two or three in two small rows."""
    digits = re.compile(r"[0-9A-F]{2,3}")
    return bool(digits.fullmatch(one.text) and digits.fullmatch(other.text)) and abs(one.box[0] - other.box[0]) < 0.1 \
        and one.box[3] - one.box[1] < 6


def overlaps(words):
    """Pairs of words that lie over one another."""
    found = []
    boxes = sorted(((inked(word), word) for word in words), key=lambda pair: pair[0][0])
    for i, (a, one) in enumerate(boxes):
        for b, other in boxes[i + 1:]:
            if b[0] > a[2] - EDGE:
                break
            across, down = min(a[2], b[2]) - b[0], min(a[3], b[3]) - max(a[1], b[1])
            if across > EDGE and down > EDGE and not same_box(one, other):
                found.append((one, other))
    return found


def faults(path):
    """Words over one another or off their page."""
    return faults_of(pages(path))


def unnoticed(path):
    """What is not noticed when one word of each page is moved: most of the way onto its neighbour, or half off the page."""
    wrong = []
    for width, height, words in pages(path):
        long = [word for word in words if len(word.text) > 3]
        if len(long) < 2:
            continue
        one, other = long[0], long[-1]
        left, top, right, bottom = one.box
        x, y = other.box[0] + 2 - left, other.box[1] + 2 - top
        for what, dx, dy in (("over another", x, y), ("off the page", width - (left + right) / 2, 0),
                             ("off its foot", 0, height - (top + bottom) / 2)):
            moved = Word(one.text, (left + dx, top + dy, right + dx, bottom + dy))
            if not faults_of([(width, height, [moved if word is one else word for word in words])]):
                wrong.append(f"a word {what} is not noticed")
    return wrong


def faults_of(all_pages):
    wrong = []
    for number, (width, height, words) in enumerate(all_pages, 1):
        for one, other in overlaps(words):
            wrong.append(f"page {number}: {one.text!r} at {one.box} and {other.text!r} at {other.box} overlap")
        for word in words:
            left, top, right, bottom = inked(word)
            if left < -EDGE or top < -EDGE or right > width + EDGE or bottom > height + EDGE:
                wrong.append(f"page {number}: {word.text!r} at {word.box} leaves the page")
    return wrong
