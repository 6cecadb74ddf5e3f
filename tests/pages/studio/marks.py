"""Symbols: letters and pictographs of a face, or shapes drawn by the designer; no two alike in one chart."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

from scene import Colour, Line, Point, Scene, Shape, ink_box

# Marks a reader could take for one another on paper stand in one group; a chart takes one of each group at most.
_TEXT_GROUPS = ("O0oQ° Cce Ss5$ VvUuy Xx×* Zz2 Ww Kk Pp Il1|i!/\\ jJ B8 G6 q9g T7 D E F H A R Y L4 N Mm 3 a@ b h n r t f d "
                "+ = ~ # % & ? < > ^ ( [ { -_ :; \" § ¶ £ ¥").split(" ")
_PICTURE_GROUPS = ("●⚫◉ ○◯ ◎⊙ ■ □ ▣⊡ ▤≡ ▥ ▦▩▧▨ ▲ △∆ ▼ ▽ ► ◄ ▷ ◁ ◆♦ ◇♢◈ ◐ ◑ ◒ ◓ ◢ ◣ ◤ ◥ ★✭ ☆ ♥ ♡ ♠ ♣ ☀ ☁ ☂ ☎ ♪ ♫ ☺ ☻ ☽ ♀♂ "
                   "✚ ✖× ✓ ✂ ✈ ❄✿ ❖ ⊕⊗ ⊞⊠ ▬ ▮ ↑ ↓ ← → ↔ ↕ ⌂ Ω ∞ ∩ ∪ § Σ Π ÷ ± ∴").split(" ")
_DING_GROUPS = ("✁✂ ✆ ✈ ✉ ✏ ✓✔ ✖ ✚✛✜✠ ✡ ✦ ✧ ✩✰"
                " ★✭✮ ✱✲✳✻ ✶✸✹ ✽✿❀❄❈ ● ❍ ■ ❏❑❐ ▲ ▼ ◆ ❖ ◗ ❘❙❚ ❛❜ ❡ ❤❥ ➔➙ ➤ ➲").split(" ")
_CLOSED_POLYGONS = {"square": (4, 45), "diamond": (4, 0), "triangle up": (3, -90), "triangle down": (3, 90),
                    "triangle right": (3, 0), "triangle left": (3, 180), "circle": (40, 0)}


@dataclass(frozen=True)
class Mark:
    """A symbol without its colours: text of a face, or a drawn `shape` with strokes of `weight` of its size."""

    shape: str
    font: str = ""
    text: str = ""
    weight: float = 0.1


def _turned(n: int, start: float, r: float) -> list[Point]:
    return [(r * math.cos(math.radians(start) + 2 * math.pi * k / n), r * math.sin(math.radians(start) + 2 * math.pi * k / n))
            for k in range(n)]


def _star(points: int, inner: float) -> list[Point]:
    return [((1 if k % 2 == 0 else inner) * 0.5 * math.sin(math.pi * k / points),
             -(1 if k % 2 == 0 else inner) * 0.5 * math.cos(math.pi * k / points)) for k in range(2 * points)]


_STROKES: dict[str, list[tuple[float, float, float, float]]] = {
    "slash": [(-.45, .45, .45, -.45)], "backslash": [(-.45, -.45, .45, .45)],
    "cross": [(-.45, .45, .45, -.45), (-.45, -.45, .45, .45)], "plus": [(-.5, 0, .5, 0), (0, -.5, 0, .5)],
    "bar": [(-.5, 0, .5, 0)], "pole": [(0, -.5, 0, .5)], "two bars": [(-.45, -.2, .45, -.2), (-.45, .2, .45, .2)],
    "two poles": [(-.2, -.45, -.2, .45), (.2, -.45, .2, .45)], "tee": [(-.45, -.42, .45, -.42), (0, -.42, 0, .48)],
    "tee upside down": [(-.45, .42, .45, .42), (0, .42, 0, -.48)], "angle": [(-.4, -.45, -.4, .42), (-.4, .42, .45, .42)],
    "angle right": [(.4, -.45, .4, .42), (.4, .42, -.45, .42)], "roof": [(-.45, .35, 0, -.4), (0, -.4, .45, .35)],
    "vee": [(-.45, -.35, 0, .4), (0, .4, .45, -.35)], "less": [(.4, -.42, -.4, 0), (-.4, 0, .4, .42)],
    "greater": [(-.4, -.42, .4, 0), (.4, 0, -.4, .42)], "zed": [(-.4, -.42, .4, -.42), (.4, -.42, -.4, .42), (-.4, .42, .4, .42)],
    "asterisk": [(-.42, -.25, .42, .25), (-.42, .25, .42, -.25), (0, -.5, 0, .5)],
    "aitch": [(-.38, -.45, -.38, .45), (.38, -.45, .38, .45), (-.38, 0, .38, 0)],
    "lattice": [(-.17, -.45, -.17, .45), (.17, -.45, .17, .45), (-.45, -.17, .45, -.17), (-.45, .17, .45, .17)],
    "pine": [(0, -.5, 0, .5), (-.4, .1, 0, -.3), (0, -.3, .4, .1), (-.4, .45, 0, .05), (0, .05, .4, .45)],
    "kay": [(-.35, -.48, -.35, .48), (.35, -.45, -.35, 0), (-.35, 0, .35, .45)],
}
_DRAWN = (list(_STROKES) + [f"{kind} {name}" for name in _CLOSED_POLYGONS for kind in ("full", "open")]
          + ["dot", "dotted circle", "crossed square", "slashed square", "star", "open star", "heart", "half square", "half square other",
             "drop", "crescent", "square in square", "crossed circle", "hourglass", "bow"])


def pick_marks(rng: random.Random, count: int, kind: str, post: bool) -> list[Mark]:
    """Kinds: letters, pictures, drawn, mixed. `post` keeps to the faces every printer has."""
    weight = rng.uniform(0.07, 0.16)
    drawn = [Mark(shape, weight=weight) for shape in _DRAWN]
    letter_font = rng.choice(["helv", "helv-bold", "times", "courier"] if post
                             else ["plain", "plain-bold", "book", "dejavu", "dejavu-bold", "dejavu-serif", "free-sans", "mono"])
    letters = [Mark(g, letter_font, g) for g in (rng.choice(group) for group in _TEXT_GROUPS)]
    groups, font = (_DING_GROUPS, "dings") if post else (_PICTURE_GROUPS, rng.choice(["dejavu", "symbola", "dejavu-bold"]))
    pictures = [Mark(g, font, g) for g in (rng.choice(group) for group in groups)]
    pictures = [m for m in pictures if _has_glyph(m)]
    pool = {"letters": letters, "pictures": pictures, "drawn": drawn}.get(kind)
    if pool is None or len(pool) < count:
        # Mixed charts leave out what a drawn shape and a glyph could share.
        pool = [m for m in letters if m.text not in "OQo0°XxVvUuyLTZz2HKk-_=+<>*×/\\|Il1i!^~#:;"] + pictures
        rng.shuffle(pool)
    return rng.sample(pool, count)


def _has_glyph(mark: Mark) -> bool:
    left, top, right, bottom = ink_box(mark.font, mark.text)
    missing = ink_box(mark.font, "\U0010fffd")
    return right > left and bottom > top and (left, top, right, bottom) != missing


def _filled(scene: Scene, contours: list[list[Point]], ink: Colour, line: float, full: bool) -> None:
    scene.add(Shape(contours, ink if full else None, None if full else ink, line))


def _arc(cx: float, cy: float, r: float, a: float, b: float, n: int = 24) -> list[Point]:
    return [(cx + r * math.cos(math.radians(a + (b - a) * k / n)), cy + r * math.sin(math.radians(a + (b - a) * k / n)))
            for k in range(n + 1)]


def _special(shape: str) -> tuple[list[list[Point]], bool]:
    """Contours of the shapes that are neither strokes nor regular, in a unit square round 0, and whether full."""
    square = [(-.45, -.45), (.45, -.45), (.45, .45), (-.45, .45)]
    inner = [(x * .45, y * .45) for x, y in square]
    return {"dot": ([_arc(0, 0, .18, 0, 360)], True),
            "dotted circle": ([_arc(0, 0, .5, 0, 360), _arc(0, 0, .4, 0, 360), _arc(0, 0, .15, 0, 360)], True),
            "star": ([_star(5, .42)], True), "open star": ([_star(5, .45)], False),
            "heart": ([[(0, .48)] + _arc(-.24, -.18, .26, 150, 350) + _arc(.24, -.18, .26, 190, 390)], True),
            "half square": ([[square[0], square[1], square[3]]], True),
            "half square other": ([[square[1], square[2], square[3]]], True),
            "drop": ([[(0, -.5)] + _arc(0, .2, .3, -20, 200)], True),
            "crescent": ([_arc(0, 0, .5, -60, 240) + _arc(.12, -.14, .38, 225, -45)], True),
            "square in square": ([square, [(x * .75, y * .75) for x, y in square], inner], True),
            "hourglass": ([[(-.42, -.48), (.42, -.48), (-.42, .48), (.42, .48)]], True),
            "bow": ([[(-.48, -.42), (-.48, .42), (.48, -.42), (.48, .42)]], True),
            "crossed square": ([square], False), "slashed square": ([square], False), "crossed circle": ([_arc(0, 0, .47, 0, 360)], False)}[shape]


_INNER = {"crossed square": "cross", "slashed square": "slash", "crossed circle": "plus"}


def draw_mark(scene: Scene, mark: Mark, cx: float, cy: float, size: float, ink: Colour) -> None:
    """`size` is the height of a drawn mark, and the type size of text that fills about as much."""
    if mark.text:
        left, top, right, bottom = ink_box(mark.font, mark.text)
        # Wide pictographs are set smaller, or they would run into the neighbour cells.
        type_size = min(size * 1.3, size / max(right - left, bottom - top, 0.3))
        scene.text(cx - (left + right) / 2 * type_size, cy - (top + bottom) / 2 * type_size, type_size, mark.text, mark.font, ink)
        return
    line = mark.weight * size
    place = lambda points: [(cx + x * size, cy + y * size) for x, y in points]
    inner = _STROKES.get(_INNER.get(mark.shape, ""), [])
    strokes = _STROKES.get(mark.shape) or [tuple(v * .9 for v in s) for s in inner]
    for x1, y1, x2, y2 in strokes:
        scene.add(Line((cx + x1 * size, cy + y1 * size), (cx + x2 * size, cy + y2 * size), line, ink))
    if mark.shape in _STROKES:
        return
    how, _, name = mark.shape.partition(" ")
    if name in _CLOSED_POLYGONS and how in ("full", "open"):
        n, start = _CLOSED_POLYGONS[name]
        radius = 0.6 if n == 3 or name == "square" else 0.5
        _filled(scene, [place(_turned(n, start, radius))], ink, line, how == "full")
        return
    contours, full = _special(mark.shape)
    _filled(scene, [place(c) for c in contours], ink, line, full)
