"""A chart at its place on a sheet: its cells, lines, numbers and arrows, and its part of the truth."""

from __future__ import annotations

import random
from dataclasses import dataclass, field

from looks import Look
from marks import Mark, draw_mark
from scene import BLACK, WHITE, Colour, Line, Scene, Shape


@dataclass
class ChartSymbol:
    """One thread: its mark (or none), the colour of its cells (or none), and what the key says."""

    mark: Mark | None
    rgb: Colour | None
    ink: Colour = BLACK
    code: str | None = None
    name: str | None = None
    strands: int | None = None

    def truth(self) -> dict:
        shape = "none" if self.mark is None else self.mark.text or self.mark.shape
        return {"shape": shape, "coloured": self.rgb is not None, "rgb": self.rgb and list(self.rgb), "ink": list(self.ink),
                "code": self.code, "name": self.name, "strands": self.strands}


@dataclass
class Chart:
    """Cells with the top left corner of the grid at (x, y) points."""

    cells: list[list[int]]
    x: float
    y: float
    pitch: tuple[float, float]
    lines: list[list[float]] = field(default_factory=list)
    first_column: int = 1
    first_row: int = 1
    shaded: tuple[int, int] = (0, 0)           # columns left and right that a neighbour leaf repeats

    @property
    def columns(self) -> int:
        return len(self.cells[0])

    @property
    def rows(self) -> int:
        return len(self.cells)

    @property
    def right(self) -> float:
        return self.x + self.columns * self.pitch[0]

    @property
    def bottom(self) -> float:
        return self.y + self.rows * self.pitch[1]

    def truth(self, width: float, height: float) -> dict:
        left, top, right, bottom = self.x / width, self.y / height, self.right / width, self.bottom / height
        return {"columns": self.columns, "rows": self.rows, "first_column": self.first_column, "first_row": self.first_row,
                "cells": self.cells, "lines": self.lines, "box": [left, top, right, bottom],
                "corners": [[left, top], [right, top], [right, bottom], [left, bottom]], "pitch_pt": list(self.pitch)}


def draw_cell(scene: Scene, symbol: ChartSymbol, x: float, y: float, pitch: tuple[float, float], size: float) -> None:
    if symbol.rgb is not None:
        scene.rect(x, y, pitch[0], pitch[1], symbol.rgb)
    if symbol.mark is not None:
        draw_mark(scene, symbol.mark, x + pitch[0] / 2, y + pitch[1] / 2, size * min(pitch), symbol.ink)


def _borders(count: int, first: int, look: Look) -> list[tuple[int, int]]:
    """Borders of cells with what the designer counts there."""
    if look.numbers == "middle":
        return [(k, abs(k - count // 2)) for k in range(count + 1)]
    return [(k, first - 1 + k) for k in range(count + 1)]


def _rule(scene: Scene, chart: Chart, look: Look, wanted, style) -> None:
    width, colour, *dash = style
    dashes = dash[0] if dash else ()
    for k, n in _borders(chart.columns, chart.first_column, look):
        if wanted(n):
            x = chart.x + k * chart.pitch[0]
            scene.add(Line((x, chart.y), (x, chart.bottom), width, colour, dashes))
    for k, n in _borders(chart.rows, chart.first_row, look):
        if wanted(n):
            y = chart.y + k * chart.pitch[1]
            scene.add(Line((chart.x, y), (chart.right, y), width, colour, dashes))


def draw_chart(scene: Scene, chart: Chart, symbols: list[ChartSymbol], look: Look, rng: random.Random) -> None:
    width, height = chart.pitch
    left, right = chart.shaded
    shade = (rng.randint(218, 236),) * 3
    if left:
        scene.rect(chart.x, chart.y, left * width, chart.rows * height, shade)
    if right:
        scene.rect(chart.right - right * width, chart.y, right * width, chart.rows * height, shade)
    for r, row in enumerate(chart.cells):
        for c, v in enumerate(row):
            if v >= 0 and symbols[v].rgb is not None:
                scene.rect(chart.x + c * width, chart.y + r * height, width, height, symbols[v].rgb)
    lines_first = rng.random() < 0.5
    if not lines_first:
        _marks(scene, chart, symbols, look)
    if look.minor:
        _rule(scene, chart, look, lambda n: True, look.minor)
    if look.half:
        _rule(scene, chart, look, lambda n: n % 5 == 0, look.half)
    if look.major:
        _rule(scene, chart, look, lambda n: n % look.every == 0, look.major)
    if look.frame:
        colour = look.major[1] if look.major else BLACK
        scene.rect(chart.x, chart.y, chart.columns * width, chart.rows * height, None, colour, look.frame)
    if lines_first:
        _marks(scene, chart, symbols, look)
    if look.middle_lines:
        ink = rng.choice([(200, 40, 40), (60, 60, 60), (40, 80, 190)])
        x, y = chart.x + chart.columns // 2 * width, chart.y + chart.rows // 2 * height
        thick = max(0.9, 1.3 * (look.major[0] if look.major else 0.5))
        scene.add(Line((x, chart.y), (x, chart.bottom), thick, ink), Line((chart.x, y), (chart.right, y), thick, ink))
    _numbers(scene, chart, look, rng)
    if look.arrows:
        _arrows(scene, chart, look, rng)
    if look.backstitch:
        thick, ink = look.backstitch
        for x1, y1, x2, y2 in chart.lines:
            scene.add(Line((chart.x + x1 * width, chart.y + y1 * height), (chart.x + x2 * width, chart.y + y2 * height),
                           thick, ink, (), True))


def _marks(scene: Scene, chart: Chart, symbols: list[ChartSymbol], look: Look) -> None:
    width, height = chart.pitch
    for r, row in enumerate(chart.cells):
        for c, v in enumerate(row):
            if v >= 0 and symbols[v].mark is not None:
                draw_mark(scene, symbols[v].mark, chart.x + (c + .5) * width, chart.y + (r + .5) * height,
                          look.mark_size * min(width, height), symbols[v].ink)


def _numbers(scene: Scene, chart: Chart, look: Look, rng: random.Random) -> None:
    in_cell = rng.random() < 0.3 and look.numbers != "middle"
    step = {"tens": 10, "fives": 5, "middle": 10, "ends": 1, "none": 10}[look.numbers]
    grey = rng.choice([BLACK, BLACK, (90, 90, 90), (150, 30, 30)])
    size, gap = look.number_size, rng.uniform(1.5, 4)
    turned = rng.random() < 0.2

    def shown(k: int, n: int, count: int) -> bool:
        if look.numbers == "ends":
            return k in (1, count)
        return n % step == 0 and (k > 0 or look.numbers == "middle")

    for horizontal, count, first in ((True, chart.columns, chart.first_column), (False, chart.rows, chart.first_row)):
        pitch = chart.pitch[0 if horizontal else 1]
        for k, n in _borders(count, first, look):
            at = (chart.x if horizontal else chart.y) + (k - (0.5 if in_cell else 0)) * pitch
            marked = n % 10 == 0
            for far in (False, True):
                if look.sides != "all" and far != (look.sides == "bottom-right"):
                    continue
                edge = (chart.bottom if far else chart.y) if horizontal else (chart.right if far else chart.x)
                away = 1 if far else -1
                if look.ticks and marked:
                    end = edge + away * gap
                    border = (chart.x if horizontal else chart.y) + k * pitch
                    scene.add(Line((border, edge), (border, end), 0.4) if horizontal else Line((edge, border), (end, border), 0.4))
                if look.numbers == "none" or not shown(k, n, count):
                    continue
                start = edge + away * (gap + (1 if look.ticks else 0))
                if horizontal and turned:
                    scene.text(at + size * .35, start, size, str(n), look.font, grey, 1 if not far else 0, True)
                elif horizontal:
                    scene.text(at, start + (size * .75 if far else 0), size, str(n), look.font, grey, 0.5)
                else:
                    scene.text(start, at + size * .35, size, str(n), look.font, grey, 0 if far else 1)


def _arrows(scene: Scene, chart: Chart, look: Look, rng: random.Random) -> None:
    """Small triangles at the middles, outside of the numbers."""
    size, off = rng.uniform(4, 8), look.number_size + rng.uniform(5, 8)
    cx, cy = (chart.x + chart.right) / 2, (chart.y + chart.bottom) / 2
    full = rng.random() < 0.7
    h = size * .45
    corners = [[(cx, chart.y - off + size), (cx - h, chart.y - off), (cx + h, chart.y - off)],
               [(chart.x - off - 4 + size, cy), (chart.x - off - 4, cy - h), (chart.x - off - 4, cy + h)]]
    if rng.random() < 0.6:
        corners += [[(cx, chart.bottom + off - size), (cx - h, chart.bottom + off), (cx + h, chart.bottom + off)],
                    [(chart.right + off + 4 - size, cy), (chart.right + off + 4, cy - h), (chart.right + off + 4, cy + h)]]
    for triangle in corners:
        scene.add(Shape([triangle], BLACK if full else WHITE, BLACK, 0.5))
