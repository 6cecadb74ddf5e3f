"""The symbols of a chart: text glyphs and drawn shapes, and their choice for one chart.

A symbol is only admitted when its picture differs from every other and from a bare cell, so the
truth never asks for a difference that is not on the paper."""
import math
from dataclasses import dataclass, replace

import numpy as np
from PIL import Image, ImageFilter

import fonts
from draw_cairo import CairoCanvas

BLACK, WHITE = (0, 0, 0), (255, 255, 255)


@dataclass
class Symbol:
    kind: str            # glyph, shape, full (the whole cell in ink) or none (colour only)
    what: str            # the glyph, or the shape's name
    font: str = ""
    size: float = 0.7    # glyph: font size in cells; shape: width in cells
    dx: float = 0.0      # glyph: origin from the cell's centre, in cells
    dy: float = 0.0
    fill: tuple = None   # colour of the cell, None for paper
    ink: tuple = BLACK
    code: str = ""
    name: str = ""
    strands: int = 2

    def words(self):
        if self.kind == "glyph":
            return "glyph %s (%s)" % (self.what, self.font)
        return {"full": "filled cell", "none": "colour only"}.get(self.kind, self.what)


GLYPH_POOLS = {
    "capitals": "ABCDEFGHJKLMNPQRSTUVWXYZ",
    "small letters": "abdefghkmnpqrstuvwxyz",
    "digits": "1234567890",
    "punctuation": "+*#@%&=?!$<>/\\~^:|([{",
    "geometric": "■□▲△▼▽◆◇●○◉◎◐◑◒◓▣▤▥▦▧▨▩◧◨◩◪▪▫◢◣◤◥",
    "arrows": "←↑→↓↔↕↖↗↘↙⇐⇒⇑⇓",
    "card suits": "♠♣♥♦♡♢♤♧",
    "stars": "★☆✦✧✩✪✫✬✭✮✯✰✱✲✳✴✶✷✸✹",
    "ornaments": "✓✗✚✛✜✢✣✤✥✿❀❁❂❖❍❏❑❒❤☀☂☺☼♪♫",
    "greek": "αβγδθλπσφψωΓΔΘΛΞΠΣΦΨΩ",
}
POOL_FONTS = {
    "geometric": ["dejavu", "symbola", "freeserif", "freemono-bold"],
    "arrows": ["dejavu", "symbola", "freeserif", "dejavu-mono"],
    "card suits": ["dejavu", "symbola", "freeserif"],
    "stars": ["dejavu", "symbola", "noto-symbols", "freeserif"],
    "ornaments": ["dejavu", "symbola", "noto-symbols"],
    "greek": ["dejavu", "liberation", "liberation-serif", "freeserif"],
}
LETTER_FONTS = ["dejavu", "dejavu-bold", "dejavu-mono", "dejavu-serif", "liberation",
                "liberation-bold", "liberation-serif", "liberation-mono", "liberation-narrow",
                "freesans", "freeserif", "freemono-bold", "liberation-serif-italic", "inter"]
HARD_GLYPHS = ["o0O", "1lI", "S5", "B8", "/\\", "-_", ".·", "ce", "<>", "69", "nu", "vV", "xX",
               "○●", "□■", "◇◆", "△▲", "▽▼", "☆★", "◐◑", "◧◨", "←→", "♡♥", "sS", "+×", "zZ2"]
HARD_SHAPES = [["circle", "filled circle", "small circle", "dot"],
               ["square", "filled square", "small filled square"],
               ["diamond", "filled diamond", "small diamond"],
               ["triangle up", "filled triangle up"], ["triangle down", "filled triangle down"],
               ["triangle left", "triangle right"], ["slash", "backslash"], ["plus", "cross"],
               ["bar across", "low bar"], ["bar upright", "bar across"],
               ["half square left", "half square right"], ["half square top", "half square bottom"],
               ["corner NW", "corner NE", "corner SW", "corner SE"],
               ["chevron left", "chevron right"], ["circle with dot", "circle"],
               ["square with cross", "square with dot", "square"]]


def _turned(points, quarter):
    for _ in range(quarter):
        points = [(-y, x) for x, y in points]
    return points


def _star(inner, arms):
    return [((1.0 if i % 2 == 0 else inner) * math.sin(math.pi * i / arms),
             -(1.0 if i % 2 == 0 else inner) * math.cos(math.pi * i / arms))
            for i in range(2 * arms)]


_SQUARE = [(-1, -1), (1, -1), (1, 1), (-1, 1)]
_DIAMOND = [(0, -1), (1, 0), (0, 1), (-1, 0)]
_TRIANGLE = [(0, -0.9), (1, 0.85), (-1, 0.85)]
_SIDES = ["up", "right", "down", "left"]
_CORNERS = ["NW", "NE", "SE", "SW"]
# Each shape: a list of parts in a box of -1 to 1.
SHAPES = {
    "circle": [("ring", 0, 0, 1)], "filled circle": [("disc", 0, 0, 1)],
    "small circle": [("ring", 0, 0, 0.55)], "dot": [("disc", 0, 0, 0.4)],
    "square": [("open", _SQUARE)], "filled square": [("solid", _SQUARE)],
    "small filled square": [("solid", [(x * 0.5, y * 0.5) for x, y in _SQUARE])],
    "diamond": [("open", _DIAMOND)], "filled diamond": [("solid", _DIAMOND)],
    "small diamond": [("open", [(x * 0.55, y * 0.55) for x, y in _DIAMOND])],
    "plus": [("stroke", -1, 0, 1, 0), ("stroke", 0, -1, 0, 1)],
    "cross": [("stroke", -1, -1, 1, 1), ("stroke", -1, 1, 1, -1)],
    "slash": [("stroke", -1, 1, 1, -1)], "backslash": [("stroke", -1, -1, 1, 1)],
    "bar across": [("stroke", -1, 0, 1, 0)], "bar upright": [("stroke", 0, -1, 0, 1)],
    "low bar": [("stroke", -1, 0.8, 1, 0.8)],
    "two bars across": [("stroke", -1, -0.5, 1, -0.5), ("stroke", -1, 0.5, 1, 0.5)],
    "two bars upright": [("stroke", -0.5, -1, -0.5, 1), ("stroke", 0.5, -1, 0.5, 1)],
    "asterisk": [("stroke", 0, -1, 0, 1), ("stroke", -0.87, -0.5, 0.87, 0.5),
                 ("stroke", -0.87, 0.5, 0.87, -0.5)],
    "circle with dot": [("ring", 0, 0, 1), ("disc", 0, 0, 0.35)],
    "circle with plus": [("ring", 0, 0, 1), ("stroke", -1, 0, 1, 0), ("stroke", 0, -1, 0, 1)],
    "square with cross": [("open", _SQUARE), ("stroke", -1, -1, 1, 1), ("stroke", -1, 1, 1, -1)],
    "square with dot": [("open", _SQUARE), ("disc", 0, 0, 0.4)],
    "square with slash": [("open", _SQUARE), ("stroke", -1, 1, 1, -1)],
    "star": [("solid", _star(0.42, 5))], "open star": [("open", _star(0.45, 5))],
    "four-point star": [("solid", _star(0.35, 4))],
    "hourglass": [("solid", [(-1, -1), (1, -1), (-1, 1), (1, 1)])],
    "bow": [("solid", [(-1, -1), (1, 1), (1, -1), (-1, 1)])],
    "house": [("open", [(0, -1), (1, -0.1), (1, 1), (-1, 1), (-1, -0.1)])],
    "hash": [("stroke", -0.4, -1, -0.4, 1), ("stroke", 0.4, -1, 0.4, 1),
             ("stroke", -1, -0.4, 1, -0.4), ("stroke", -1, 0.4, 1, 0.4)],
}
for _i, _side in enumerate(_SIDES):
    SHAPES["triangle " + _side] = [("open", _turned(_TRIANGLE, _i))]
    SHAPES["filled triangle " + _side] = [("solid", _turned(_TRIANGLE, _i))]
    _v = _turned([(-0.9, 0.5), (0, -0.6), (0.9, 0.5)], _i)
    SHAPES["chevron " + _side] = [("stroke", *_v[0], *_v[1]), ("stroke", *_v[1], *_v[2])]
    _t = _turned([(-1, -0.9), (1, -0.9), (0, -0.9), (0, 1)], _i)
    SHAPES["tee " + _side] = [("stroke", *_t[0], *_t[1]), ("stroke", *_t[2], *_t[3])]
for _i, _corner in enumerate(_CORNERS):
    SHAPES["corner " + _corner] = [("solid", _turned([(-1, -1), (1, -1), (-1, 1)], _i))]
for _i, _side in enumerate(["top", "right", "bottom", "left"]):
    SHAPES["half square " + _side] = [("open", _SQUARE), (
        "solid", _turned([(-1, -1), (1, -1), (1, 0), (-1, 0)], _i))]


def draw_mark(canvas, symbol, x, y, w, h):
    """Draws the symbol's mark, without the cell's colour, in the cell at `x`, `y`."""
    unit, cx, cy = min(w, h), x + w / 2, y + h / 2
    if symbol.kind == "full":
        canvas.rect(x, y, w, h, fill=symbol.ink)
    elif symbol.kind == "glyph":
        canvas.text(cx + symbol.dx * unit, cy + symbol.dy * unit, symbol.what, symbol.font,
                    symbol.size * unit, symbol.ink)
    elif symbol.kind == "shape":
        pen = max(0.07 * unit, 0.3)
        half = (symbol.size * unit - pen) / 2
        for part in SHAPES[symbol.what]:
            if part[0] == "stroke":
                x1, y1, x2, y2 = part[1:]
                canvas.line(cx + x1 * half, cy + y1 * half, cx + x2 * half, cy + y2 * half,
                            pen * 1.3, symbol.ink)
            elif part[0] in ("ring", "disc"):
                solid = part[0] == "disc"
                canvas.circle(cx + part[1] * half, cy + part[2] * half, part[3] * half,
                              symbol.ink if solid else None, None if solid else symbol.ink, pen)
            else:
                points = [(cx + px * half, cy + py * half) for px, py in part[1]]
                solid = part[0] == "solid"
                canvas.polygon(points, symbol.ink if solid else None,
                               None if solid else symbol.ink, pen)


def seat_glyphs(symbols, size, centring):
    """Sets size and place of all glyphs: one font size, on one baseline or centred on the ink."""
    glyphs = [s for s in symbols if s.kind == "glyph"]
    if not glyphs:
        return
    boxes = [fonts.ink_box(s.font, s.what) for s in glyphs]
    top, bottom = min(b[1] for b in boxes), max(b[3] for b in boxes)
    wide = max(b[2] - b[0] for b in boxes)
    tall = bottom - top if centring == "baseline" else max(b[3] - b[1] for b in boxes)
    em = size / max(tall, wide)
    for symbol, box in zip(glyphs, boxes):
        symbol.size = em
        symbol.dx = -em * (box[0] + box[2]) / 2
        symbol.dy = -em * ((top + bottom) if centring == "baseline" else (box[1] + box[3])) / 2


def cell_picture(symbol, blur, side=48):
    """The cell as it is printed and blurred, side x side x 3, 0 to 1; `blur` in 1/48 of a cell."""
    canvas = CairoCanvas.picture(10, 10, 72 * side / 10)
    if symbol is not None:
        if symbol.fill is not None:
            canvas.rect(0, 0, 10, 10, fill=symbol.fill)
        draw_mark(canvas, symbol, 0, 0, 10, 10)
    soft = Image.fromarray(canvas.pixels()).filter(ImageFilter.GaussianBlur(blur))
    return np.asarray(soft).astype(np.float32) / 255


def difference(one, other):
    """Share of the cell that differs plainly, after looking for the best overlap by a pixel."""
    best = 1.0
    for dy in (-1, 0, 1):
        for dx in (-1, 0, 1):
            moved = np.roll(np.roll(other, dy, 0), dx, 1)
            best = min(best, float(np.abs(one - moved).max(axis=2).mean()))
    return best


def keep_distinct(symbols, least, blur):
    """Drops every symbol that looks like an earlier one, or like nothing, once it is blurred."""
    kept, seen = [], [cell_picture(None, blur)]
    for symbol in symbols:
        plain = symbol.kind == "none"  # marks must differ by themselves, not by colour alone
        picture = cell_picture(symbol if plain else replace(symbol, fill=None, ink=BLACK), blur)
        wanted = 0.0 if plain else least
        if all(difference(picture, other) >= wanted for other in seen):
            kept.append(symbol)
            seen.append(picture)
    return kept
