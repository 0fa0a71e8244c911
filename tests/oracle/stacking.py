"""Which layer lies above which, from a card file alone: on one thing those later in the file lie above, `over` puts one
above what it names; all that is on a layer comes directly above it, what lies on a window of it directly beneath."""


def ordered(siblings):
    """From below to above: file order, but each waits for what it is over."""
    names, out, waiting = {p.name for p in siblings}, [], list(siblings)
    placed = set()
    while waiting:
        p = next((q for q in waiting if set(q.over) & names <= placed), waiting[0])
        waiting.remove(p)
        placed.add(p.name)
        out.append(p)
    return out


class Stacks:
    """`page_of` gives the face that a face, `reveal` or what is behind a window lies on."""

    def __init__(self, version, page_of):
        self.pieces = {p.name: p for p in version.pieces}
        self.layers = [p for p in version.pieces if p.kind == "layer"]
        self.page = {p.name: page_of(p.on) for p in self.layers}

    def on_window_of(self, p):
        """The layer whose window a layer lies on, if any."""
        window = self.pieces.get(p.on)
        if window is None or window.kind != "window":
            return None
        return self.pieces.get(window.on)

    def cluster(self, p):
        beneath = [q for q in self.layers if self.on_window_of(q) is p]
        on_it = [q for q in self.layers if q.on == p.name]
        return [r for q in ordered(beneath) for r in self.cluster(q)] + [p] + \
            [r for q in ordered(on_it) for r in self.cluster(q)]

    def on_faces(self, faces):
        """All layers on some faces, from below to above."""
        own = [p for p in self.layers if self.page[p.name] in faces and self.is_root(p)]
        return [r for p in ordered(own) for r in self.cluster(p)]

    def is_root(self, p):
        """Whether a layer lies on a face itself and not on or behind another layer."""
        on = self.pieces.get(p.on)
        return on is None or on.kind == "window" and on.on not in self.pieces

    def above(self, p):
        """The layers above one on its face."""
        stack = self.on_faces({self.page[p.name]})
        return stack[stack.index(p) + 1:]

    def seen_through(self, p):
        """The layers through whose windows one is seen: it is under their paper only by its tuck."""
        out = []
        while p is not None and p.kind == "layer":
            through = self.on_window_of(p)
            if through is not None:
                out.append(through)
            p = through or self.pieces.get(p.on)
        return out
