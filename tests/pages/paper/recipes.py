"""The pages: which drawing goes through which life."""

from dataclasses import dataclass, field
from typing import Callable

from PIL import Image

import camera
import hand_marks
import machines
import paper_life
from sheet import Sheet
from words import pick

ANY = ("full", "blob", "letters", "bands", "star", "house")
LINE_ART = ("blob", "letters", "bands", "house", "star")


@dataclass(frozen=True)
class Recipe:
    name: str
    family: str                             # symbols, colour, both, one-colour
    life: Callable                          # (sheet, rng, grid, other page's pixels)
    dpi: tuple[int, int] = (190, 300)       # in the end
    cell_mm: tuple[float, float] = (2, 4)
    count: tuple[int, int] = (5, 26)
    blur: float = 0.9                       # pixels, for choosing symbols which stay apart
    apart: float = 0.32
    motifs: tuple[str, ...] = ANY
    file: str = "jpg"
    quality: tuple[int, int] = (40, 80)
    fixed: dict = field(default_factory=dict)
    least_cell: float = 15.5                  # pixels of a cell in the end
    kind: str = "bad"


def scan(turned: float = 1.5, dirt: float = 0.5, noisy: float = 0.012) -> Callable:
    def life(sheet: Sheet, rng, dpi: float) -> None:
        machines.flatbed(sheet, rng, dpi, rng.uniform(-turned, turned), dirt, noisy)
    return life


def photo(light: float = 0.8, view: float = 0.018, turned: float = 1.2, colour: float = 0.8, focus=(0.5, 0.9), noisy: float = 0.014,
          shade: float = 0, hard: float = 25, loose: float = 2.5, tight: bool = False) -> Callable:
    def life(sheet: Sheet, rng, dpi: float) -> None:
        sheet.resample(max(dpi, 200))
        paper_life.slack(sheet, rng, loose)
        camera.photograph(sheet, rng, view, rng.uniform(-turned, turned), tight)
        camera.uneven_light(sheet, rng, light)
        if shade:
            camera.shadow(sheet, rng, shade, hard)
        camera.white_balance(sheet, rng, colour)
        sheet.resample(dpi)
        camera.sensor(sheet, rng, noisy, rng.uniform(*focus), int(rng.choice([0, 50, 90, 140])))
    return life


def life(*steps: Callable) -> Callable:
    """Runs steps that take (sheet, rng, dpi, grid, other page)."""
    def run(sheet: Sheet, rng, dpi: float, grid: dict, other) -> None:
        for step in steps:
            step(sheet, rng, dpi, grid, other)
    return run


def ends(step: Callable) -> Callable:
    return lambda sheet, rng, dpi, grid, other: step(sheet, rng, dpi)


def on_paper(step: Callable, *amount) -> Callable:
    return lambda sheet, rng, dpi, grid, other: step(sheet, rng, *amount)


def by_hand(step: Callable) -> Callable:
    return lambda sheet, rng, dpi, grid, other: step(sheet, rng, grid)


def shine(strength: float) -> Callable:
    return lambda sheet, rng, dpi, grid, other: paper_life.show_through(sheet, rng, other, strength)


def screened(low: float, high: float, coloured: bool = True) -> Callable:
    return lambda sheet, rng, dpi, grid, other: machines.screen(sheet, rng, rng.uniform(low, high), coloured)


def copied(worn: float) -> Callable:
    return on_paper(machines.photocopy, worn)


def web_picture(sheet: Sheet, rng, dpi: float, grid: dict, other) -> None:
    """Printed from a small picture: coarse steps and JPEG crumbs, enlarged."""
    cell = (sheet.covered[0][2] - sheet.covered[0][0]) / grid["columns"] / sheet.dpi
    sheet.resample(max(100, 15 / cell))
    camera.recompress(sheet, int(rng.integers(65, 85)))
    sheet.resample(300, pick(rng, [Image.BILINEAR, Image.NEAREST]))


def passed_on(times: int, longest: int | None = None) -> Callable:
    def step(sheet: Sheet, rng, dpi: float, grid: dict, other) -> None:
        cell = (sheet.covered[0][2] - sheet.covered[0][0]) / grid["columns"]
        size = max(longest, int(15.5 / cell * max(sheet.size))) if longest else None  # no smaller than can be read
        for k in range(times):
            camera.recompress(sheet, int(rng.integers(55, 75)), size if k == 0 else None)
    return step


def program(coloured: bool) -> Callable:
    return on_paper(camera.scanning_program, coloured)


HAND_DRAWN = {"hand": 0.06, "minor_colour": (0.55, 0.6, 0.72), "ink": (0.06, 0.09, 0.3), "bold_colour": (0.06, 0.09, 0.3), "marks": "drawn", "title_font": "Z003"}
DARK_LINES = {"ink": (0, 0, 0), "bold_colour": (0, 0, 0), "minor_colour": (0.15, 0.15, 0.15), "minor": "solid", "tint": (1, 1, 1)}
OUTLINE = {"outline": True, "minor_width": 0.3, "bold_width": 0.8}

RECIPES = [
    Recipe("scan-turned", "symbols", life(ends(scan(3))), (180, 300)),
    Recipe("scan-dusty", "both", life(ends(scan(2, 1.6))), (170, 260), (2.6, 4.5)),
    Recipe("scan-show-through", "symbols", life(shine(0.2), ends(scan(1))), (200, 300)),
    Recipe("scan-show-through-colour", "both", life(shine(0.14), ends(scan(1))), (200, 300)),
    Recipe("scan-tiny-cells", "symbols", life(ends(scan(0.8))), (300, 300), (1.7, 2.1), (4, 10), 1.0),
    Recipe("photocopy", "symbols", life(copied(1.0), ends(scan(1.5))), (200, 300), (2.6, 4.2), (4, 16), 1.4, fixed=DARK_LINES),
    Recipe("photocopy-thin-lines", "symbols", life(copied(1.3), ends(scan(1.5))), (200, 300), (2.8, 4.2), (4, 20), 1.5,
           fixed=DARK_LINES | {"minor_colour": (0.4, 0.4, 0.4), "minor_width": 0.35, "every": 10}),
    Recipe("photocopy-dots", "one-colour", life(copied(1.3), ends(scan(1.5))), (200, 300), (2.4, 4), (1, 1), 1.4, motifs=LINE_ART, fixed=DARK_LINES),
    Recipe("copy-of-copy", "symbols", life(copied(1.1), copied(1.2), ends(scan(1))), (200, 300), (3.2, 4.6), (4, 16), 1.8, fixed=DARK_LINES),
    Recipe("fax", "symbols", life(on_paper(machines.fax)), (200, 200), (3, 4.5), (4, 16), 1.3, file="png", fixed=DARK_LINES),
    Recipe("magazine", "both", life(screened(133, 150), ends(scan(1.2))), (250, 300), (2.2, 4), fixed={"key": "below"}),
    Recipe("magazine-colour", "colour", life(screened(120, 150), ends(scan(1.2))), (180, 300), (2.2, 4), (3, 9)),
    Recipe("magazine-spine", "symbols", life(on_paper(machines.screen, 133), on_paper(paper_life.spine_curl, 0.8), ends(scan(1))), (200, 300), (2.2, 4),
           fixed={"tint": (0.96, 0.94, 0.84)}),
    Recipe("newsprint", "symbols", life(screened(85, 100, False), on_paper(paper_life.newsprint), ends(scan(1.5))), (220, 300), (3, 4.5), (4, 16), 1.6,
           fixed=DARK_LINES),
    Recipe("yellowed-hand-drawn", "symbols", life(on_paper(paper_life.age), ends(scan(2))), (200, 300), (3, 5), (3, 12), fixed=HAND_DRAWN),
    Recipe("folded", "symbols", life(on_paper(paper_life.fold_in_four, 1.0), ends(scan(1.5))), (200, 300)),
    Recipe("folded-old-colour", "both", life(on_paper(paper_life.age, 0.8), on_paper(paper_life.fold_in_four, 0.9), ends(photo())), (190, 260), (2.3, 4.5)),
    Recipe("crumpled", "symbols", life(on_paper(paper_life.crumple, 0.9), ends(photo(0.6, 0.012))), (200, 260), (3, 5), (4, 16), 1.2),
    Recipe("photo-aside", "symbols", life(ends(photo())), (170, 240), (2.3, 4.5), (4, 16), 1.2),
    Recipe("photo-outline", "both", life(ends(photo(0.6, 0.012))), (180, 240), (3.2, 5), (4, 16), 1.1, motifs=("blob", "house", "letters"),
           fixed=OUTLINE),
    Recipe("photo-hand-shadow", "both", life(ends(photo(0.6, shade=0.42))), (180, 240), (2.3, 4.5), (4, 20), 1.2),
    Recipe("photo-lamp", "symbols", life(ends(photo(1.3, colour=1.6, shade=0.3, hard=80))), (180, 240), (2.3, 4.5), (4, 20), 1.2),
    Recipe("photo-colour-only", "colour", life(ends(photo(0.7, colour=0.7))), (150, 220), (2.6, 5), (3, 8), apart=0.36),
    Recipe("photo-filled-squares", "one-colour", life(ends(photo(1, shade=0.3))), (150, 220), (2.4, 5), (1, 1), motifs=LINE_ART),
    Recipe("photo-glossy", "both", life(screened(133, 150), on_paper(camera.gloss, 0.45), ends(photo(0.6, tight=True))), (190, 250), (2.3, 4.5), (4, 20), 1.2),
    Recipe("web-picture", "both", life(web_picture, ends(scan(1.5))), (180, 260), (3.6, 5.5), (4, 16), 1.6),
    Recipe("photo-spine", "both", life(on_paper(paper_life.spine_curl, 1.0), ends(photo(0.7, tight=True))), (190, 250), (2.3, 4.5), (4, 20), 1.2),
    Recipe("photo-out-of-focus", "symbols", life(ends(photo(0.6, focus=(1.3, 1.8)))), (190, 240), (3.6, 5.5), (3, 9), 2.0),
    Recipe("chat", "both", life(ends(photo(0.6, 0.015)), passed_on(2, 1600)), (170, 200), (3.2, 5), (4, 16), 1.3),
    Recipe("chat-screens", "one-colour", life(ends(photo(0.6, 0.015)), passed_on(3, 1280)), (160, 200), (3.2, 5), (1, 1), 1.3, motifs=LINE_ART),
    Recipe("phone-scan-grey", "symbols", life(ends(photo(1.1, 0.008, 1, shade=0.25, tight=True)), program(False)), (180, 240), (2.8, 4.5), (4, 20), 1.4,
           fixed={"minor_colour": (0.3, 0.3, 0.3)}),
    Recipe("phone-scan-colour", "both", life(ends(photo(1, 0.008, 1, tight=True)), program(True)), (180, 240), (2.3, 4.5), (4, 20), 1.2),
    Recipe("highlighter", "symbols", life(by_hand(hand_marks.highlighter), by_hand(hand_marks.pencil), ends(scan(1.5))), (180, 300), (2.6, 4.5)),
    Recipe("pencil-ruler", "symbols", life(by_hand(hand_marks.pencil), by_hand(hand_marks.clear_ruler), ends(photo(0.7))), (180, 240), (2.3, 4.5), (4, 16), 1.2),
    Recipe("note-and-coffee", "both", life(by_hand(hand_marks.coffee), by_hand(hand_marks.sticky_note), ends(photo(0.7))), (180, 240), (2.3, 4.5), (4, 20), 1.2),
    Recipe("taped", "one-colour", life(on_paper(paper_life.age, 0.6), by_hand(hand_marks.tape), by_hand(hand_marks.tape), ends(scan(2))), (180, 300),
           (2.4, 4), (1, 1), motifs=LINE_ART),
]

CLEAN = [Recipe(f"good-{name}", family, life(ends(scan(0.25, 0.05, 0.004))), (300, 300), cell, count, quality=(92, 92), kind="clean", motifs=kinds, fixed=fixed)
         for name, family, cell, count, kinds, fixed in [
             ("symbols", "symbols", (2, 3.5), (6, 26), ANY, {}), ("small-symbols", "symbols", (1.7, 2.3), (5, 16), ANY, {}),
             ("both", "both", (2.2, 4), (6, 28), ANY, {}), ("both-full", "both", (2, 3), (10, 30), ("full", "star"), {}),
             ("colour", "colour", (2, 4), (3, 12), ANY, {}), ("one-colour", "one-colour", (1.8, 4), (1, 1), LINE_ART, {}),
             ("outline", "both", (2.6, 4.5), (4, 16), ("blob", "house"), OUTLINE), ("hand-drawn", "symbols", (3, 5), (3, 12), LINE_ART, HAND_DRAWN)]]
