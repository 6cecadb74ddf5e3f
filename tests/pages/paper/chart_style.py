"""How a chart page is drawn: paper, lines, numbers, inks, key; every choice comes from wide ranges."""

import colorsys
from dataclasses import dataclass, field

import numpy as np

from words import pick

PAPERS = {"a4": (595, 842), "letter": (612, 792), "a5": (420, 595), "booklet": (468, 648), "square": (576, 576)}
TITLE_FONTS = ["URW Bookman", "Z003", "C059", "P052", "URW Gothic", "Liberation Serif", "Inter", "DejaVu Serif", "FreeSans", "Nimbus Sans Narrow"]
PLAIN_FONTS = ["Liberation Sans", "Liberation Serif", "DejaVu Sans", "Nimbus Roman", "FreeSans", "Inter", "URW Gothic", "Liberation Mono", "P052"]
BLACK = (0.05, 0.05, 0.06)
INKS = [BLACK, BLACK, (0, 0, 0), (0.12, 0.12, 0.16), (0.05, 0.1, 0.35), (0.25, 0.13, 0.06), (0.02, 0.22, 0.15), (0.4, 0.03, 0.08)]


@dataclass
class Style:
    family: str                 # symbols, colour, both, one-colour
    paper: tuple[float, float] = (595, 842)
    tint: tuple[float, float, float] = (1, 1, 1)
    cell: tuple[float, float] = (9, 9)
    ink: tuple[float, float, float] = BLACK
    minor: str = "solid"        # solid, dotted, dashed, none
    minor_colour: tuple[float, float, float] = (0.5, 0.5, 0.5)
    minor_width: float = 0.4
    every: int = 10             # 0: no bold lines
    bold_colour: tuple[float, float, float] = BLACK
    bold_width: float = 1.0
    frame_width: float = 1.2
    fives: bool = False
    numbers: str = "tens"       # none, tens, fives, from the centre
    both_sides: bool = False
    ticks: bool = False
    arrows: bool = False
    centre_lines: bool = False
    number_font: str = "Liberation Sans"
    title_font: str = "URW Bookman"
    text_font: str = "Liberation Sans"
    title_side: str = "middle"
    key: str = "below"          # below, right, none
    key_form: str = "table"     # table, list, dotted
    key_strands: bool = False
    watermark: bool = False
    border: bool = False
    preview: bool = False
    second: bool = False
    hand: float = 0             # wobble of a hand-drawn chart, in parts of a cell
    mark_part: float = 0.7
    mark_pen: float = 0.14
    centred: bool = True
    marks: str = "mixed"
    outline: bool = False       # backstitch
    inset: float = 0            # how far a coloured square stays from its cell's edge
    first: tuple[int, int] = (1, 1)
    words: list[str] = field(default_factory=list)


def grey(rng, low: float, high: float):
    value = float(rng.uniform(low, high))
    return (value, value, value)


def palette(rng, count: int, apart: float) -> list[tuple[float, float, float]]:
    """Thread colours which a person tells apart in a poor light: at least `apart` in a lightness-weighted distance."""
    chosen: list[tuple[float, float, float]] = []
    tries = 0
    while len(chosen) < count:
        tries += 1
        rgb = colorsys.hsv_to_rgb(float(rng.random()), float(rng.uniform(0.1, 0.95)), float(rng.uniform(0.2, 0.97)))
        if max(rgb) - min(rgb) < 0.06 and max(rgb) > 0.8:
            continue  # would pass for bare paper
        if sum((1 - v) ** 2 for v in rgb) ** 0.5 < max(0.22, 1.4 * apart - 0.03):
            continue
        limit = apart * (0.985 ** max(0, tries - 200))
        if all(distance(rgb, other) > limit for other in chosen):
            chosen.append(rgb)
    return chosen


def distance(a, b) -> float:
    """Difference of two colours, grey value and hue both counted."""
    lightness = sum(w * (x - y) for w, x, y in zip((0.3, 0.59, 0.11), a, b))
    return float(np.sqrt(2 * lightness ** 2 + 0.4 * sum((x - y) ** 2 for x, y in zip(a, b))))


def draw_style(rng, family: str, cell_mm: tuple[float, float], **fixed) -> Style:
    """A style of a family with cells of a size range; `fixed` holds what the recipe asks for."""
    side = float(rng.uniform(*cell_mm)) * 72 / 25.4
    high = side * (float(rng.uniform(0.8, 1.2)) if rng.random() < 0.15 else 1)
    style = Style(family, cell=(side, high))
    width, height = PAPERS[pick(rng, list(PAPERS))]
    style.paper = (height, width) if rng.random() < 0.15 else (width, height)
    style.ink = pick(rng, INKS)
    style.minor = pick(rng, ["solid"] * 6 + ["dotted", "dashed"])
    style.minor_colour = pick(rng, [grey(rng, 0.25, 0.65), grey(rng, 0.0, 0.3), (0.45, 0.6, 0.75), (0.6, 0.65, 0.5), style.ink])
    style.minor_width = float(rng.uniform(0.25, 0.65))
    style.every = pick(rng, [10, 10, 10, 10, 5, 0])
    style.bold_colour = pick(rng, [style.ink, style.ink, BLACK, (0.7, 0.1, 0.1), (0.1, 0.2, 0.6), grey(rng, 0.1, 0.4)])
    style.bold_width = float(rng.uniform(max(0.8, 1.7 * style.minor_width), 1.7))
    style.fives = style.every == 10 and rng.random() < 0.2
    style.frame_width = float(rng.uniform(0.8, 2.2))
    if family in ("colour", "both", "one-colour") and rng.random() < 0.25:
        style.minor_colour = (1, 1, 1)
        style.every, style.minor = 10, "solid"
    if family in ("symbols", "both") and style.every == 10 and rng.random() < 0.08:
        style.minor = "none"  # the symbols themselves show the cells
    style.numbers = pick(rng, ["none", "tens", "tens", "tens", "fives", "from the centre"])
    style.both_sides = bool(rng.random() < 0.35)
    style.ticks, style.arrows = bool(rng.random() < 0.3), bool(rng.random() < 0.45)
    style.centre_lines = bool(rng.random() < 0.15)
    style.number_font, style.text_font, style.title_font = pick(rng, PLAIN_FONTS), pick(rng, PLAIN_FONTS), pick(rng, TITLE_FONTS)
    style.title_side = pick(rng, ["middle", "left", "right"])
    style.key, style.key_form = pick(rng, ["below", "below", "right", "none"]), pick(rng, ["table", "list", "dotted"])
    style.key_strands = bool(rng.random() < 0.3)
    style.watermark, style.border = bool(rng.random() < 0.12), bool(rng.random() < 0.25)
    style.preview, style.second = bool(rng.random() < 0.2), bool(rng.random() < 0.15)
    style.mark_part, style.mark_pen = float(rng.uniform(0.55, 0.8)), float(rng.uniform(0.1, 0.2))
    style.centred = bool(rng.random() < 0.6)
    style.marks = pick(rng, ["letters", "digits", "text", "pictures", "drawn", "drawn", "mixed", "mixed", "mixed"])
    style.inset = float(rng.uniform(0.05, 0.14)) if family in ("colour", "one-colour") and rng.random() < 0.2 else 0
    if rng.random() < 0.15 and style.numbers in ("tens", "fives"):
        style.first = (1 + 10 * int(rng.integers(0, 9)), 1 + 5 * int(rng.integers(0, 9)))
    for name, value in fixed.items():
        setattr(style, name, value)
    return style
