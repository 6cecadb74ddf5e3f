"""Symbols of a chart: glyphs of many fonts and drawn shapes, chosen so that no two look the same at the printed size."""

import math
from dataclasses import dataclass

import cairo
import numpy as np
from PIL import Image, ImageFilter

from words import pick

TEXT_FONTS = ["DejaVu Sans", "DejaVu Serif", "Liberation Sans", "Liberation Serif", "Liberation Mono", "Nimbus Roman", "URW Bookman",
              "URW Gothic", "P052", "C059", "Nimbus Sans Narrow", "FreeSans", "FreeSerif", "FreeMono", "Inter", "DejaVu Sans Mono"]
PICTURE_FONTS = ["DejaVu Sans", "Symbola", "FreeSerif", "FreeMono"]
LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZabdefghkmnrtuvz"
DIGITS = "123456789"
SIGNS = "+-=/\\<>^%&#@$?!*:~£€§¶"
PICTURES = "■□▲△▼▽◆◇●○★☆♥♡♠♤♣♧◐◑◒◓◧◨◩◪▣▤▥▦▧▨▩◉◎✚✖✱✿❀☀☂☎✈✂☾♪♫⚓⚑☘⬟⬢⌂⊕⊗⊙⊞⊠⊿∞≡≈↑→↓←↗↘♦¤×÷∧∨⋈◣◢◤◥▰▱"
DRAWN = ["square", "open square", "small square", "disc", "ring", "dot", "triangle", "open triangle", "down triangle", "left half", "lower half",
         "diamond", "open diamond", "cross", "plus", "slash", "backslash", "bar", "rail", "star", "heart", "ring dot", "corner", "other corner",
         "two bars", "two rails", "chevron", "hash", "tee", "hourglass", "asterisk", "el", "square dot", "quarters"]


@dataclass(frozen=True)
class Mark:
    shape: str
    font: str = ""       # empty: a drawn shape
    bold: bool = False
    slanted: bool = False


def _path(ctx: cairo.Context, points) -> None:
    ctx.move_to(*points[0])
    for point in points[1:]:
        ctx.line_to(*point)


def _drawn(ctx: cairo.Context, shape: str, pen: float) -> None:
    """Draws a shape in the square from -0.5 to 0.5."""
    ctx.set_line_width(pen)
    polygons = {"triangle": [(-.5, .42), (.5, .42), (0, -.48)], "down triangle": [(-.5, -.42), (.5, -.42), (0, .48)],
                "diamond": [(0, -.55), (.5, 0), (0, .55), (-.5, 0)], "left half": [(-.45, -.45), (0, -.45), (0, .45), (-.45, .45)],
                "lower half": [(-.45, 0), (.45, 0), (.45, .45), (-.45, .45)], "square": [(-.45, -.45), (.45, -.45), (.45, .45), (-.45, .45)],
                "small square": [(-.22, -.22), (.22, -.22), (.22, .22), (-.22, .22)], "corner": [(-.45, -.45), (.45, .45), (-.45, .45)],
                "other corner": [(-.45, -.45), (.45, -.45), (.45, .45)], "hourglass": [(-.42, -.45), (.42, -.45), (-.42, .45), (.42, .45)],
                "star": [(r * math.sin(k * math.pi / 5), -r * math.cos(k * math.pi / 5)) for k in range(10) for r in [.52 if k % 2 == 0 else .21]]}
    strokes = {"cross": [[(-.42, -.42), (.42, .42)], [(-.42, .42), (.42, -.42)]], "plus": [[(-.48, 0), (.48, 0)], [(0, -.48), (0, .48)]],
               "slash": [[(-.42, .42), (.42, -.42)]], "backslash": [[(-.42, -.42), (.42, .42)]], "bar": [[(-.45, 0), (.45, 0)]],
               "rail": [[(0, -.45), (0, .45)]], "two bars": [[(-.42, -.2), (.42, -.2)], [(-.42, .2), (.42, .2)]],
               "two rails": [[(-.2, -.42), (-.2, .42)], [(.2, -.42), (.2, .42)]], "chevron": [[(-.42, .25), (0, -.3), (.42, .25)]],
               "hash": [[(-.17, -.45), (-.17, .45)], [(.17, -.45), (.17, .45)], [(-.45, -.17), (.45, -.17)], [(-.45, .17), (.45, .17)]],
               "tee": [[(-.42, -.4), (.42, -.4)], [(0, -.4), (0, .45)]], "el": [[(-.35, -.42), (-.35, .4), (.4, .4)]],
               "asterisk": [[(0, -.48), (0, .48)], [(-.42, -.24), (.42, .24)], [(-.42, .24), (.42, -.24)]]}
    if shape in polygons or shape.removeprefix("open ") in polygons:
        _path(ctx, polygons[shape.removeprefix("open ")])
        ctx.close_path()
        ctx.stroke() if shape.startswith("open ") else ctx.fill()
    elif shape in strokes:
        for stroke in strokes[shape]:
            _path(ctx, stroke)
        ctx.stroke()
    elif shape in ("disc", "dot", "ring", "ring dot"):
        ctx.arc(0, 0, {"disc": .46, "dot": .17}.get(shape, .42), 0, 7)
        ctx.fill() if shape in ("disc", "dot") else ctx.stroke()
        if shape == "ring dot":
            ctx.arc(0, 0, .15, 0, 7)
            ctx.fill()
    elif shape == "heart":
        ctx.move_to(0, .48)
        ctx.curve_to(-.75, -.05, -.4, -.7, 0, -.22)
        ctx.curve_to(.4, -.7, .75, -.05, 0, .48)
        ctx.fill()
    elif shape == "square dot":
        _path(ctx, polygons["square"])
        ctx.close_path()
        ctx.stroke()
        ctx.arc(0, 0, .15, 0, 7)
        ctx.fill()
    elif shape == "quarters":
        ctx.rectangle(-.45, -.45, .45, .45)
        ctx.rectangle(0, 0, .45, .45)
        ctx.fill()


def set_font(ctx: cairo.Context, mark: Mark) -> None:
    ctx.select_font_face(mark.font, cairo.FONT_SLANT_ITALIC if mark.slanted else cairo.FONT_SLANT_NORMAL,
                         cairo.FONT_WEIGHT_BOLD if mark.bold else cairo.FONT_WEIGHT_NORMAL)


def draw(ctx: cairo.Context, mark: Mark, x: float, y: float, size: float, pen: float, centred: bool) -> None:
    """Draws a mark around x, y; glyphs stand in the middle of their ink (`centred`) or all on one base line."""
    ctx.save()
    ctx.new_path()  # text leaves a point from which an arc would draw a line
    ctx.translate(x, y)
    if not mark.font:
        ctx.scale(size, size)
        _drawn(ctx, mark.shape, pen)
    else:
        set_font(ctx, mark)
        ctx.set_font_size(size * 1.15)
        box = ctx.text_extents(mark.shape)
        up = -box.y_bearing - box.height / 2 if centred or mark.shape not in LETTERS + DIGITS else 0.41 * size
        if max(box.width, box.height) > 1.12 * size:  # wide pictographs are set smaller, as a designer would
            shrink = 1.12 * size / max(box.width, box.height)
            ctx.scale(shrink, shrink)
        ctx.move_to(-box.x_bearing - box.width / 2, up)
        ctx.show_text(mark.shape)
    ctx.restore()


def picture(mark: Mark, cell: int, part: float, pen: float, blur: float) -> np.ndarray:
    """The mark's ink, 0 to 1, in a square of `cell` pixels as a reader gets it."""
    scale = 4
    surface = cairo.ImageSurface(cairo.FORMAT_A8, cell * scale, cell * scale)
    ctx = cairo.Context(surface)
    draw(ctx, mark, cell * scale / 2, cell * scale / 2, cell * scale * part, pen, True)
    surface.flush()
    data = np.ndarray((cell * scale, surface.get_stride()), np.uint8, surface.get_data())[:, :cell * scale]
    image = Image.fromarray(data.copy()).filter(ImageFilter.GaussianBlur(blur * scale)).resize((cell, cell), Image.BOX)
    return np.asarray(image, np.float32) / 255


def unlike(a: np.ndarray, b: np.ndarray) -> float:
    """How much of the heavier one's ink differs where the two lie best on each other."""
    most = max(float(a.sum()), float(b.sum()), 1e-3)
    return min(float(np.abs(a - np.roll(b, (dy, dx), (0, 1))).sum()) / most for dx in (-1, 0, 1) for dy in (-1, 0, 1))


def candidates(rng, kind: str) -> list[Mark]:
    font, bold, slanted = pick(rng, TEXT_FONTS), bool(rng.random() < 0.35), bool(rng.random() < 0.12)
    text = [Mark(c, font, bold, slanted) for c in LETTERS + DIGITS + SIGNS]
    if kind == "letters":
        return text[:len(LETTERS) + (len(DIGITS) if rng.random() < 0.5 else 0)]
    if kind == "digits":
        return text[len(LETTERS):len(LETTERS) + len(DIGITS)]
    if kind == "text":
        return text
    if kind == "pictures":
        source = pick(rng, PICTURE_FONTS)
        return [Mark(c, source) for c in PICTURES]
    if kind == "drawn":
        return [Mark(shape) for shape in DRAWN]
    return text + [Mark(shape) for shape in DRAWN] + [Mark(c, "DejaVu Sans") for c in PICTURES]


def choose(rng, kind: str, count: int, cell: int, part: float, pen: float, blur: float) -> list[Mark]:
    """Up to `count` marks that stay apart at `cell` pixels with the page's blur; missing glyphs are left out."""
    pool = candidates(rng, kind)
    rng.shuffle(pool)
    taken: list[tuple[Mark, np.ndarray]] = []
    for mark in pool:
        if len(taken) == count:
            break
        ink = picture(mark, cell, part, pen, blur)
        lost = mark.font and unlike(ink, picture(Mark("\U0010fffd", mark.font, mark.bold, mark.slanted), cell, part, pen, blur)) < 0.2
        # Letters that differ in size only (v, V) can be told on a sharp page, not on a soft one.
        twin = blur > 1 and any(mark.font and mark.shape.lower() == other.shape.lower() for other, _ in taken)
        if lost or twin or ink.max() < 0.35:
            continue
        if all(unlike(ink, other) > 0.37 for _, other in taken):
            taken.append((mark, ink))
    return [mark for mark, _ in taken]
