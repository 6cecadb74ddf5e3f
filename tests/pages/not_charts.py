"""Pages and files that are no chart: a tracer must say so, quickly and in one clear line."""
import io
import struct
import subprocess
import zlib

import numpy as np
from PIL import Image

import styles
from draw_cairo import CairoCanvas
from draw_reportlab import ReportlabCanvas
from symbols import BLACK

_WORDS = ("the river kept its colour all autumn and nobody in the lane could say why so we "
          "walked out with jars and lamps to count the boats that came home before dark while "
          "bread cooled on the sill and the old dog slept by a gate of painted wood").split()


def _paragraph(rng, canvas, x, y, width, lines, size=10, font="liberation-serif"):
    for _ in range(lines):
        said, used = "", 0
        while used < width - 40:
            said += rng.choice(_WORDS) + " "
            used = len(said) * size * 0.45
        canvas.text(x, y, said.strip().capitalize(), font, size)
        y += size * 1.35
    return y + size


def _letter(rng, path):
    canvas = ReportlabCanvas(path, *styles.A4)
    canvas.text(70, 80, "Dear Pell,", "liberation-serif", 12)
    y = 110
    for _ in range(5):
        y = _paragraph(rng, canvas, 70, y, 440, rng.randint(4, 8))
    canvas.text(70, y, "Yours, Ansa", "liberation-serif", 12)
    canvas.finish()
    return "a letter of five paragraphs"


def _invoice(rng, path):
    canvas = CairoCanvas.pdf(path, *styles.A4)
    canvas.text(60, 70, "Invoice 4711", "dejavu-bold", 18)
    _paragraph(rng, canvas, 60, 100, 300, 3, 9, "dejavu")
    stops = [60, 100, 330, 400, 470, 535]
    top, row, count = 180, 20, 9
    for i in range(count + 1):
        canvas.line(60, top + i * row, 535, top + i * row, 0.6, BLACK)
    for x in stops:
        canvas.line(x, top, x, top + count * row, 0.6, BLACK)
    for i in range(count):
        for x, word in zip(stops, [str(i + 1), " ".join(rng.sample(_WORDS, 4)),
                                   str(rng.randint(1, 9)), "%.2f" % rng.uniform(1, 60),
                                   "%.2f" % rng.uniform(1, 400)]):
            canvas.text(x + 4, top + i * row + 14, word, "dejavu", 8)
    _paragraph(rng, canvas, 60, top + count * row + 40, 420, 6, 9, "dejavu")
    canvas.finish()
    return "an invoice with a ruled table of 5 columns and 9 rows"


def _photograph(rng, path):
    numbers = np.random.default_rng(rng.getrandbits(64))
    h, w = 1500, 2100
    total = np.zeros((h, w, 3), np.float32)
    for coarse, weight in ((500, 120), (160, 60), (40, 20), (8, 8)):
        for band in range(3):
            small = numbers.random((h // coarse + 3, w // coarse + 3)).astype(np.float32)
            big = Image.fromarray(small).resize((w, h), Image.Resampling.BICUBIC)
            total[:, :, band] += np.asarray(big) * weight
    total += numbers.standard_normal((h, w, 1)).astype(np.float32) * 4
    Image.fromarray(np.clip(total, 0, 255).astype(np.uint8)).save(path, "JPEG", quality=85)
    return "a picture of soft coloured clouds, like a photograph out of focus"


def _empty(rng, path):
    canvas = ReportlabCanvas(path, *styles.A4)
    canvas.next_page()
    canvas.finish()
    return "one empty page"


def _notebook(rng, path):
    canvas = CairoCanvas.picture(*styles.A4, 200)
    for i in range(28):
        canvas.line(0, 70 + i * 25, 595, 70 + i * 25, 0.5, (120, 150, 210))
    canvas.line(70, 0, 70, 842, 0.7, (210, 80, 80))
    _paragraph(rng, canvas, 80, 92, 380, 3, 14, "liberation-serif-italic")
    Image.fromarray(canvas.pixels()).save(path, dpi=(200, 200))
    return "ruled notebook paper with a margin line and three lines of writing"


def _graph_paper(rng, path):
    canvas = CairoCanvas.picture(*styles.A4, 300)
    for i in range(61):
        canvas.line(50 + i * 8, 60, 50 + i * 8, 60 + 80 * 8, 0.9 if i % 10 == 0 else 0.3, BLACK)
    for j in range(81):
        canvas.line(50, 60 + j * 8, 50 + 480, 60 + j * 8, 0.9 if j % 10 == 0 else 0.3, BLACK)
    Image.fromarray(canvas.pixels()).save(path, dpi=(300, 300))
    return "empty graph paper, 60 x 80 squares: it is a grid, with nothing on it"


def _cut_short(rng, path):
    _letter(rng, path)
    whole = path.read_bytes()
    path.write_bytes(whole[:len(whole) * 2 // 5])
    return "a PDF cut off after two fifths of its bytes"


def _locked(rng, path):
    _letter(rng, path)
    open_one = path.with_suffix(".open")
    path.rename(open_one)
    # The steady id and start values are for sameness only; the page holds nothing secret.
    subprocess.run(["qpdf", "--static-id", "--static-aes-iv", "--encrypt", "hedge", "gate", "128",
                    "--use-aes=y", "--", str(open_one), str(path)], check=True,
                   capture_output=True)
    open_one.unlink()
    return "a PDF that asks for a password"


def _zero(rng, path):
    path.write_bytes(b"")
    return "a file of no bytes"


def _text_as_png(rng, path):
    path.write_text("This is a shopping list, not a picture.\nlinen, needles, lamp oil\n")
    return "plain text with the ending .png"


def _huge(rng, path):
    """10000 x 10000, one bit, written without ever holding the picture."""
    side = 10000
    line = b"\x00" + b"\xff" * (side // 8)
    packer, body = zlib.compressobj(9), io.BytesIO()
    for _ in range(side):
        body.write(packer.compress(line))
    body.write(packer.flush())
    out = b"\x89PNG\r\n\x1a\n"
    for name, data in ((b"IHDR", struct.pack(">IIBBBBB", side, side, 1, 0, 0, 0, 0)),
                       (b"IDAT", body.getvalue()), (b"IEND", b"")):
        out += struct.pack(">I", len(data)) + name + data
        out += struct.pack(">I", zlib.crc32(name + data))
    path.write_bytes(out)
    return "an all-white picture of 100 megapixels"


RECIPES = [("letter.pdf", _letter), ("empty.pdf", _empty), ("graph-paper.png", _graph_paper),
           ("text.png", _text_as_png), ("invoice.pdf", _invoice),
           ("photograph.jpg", _photograph), ("notebook.png", _notebook),
           ("cut-short.pdf", _cut_short), ("locked.pdf", _locked), ("zero.pdf", _zero),
           ("huge-white.png", _huge)]


def make_not_chart(rng, path, make):
    why = make(rng, path)
    return {"page": 1, "class": "not-a-chart", "style": why, "dpi": None, "grids": [],
            "symbols": [], "why": why}
