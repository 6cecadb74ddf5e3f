"""Draws with cairo, to PDF or straight to a PNG."""

from __future__ import annotations

import math

import cairo

from scene import FONTS, Item, Line, Scene, Shape, Text


def _source(context: cairo.Context, colour) -> None:
    context.set_source_rgb(*(v / 255 for v in colour))


def _draw(context: cairo.Context, item: Item, as_paths: bool) -> None:
    if isinstance(item, Line):
        _source(context, item.colour)
        context.set_line_width(item.width)
        context.set_dash(item.dash)
        context.set_line_cap(cairo.LINE_CAP_ROUND if item.round else cairo.LINE_CAP_BUTT)
        context.move_to(*item.a)
        context.line_to(*item.b)
        context.stroke()
    elif isinstance(item, Shape):
        context.set_fill_rule(cairo.FILL_RULE_EVEN_ODD)
        for contour in item.contours:
            context.move_to(*contour[0])
            for point in contour[1:]:
                context.line_to(*point)
            context.close_path()
        if item.fill:
            _source(context, item.fill)
            context.fill_preserve()
        if item.stroke:
            _source(context, item.stroke)
            context.set_dash(())
            context.set_line_width(item.width)
            context.stroke_preserve()
        context.new_path()
    elif isinstance(item, Text):
        font = FONTS[item.font]
        _source(context, item.colour)
        context.save()
        context.select_font_face(font.family, cairo.FONT_SLANT_NORMAL, cairo.FONT_WEIGHT_BOLD if font.bold else cairo.FONT_WEIGHT_NORMAL)
        context.set_font_size(item.size)
        context.translate(item.x, item.y)
        if item.turned:
            context.rotate(-math.pi / 2)
        context.move_to(0, 0)
        if as_paths:
            context.text_path(item.text)
            context.fill()
        else:
            context.show_text(item.text)
        context.restore()


def write(scene: Scene, path: str, as_paths: bool = False) -> None:
    surface = cairo.PDFSurface(path, scene.width, scene.height)
    surface.set_metadata(cairo.PDF_METADATA_TITLE, scene.title)
    surface.set_metadata(cairo.PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z")
    context = cairo.Context(surface)
    for sheet in scene.sheets:
        for item in sheet:
            _draw(context, item, as_paths)
        context.show_page()
    surface.finish()


def write_outlined(scene: Scene, path: str) -> None:
    """All text as outlines, as when a designer turns fonts into curves for the printer."""
    write(scene, path, True)


def write_png(scene: Scene, path: str, dpi: int) -> None:
    zoom = dpi / 72
    surface = cairo.ImageSurface(cairo.FORMAT_RGB24, round(scene.width * zoom), round(scene.height * zoom))
    context = cairo.Context(surface)
    context.set_source_rgb(1, 1, 1)
    context.paint()
    # The sheet's size is rounded to whole dots, so both directions get their own zoom.
    context.scale(surface.get_width() / scene.width, surface.get_height() / scene.height)
    for item in scene.sheets[0]:
        _draw(context, item, False)
    surface.write_to_png(path)
