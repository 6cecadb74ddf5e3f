"""What the producers with their own layout share: a motif, its symbols and the truth of one grid."""

from __future__ import annotations

import random

import words
from chart import Chart, ChartSymbol
from looks import chance_colours, is_dark
from marks import Mark
from motifs import MOTIFS, used_only
from scene import BLACK, WHITE


def chance_cells(rng: random.Random, motifs: list[str], columns: int, rows: int, count: int) -> tuple[list[list[int]], int]:
    while True:
        cells, used = used_only(MOTIFS[rng.choice(motifs)](rng, columns, rows, count))
        if used:
            return cells, used


def letter_symbols(rng: random.Random, count: int, font: str, coloured: bool, letters: str) -> list[ChartSymbol]:
    """Symbols for programs that hold one typed sign in a cell; `letters` has no two that look alike."""
    signs = rng.sample(letters, count)
    colours = chance_colours(rng, count, 30) if coloured else [None] * count
    codes, names = words.thread_codes(rng, count), words.thread_names(rng, count)
    return [ChartSymbol(Mark(s, font, s), c, WHITE if c and is_dark(c) else BLACK, code, name)
            for s, c, code, name in zip(signs, colours, codes, names)]


def truth_of(cells: list[list[int]], symbols: list[ChartSymbol], left: float, top: float, pitch: tuple[float, float],
             paper: tuple[float, float]) -> dict:
    return {"grids": [Chart(cells, left, top, pitch).truth(*paper)], "symbols": [s.truth() for s in symbols]}
