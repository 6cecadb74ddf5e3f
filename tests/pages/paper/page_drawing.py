"""Lays out and draws a whole chart page, and says what is on it."""

import math
from dataclasses import dataclass

import cairo
import numpy as np

import chart_drawing
import marks
import motifs
import words
from chart_style import Style, palette
from words import pick

DRAWN_DPI = 300


@dataclass
class Drawing:
    pixels: np.ndarray          # height x width x 3, 0 to 1, DRAWN_DPI
    grids: list[dict]           # as in the truth, with `corner_points` in pixels instead of box and corners
    symbols: list[dict]
    covered: list[tuple[float, float, float, float]]  # what must not be covered: grids and key, in pixels


def draw_key(pen: chart_drawing.Pen, style: Style, box, symbols, fills, shapes, per_row: int, row_high: float) -> None:
    """Rows of swatch or symbol, code and name, in `per_row` columns of a table or list."""
    ctx, (left, top, wide) = pen.ctx, box
    size = row_high * 0.56
    ctx.set_source_rgb(*style.ink)
    pen.text(pick(pen.rng, ["Key", "Threads", "Colour key", "You need", "Legend"]), left, top + size, size * 1.15, style.text_font, bold=True)
    for k, symbol in enumerate(symbols):
        x, y = left + k % per_row * wide / per_row, top + (k // per_row + 1) * row_high + 4
        swatch_wide, swatch_high = min(row_high * 1.1, style.cell[0] * 1.15), min(row_high - 2, style.cell[1] * 1.15)
        if fills[k] is not None:
            ctx.set_source_rgb(*fills[k])
            ctx.rectangle(x + 2, y + (row_high - swatch_high) / 2, swatch_wide, swatch_high)
            ctx.fill()
        if shapes[k] is not None:
            ctx.set_source_rgb(*chart_drawing.mark_ink(fills[k], style.ink))
            marks.draw(ctx, shapes[k], x + 2 + swatch_wide / 2, y + row_high / 2, min(style.cell) * style.mark_part, style.mark_pen, style.centred)
        ctx.set_source_rgb(*style.ink)
        ctx.set_line_width(0.5)
        if style.key_form != "list":
            ctx.rectangle(x + 2, y + (row_high - swatch_high) / 2, swatch_wide, swatch_high)
            ctx.stroke()
        if style.key_form == "table":
            ctx.rectangle(x, y, wide / per_row - 6, row_high)
            ctx.stroke()
        base, code_x = y + row_high / 2 + size * 0.35, x + swatch_wide + 8
        pen.text(symbol["code"], code_x, base, size, style.text_font)
        after = pen.text(symbol["name"], code_x + size * 3.2, base, size, style.text_font) + code_x + size * 3.2
        if symbol["strands"]:
            place = x + wide / per_row - 14
            pen.text(str(symbol["strands"]), place, base, size, style.text_font)
            if style.key_form == "dotted":
                ctx.set_dash([0.8, 2.2])
                if place - 4 > after + 3:
                    pen.line(after + 3, base, place - 4, base)
                ctx.set_dash([])


def furniture(pen: chart_drawing.Pen, style: Style, title: str, margin: float, title_size: float) -> None:
    """Title, copyright line, notes, border and watermark."""
    ctx, (wide, high) = pen.ctx, style.paper
    if style.watermark:
        ctx.set_source_rgba(0.4, 0.4, 0.5, 0.09)
        pen.text(pick(pen.rng, words.HOUSES).split()[0], wide / 2, high / 2, wide / 6, style.title_font, 0.5, turn=-0.6)
    ctx.set_source_rgb(*style.ink)
    side = {"left": 0, "middle": 0.5, "right": 1}[style.title_side]
    x = margin + side * (wide - 2 * margin)
    pen.text(title, x, margin + title_size, title_size, style.title_font, side)
    pen.text(words.copyright_line(pen.rng), margin + pen.rng.random() * 40, high - margin + 6, 6.5, style.text_font)
    pen.text(pick(pen.rng, ["1", "2", "3", "page 4", "- 5 -", "12", "37"]), wide - margin, high - margin + 6, 7, style.text_font, 1)
    for k, note in enumerate(style.words):
        pen.text(note, x, margin + title_size + 12 + 9 * k, 7.5, style.text_font, side)
    if style.border:
        ctx.set_line_width(float(pen.rng.uniform(0.5, 2.5)))
        ctx.rectangle(margin * 0.55, margin * 0.55, wide - 1.1 * margin, high - 1.1 * margin)
        ctx.stroke()


def draw_preview(ctx: cairo.Context, cells, colours, x: float, y: float, high: float) -> None:
    one = high / cells.shape[0]
    for (row, column), symbol in np.ndenumerate(cells):
        if symbol >= 0:
            ctx.set_source_rgb(*(0.35 + 0.65 * v for v in colours[symbol]))
            ctx.rectangle(x + column * one, y + row * one, one * 1.02, one * 1.02)
            ctx.fill()


def choose_marks(rng, style: Style, count: int, pixel_cell: float, blur: float) -> list:
    if style.family == "colour":
        return [None] * count
    if style.family == "one-colour":
        if rng.random() < 0.5:
            return [None] * count  # filled squares
        style.mark_part, style.mark_pen = max(0.7, style.mark_part), max(0.14, style.mark_pen)
        return [marks.Mark(s) for s in rng.permutation(["cross", "disc", "square", "slash", "ring"])[:count]]
    cell = max(9, round(pixel_cell))
    shapes = marks.choose(rng, style.marks, count, cell, style.mark_part, style.mark_pen, blur)
    if len(shapes) < min(count, 5):  # too few of this kind stay apart at this size
        style.marks = "mixed"
        shapes = marks.choose(rng, "mixed", count, cell, style.mark_part, style.mark_pen, blur)
    return shapes


def draw_page(rng, style: Style, motif: str, count: int, dpi: float, blur: float, apart: float = 0.3) -> Drawing:
    """Draws a page; `dpi` and `blur` (pixels) say how it will be seen, so that symbols are chosen which stay apart."""
    (wide, high), (cell_x, cell_y) = style.paper, style.cell
    shapes = choose_marks(rng, style, 1 if style.family == "one-colour" else count, min(style.cell) * dpi / 72, blur)
    count = len(shapes)
    colours = palette(rng, count, apart) if style.family != "both" else palette(rng, count, 0.12)
    if style.family == "one-colour":
        colours = [style.ink if shapes[0] is not None or rng.random() < 0.5 else (0.1, 0.25, 0.5)]
    fills = [None if style.family == "symbols" or (style.family == "one-colour" and shapes[k] is not None) else colours[k] for k in range(count)]
    margin, title_size = float(rng.uniform(26, 42)), float(rng.uniform(12, 26))
    style.words = [pick(rng, words.NOTES) for _ in range(int(rng.integers(0, 3)))]
    top = margin + title_size + 12 + 9 * len(style.words) + 24
    preview_high = 60.0 if style.preview and style.title_side == "left" else 0
    top = max(top, margin + preview_high + 24)
    left, bottom, right = margin + 24, high - margin - 18, wide - margin - 14
    row_high, key_wide = float(rng.uniform(11.5, 16)), 150.0
    per_row = max(1, int((right - left) // key_wide))
    if style.key == "right" and (right - left < 330 or count * row_high > bottom - top - 30):
        style.key = "below"
    if style.key == "below" and math.ceil(count / per_row) * row_high > 0.3 * (bottom - top):
        style.key = "none"
    if style.key == "right":
        right -= key_wide + 14
    elif style.key == "below":
        bottom -= (math.ceil(count / per_row) + 1) * row_high + 18
    second_rows = min(14, int(0.2 * (bottom - top) / cell_y)) if style.second else 0
    if second_rows >= 8:
        bottom -= second_rows * cell_y + 34
    part = rng.uniform(0.8, 1, 2) if rng.random() < 0.6 else (1, 1)
    columns, rows = max(10, int((right - left) * part[0] / cell_x)), max(10, int((bottom - top) * part[1] / cell_y))
    if rng.random() < 0.3:
        columns, rows = max(10, columns // 10 * 10), max(10, rows // 10 * 10)
    cells = motifs.make(rng, motif, columns, rows, count)
    used = int(cells.max()) + 1
    shapes, colours, fills = shapes[:used], colours[:used], fills[:used]

    surface = cairo.ImageSurface(cairo.FORMAT_RGB24, round(wide * DRAWN_DPI / 72), round(high * DRAWN_DPI / 72))
    ctx = cairo.Context(surface)
    ctx.scale(DRAWN_DPI / 72, DRAWN_DPI / 72)
    ctx.set_source_rgb(*style.tint)
    ctx.paint()
    pen = chart_drawing.Pen(ctx, rng, style.hand * cell_x * 0.25)
    furniture(pen, style, words.title(rng), margin, title_size)
    if preview_high:
        draw_preview(ctx, cells, colours, wide - margin - preview_high * columns / rows, margin, preview_high)
    threads = words.threads(rng, used)
    on_key = style.key != "none"
    unmarked = "filled square" if style.family == "one-colour" else "colour only"
    symbols = [{"shape": shapes[k].shape if shapes[k] else unmarked,
                "coloured": fills[k] is not None, "rgb": [round(255 * v) for v in fills[k]] if fills[k] else None,
                "ink": [round(255 * v) for v in chart_drawing.mark_ink(fills[k], style.ink)],
                "code": threads[k][0] if on_key else None, "name": threads[k][1] if on_key else None,
                "strands": int(rng.integers(1, 4)) if on_key and style.key_strands else None} for k in range(used)]
    x0 = left + (right - left - columns * cell_x) * pick(rng, [0, 0.5])
    grids, covered = [], []

    def chart(content: np.ndarray, x: float, y: float, lines) -> None:
        chart_drawing.colour_cells(ctx, style, content, x, y, fills)
        over = style.minor_colour == (1, 1, 1) or rng.random() < 0.7
        if not over:
            chart_drawing.marks_in_cells(pen, style, content, x, y, fills, shapes)
        chart_drawing.grid_lines(pen, style, content.shape[1], content.shape[0], x, y)
        if over:
            chart_drawing.marks_in_cells(pen, style, content, x, y, fills, shapes)
        chart_drawing.edge_words(pen, style, content.shape[1], content.shape[0], x, y)
        chart_drawing.backstitch(pen, style, lines, x, y, pick(rng, [(0, 0, 0), (0.75, 0.05, 0.1), (0.05, 0.1, 0.6)]))
        box = [v * DRAWN_DPI / 72 for v in (x, y, x + content.shape[1] * cell_x, y + content.shape[0] * cell_y)]
        covered.append(tuple(box))
        grids.append({"columns": content.shape[1], "rows": content.shape[0], "first_column": style.first[0], "first_row": style.first[1],
                      "cells": content.tolist(), "lines": lines, "pitch_pt": [round(cell_x, 4), round(cell_y, 4)],
                      "corner_points": [[box[0], box[1]], [box[2], box[1]], [box[2], box[3]], [box[0], box[3]]]})

    chart(cells, x0, top, motifs.outline(rng, cells) if style.outline else [])
    below = top + rows * cell_y + 20
    if on_key:
        box = (left - 10, below, right - left + 10) if style.key == "below" else (right + 14, top, key_wide - 6)
        draw_key(pen, style, box, symbols, fills, shapes, per_row if style.key == "below" else 1, row_high)
        key_bottom = box[1] + (math.ceil(used / (per_row if style.key == "below" else 1)) + 1.3) * row_high
        covered.append(tuple(v * DRAWN_DPI / 72 for v in (box[0], box[1], box[0] + box[2], key_bottom)))
        below = key_bottom + 20 if style.key == "below" else below
    if second_rows >= 8:
        style.first, second_columns = (1, 1), int(min(columns, rng.integers(10, 24)))
        small = cells[:second_rows, :second_columns]
        chart(np.where(motifs.blob(rng, second_columns, second_rows, used) >= 0, np.roll(small, 2, 0), -1), left, below + 12, [])
    surface.flush()
    data = np.ndarray((surface.get_height(), surface.get_stride() // 4, 4), np.uint8, surface.get_data())[:, :surface.get_width(), 2::-1]
    return Drawing(data.astype(np.float32) / 255, grids, symbols, covered)
