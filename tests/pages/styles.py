"""How a chart page looks: a plain list of choices, most of them drawn from the seed."""
import colorsys
from dataclasses import dataclass, field, fields

import fonts
import symbols as marks
from symbols import BLACK, WHITE, Symbol

A4, LETTER = (595.28, 841.89), (612.0, 792.0)
COLOURED_MODES = ("fill symbols", "fills", "similar fills", "pale fills")
PLAIN_BLACK = ("filled cells", "filled squares", "filled dots")


@dataclass
class Style:
    engine: str = "cairo"
    outlined: bool = False
    paper: str = "A4"
    landscape: bool = False
    columns: int = 50
    rows: int = 50
    pitch: float = 8.0          # points; smaller when the page is too small
    least_pitch: float = 4.0
    aspect: float = 1.0         # height of a cell / width
    mode: str = "glyphs"
    count: int = 12
    size: float = 0.7
    centring: str = "ink"
    content: str = "patches"
    coverage: str = "bare"
    thin_width: float = 0.25
    thin_rgb: tuple = BLACK
    dash: list = None
    broken: bool = False
    thin: bool = True
    every: int = 10             # 0: no bold lines
    bold_width: float = 0.9
    bold_rgb: tuple = BLACK
    border: float = 0.9         # 0: no outer lines
    hidden: bool = False        # thin lines lie under the coloured cells
    numbers: str = "ten two"    # none, ten two, ten four, each
    centre: str = "none"        # none, arrows, red lines
    legend: str = "below"       # none, below, right
    legend_columns: int = 2
    legend_ruled: bool = False
    titled: bool = True
    footer: bool = True
    picture: bool = False
    second: bool = False
    backstitch: bool = False
    line_width: float = 1.4
    line_rgb: tuple = BLACK
    font: str = "liberation"
    first_column: int = 1
    first_row: int = 1
    notes: list = field(default_factory=list)

    def page(self):
        w, h = A4 if self.paper == "A4" else LETTER
        return (h, w) if self.landscape else (w, h)

    def words(self):
        said = [self.engine, self.paper, "landscape" if self.landscape else "portrait", self.mode,
                self.content, self.coverage, "numbers " + self.numbers, "legend " + self.legend]
        for on, word in [(self.outlined, "outlined text"), (self.dash, "dashed lines"),
                         (self.broken, "broken lines"), (not self.thin, "no thin lines"),
                         (self.thin_rgb != BLACK, "coloured or grey lines"),
                         (self.every == 0, "no bold lines"), (self.every == 5, "bold every five"),
                         (self.border == 0, "no border"), (self.border > 1.5, "heavy border"),
                         (self.hidden, "lines under colour"),
                         (self.centre != "none", "centre " + self.centre),
                         (self.picture, "picture"), (self.second, "second grid"),
                         (self.backstitch, "backstitch"), (self.aspect != 1.0, "oblong cells"),
                         (self.legend_ruled and self.legend != "none", "ruled legend")]:
            if on:
                said.append(word)
        return ", ".join(said + self.notes)


def _grey(share):
    return (round(255 * share),) * 3


def random_style(rng, careful, fixed):
    """`careful` keeps to what survives a bad scan; `fixed` names the choices that stand."""
    style = Style()
    style.engine = rng.choice(["cairo", "reportlab"])
    style.outlined = style.engine == "cairo" and rng.random() < 0.25
    style.paper = rng.choice(["A4", "Letter"])
    style.landscape = rng.random() < 0.35
    style.columns, style.rows = rng.randint(20, 90), rng.randint(15, 90)
    style.pitch = rng.uniform(4.5, 11)
    style.aspect = rng.choice([1.0] * 11 + [0.87])
    style.mode = rng.choice(["glyphs"] * 4 + ["shapes"] * 3 + ["mixed"] * 3 + ["fill symbols"] * 4
                            + ["fills"] * 2 + ["ink"] * 2 + list(PLAIN_BLACK))
    style.count = rng.choice([3, 6, 9, 14, 20, 28, 40])
    style.size = rng.uniform(0.5, 0.9) if not careful else rng.uniform(0.62, 0.85)
    style.centring = rng.choice(["ink", "baseline"])
    style.content = rng.choice(["patches", "motif", "confetti", "mixed"])
    style.coverage = rng.choice(["full", "bare", "bare"])
    style.thin_width = rng.choice([0.2, 0.25, 0.4, 0.5])
    style.thin_rgb = rng.choice([BLACK, BLACK, _grey(0.3), _grey(0.5), _grey(0.62), _grey(0.7),
                                 (60, 110, 200), (200, 90, 90)])
    style.dash = rng.choice([None] * 6 + [[1.0, 1.0], [2.0, 1.0]])
    style.broken = rng.random() < 0.08
    style.every = rng.choice([10] * 6 + [5, 0])
    style.bold_width = rng.uniform(0.6, 1.1)
    style.bold_rgb = rng.choice([BLACK] * 4 + [(30, 60, 170), (170, 30, 40), _grey(0.35)])
    style.border = rng.choice([0.5, 0.9, 0.9, 1.8, 2.5, 0])
    style.hidden = rng.random() < 0.25
    style.numbers = rng.choice(["none", "ten two", "ten two", "ten four", "each"])
    style.centre = rng.choice(["none", "none", "arrows", "red lines"])
    style.legend = rng.choice(["below", "below", "right", "none"])
    style.legend_columns = rng.choice([1, 2, 3])
    style.legend_ruled = rng.random() < 0.35
    style.titled, style.footer = rng.random() < 0.85, rng.random() < 0.7
    style.picture, style.second = rng.random() < 0.2, rng.random() < 0.12
    style.backstitch = rng.random() < 0.18
    style.line_width = rng.uniform(1.3, 2.0)
    style.line_rgb = rng.choice([BLACK, (150, 20, 30), (20, 60, 150), (90, 50, 20)])
    style.font = rng.choice(fonts.BODY_FONTS)
    if careful:
        style.least_pitch = 4.6
        style.thin_width = max(style.thin_width, 0.3)
    known = {f.name for f in fields(Style)}
    for name, value in fixed.items():
        if name in known:
            setattr(style, name, value)
    if style.mode in PLAIN_BLACK:
        style.count = 1
    if style.count == 1:
        style.coverage = "bare"
    if style.backstitch:  # nothing else on the page looks like a thick coloured line
        style.bold_rgb = BLACK
        style.centre = "arrows" if style.centre == "red lines" else style.centre
    if style.mode in ("fills", "similar fills", "pale fills"):
        style.count = min(style.count, 20)
        if not style.thin:
            style.coverage, style.border = "full", max(style.border, 0.9)
    if style.mode in COLOURED_MODES and style.coverage == "full" and style.hidden:
        style.every = style.every or 10
    style.line_width = max(style.line_width, style.bold_width * 1.6)
    if style.outlined:
        style.engine = "cairo"
    return style


def _lab(rgb):
    linear = [v / 255 / 12.92 if v / 255 <= 0.04045 else ((v / 255 + 0.055) / 1.055) ** 2.4
              for v in rgb]
    m = [(0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505)]
    xyz = [sum(a * b for a, b in zip(row, linear)) for row in m]
    f = [t ** (1 / 3) if t > 0.008856 else 7.787 * t + 16 / 116
         for t in (xyz[0] / 0.9505, xyz[1], xyz[2] / 1.089)]
    return 116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])


def delta_e(one, other):
    """CIE 1976 difference of two sRGB colours, D65; near enough to keep colours apart."""
    return sum((a - b) ** 2 for a, b in zip(_lab(one), _lab(other))) ** 0.5


def choose_colours(rng, count, mode, careful):
    """Colours of cells, no two nearer than about 8 (16 when careful); none is like the paper."""
    least = 16 if careful else 8
    found, tries = [], 0
    base = rng.random()
    while len(found) < count and tries < 6000:
        tries += 1
        h, s, v = rng.random(), rng.uniform(0.2, 0.95), rng.uniform(0.2, 1.0)
        if mode == "similar fills":
            h = (base + rng.uniform(-0.08, 0.08)) % 1
        elif mode == "pale fills":
            s, v = rng.uniform(0.03, 0.25), rng.uniform(0.9, 1.0)
        rgb = tuple(round(255 * c) for c in colorsys.hsv_to_rgb(h, s, v))
        apart = 5 if mode == "pale fills" else least
        if delta_e(rgb, WHITE) < (5 if mode == "pale fills" else 14):
            continue
        if mode == "similar fills" and found and rng.random() < 0.5:
            if min(delta_e(rgb, c) for c in found) > 11:
                continue
        if all(delta_e(rgb, c) >= apart for c in found):
            found.append(rgb)
    return found


def _glyph_symbols(rng, count, engine):
    pools = rng.sample(list(marks.GLYPH_POOLS), rng.randint(2, 5))
    letters = rng.choice(_letter_fonts(engine))
    options = []
    for pool in pools:
        font = rng.choice(marks.POOL_FONTS[pool]) if pool in marks.POOL_FONTS else letters
        options += [(c, font) for c in marks.GLYPH_POOLS[pool] if fonts.has_glyph(font, c)]
    rng.shuffle(options)
    return [Symbol("glyph", c, f) for c, f in options[:count * 2]]


def _letter_fonts(engine):
    return [f for f in marks.LETTER_FONTS
            if engine == "cairo" or fonts.FONTS[f].outlines == "truetype"]


def _hard_glyphs(rng, count, engine):
    letters = rng.choice(_letter_fonts(engine))
    groups = list(marks.HARD_GLYPHS)
    rng.shuffle(groups)
    found = []
    for group in groups:
        for c in group:
            font = letters if fonts.has_glyph(letters, c) else "dejavu"
            if fonts.has_glyph(font, c) and all(s.what != c for s in found):
                found.append(Symbol("glyph", c, font))
    return found[:max(count, 8)]


def _hard_shapes(rng, count):
    groups = list(marks.HARD_SHAPES)
    rng.shuffle(groups)
    names = list(dict.fromkeys(n for group in groups for n in group))
    return [Symbol("shape", n) for n in names[:max(count, 8)]]


def _plain_shapes(rng, count):
    return [Symbol("shape", n) for n in rng.sample(list(marks.SHAPES),
                                                   min(len(marks.SHAPES), count * 2))]


def choose_symbols(rng, style, careful):
    """The chart's symbols, at most `style.count`; sets colours, sizes, codes and names."""
    mode, count = style.mode, style.count
    colours = []
    if mode == "filled cells":
        found = [Symbol("full", "filled cell")]
    elif mode in PLAIN_BLACK:
        found = [Symbol("shape", "filled square" if mode == "filled squares" else "filled circle")]
    elif mode in ("fills", "similar fills", "pale fills"):
        colours = choose_colours(rng, count, mode, careful)
        found = [Symbol("none", "colour only", fill=c) for c in colours]
    elif mode == "shapes":
        found = _plain_shapes(rng, count)
    elif mode == "hard shapes":
        found = _hard_shapes(rng, count)
    elif mode == "hard glyphs":
        found = _hard_glyphs(rng, count, style.engine)
    elif mode == "mixed":
        found = _glyph_symbols(rng, count // 2 + 1, style.engine) + _plain_shapes(rng, count // 2)
        rng.shuffle(found)
    else:
        found = _glyph_symbols(rng, count, style.engine)
    if mode == "fill symbols":
        colours = choose_colours(rng, len(found), "fills", False)
        found = found[:len(colours)]
        for symbol, colour in zip(found, colours):
            symbol.fill = colour
            symbol.ink = BLACK if _lab(colour)[0] > 55 else WHITE
    if mode == "ink":
        inks = [c for c in choose_colours(rng, 40, "fills", careful) if _lab(c)[0] < 62]
        for i, symbol in enumerate(found):
            symbol.ink = inks[i % len(inks)]
    for symbol in found:
        symbol.size = style.size
    marks.seat_glyphs(found, style.size, style.centring)
    least, blur = (0.035, 3.0) if careful else (0.012, 1.5)
    if careful and mode.startswith("hard"):  # these pages have large cells and little blur
        least, blur = 0.02, 2.0
    found = marks.keep_distinct(found, least, blur)
    found = found[:count] if mode not in ("hard glyphs", "hard shapes") else found[:max(8, count)]
    _name(rng, found)
    return found


_PREFIXES = ["HB", "TQ", "LW", "RK", "OS", "VN"]
_FIRST = ["Tide", "Lamp", "Moss", "Slate", "Plum", "Rust", "Straw", "Cloud", "Brick", "Fern",
          "Pebble", "Sorrel", "Ink", "Quince", "Heather", "Loam", "Frost", "Kelp", "Ember", "Bark"]
_SECOND = ["blue", "grey", "green", "rose", "gold", "brown", "white", "red", "violet", "cream"]


def _name(rng, found):
    prefix = rng.choice(_PREFIXES)
    codes = rng.sample(range(10, 990), len(found))
    names = rng.sample([a + " " + b for a in _FIRST for b in _SECOND], len(found))
    for symbol, code, name in zip(found, codes, names):
        symbol.code, symbol.name = "%s %d" % (prefix, code), name
        symbol.strands = rng.choice([1, 2, 2, 3])
