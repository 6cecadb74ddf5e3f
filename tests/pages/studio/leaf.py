"""A whole leaf: title, chart, key, notes and what else designers print round it."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, replace

import words
from chart import Chart, ChartSymbol, draw_cell, draw_chart
from looks import Look, chance_colours, is_dark
from marks import pick_marks
from motifs import MOTIFS, outlines, used_only
from scene import BLACK, WHITE, Colour, Scene, Shape, advance


@dataclass
class Leaf:
    """A drawn document with its truth; the chart is on the first sheet."""

    scene: Scene
    charts: list[Chart]
    symbols: list[ChartSymbol]

    def truth(self) -> dict:
        return {"grids": [c.truth(self.scene.width, self.scene.height) for c in self.charts],
                "symbols": [s.truth() for s in self.symbols]}


def chance_symbols(rng: random.Random, count: int, look: Look, post: bool) -> list[ChartSymbol]:
    marks = [None] * count if look.fill in ("blocks", "black") else pick_marks(rng, count, look.mark_kind, post)
    apart = 60 if look.fill == "blocks" else 22
    colours: list[Colour | None] = [None] * count
    if look.fill == "black":
        colours = [rng.choice([BLACK, (180, 20, 30), (30, 50, 120), (60, 60, 60)])]
    elif look.fill in ("tinted", "blocks"):
        colours = chance_colours(rng, count, apart)
    wash = rng.choice([0, 0, 0.4]) if look.fill == "tinted" else 0
    if wash:
        colours = [tuple(round(v + (255 - v) * wash) for v in c) for c in colours]
    return [ChartSymbol(m, c, WHITE if c and m and is_dark(c) else BLACK) for m, c in zip(marks, colours)]


def name_threads(rng: random.Random, symbols: list[ChartSymbol]) -> None:
    """Fills in what a key on the chart's own page says."""
    codes, names = words.thread_codes(rng, len(symbols)), words.thread_names(rng, len(symbols))
    strands = rng.choice([None, 1, 2, 3])
    for s, code, name in zip(symbols, codes, names):
        s.code, s.name, s.strands = code, name, strands


def key_size(symbols: list[ChartSymbol], look: Look, columns: int, size: float) -> tuple[float, float]:
    """Width of one column and height of a key without its heading."""
    widest = max(advance(look.font, s.name) for s in symbols) + max(advance(look.font, s.code) for s in symbols)
    return size * (widest + 2 + 2.2 + 2.5), math.ceil(len(symbols) / columns) * size * 1.55


def draw_key(scene: Scene, symbols: list[ChartSymbol], look: Look, x: float, y: float, columns: int, size: float,
             rng: random.Random) -> None:
    width, _ = key_size(symbols, look, columns, size)
    per, step, box = math.ceil(len(symbols) / columns), size * 1.55, size * 1.2
    boxed, swatch_first = rng.random() < 0.5, rng.random() < 0.8
    code_first = rng.random() < 0.75
    code_wide = max(advance(look.font, s.code) for s in symbols) * size
    name_wide = max(advance(look.font, s.name) for s in symbols) * size
    if rng.random() < 0.7:
        heading = rng.choice(["Key", "Threads", "List of colours", "Colours used", "Symbols"])
        scene.text(x, y - size * .6, size * 1.15, heading, look.bold_font)
    for i, s in enumerate(symbols):
        cx, cy = x + i // per * width, y + i % per * step
        words_at = cx + (box + size * .7 if swatch_first else 0)
        first, second = (s.code, s.name) if code_first else (s.name, s.code)
        second_at = words_at + (code_wide if code_first else name_wide) + size * .8
        after = second_at + (name_wide if code_first else code_wide) + size * .6
        swatch = cx if swatch_first else after
        draw_cell(scene, s, swatch, cy, (box, box), look.mark_size)
        if boxed or s.rgb:
            scene.rect(swatch, cy, box, box, None, BLACK, 0.4)
        base = cy + box * .5 + size * .35
        scene.text(words_at, base, size, first, look.font)
        scene.text(second_at, base, size, second, look.font)
        if s.strands and swatch_first:
            scene.text(after, base, size, f"{s.strands}x" if per % 2 else str(s.strands), look.font)


def _trim(rng: random.Random, cells: list[list[int]]) -> list[list[int]]:
    """Never a row or column that only the frame could tell of at the sheet's edge: a few bare ones stay."""
    keep = rng.randint(0, 3)
    rows = [r for r, row in enumerate(cells) if any(v >= 0 for v in row)]
    columns = [c for c in range(len(cells[0])) if any(row[c] >= 0 for row in cells)]
    top, bottom = max(0, rows[0] - keep), min(len(cells), rows[-1] + 1 + keep)
    left, right = max(0, columns[0] - keep), min(len(cells[0]), columns[-1] + 1 + keep)
    return [row[left:right] for row in cells[top:bottom]]


def chance_leaf(rng: random.Random, look: Look, motif: str, count: int, limit: tuple[int, int], post: bool = False) -> Leaf:
    """Lays out a leaf whose chart has at most `limit` columns and rows and as many as find room."""
    width, height = look.paper
    scene = Scene(width, height, words.title(rng))
    margin = rng.uniform(28, 46)
    title_size = rng.uniform(11, 24)
    key_type = rng.uniform(6, 9.5)
    head, foot = margin + title_size * 1.6 + (14 if "subtitle" in look.extras else 0), margin + (14 if "copyright" in look.extras else 0)
    notes = words.notes(rng, rng.randint(1, 4)) if "notes" in look.extras else []
    foot += 11 * len(notes)
    side = look.number_size * 2 + 16
    second_rows = rng.randint(12, 18) if "second" in look.extras else 0
    foot += second_rows * look.pitch[1] + (2 * side if second_rows else 0)
    count = 1 if look.fill == "black" else count
    beside, below = (key_type * 21, 0) if look.key == "beside" else (0, key_type * (2.5 + 1.55 * math.ceil(count / 2)) if look.key == "below" else 0)
    if beside + 2 * side + 2 * margin > width * .6:
        beside, look = 0, replace(look, key="own")
    room = (width - 2 * margin - 2 * side - beside, height - head - foot - 2 * side - below)
    columns = max(10, min(limit[0], int(room[0] / look.pitch[0])))
    rows = max(10, min(limit[1], int(room[1] / look.pitch[1])))
    while True:
        cells = _trim(rng, MOTIFS[motif](rng, columns, rows, count))
        cells, used = used_only(cells)
        if used and len(cells) >= 10 and len(cells[0]) >= 10:
            break
    symbols = chance_symbols(rng, used, look, post)
    chart = Chart(cells, 0, 0, look.pitch)
    free = (room[0] - chart.columns * look.pitch[0], room[1] - chart.rows * look.pitch[1])
    chart.x = margin + side + max(0, free[0]) * rng.choice([0, 0.5, 0.5, 1])
    chart.y = head + side + max(0, free[1]) * rng.choice([0, 0, 0.5])
    if look.backstitch:
        chart.lines = outlines(rng, cells)
    if "overlap" in look.extras:
        chart.shaded = rng.choice([(0, 3), (2, 0), (4, 4), (0, 5)])
        chart.first_column = 10 * rng.randint(0, 8) + 1
        chart.first_row = 10 * rng.choice([0, 0, 3, 7]) + 1
    if look.tint:
        scene.rect(0, 0, width, height, look.tint)
    if "watermark" in look.extras:
        size = rng.uniform(30, 60)
        scene.text(width / 2, rng.uniform(.4, .7) * height, size, words.invented_name(rng), look.bold_font, (232, 232, 236), 0.5)
    draw_chart(scene, chart, symbols, look, rng)
    charts = [chart]
    if second_rows:
        charts.append(_second_chart(rng, chart, second_rows, used, side))
        draw_chart(scene, charts[1], symbols, look, rng)
        below_chart = charts[1].bottom
    else:
        below_chart = chart.bottom
    if "knots" in look.extras:
        _knots(scene, chart, rng)
    if look.key in ("beside", "below"):
        name_threads(rng, symbols)
    _dress(scene, look, rng, margin, title_size, notes, chart, symbols)
    if look.key == "beside":
        draw_key(scene, symbols, look, min(chart.right + side, width - margin - beside + 4), max(chart.y, head + 20), 1, key_type, rng)
    elif look.key == "below":
        draw_key(scene, symbols, look, margin + rng.choice([0, side]), below_chart + side + key_type * 1.6, 2, key_type, rng)
    elif look.key == "own":
        _own_key(scene, look, symbols, rng, margin)
    charts.sort(key=lambda c: -c.columns * c.rows)
    return Leaf(scene, charts, symbols)


def _second_chart(rng: random.Random, chart: Chart, rows: int, used: int, side: float) -> Chart:
    """A small further motif under the large one, in some of its symbols."""
    columns = min(rng.randint(14, 30), chart.columns)
    while True:
        cells = MOTIFS[rng.choice(["mirrored", "band", "border"])](rng, columns, rows, min(3, used))
        if any(v >= 0 for row in cells for v in row):
            return Chart(cells, chart.x, chart.bottom + 2 * side, chart.pitch)


def _own_key(scene: Scene, look: Look, symbols: list[ChartSymbol], rng: random.Random, margin: float) -> None:
    """The key on a second sheet: the chart's page says no names, so the truth says none either."""
    named = [replace(s) for s in symbols]
    name_threads(rng, named)
    scene.sheets.append([])
    scene.text(margin, margin + 16, 14, scene.title, look.bold_font)
    draw_key(scene, named, look, margin, margin + 50, 1 if len(named) < 22 else 2, 9, rng)


def _knots(scene: Scene, chart: Chart, rng: random.Random) -> None:
    """Full dots on crossings of the lattice, small enough to leave their cells readable."""
    for _ in range(rng.randint(1, 5)):
        c, r = rng.randint(1, chart.columns - 1), rng.randint(1, chart.rows - 1)
        x, y, s = chart.x + c * chart.pitch[0], chart.y + r * chart.pitch[1], min(chart.pitch) * .16
        points = [(x + s * math.cos(k * math.pi / 10), y + s * math.sin(k * math.pi / 10)) for k in range(20)]
        scene.add(Shape([points], (170, 30, 40)))


def _dress(scene: Scene, look: Look, rng: random.Random, margin: float, title_size: float, notes: list[str], chart: Chart,
           symbols: list[ChartSymbol]) -> None:
    """Title, notes, copyright, page border, logo and a small preview."""
    width, height = look.paper
    align = rng.choice([0, 0.5, 0.5])
    longest = advance(look.bold_font, scene.title) * title_size
    title_size *= min(1, (width * .7 - margin) / longest)
    scene.text(margin if align == 0 else width / 2, margin + title_size, title_size, scene.title, look.bold_font, align=align)
    if "subtitle" in look.extras:
        text = rng.choice([f"{chart.columns} x {chart.rows} stitches", f"a design by {words.invented_name(rng)}",
                           f"Chart {rng.randint(1, 3)}", f"{chart.columns} wide, {chart.rows} high; {len(symbols)} colours"])
        scene.text(margin if align == 0 else width / 2, margin + title_size + 12, 8.5, text, look.font, (70, 70, 70), align)
    base = height - margin
    if "copyright" in look.extras:
        scene.text(width / 2, base, 7, words.copyright_line(rng), look.font, (90, 90, 90), 0.5)
        base -= 12
    for note in reversed(notes):
        scene.text(margin, base, 8, note, look.font)
        base -= 11
    if "page border" in look.extras:
        off = margin * .5
        scene.rect(off, off, width - 2 * off, height - 2 * off, None, (60, 60, 60), rng.choice([0.5, 1, 2]))
    if "logo" in look.extras:
        x, y = width - margin - 22, height - margin - 10
        scene.rect(x, y, 22, 16, (60, 70, 90))
        scene.text(x + 11, y + 11, 9, scene.title[:1] + "S", look.bold_font, WHITE, 0.5)
    if "preview" in look.extras:
        _preview(scene, chart, symbols, rng, margin, title_size)


def _preview(scene: Scene, chart: Chart, symbols: list[ChartSymbol], rng: random.Random, margin: float, room: float) -> None:
    step = min(0.9, (room * 1.4 + 8) / chart.rows, 70 / chart.columns)
    stand_in = chance_colours(rng, len(symbols), 20)
    x0, y0 = scene.width - margin - chart.columns * step, margin - 4
    for r, row in enumerate(chart.cells):
        for c, v in enumerate(row):
            if v >= 0:
                scene.rect(x0 + c * step, y0 + r * step, step, step, symbols[v].rgb or stand_in[v])
