"""Drawing surface by reportlab: a PDF with selectable text. Points, y grows downwards."""
from PIL import Image
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

import fonts


class ReportlabCanvas:
    def __init__(self, path, width, height):
        self.width, self.height = width, height
        self._page = Canvas(str(path), pagesize=(width, height), invariant=1)
        self._font = None

    def _paint_ink(self, fill, stroke, width):
        if fill is not None:
            self._page.setFillColorRGB(*[v / 255 for v in fill])
        if stroke is not None:
            self._page.setStrokeColorRGB(*[v / 255 for v in stroke])
            self._page.setLineWidth(width)
            self._page.setDash()
        return {"fill": int(fill is not None), "stroke": int(stroke is not None)}

    def rect(self, x, y, w, h, fill=None, stroke=None, width=0.5):
        how = self._paint_ink(fill, stroke, width)
        self._page.rect(x, self.height - y - h, w, h, **how)

    def polygon(self, points, fill=None, stroke=None, width=0.5):
        how = self._paint_ink(fill, stroke, width)
        path = self._page.beginPath()
        path.moveTo(points[0][0], self.height - points[0][1])
        for x, y in points[1:]:
            path.lineTo(x, self.height - y)
        path.close()
        self._page.drawPath(path, **how)

    def circle(self, x, y, radius, fill=None, stroke=None, width=0.5):
        how = self._paint_ink(fill, stroke, width)
        self._page.circle(x, self.height - y, radius, **how)

    def line(self, x1, y1, x2, y2, width, rgb, dash=None, round_ends=False):
        self._page.setStrokeColorRGB(*[v / 255 for v in rgb])
        self._page.setLineWidth(width)
        self._page.setLineCap(1 if round_ends else 0)
        if dash:
            self._page.setDash(*[list(dash)])
        else:
            self._page.setDash()
        self._page.line(x1, self.height - y1, x2, self.height - y2)
        self._page.setLineCap(0)

    def text(self, x, y, text, font, size, rgb=(0, 0, 0), anchor="left"):
        """`y` is the baseline."""
        if anchor != "left":
            x -= fonts.advance(font, text) * size * (0.5 if anchor == "centre" else 1.0)
        self._page.setFillColorRGB(*[v / 255 for v in rgb])
        if self._font != (font, size):
            self._page.setFont(fonts.reportlab_name(font), size)
            self._font = (font, size)
        self._page.drawString(x, self.height - y, text)

    def image(self, x, y, w, h, pixels):
        self._page.drawImage(ImageReader(Image.fromarray(pixels)), x, self.height - y - h, w, h)

    def next_page(self):
        self._page.showPage()
        self._font = None

    def finish(self):
        self._page.save()
