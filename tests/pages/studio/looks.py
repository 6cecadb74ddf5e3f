"""How a designer lays a chart out: one Look per page, drawn from wide ranges."""

from __future__ import annotations

import colorsys
import random
from dataclasses import dataclass, field

from scene import BLACK, WHITE, Colour

PAPERS = {"a4": (595.28, 841.89), "letter": (612, 792), "a5": (419.53, 595.28), "quarto": (576, 720),
          "square": (560, 560), "a3": (841.89, 1190.55)}


@dataclass
class Look:
    paper: tuple[float, float]
    tint: Colour | None
    pitch: tuple[float, float]
    minor: tuple[float, Colour, tuple[float, ...]] | None
    major: tuple[float, Colour] | None
    every: int
    half: tuple[float, Colour] | None          # a middle weight at each fifth
    frame: float
    numbers: str                               # none, tens, fives, ends, middle
    sides: str                                 # left-top, all, bottom-right
    number_size: float
    arrows: bool
    middle_lines: bool
    ticks: bool
    fill: str                                  # symbols, tinted, blocks, black
    mark_kind: str
    mark_size: float
    font: str
    bold_font: str
    backstitch: tuple[float, Colour] | None = None
    extras: set[str] = field(default_factory=set)
    key: str = "below"                         # below, beside, own, none


def chance_colours(rng: random.Random, count: int, apart: float) -> list[Colour]:
    """Colours that a person tells apart: no two nearer than `apart` (0-255, weighted)."""
    found: list[Colour] = []
    tries = 0
    while len(found) < count:
        tries += 1
        h, l, s = rng.random(), rng.uniform(0.18, 0.9), rng.choice([rng.uniform(0, 0.25), rng.uniform(0.3, 0.95)])
        rgb = tuple(round(255 * v) for v in colorsys.hls_to_rgb(h, l, s))
        limit = apart * 0.999 ** tries
        if all(distance(rgb, other) > limit for other in found + [WHITE]):
            found.append(rgb)
    return found


def distance(a: Colour, b: Colour) -> float:
    return (2 * (a[0] - b[0]) ** 2 + 4 * (a[1] - b[1]) ** 2 + 3 * (a[2] - b[2]) ** 2) ** 0.5 / 3 ** 0.5


def is_dark(colour: Colour) -> bool:
    return 0.3 * colour[0] + 0.59 * colour[1] + 0.11 * colour[2] < 125


def settle(look: Look) -> None:
    """Keeps the leaf readable whatever was drawn: an edge where no line shows it, outlines bolder than the ruling."""
    if look.minor is None or look.minor[1] == WHITE:
        look.frame = max(look.frame, 0.6)
        look.numbers = "tens" if look.numbers in ("none", "ends") else look.numbers
    if look.backstitch:
        thick, ink = look.backstitch
        look.backstitch = (max(thick, 1.7 * look.major[0] if look.major else 0, 3 * look.minor[0] if look.minor else 0), ink)


def chance_look(rng: random.Random, fill: str, post: bool = False) -> Look:
    grey = lambda a, b: (rng.randint(a, b),) * 3
    pitch = rng.choice([rng.uniform(6, 8), rng.uniform(7, 11), rng.uniform(8, 15), rng.choice([7.2, 8.5, 9, 10, 11.34, 14.17])])
    ratio = rng.choice([1, 1, 1, 1, 1, 1, rng.uniform(0.8, 1.2)])
    paper = PAPERS[rng.choice(["a4", "a4", "letter", "letter", "a5", "quarto", "square"])]
    if rng.random() < 0.25:
        paper = paper[::-1]
    line_colour = rng.choice([BLACK, BLACK, grey(40, 190), grey(90, 200), (120, 140, 190), (170, 120, 110), (110, 150, 120)])
    minor = (rng.uniform(0.12, 0.6), line_colour, rng.choice([(), (), (), (), (0.6, 1.2), (1.5, 1.0)]))
    if fill == "blocks":
        minor = rng.choice([minor, (rng.uniform(0.3, 1.0), WHITE, ()), None])
    every = rng.choice([10, 10, 10, 10, 10, 5])
    major_colour = rng.choice([BLACK, BLACK, line_colour, grey(0, 90), (190, 30, 30), (20, 60, 160), (20, 110, 60)])
    major = (max(minor[0] if minor else 0, 0.3) * rng.uniform(1.5, 3.2), major_colour) if rng.random() < 0.88 else None
    half = (minor[0] * 1.5, line_colour) if minor and major and every == 10 and rng.random() < 0.2 else None
    sans, bold = (("helv", "helv-bold") if post else rng.choice([("plain", "plain-bold"), ("dejavu", "dejavu-bold"), ("book", "book"),
                                                                 ("dejavu-serif", "dejavu-serif"), ("mono", "mono"), ("free-sans", "free-sans")]))
    look = Look(paper, rng.choice([None] * 5 + [(255, 251, 240), (244, 246, 250), (250, 243, 243)]), (pitch, pitch * ratio), minor, major,
                every, half, rng.choice([0, 0.6, 1, 1.8]), rng.choice(["tens", "tens", "tens", "fives", "ends", "middle", "none"]),
                rng.choice(["left-top", "all", "bottom-right", "left-top"]), rng.uniform(4.5, 8), rng.random() < 0.55,
                rng.random() < 0.2, rng.random() < 0.2, fill,
                rng.choice(["letters", "pictures", "pictures", "drawn", "drawn", "mixed"]), rng.uniform(0.5, 0.82), sans, bold)
    # A run of free extras; each is seen on many printed leaves.
    for extra, likely in (("copyright", 0.7), ("notes", 0.4), ("preview", 0.2), ("watermark", 0.08), ("page border", 0.15),
                          ("logo", 0.2), ("knots", 0.1), ("subtitle", 0.4)):
        if rng.random() < likely:
            look.extras.add(extra)
    look.key = rng.choice(["below", "below", "beside", "own", "none"])
    if fill not in ("black", "blocks") and rng.random() < 0.4:
        look.backstitch = (rng.uniform(0.9, 1.8), rng.choice([BLACK, BLACK, (150, 20, 40), (20, 40, 140), (90, 50, 20)]))
    return look
