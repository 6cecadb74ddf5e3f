"""Fonts of the printed pages: where they lie, how wide and how tall their glyphs are.

Sizes are in em (1.0 = the font size); y grows downwards from the baseline."""
from dataclasses import dataclass
from functools import lru_cache

from PIL import ImageFont
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

_TRUETYPE = "/usr/share/fonts/truetype/"
_EM = 1000


@dataclass(frozen=True)
class Font:
    key: str
    family: str
    path: str
    bold: bool = False
    italic: bool = False
    outlines: str = "truetype"  # reportlab embeds TrueType outlines only


FONTS = {f.key: f for f in [
    Font("dejavu", "DejaVu Sans", _TRUETYPE + "dejavu/DejaVuSans.ttf"),
    Font("dejavu-bold", "DejaVu Sans", _TRUETYPE + "dejavu/DejaVuSans-Bold.ttf", bold=True),
    Font("dejavu-mono", "DejaVu Sans Mono", _TRUETYPE + "dejavu/DejaVuSansMono.ttf"),
    Font("dejavu-serif", "DejaVu Serif", _TRUETYPE + "dejavu/DejaVuSerif.ttf"),
    Font("liberation", "Liberation Sans", _TRUETYPE + "liberation/LiberationSans-Regular.ttf"),
    Font("liberation-bold", "Liberation Sans", _TRUETYPE + "liberation/LiberationSans-Bold.ttf",
         bold=True),
    Font("liberation-serif", "Liberation Serif",
         _TRUETYPE + "liberation/LiberationSerif-Regular.ttf"),
    Font("liberation-serif-italic", "Liberation Serif",
         _TRUETYPE + "liberation/LiberationSerif-Italic.ttf", italic=True),
    Font("liberation-mono", "Liberation Mono", _TRUETYPE + "liberation/LiberationMono-Regular.ttf"),
    Font("liberation-narrow", "Liberation Sans Narrow",
         _TRUETYPE + "liberation/LiberationSansNarrow-Regular.ttf"),
    Font("freesans", "FreeSans", _TRUETYPE + "freefont/FreeSans.ttf"),
    Font("freeserif", "FreeSerif", _TRUETYPE + "freefont/FreeSerif.ttf"),
    Font("freemono-bold", "FreeMono", _TRUETYPE + "freefont/FreeMonoBold.ttf", bold=True),
    Font("symbola", "Symbola", _TRUETYPE + "ancient-scripts/Symbola_hint.ttf"),
    Font("noto-symbols", "Noto Sans Symbols2", _TRUETYPE + "noto/NotoSansSymbols2-Regular.ttf"),
    Font("inter", "Inter", "/usr/share/fonts/opentype/inter/Inter-Regular.otf", outlines="cff"),
]}
BODY_FONTS = ["liberation", "dejavu", "liberation-serif", "freesans", "liberation-narrow",
              "dejavu-serif"]


@lru_cache(maxsize=None)
def _face(key):
    return ImageFont.truetype(FONTS[key].path, _EM, layout_engine=ImageFont.Layout.BASIC)


@lru_cache(maxsize=None)
def reportlab_name(key):
    pdfmetrics.registerFont(TTFont(key, FONTS[key].path))
    return key


@lru_cache(maxsize=None)
def has_glyph(key, text):
    font = FONTS[key]
    if font.outlines == "cff":
        return all(33 <= ord(c) < 127 for c in text)
    reportlab_name(key)
    return all(ord(c) in pdfmetrics.getFont(key).face.charToGlyph for c in text)


@lru_cache(maxsize=None)
def ink_box(key, text):
    """(left, top, right, bottom) of the ink, in em from the origin on the baseline."""
    return tuple(v / _EM for v in _face(key).getbbox(text, anchor="ls"))


@lru_cache(maxsize=None)
def advance(key, text):
    return _face(key).getlength(text) / _EM
