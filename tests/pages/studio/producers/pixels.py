"""Draws a scene with PIL straight into dots, without or with soft edges, as image editors do."""

from __future__ import annotations

from PIL import Image, ImageChops, ImageDraw, ImageFont

from scene import FONTS, Line, Scene, Shape, Text


def _picture(scene: Scene, dpi: float) -> Image.Image:
    zoom = dpi / 72
    image = Image.new("RGB", (round(scene.width * zoom), round(scene.height * zoom)), "white")
    draw = ImageDraw.Draw(image)
    at = lambda p: (p[0] * zoom, p[1] * zoom)
    dot = lambda p: (round(p[0] * zoom), round(p[1] * zoom))
    for item in scene.sheets[0]:
        if isinstance(item, Line):
            draw.line([dot(item.a), dot(item.b)], fill=item.colour, width=max(1, round(item.width * zoom)))
        elif isinstance(item, Shape):
            if item.fill and len(item.contours) > 1:
                _even_odd(image, item, at)
            elif item.fill:
                _fill(draw, item, dot, at)
            if item.stroke:
                for contour in item.contours:
                    draw.line([at(p) for p in contour + contour[:1]], fill=item.stroke, width=max(1, round(item.width * zoom)), joint="curve")
        elif isinstance(item, Text) and not item.turned:
            face = ImageFont.truetype(FONTS[item.font].path, max(5, round(item.size * zoom)), layout_engine=ImageFont.Layout.BASIC)
            draw.text(dot((item.x, item.y)), item.text, font=face, fill=item.colour, anchor="ls")
    return image


def _fill(draw: ImageDraw.ImageDraw, item: Shape, dot, at) -> None:
    (contour,) = item.contours
    (x1, y1), (x2, y2) = contour[0], contour[len(contour) // 2]
    if len(contour) == 4 and contour[1] == (x2, y1) and contour[3] == (x1, y2):
        # Whole dots up to the neighbour's first one, so that cells touch and never overlap.
        left, top = dot((min(x1, x2), min(y1, y2)))
        right, bottom = dot((max(x1, x2), max(y1, y2)))
        draw.rectangle([left, top, max(left, right - 1), max(top, bottom - 1)], fill=item.fill)
    else:
        draw.polygon([at(p) for p in contour], fill=item.fill)


def _even_odd(image: Image.Image, item: Shape, at) -> None:
    points = [at(p) for contour in item.contours for p in contour]
    left, top = int(min(p[0] for p in points)) - 1, int(min(p[1] for p in points)) - 1
    size = int(max(p[0] for p in points)) + 2 - left, int(max(p[1] for p in points)) + 2 - top
    mask = Image.new("1", size)
    for contour in item.contours:
        one = Image.new("1", size)
        ImageDraw.Draw(one).polygon([(x - left, y - top) for x, y in map(at, contour)], fill=1)
        mask = ImageChops.logical_xor(mask, one)
    image.paste(item.fill, (left, top), mask)


def write_png(scene: Scene, path: str, dpi: int) -> None:
    _picture(scene, dpi).save(path, dpi=(dpi, dpi))


def write_soft(scene: Scene, path: str, dpi: int) -> None:
    """Drawn twice as fine and scaled down."""
    image = _picture(scene, 2 * dpi)
    image.resize((round(scene.width * dpi / 72), round(scene.height * dpi / 72)), Image.Resampling.LANCZOS).save(path, dpi=(dpi, dpi))


def write_palette(scene: Scene, path: str, dpi: int) -> None:
    """In 64 colours of one table, as pictures sent by mail were saved."""
    _picture(scene, dpi).quantize(64, dither=Image.Dither.NONE).save(path, dpi=(dpi, dpi))
