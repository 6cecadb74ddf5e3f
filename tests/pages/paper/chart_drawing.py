"""Draws one chart (cells, lines, numbers, arrows, backstitch) with cairo, in points."""

import cairo

import marks
from chart_style import BLACK, Style


class Pen:
    """A cairo context which can tremble like a hand with a ruler too short."""

    def __init__(self, ctx: cairo.Context, rng, wobble: float):
        self.ctx, self.rng, self.wobble = ctx, rng, wobble

    def line(self, x1, y1, x2, y2) -> None:
        self.ctx.move_to(x1, y1)
        if self.wobble:
            steps = max(2, int(abs(x2 - x1) + abs(y2 - y1)) // 40)
            for k in range(1, steps):
                dx, dy = self.rng.normal(0, self.wobble, 2)
                self.ctx.line_to(x1 + (x2 - x1) * k / steps + dx * (x1 == x2), y1 + (y2 - y1) * k / steps + dy * (y1 == y2))
        self.ctx.line_to(x2, y2)
        self.ctx.stroke()

    def text(self, words: str, x: float, y: float, size: float, font: str, side: float = 0, bold: bool = False, turn: float = 0) -> float:
        """Writes and says how wide it came out; `side` 0 begins at x, 0.5 is around it, 1 ends there."""
        self.ctx.select_font_face(font, cairo.FONT_SLANT_NORMAL, cairo.FONT_WEIGHT_BOLD if bold else cairo.FONT_WEIGHT_NORMAL)
        self.ctx.set_font_size(size)
        wide = self.ctx.text_extents(words).x_advance
        self.ctx.save()
        self.ctx.translate(x, y)
        self.ctx.rotate(turn)
        self.ctx.move_to(-side * wide, 0)
        self.ctx.show_text(words)
        self.ctx.restore()
        return wide


def colour_cells(ctx: cairo.Context, style: Style, cells, x0: float, y0: float, fills) -> None:
    wide, high = style.cell
    for row, line in enumerate(cells):
        for column, symbol in enumerate(line):
            if symbol >= 0 and fills[symbol] is not None:
                ctx.set_source_rgb(*fills[symbol])
                inset = style.inset
                ctx.rectangle(x0 + (column + inset) * wide, y0 + (row + inset) * high, (1 - 2 * inset) * wide, (1 - 2 * inset) * high)
                ctx.fill()


def is_bold(style: Style, k: int, first: int, every: int, count: int) -> bool:
    if style.numbers == "from the centre":
        return (k - count // 2) % every == 0
    return (k + first - 1) % every == 0


def grid_lines(pen: Pen, style: Style, columns: int, rows: int, x0: float, y0: float) -> None:
    ctx, (wide, high) = pen.ctx, style.cell
    right, bottom = x0 + columns * wide, y0 + rows * high
    directions = ((True, columns, style.first[0]), (False, rows, style.first[1]))

    def stroke(across: bool, k: int) -> None:
        at = (x0 + k * wide) if across else (y0 + k * high)
        pen.line(*((at, y0, at, bottom) if across else (x0, at, right, at)))

    ctx.set_source_rgb(*style.minor_colour)
    ctx.set_line_width(style.minor_width)
    ctx.set_dash({"dotted": [style.minor_width * 1.2, style.minor_width * 1.8], "dashed": [2.2, 1.3]}.get(style.minor, []))
    for across, count, _ in directions if style.minor != "none" else ():
        for k in range(count + 1):
            stroke(across, k)
    ctx.set_dash([])
    ctx.set_source_rgb(*style.bold_colour)
    for every, width in ((5, (style.minor_width + style.bold_width) / 2), (style.every, style.bold_width)):
        if every == 0 or (every == 5 and not style.fives and style.every != 5):
            continue
        ctx.set_line_width(width)
        for across, count, first in directions:
            for k in range(1, count):
                if is_bold(style, k, first, every, count):
                    stroke(across, k)
    if style.centre_lines:
        ctx.set_source_rgb(0.8, 0.1, 0.1)
        ctx.set_line_width(style.bold_width)
        pen.line(x0 + columns // 2 * wide, y0, x0 + columns // 2 * wide, bottom)
        pen.line(x0, y0 + rows // 2 * high, right, y0 + rows // 2 * high)
    ctx.set_source_rgb(*style.bold_colour)
    ctx.set_line_width(style.frame_width)
    ctx.rectangle(x0, y0, right - x0, bottom - y0)
    ctx.stroke()


def edge_words(pen: Pen, style: Style, columns: int, rows: int, x0: float, y0: float) -> None:
    """Numbers, ticks and arrows around the grid."""
    ctx, (wide, high) = pen.ctx, style.cell
    right, bottom, size = x0 + columns * wide, y0 + rows * high, max(5, min(8, wide * 0.8))
    ctx.set_source_rgb(*style.ink)
    ctx.set_line_width(0.6)
    step = 5 if style.numbers == "fives" or style.every == 5 else 10
    for across, count, first in ((True, columns, style.first[0]), (False, rows, style.first[1])):
        for k in range(1, count + 1):
            if not is_bold(style, k, first, step, count):
                continue
            at = x0 + k * wide if across else y0 + k * high
            number = abs(k - count // 2) if style.numbers == "from the centre" else k + first - 1
            if style.numbers != "none" and number:
                pen.text(str(number), *((at, y0 - 4.5) if across else (x0 - 4.5, at + size * 0.35)), size, style.number_font, 0.5 if across else 1)
                if style.both_sides:
                    pen.text(str(number), *((at, bottom + size + 3) if across else (right + 4, at + size * 0.35)), size, style.number_font,
                             0.5 if across else 0)
            if style.ticks and k < count:
                pen.line(*((at, y0 - 3.5, at, y0) if across else (x0 - 3.5, at, x0, at)))
    if style.arrows:
        x, y, s = x0 + columns / 2 * wide, y0 + rows / 2 * high, 4.5
        off = 13 if style.numbers != "none" else 6
        for points in ([(x - s, y0 - off - s), (x + s, y0 - off - s), (x, y0 - off + 2)],
                       [(x0 - off - s - 5, y - s), (x0 - off - s - 5, y + s), (x0 - off - 3, y)]):
            ctx.move_to(*points[0])
            ctx.line_to(*points[1])
            ctx.line_to(*points[2])
            ctx.close_path()
            ctx.fill()


def mark_ink(fill, ink):
    """White or dark by the colour it stands on."""
    if fill is None:
        return ink
    return (1, 1, 1) if 0.3 * fill[0] + 0.59 * fill[1] + 0.11 * fill[2] < 0.5 else BLACK


def marks_in_cells(pen: Pen, style: Style, cells, x0: float, y0: float, fills, shapes) -> None:
    ctx, (wide, high) = pen.ctx, style.cell
    size = min(wide, high) * style.mark_part
    for row, line in enumerate(cells):
        for column, symbol in enumerate(line):
            if symbol < 0 or shapes[symbol] is None:
                continue
            ctx.set_source_rgb(*mark_ink(fills[symbol], style.ink))
            x, y, one = x0 + (column + 0.5) * wide, y0 + (row + 0.5) * high, size
            if style.hand:
                x, y, one = x + pen.rng.normal(0, style.hand) * wide, y + pen.rng.normal(0, style.hand) * high, size * pen.rng.uniform(0.93, 1.07)
            marks.draw(ctx, shapes[symbol], x, y, one, style.mark_pen, style.centred)


def backstitch(pen: Pen, style: Style, lines, x0: float, y0: float, colour) -> None:
    pen.ctx.set_source_rgb(*colour)
    pen.ctx.set_line_width(max(2.2 * style.bold_width * (style.every > 0), 0.17 * min(style.cell), 1.5))
    pen.ctx.set_line_cap(cairo.LINE_CAP_ROUND)
    for x1, y1, x2, y2 in lines:
        pen.ctx.move_to(x0 + x1 * style.cell[0], y0 + y1 * style.cell[1])
        pen.ctx.line_to(x0 + x2 * style.cell[0], y0 + y2 * style.cell[1])
    pen.ctx.stroke()
    pen.ctx.set_line_cap(cairo.LINE_CAP_BUTT)
