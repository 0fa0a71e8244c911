"""What an SVG has in it: whether it is only a picture, and the outlines that are drawn, where they come to lie."""
import math
import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass

NAMESPACE = "{http://www.w3.org/2000/svg}"
LINK = "{http://www.w3.org/1999/xlink}href"
# Shapes, groups, and letters as outlines; `image`: letters that are pictures, within the file itself.
PICTURE = {"svg", "defs", "g", "symbol", "path", "use", "rect", "clipPath", "image", "mask", "filter", "feColorMatrix"}


def faults(text):
    """Why a file is not just a picture. `text`: its bytes."""
    wrong = []
    try:
        root = ET.fromstring(text)
    except ET.ParseError as error:
        return [f"not well-formed: {error}"]
    if b"<!DOCTYPE" in text or b"<!ENTITY" in text:
        wrong.append("a DOCTYPE")
    if b"<?" in text[5:]:
        wrong.append("an instruction to a program")
    controls = set(text) & (set(range(32)) - {9, 10, 13} | {127})
    if controls:
        wrong.append(f"control characters {sorted(controls)}")
    for element in root.iter():
        tag = element.tag.removeprefix(NAMESPACE)
        if tag not in PICTURE:
            wrong.append(f"<{tag}>")
        if (element.text or "").strip() or (element.tail or "").strip():
            wrong.append(f"words in <{tag}>")
        for key, value in element.attrib.items():
            plain = key.split("}")[-1].lower()
            if plain.startswith("on"):
                wrong.append(f"{key} of <{tag}>")
            if plain in ("href", "src") and not value.startswith(("#", "data:image/png;base64,")):
                wrong.append(f"<{tag}> refers to {value[:60]}")
            if re.search(r"url\(\s*['\"]?(?!#)", value) or "script:" in value.lower() or "@import" in value:
                wrong.append(f"{key} of <{tag}> is {value[:60]}")
    return wrong


def unnoticed(text):
    """What of these a picture can have in it and still be taken for one."""
    bad = [b"<script>1</script>", b"<text>a</text>", b"<foreignObject/>", b'<path onclick="a()"/>', b"<style>a{}</style>",
           b'<image xlink:href="http://a.example/b.png"/>', b'<use xlink:href="other.svg#a"/>', b"<title>a</title>",
           b'<path style="fill:url(http://a.example/#b)"/>', b'<a xlink:href="javascript:a()"/>', b"words", b"<?php a ?>",
           b"<g>", b"\x07", b"&a;"]
    end = text.rindex(b"</svg>")
    return [f"{one!r} is not noticed" for one in bad if not faults(text[:end] + one + text[end:])]


@dataclass
class Path:
    corners: list  # of a closed path of straight lines; else empty
    stroke: float  # its width; 0: none
    dashes: tuple
    colour: str  # of the stroke
    fill: str  # its colour; empty: none
    line: tuple = ()  # the two ends of one straight stroke; else empty

    @property
    def box(self):
        ends = self.corners or self.line
        xs, ys = [x for x, _ in ends], [y for _, y in ends]
        return min(xs), min(ys), max(xs), max(ys)


def style_of(element):
    style = {}
    for part in element.get("style", "").split(";"):
        key, _, value = part.partition(":")
        style[key.strip()] = value.strip()
    return style


def matrix_of(text):
    if not text:
        return 1, 0, 0, 1, 0, 0
    match = re.fullmatch(r"\s*matrix\(([^)]*)\)\s*", text)
    if match is None:
        raise ValueError(f"a transform of another kind: {text}")
    return tuple(float(v) for v in re.split(r"[\s,]+", match[1].strip()))


def times(outer, inner):
    a, b, c, d, e, f = outer
    g, h, i, j, k, m = inner
    return a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * m + e, b * k + d * m + f


def straight(data, matrix):
    """The closed rings of straight lines of a path, if it has nothing else, and its two ends, if it is one straight
    stroke."""
    a, b, c, d, e, f = matrix
    rings, ring = [], []
    for letter, numbers in re.findall(r"([MLZCHVQASTmlzchvqast])([^MLZCHVQASTmlzchvqast]*)", data):
        values = [float(v) for v in numbers.split()]
        if letter in "ML":
            x, y = values
            if letter == "M":
                ring = []
            ring.append((a * x + c * y + e, b * x + d * y + f))
        elif letter == "Z":
            rings.append(ring)
            ring = []
        else:
            return [], ()
    if len(ring) > 1:
        return [], tuple(ring) if len(ring) == 2 and not rings else ()
    return rings, ()


def paths(text):
    """Every path that is drawn, in order; letters and what only clips are none."""
    found = []

    def walk(element, matrix):
        tag = element.tag.removeprefix(NAMESPACE)
        if tag in ("defs", "symbol", "clipPath"):
            return
        matrix = times(matrix, matrix_of(element.get("transform")))
        if tag == "path":
            style = style_of(element)
            stroked = style.get("stroke", "none") != "none"
            scale = math.sqrt(abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]))
            dashes = tuple(float(v) for v in re.split(r"[\s,]+", style.get("stroke-dasharray", "")) if v)
            rings, line = straight(element.get("d", ""), matrix)
            for ring in rings or [[]]:
                found.append(Path(ring, scale * float(style.get("stroke-width", 0)) if stroked else 0, dashes,
                                  style.get("stroke", ""), style.get("fill", "none").replace("none", ""), line))
        for child in element:
            walk(child, matrix)

    walk(ET.fromstring(text), (1, 0, 0, 1, 0, 0))
    return found
