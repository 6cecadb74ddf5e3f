"""Drawing surface by cairo: a PDF or a picture. Lengths in points, y grows downwards."""
import cairo
import numpy as np

import fonts

_ANTIALIAS = {"grey": cairo.ANTIALIAS_GRAY, "none": cairo.ANTIALIAS_NONE,
              "best": cairo.ANTIALIAS_BEST, "good": cairo.ANTIALIAS_GOOD}


class CairoCanvas:
    def __init__(self, surface, width, height, scale=1.0, antialias="grey", outlined=False):
        self.width, self.height = width, height
        self._surface = surface
        self._ctx = cairo.Context(surface)
        self._ctx.scale(scale, scale)
        self._ctx.set_antialias(_ANTIALIAS[antialias])
        options = cairo.FontOptions()
        options.set_antialias(cairo.ANTIALIAS_NONE if antialias == "none" else cairo.ANTIALIAS_GRAY)
        options.set_hint_style(cairo.HINT_STYLE_NONE)
        options.set_hint_metrics(cairo.HINT_METRICS_OFF)
        self._ctx.set_font_options(options)
        self._outlined = outlined
        self._font = None
        # A line thinner than a pixel falls between the samples when nothing is smoothed.
        self._least_line = 1.3 / scale if antialias == "none" else 0.0

    @classmethod
    def pdf(cls, path, width, height, outlined=False):
        surface = cairo.PDFSurface(str(path), width, height)
        surface.set_metadata(cairo.PDFMetadata.CREATE_DATE, "2001-01-01T00:00:00")
        return cls(surface, width, height, outlined=outlined)

    @classmethod
    def picture(cls, width, height, dpi, antialias="grey"):
        scale = dpi / 72
        surface = cairo.ImageSurface(cairo.FORMAT_RGB24, round(width * scale),
                                     round(height * scale))
        canvas = cls(surface, width, height, scale, antialias)
        canvas._ctx.set_source_rgb(1, 1, 1)
        canvas._ctx.paint()
        return canvas

    def pixels(self):
        """Height x width x 3, 8 bits."""
        self._surface.flush()
        rows, columns = self._surface.get_height(), self._surface.get_width()
        raw = np.frombuffer(self._surface.get_data(), np.uint8)
        raw = raw.reshape(rows, self._surface.get_stride() // 4, 4)[:, :columns, :3]
        return raw[:, :, ::-1].copy()

    def _ink(self, rgb):
        self._ctx.set_source_rgb(rgb[0] / 255, rgb[1] / 255, rgb[2] / 255)

    def _paint(self, fill, stroke, width):
        if fill is not None:
            self._ink(fill)
            if stroke is None:
                self._ctx.fill()
            else:
                self._ctx.fill_preserve()
        if stroke is not None:
            self._ink(stroke)
            self._ctx.set_line_width(max(width, self._least_line))
            self._ctx.set_dash([])
            self._ctx.stroke()

    def rect(self, x, y, w, h, fill=None, stroke=None, width=0.5):
        self._ctx.rectangle(x, y, w, h)
        self._paint(fill, stroke, width)

    def polygon(self, points, fill=None, stroke=None, width=0.5):
        self._ctx.move_to(*points[0])
        for point in points[1:]:
            self._ctx.line_to(*point)
        self._ctx.close_path()
        self._paint(fill, stroke, width)

    def circle(self, x, y, radius, fill=None, stroke=None, width=0.5):
        self._ctx.new_sub_path()
        self._ctx.arc(x, y, radius, 0, 2 * np.pi)
        self._paint(fill, stroke, width)

    def line(self, x1, y1, x2, y2, width, rgb, dash=None, round_ends=False):
        self._ink(rgb)
        self._ctx.set_line_width(max(width, self._least_line))
        self._ctx.set_dash(dash or [])
        self._ctx.set_line_cap(cairo.LINE_CAP_ROUND if round_ends else cairo.LINE_CAP_BUTT)
        self._ctx.move_to(x1, y1)
        self._ctx.line_to(x2, y2)
        self._ctx.stroke()
        self._ctx.set_line_cap(cairo.LINE_CAP_BUTT)

    def text(self, x, y, text, font, size, rgb=(0, 0, 0), anchor="left"):
        """`y` is the baseline."""
        if anchor != "left":
            x -= fonts.advance(font, text) * size * (0.5 if anchor == "centre" else 1.0)
        if self._font != (font, size):
            face = fonts.FONTS[font]
            self._ctx.select_font_face(
                face.family, cairo.FONT_SLANT_ITALIC if face.italic else cairo.FONT_SLANT_NORMAL,
                cairo.FONT_WEIGHT_BOLD if face.bold else cairo.FONT_WEIGHT_NORMAL)
            self._ctx.set_font_size(size)
            self._font = (font, size)
        self._ink(rgb)
        self._ctx.move_to(x, y)
        if self._outlined:
            self._ctx.text_path(text)
            self._ctx.fill()
        else:
            self._ctx.show_text(text)

    def image(self, x, y, w, h, pixels):
        rows, columns = pixels.shape[:2]
        padded = np.full((rows, columns, 4), 255, np.uint8)
        padded[:, :, :3] = pixels[:, :, ::-1]
        surface = cairo.ImageSurface.create_for_data(padded, cairo.FORMAT_RGB24, columns, rows)
        self._ctx.save()
        self._ctx.translate(x, y)
        self._ctx.scale(w / columns, h / rows)
        self._ctx.set_source_surface(surface, 0, 0)
        self._ctx.get_source().set_filter(cairo.FILTER_NEAREST)
        self._ctx.rectangle(0, 0, columns, rows)
        self._ctx.fill()
        self._ctx.restore()

    def next_page(self):
        self._ctx.show_page()

    def finish(self):
        self._surface.finish()
