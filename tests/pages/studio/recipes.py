"""The pages: each line is one kind of leaf with its producer; what a line leaves open is drawn by chance."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from producers import cairo_draw, pixels, postscript, raw_pdf, rendered, reportlab_draw, svg_draw


@dataclass
class Recipe:
    name: str
    write: Callable
    fill: str                                  # symbols, tinted, blocks, black
    motifs: list[str]
    symbols: tuple[int, int] = (3, 9)
    limit: tuple[int, int] = (90, 110)
    post: bool = False                         # only the printer's own faces
    tweaks: dict = field(default_factory=dict)
    extras: set[str] = field(default_factory=set)


_ALL = ["figures", "mirrored", "band", "letters", "border", "scattered", "quilt", "full"]
_SPARSE = ["figures", "mirrored", "letters", "border", "scattered"]
_GREY = (150, 150, 150)
# Charts ruled so lightly that the stitches must carry the lattice are full or nearly so.
_BARE = {"minor": None, "major": None, "half": None, "frame": [0.6, 1.0], "ticks": True, "numbers": ["tens", "fives"],
         "pitch": [(8, 8), (9.3, 9.3), (11, 11)], "middle_lines": False}

VECTOR = [
    Recipe("magazine-spot", cairo_draw.write, "symbols", _SPARSE),
    Recipe("magazine-full", cairo_draw.write, "symbols", ["full"], (8, 20)),
    Recipe("magazine-tint", cairo_draw.write_outlined, "tinted", ["full", "figures"], (6, 20)),
    Recipe("curves", cairo_draw.write_outlined, "symbols", _ALL, (4, 12)),
    Recipe("curves-letters", cairo_draw.write_outlined, "symbols", _ALL, (4, 14), tweaks={"mark_kind": "letters"}),
    Recipe("printer-letters", raw_pdf.write, "symbols", _ALL, (3, 14), post=True, tweaks={"mark_kind": "letters"}),
    Recipe("printer-signs", raw_pdf.write_packed, "symbols", _ALL, (3, 12), post=True, tweaks={"mark_kind": "pictures"}),
    Recipe("printer-drawn", raw_pdf.write, "symbols", _ALL, (3, 12), post=True, tweaks={"mark_kind": "drawn"}),
    Recipe("printer-blocks", raw_pdf.write_packed, "blocks", ["full", "quilt", "figures"], (3, 10), post=True),
    Recipe("laser-mixed", postscript.write, "symbols", _ALL, (5, 16), post=True),
    Recipe("laser-tint", postscript.write, "tinted", ["full", "border", "figures"], (5, 14), post=True),
    Recipe("laser-dense", postscript.write, "symbols", ["full"], (10, 24), (200, 200), True, {"pitch": [(5.7, 5.7), (6.2, 6.2)]}),
    Recipe("report", reportlab_draw.write, "symbols", _ALL, (3, 12)),
    Recipe("report-tint", reportlab_draw.write, "tinted", _ALL, (4, 18)),
    Recipe("report-blocks", reportlab_draw.write, "blocks", ["full", "quilt", "mirrored", "border"], (3, 12)),
    Recipe("drawing", svg_draw.write, "symbols", _ALL, (3, 10), tweaks={"mark_kind": ["drawn", "pictures"]}),
    Recipe("drawing-tint", svg_draw.write, "tinted", _ALL, (4, 14)),
    Recipe("drawing-blocks", svg_draw.write, "blocks", ["quilt", "figures", "letters"], (2, 8)),
    Recipe("one-colour", cairo_draw.write, "black", ["mirrored", "letters", "band", "border", "figures"], (1, 1)),
    Recipe("one-colour-crosses", svg_draw.write, "symbols", ["mirrored", "letters", "band", "border"], (1, 1),
           tweaks={"mark_kind": "drawn"}),
    Recipe("band", reportlab_draw.write, "symbols", ["band"], (2, 5), (190, 30), tweaks={"paper": [(841.89, 595.28), (1190.55, 500)]}),
    Recipe("tens-only", cairo_draw.write, "symbols", ["full", "quilt"], (4, 10),
           tweaks={"minor": None, "half": None, "major": (0.8, _GREY), "every": 10, "frame": [0.6, 1.0]}),
    Recipe("ticks-only", reportlab_draw.write, "symbols", ["full", "quilt"], (4, 10), tweaks=_BARE),
    Recipe("blocks-bare", cairo_draw.write, "blocks", ["full", "quilt"], (4, 9), tweaks=_BARE),
    Recipe("white-lines", svg_draw.write, "blocks", ["full", "quilt"], (3, 9),
           tweaks={"minor": (0.7, (255, 255, 255), ()), "major": None, "half": None, "middle_lines": False}),
    Recipe("dotted", postscript.write, "symbols", _ALL, (3, 9), post=True, tweaks={"minor": (0.35, (90, 90, 90), (0.7, 1.1))}),
    Recipe("outlined", cairo_draw.write, "symbols", ["figures", "scattered"], (3, 8),
           tweaks={"backstitch": [(1.2, (0, 0, 0)), (1.6, (20, 40, 140))]}),
    Recipe("outlined-tint", reportlab_draw.write, "tinted", ["figures", "border"], (4, 9),
           tweaks={"backstitch": [(1.3, (0, 0, 0)), (1.7, (120, 20, 40))]}),
    Recipe("one-of-several", cairo_draw.write, "symbols", ["full", "figures"], (5, 14), extras={"overlap"},
           tweaks={"key": "own", "numbers": ["tens", "fives"]}),
    Recipe("two-motifs", cairo_draw.write, "symbols", ["figures", "mirrored", "border"], (3, 8), extras={"second"},
           tweaks={"paper": (595.28, 841.89), "key": ["own", "beside", "below"]}),
    Recipe("two-motifs-tint", reportlab_draw.write, "tinted", ["figures", "border", "band"], (3, 8), extras={"second"},
           tweaks={"paper": (612, 792)}),
    Recipe("tiny-squares", cairo_draw.write, "blocks", ["full", "mirrored"], (3, 8), (160, 200), tweaks={"pitch": [(4.2, 4.2), (5, 5)]}),
]

CLEAN = [
    Recipe("poppler", rendered.write_png, "symbols", _ALL, (3, 12)),
    Recipe("poppler-tint", rendered.write_png, "tinted", _ALL, (4, 14)),
    Recipe("poppler-grey", rendered.write_grey, "symbols", _ALL, (3, 10)),
    Recipe("poppler-blocks", rendered.write_png, "blocks", ["full", "quilt", "border"], (3, 9)),
    Recipe("cairo-dots", cairo_draw.write_png, "symbols", _ALL, (3, 12)),
    Recipe("cairo-outlined", cairo_draw.write_png, "symbols", ["figures", "scattered"], (3, 8), tweaks={"backstitch": (1.5, (0, 0, 0))}),
    Recipe("cairo-band", cairo_draw.write_png, "tinted", ["band"], (2, 6), (160, 40), tweaks={"paper": (841.89, 595.28)}),
    Recipe("laser-dots", postscript.write_png, "symbols", _ALL, (3, 12), post=True),
    Recipe("laser-black", postscript.write_dots, "symbols", _ALL, (3, 9), post=True,
           tweaks={"tint": None, "pitch": [(9, 9), (10.6, 10.6), (12.3, 12.3)]}),
    Recipe("laser-one-colour", postscript.write_png, "black", ["mirrored", "letters", "border"], (1, 1), post=True),
    Recipe("web-drawing", svg_draw.write_png, "symbols", _ALL, (3, 10), tweaks={"mark_kind": ["drawn", "pictures"]}),
    Recipe("web-tint", svg_draw.write_png, "tinted", ["full", "figures"], (5, 16)),
    Recipe("editor-hard", pixels.write_png, "blocks", ["figures", "quilt", "letters"], (3, 9)),
    Recipe("editor-soft", pixels.write_soft, "tinted", _ALL, (3, 10)),
    Recipe("editor-signs", pixels.write_soft, "symbols", _ALL, (3, 10)),
    Recipe("editor-palette", pixels.write_palette, "tinted", ["figures", "border", "quilt"], (3, 9)),
]
