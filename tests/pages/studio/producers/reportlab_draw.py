"""Draws with reportlab; fonts are embedded as subsets."""

from __future__ import annotations

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import FILL_EVEN_ODD, Canvas

from scene import FONTS, Line, Scene, Shape, Text


def _font(name: str) -> str:
    font = FONTS[name]
    if font.post:
        return font.post
    if name not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(TTFont(name, font.path))
    return name


def write(scene: Scene, path: str) -> None:
    canvas = Canvas(path, (scene.width, scene.height), bottomup=1, invariant=1, initialFontName="Helvetica")
    canvas.setTitle(scene.title)
    flip = lambda p: (p[0], scene.height - p[1])
    for sheet in scene.sheets:
        for item in sheet:
            if isinstance(item, Line):
                canvas.setStrokeColorRGB(*(v / 255 for v in item.colour))
                canvas.setLineWidth(item.width)
                canvas.setDash(*([list(item.dash)] if item.dash else []))
                canvas.setLineCap(1 if item.round else 0)
                canvas.line(*flip(item.a), *flip(item.b))
            elif isinstance(item, Shape):
                shape = canvas.beginPath()
                for contour in item.contours:
                    shape.moveTo(*flip(contour[0]))
                    for point in contour[1:]:
                        shape.lineTo(*flip(point))
                    shape.close()
                if item.fill:
                    canvas.setFillColorRGB(*(v / 255 for v in item.fill))
                if item.stroke:
                    canvas.setStrokeColorRGB(*(v / 255 for v in item.stroke))
                    canvas.setLineWidth(item.width)
                    canvas.setDash()
                canvas.drawPath(shape, int(item.stroke is not None), int(item.fill is not None), FILL_EVEN_ODD)
            elif isinstance(item, Text):
                canvas.setFillColorRGB(*(v / 255 for v in item.colour))
                canvas.setFont(_font(item.font), item.size)
                canvas.saveState()
                canvas.translate(*flip((item.x, item.y)))
                canvas.rotate(90 if item.turned else 0)
                canvas.drawString(0, 0, item.text)
                canvas.restoreState()
        canvas.showPage()
    canvas.save()
