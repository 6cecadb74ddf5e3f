"""A page as a list of plain shapes (points, y downwards) that every producer can draw."""

from __future__ import annotations

import functools
from dataclasses import dataclass, field

from PIL import ImageFont

Colour = tuple[int, int, int]
Point = tuple[float, float]
BLACK: Colour = (0, 0, 0)
WHITE: Colour = (255, 255, 255)


@dataclass(frozen=True)
class Font:
    """One face: where it lies, and what the producers call it. `post` is set for the faces every printer has."""

    path: str
    family: str
    bold: bool = False
    post: str = ""


_TTF = "/usr/share/fonts/truetype/"
_URW = "/usr/share/fonts/opentype/urw-base35/"
FONTS: dict[str, Font] = {
    "dejavu": Font(_TTF + "dejavu/DejaVuSans.ttf", "DejaVu Sans"),
    "dejavu-bold": Font(_TTF + "dejavu/DejaVuSans-Bold.ttf", "DejaVu Sans", True),
    "dejavu-serif": Font(_TTF + "dejavu/DejaVuSerif.ttf", "DejaVu Serif"),
    "dejavu-mono": Font(_TTF + "dejavu/DejaVuSansMono.ttf", "DejaVu Sans Mono"),
    "plain": Font(_TTF + "liberation/LiberationSans-Regular.ttf", "Liberation Sans"),
    "plain-bold": Font(_TTF + "liberation/LiberationSans-Bold.ttf", "Liberation Sans", True),
    "book": Font(_TTF + "liberation/LiberationSerif-Regular.ttf", "Liberation Serif"),
    "mono": Font(_TTF + "liberation/LiberationMono-Regular.ttf", "Liberation Mono"),
    "free": Font(_TTF + "freefont/FreeSerif.ttf", "FreeSerif"),
    "free-sans": Font(_TTF + "freefont/FreeSans.ttf", "FreeSans"),
    "symbola": Font(_TTF + "ancient-scripts/Symbola_hint.ttf", "Symbola"),
    "helv": Font(_URW + "NimbusSans-Regular.otf", "Nimbus Sans", post="Helvetica"),
    "helv-bold": Font(_URW + "NimbusSans-Bold.otf", "Nimbus Sans", True, "Helvetica-Bold"),
    "times": Font(_URW + "NimbusRoman-Regular.otf", "Nimbus Roman", post="Times-Roman"),
    "courier": Font(_URW + "NimbusMonoPS-Regular.otf", "Nimbus Mono PS", post="Courier"),
    "dings": Font(_URW + "D050000L.otf", "D050000L", post="ZapfDingbats"),
}
# Where the printer's pictograph face keeps its signs: the two runs of its own encoding.
DING_CODES = {0x2701 + k: 0x21 + k for k in range(0x5E)} | {0x2761 + k: 0xA1 + k for k in range(0x5E)}
DING_CODES |= {0x25CF: 0x6C, 0x25A0: 0x6E, 0x25B2: 0x73, 0x25BC: 0x74, 0x25C6: 0x75, 0x2756: 0x76, 0x25D7: 0x77, 0x2605: 0x48,
                0x260E: 0x25, 0x261B: 0x2A, 0x261E: 0x2B}
_MEASURE = 200


@functools.lru_cache(maxsize=None)
def _face(font: str) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(FONTS[font].path, _MEASURE, layout_engine=ImageFont.Layout.BASIC)


def _coded(font: str, text: str) -> str:
    """The pictograph face knows its signs only by its own codes."""
    return "".join(chr(DING_CODES.get(ord(c), ord(c))) for c in text) if font == "dings" else text


@functools.lru_cache(maxsize=None)
def ink_box(font: str, text: str) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of the ink from the pen on the baseline, for size 1."""
    mask, (x, y) = _face(font).getmask2(_coded(font, text), mode="L", anchor="ls")
    box = mask.getbbox() or (0, 0, 0, 0)
    return (box[0] + x) / _MEASURE, (box[1] + y) / _MEASURE, (box[2] + x) / _MEASURE, (box[3] + y) / _MEASURE


@functools.lru_cache(maxsize=None)
def advance(font: str, text: str) -> float:
    return _face(font).getlength(_coded(font, text)) / _MEASURE


@dataclass
class Line:
    a: Point
    b: Point
    width: float
    colour: Colour = BLACK
    dash: tuple[float, ...] = ()
    round: bool = False


@dataclass
class Shape:
    """Closed contours, filled even-odd and/or stroked."""

    contours: list[list[Point]]
    fill: Colour | None = None
    stroke: Colour | None = None
    width: float = 0.5


@dataclass
class Text:
    """A run of text; (x, y) is the pen on the baseline. `turned` runs upwards."""

    x: float
    y: float
    size: float
    text: str
    font: str
    colour: Colour = BLACK
    turned: bool = False


Item = Line | Shape | Text


@dataclass
class Scene:
    """Sheets of one document; all have one size in points."""

    width: float
    height: float
    title: str = ""
    sheets: list[list[Item]] = field(default_factory=lambda: [[]])

    def add(self, *items: Item) -> None:
        self.sheets[-1].extend(items)

    def rect(self, x: float, y: float, w: float, h: float, fill: Colour | None = None,
             stroke: Colour | None = None, width: float = 0.5) -> None:
        self.add(Shape([[(x, y), (x + w, y), (x + w, y + h), (x, y + h)]], fill, stroke, width))

    def text(self, x: float, y: float, size: float, text: str, font: str, colour: Colour = BLACK,
             align: float = 0.0, turned: bool = False) -> None:
        """`align` 0 starts at x, 0.5 is centred on it, 1 ends there."""
        shift = advance(font, text) * size * align
        self.add(Text(x, y + shift, size, text, font, colour, True) if turned
                 else Text(x - shift, y, size, text, font, colour))
