"""Lays out one chart page: title, grid, key, footer and what else stands around a chart."""
import math
from dataclasses import dataclass

import numpy as np

import contents
import styles
from grid import draw_grid, edge_room, truth_of_grid
from symbols import BLACK, WHITE, draw_mark

_TITLES = ["The Lamplighter's Cat", "Fern Window", "Nine Small Boats", "Winter Larder",
           "A Hedge in June", "Moth Sampler", "Stone Bridge", "Two Herons", "Allotment Gate",
           "The Blue Jug", "Orchard Alphabet", "Marsh Evening"]
_DESIGNERS = ["Mirel Tansey", "Odo Quillbeck", "Ansa Varrow", "Pell Hathersby", "Ivo Sandling"]
_ROW = 11.0        # height of a row of the key, points
_SIDE_KEY = 128.0  # width of a key column, points


@dataclass
class Chart:
    style: styles.Style
    symbols: list
    cells: np.ndarray
    lines: list
    second: np.ndarray = None
    box: tuple = ()          # left, top, cell width, cell height
    second_box: tuple = ()
    key_at: tuple = ()       # left, top, columns
    title: str = ""
    designer: str = ""


_LEAST_CELLS = 14


def plan_chart(rng, careful, fixed):
    """Chooses everything about a page; nothing is drawn yet."""
    chart = _try_plan(rng, careful, fixed)
    if chart is None:
        chart = _try_plan(rng, careful, {**fixed, "legend": "none", "picture": False,
                                         "second": False, "landscape": False})
    assert chart is not None
    return chart


def _try_plan(rng, careful, fixed):
    """None when the things around the chart leave no room for it."""
    style = styles.random_style(rng, careful, fixed)
    numbers = np.random.default_rng(rng.getrandbits(64))
    symbols = styles.choose_symbols(rng, style, careful)
    w, h = style.page()
    margin = rng.uniform(22, 40)
    left, top, right, bottom = margin, margin, w - margin, h - margin
    if style.titled:
        top += 40
    if style.picture:
        top += 52 if style.titled else 90
    if style.footer:
        bottom -= 16
    key_columns = min(style.legend_columns, max(1, int((right - left) // _SIDE_KEY)))
    key_columns = min(key_columns, len(symbols))
    key_rows = math.ceil(len(symbols) / key_columns)
    if style.legend == "right" and (len(symbols) + 2) * _ROW > bottom - top:
        style.legend = "below"
    key_at = ()
    if style.legend == "right":
        right -= _SIDE_KEY + 8
        key_at, key_columns = (right + 14, top), 1
    elif style.legend == "below":
        bottom -= (key_rows + 2) * _ROW
        key_at = (left, bottom + 14)
    near, far = edge_room(style)
    second_rows = second_columns = 0
    if style.second:
        second_rows, second_columns = rng.randint(9, 13), rng.randint(9, 16)
    space_w, space_h = right - left - near - far, bottom - top - near - far
    least_rows = style.rows + (second_rows + 4 if style.second else 0)
    pitch = min(style.pitch, space_w / style.columns, space_h / (least_rows * style.aspect))
    if pitch < style.least_pitch:
        pitch = style.least_pitch
        style.columns = min(style.columns, int(space_w / pitch))
        most = int(space_h / (pitch * style.aspect)) - (second_rows + 4 if style.second else 0)
        style.rows = min(style.rows, most)
    if min(style.columns, style.rows) < _LEAST_CELLS:
        return None
    for axis in ("columns", "rows"):
        if axis in fixed.get("exact", ()) and getattr(style, axis) != fixed[axis]:
            return None
    cell_w, cell_h = pitch, pitch * style.aspect
    x0 = left + near + rng.choice([0.0, 0.5]) * (space_w - style.columns * cell_w)
    y0 = top + near
    cells = contents.make_cells(rng, numbers, style.rows, style.columns, len(symbols),
                                style.content, style.coverage)
    lines = contents.make_backstitch(rng, numbers, cells) if style.backstitch else []
    chart = Chart(style, symbols, cells, lines, box=(x0, y0, cell_w, cell_h),
                  key_at=key_at + (key_columns,) if key_at else (),
                  title=rng.choice(_TITLES), designer=rng.choice(_DESIGNERS))
    if style.second:
        chart.second = contents.make_cells(rng, numbers, second_rows, second_columns,
                                           min(3, len(symbols)), "patches", "bare")
        chart.second_box = (x0, y0 + (style.rows + 3) * cell_h + far, cell_w, cell_h)
    return chart


def draw_key(canvas, chart, x, y, columns):
    """The key: a box with the symbol, the code, the name and the strands of each thread."""
    style, symbols = chart.style, chart.symbols
    rows = math.ceil(len(symbols) / columns)
    canvas.text(x, y, "Key", style.font, 8)
    for i, symbol in enumerate(symbols):
        cx, cy = x + (i // rows) * _SIDE_KEY, y + 5 + (i % rows) * _ROW
        side = _ROW - 2
        if symbol.fill is not None:
            canvas.rect(cx, cy, side, side, fill=symbol.fill)
        if symbol.kind == "full":
            canvas.rect(cx, cy, side, side, fill=BLACK)
        elif symbol.kind != "none":
            draw_mark(canvas, symbol, cx, cy, side, side)
        canvas.rect(cx, cy, side, side, stroke=BLACK, width=0.4)
        base = cy + side * 0.75
        canvas.text(cx + 14, base, symbol.code, style.font, 6.5)
        canvas.text(cx + 46, base, symbol.name, style.font, 6.5)
        canvas.text(cx + 112, base, str(symbol.strands), style.font, 6.5, anchor="right")
    if style.legend_ruled:
        for column in range(columns):
            cx = x + column * _SIDE_KEY - 2
            for i in range(rows + 1):
                canvas.line(cx, y + 4 + i * _ROW, cx + 120, y + 4 + i * _ROW, 0.4, BLACK)
            for dx in (0, 13, 44, 104, 120):
                canvas.line(cx + dx, y + 4, cx + dx, y + 4 + rows * _ROW, 0.4, BLACK)


def _finished_work(chart):
    """A small picture of the stitched piece, a pixel for each cell."""
    rgb = [s.fill or (s.ink if s.ink != WHITE else (90, 90, 90)) for s in chart.symbols]
    if len(rgb) > 1 and all(c == BLACK for c in rgb):
        rgb = [((37 * i) % 200 + 30, (91 * i) % 200 + 30, (53 * i) % 200 + 30)
               for i in range(len(rgb))]
    table = np.array(rgb + [(244, 240, 228)], np.uint8)
    return table[chart.cells]


def draw_around(canvas, chart, page_number=1):
    style, (w, h) = chart.style, chart.style.page()
    x = 36
    if style.titled:
        canvas.text(x, 44, chart.title, style.font, 16)
        canvas.text(x, 57, "Drawn by %s. %d x %d stitches." % (
            chart.designer, chart.cells.shape[1], chart.cells.shape[0]), style.font, 8)
    if style.picture:
        rows, columns = chart.cells.shape
        scale = min(74 / rows, 110 / columns)
        canvas.image(w - 40 - columns * scale, 26, columns * scale, rows * scale,
                     _finished_work(chart))
    if style.footer:
        canvas.text(w / 2, h - 22, "Stitch with two strands over two threads of linen. "
                    "For your own use only.", style.font, 6.5, anchor="centre")
        canvas.text(w - 36, h - 22, str(page_number), style.font, 8, anchor="right")


def draw_chart_page(canvas, rng, chart):
    """Draws the page and gives the truth about its grids."""
    style, page = chart.style, chart.style.page()
    draw_around(canvas, chart)
    if style.legend != "none":
        draw_key(canvas, chart, *chart.key_at)
    draw_grid(canvas, rng, style, chart.symbols, chart.cells, chart.lines, chart.box,
              style.first_column, style.first_row)
    grids = [truth_of_grid(page, chart.cells, chart.lines, chart.box, style.first_column,
                           style.first_row)]
    if chart.second is not None:
        x0, y0 = chart.second_box[:2]
        draw_grid(canvas, rng, style, chart.symbols, chart.second, [], chart.second_box,
                  numbers=False)
        canvas.text(x0 + (chart.second.shape[1] + 1) * chart.box[2] + 8, y0 + 10,
                    "Another motif", style.font, 7)
        grids.append(truth_of_grid(page, chart.second, [], chart.second_box))
    return grids


def truth_of_symbols(chart):
    listed = chart.style.legend != "none"
    told = []
    for s in chart.symbols:
        entry = {"shape": s.words(), "coloured": s.fill is not None,
                 "rgb": list(s.fill) if s.fill else None, "ink": list(s.ink),
                 "code": s.code if listed else None, "name": s.name if listed else None,
                 "strands": s.strands if listed else None}
        told.append(entry)
    return told
