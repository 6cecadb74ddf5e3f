"""Draws one counted-thread grid: colours, marks, lines, numbers, centre marks, backstitch."""
import fonts
from symbols import BLACK, draw_mark

_NUMBER_GAP = 2.0  # points between the grid and its numbers


def _bold(style, position, first, count):
    """Whether the line before cell `position` (0 to count) counts as a bold one."""
    return bool(style.every) and 0 < position < count and (position + first - 1) % style.every == 0


def _thin_line(canvas, rng, style, x1, y1, x2, y2):
    if not style.broken:
        canvas.line(x1, y1, x2, y2, style.thin_width, style.thin_rgb, style.dash)
        return
    length = abs(x2 - x1) + abs(y2 - y1)
    at = 0.0
    while at < length:
        end = min(length, at + rng.uniform(8, 40))
        a, b = at / length, end / length
        canvas.line(x1 + (x2 - x1) * a, y1 + (y2 - y1) * a, x1 + (x2 - x1) * b,
                    y1 + (y2 - y1) * b, style.thin_width, style.thin_rgb, style.dash)
        at = end + rng.uniform(0.6, 3.0)


def _thin_lines(canvas, rng, style, box, columns, rows):
    x0, y0, w, h = box
    if not style.thin:
        return
    for i in range(0 if style.border else 1, columns + (1 if style.border else 0)):
        _thin_line(canvas, rng, style, x0 + i * w, y0, x0 + i * w, y0 + rows * h)
    for j in range(0 if style.border else 1, rows + (1 if style.border else 0)):
        _thin_line(canvas, rng, style, x0, y0 + j * h, x0 + columns * w, y0 + j * h)


def _strong_lines(canvas, style, box, columns, rows, first_column, first_row):
    x0, y0, w, h = box
    for i in range(columns + 1):
        if _bold(style, i, first_column, columns):
            canvas.line(x0 + i * w, y0, x0 + i * w, y0 + rows * h, style.bold_width,
                        style.bold_rgb)
    for j in range(rows + 1):
        if _bold(style, j, first_row, rows):
            canvas.line(x0, y0 + j * h, x0 + columns * w, y0 + j * h, style.bold_width,
                        style.bold_rgb)
    if style.border:
        out = max(0.0, style.border / 2 - 0.3)  # a heavy border grows outwards, not over the cells
        canvas.rect(x0 - out, y0 - out, columns * w + 2 * out, rows * h + 2 * out,
                    stroke=style.bold_rgb, width=style.border)


def _numbers(canvas, style, box, columns, rows, first_column, first_row):
    if style.numbers == "none":
        return
    x0, y0, w, h = box
    every = 1 if style.numbers == "each" else 10
    size = min(6.0, 0.6 * w) if every == 1 else 5.5
    four = style.numbers == "ten four"
    right, bottom = x0 + columns * w, y0 + rows * h
    gap = _NUMBER_GAP + style.border / 2
    if style.centre == "arrows":
        gap += 6
    for i in range(columns):
        number = i + first_column
        if number % every == 0:
            # At every ten the number stands at the line after the cell, where stitchers count.
            x = x0 + (i + (0.5 if every == 1 else 1.0)) * w
            canvas.text(x, y0 - gap, str(number), style.font, size, anchor="centre")
            if four:
                canvas.text(x, bottom + gap + size * 0.75, str(number), style.font, size,
                            anchor="centre")
    for j in range(rows):
        number = j + first_row
        if number % every == 0:
            y = y0 + (j + (0.5 if every == 1 else 1.0)) * h + size * 0.36
            canvas.text(x0 - gap, y, str(number), style.font, size, anchor="right")
            if four:
                canvas.text(right + gap, y, str(number), style.font, size)


def _centre(canvas, style, box, columns, rows):
    x0, y0, w, h = box
    cx, cy = x0 + (columns // 2) * w, y0 + (rows // 2) * h
    right, bottom = x0 + columns * w, y0 + rows * h
    if style.centre == "arrows":
        gap, s = 1 + style.border / 2, 2.6
        for (x, y), (dx, dy) in [((cx, y0 - gap), (0, -1)), ((cx, bottom + gap), (0, 1)),
                                 ((x0 - gap, cy), (-1, 0)), ((right + gap, cy), (1, 0))]:
            back = (x + dx * 2 * s, y + dy * 2 * s)
            canvas.polygon([(x, y), (back[0] + dy * s, back[1] + dx * s),
                            (back[0] - dy * s, back[1] - dx * s)], fill=BLACK)
    elif style.centre == "red lines":
        canvas.line(cx, y0, cx, bottom, 1.0, (215, 30, 30))
        canvas.line(x0, cy, right, cy, 1.0, (215, 30, 30))


def draw_grid(canvas, rng, style, symbols, cells, lines, box, first_column=1, first_row=1,
              shaded=None, numbers=True):
    """`box` is left, top, cell width, cell height in points; `shaded[r][c]` greys the ground of
    a cell, as pages do with columns repeated from their neighbour."""
    x0, y0, w, h = box
    rows, columns = cells.shape
    if style.hidden:
        _thin_lines(canvas, rng, style, box, columns, rows)
    if shaded is not None:
        for r in range(rows):
            for c in range(columns):
                if shaded[r][c]:
                    canvas.rect(x0 + c * w, y0 + r * h, w, h, fill=(222, 222, 222))
    for number, symbol in enumerate(symbols):
        if symbol.fill is None:
            continue
        for r in range(rows):
            c = 0
            while c < columns:
                if cells[r, c] != number:
                    c += 1
                    continue
                end = c
                while end < columns and cells[r, end] == number:
                    end += 1
                canvas.rect(x0 + c * w, y0 + r * h, (end - c) * w, h, fill=symbol.fill)
                c = end
    if not style.hidden:
        _thin_lines(canvas, rng, style, box, columns, rows)
    for number, symbol in enumerate(symbols):
        if symbol.kind == "none":
            continue
        for r, c in zip(*(cells == number).nonzero()):
            draw_mark(canvas, symbol, x0 + float(c) * w, y0 + float(r) * h, w, h)
    _strong_lines(canvas, style, box, columns, rows, first_column, first_row)
    _centre(canvas, style, box, columns, rows)
    for x1, y1, x2, y2 in lines:
        canvas.line(x0 + x1 * w, y0 + y1 * h, x0 + x2 * w, y0 + y2 * h, style.line_width,
                    style.line_rgb, round_ends=True)
    if numbers:
        _numbers(canvas, style, box, columns, rows, first_column, first_row)


def edge_room(style):
    """Points that numbers and arrows take beside the grid: left and top, right and bottom."""
    room = 4.0 + style.border + (7 if style.centre == "arrows" else 0)
    near = room + (0 if style.numbers == "none" else
                   fonts.advance(style.font, "188") * 6 + _NUMBER_GAP)
    return near, near if style.numbers == "ten four" else room


def truth_of_grid(page, cells, lines, box, first_column=1, first_row=1):
    x0, y0, w, h = box
    rows, columns = cells.shape
    part = [x0 / page[0], y0 / page[1], (x0 + columns * w) / page[0], (y0 + rows * h) / page[1]]
    return {"columns": columns, "rows": rows, "first_column": first_column,
            "first_row": first_row, "cells": cells.tolist(), "lines": lines,
            "box": [round(v, 4) for v in part],
            "corners": [[round(part[a], 5), round(part[b], 5)]
                        for a, b in ((0, 1), (2, 1), (2, 3), (0, 3))],
            "pitch_pt": [round(w, 3), round(h, 3)]}
