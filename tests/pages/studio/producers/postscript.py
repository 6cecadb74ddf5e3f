"""Writes PostScript with the printer's own faces and lets ghostscript make the PDF or PNG."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile

from producers import Missing
from producers.raw_pdf import escaped, face_codes
from scene import FONTS, Line, Scene, Shape, Text

_PROLOGUE = """%!PS-Adobe-3.0
/L {newpath moveto lineto stroke} bind def
/C {255 div 3 1 roll 255 div 3 1 roll 255 div 3 1 roll setrgbcolor} bind def
/F {findfont exch scalefont setfont} bind def
"""


def postscript_of(scene: Scene) -> str:
    out = [_PROLOGUE, f"<< /PageSize [{scene.width:.2f} {scene.height:.2f}] >> setpagedevice"]
    rgb = lambda c: f"{c[0]} {c[1]} {c[2]} C"
    y = lambda v: scene.height - v
    for sheet in scene.sheets:
        for item in sheet:
            if isinstance(item, Line):
                out.append(f"{rgb(item.colour)} {item.width:.3f} setlinewidth [{' '.join(map(str, item.dash))}] 0 setdash "
                           f"{int(item.round)} setlinecap {item.a[0]:.3f} {y(item.a[1]):.3f} {item.b[0]:.3f} {y(item.b[1]):.3f} L")
            elif isinstance(item, Shape):
                out.append("newpath " + " ".join(" ".join(f"{px:.3f} {y(py):.3f} {'lineto' if k else 'moveto'}"
                                                          for k, (px, py) in enumerate(c)) + " closepath" for c in item.contours))
                if item.fill:
                    out.append(f"gsave {rgb(item.fill)} eofill grestore")
                if item.stroke:
                    out.append(f"{rgb(item.stroke)} [] 0 setdash {item.width:.3f} setlinewidth stroke")
            elif isinstance(item, Text):
                out.append(f"{rgb(item.colour)} {item.size:.3f} /{FONTS[item.font].post} F gsave {item.x:.3f} {y(item.y):.3f} translate "
                           f"{'90 rotate ' if item.turned else ''}0 0 moveto ({escaped(face_codes(item.text, item.font))}) show grestore")
        out.append("showpage")
    return "\n".join(out)


def _convert(scene: Scene, path: str, *options: str) -> None:
    if not shutil.which("gs"):
        raise Missing("ghostscript")
    with tempfile.TemporaryDirectory() as work:
        program = os.path.join(work, "leaf.ps")
        with open(program, "w", encoding="latin-1") as file:
            file.write(postscript_of(scene))
        subprocess.run(["gs", "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", *options, f"-sOutputFile={path}", program], check=True,
                       capture_output=True)


def write(scene: Scene, path: str) -> None:
    _convert(scene, path, "-sDEVICE=pdfwrite", "-dAutoRotatePages=/None")


def write_png(scene: Scene, path: str, dpi: int) -> None:
    scene.sheets = scene.sheets[:1]
    _convert(scene, path, "-sDEVICE=png16m", f"-r{dpi}", "-dTextAlphaBits=4", "-dGraphicsAlphaBits=4")


def write_dots(scene: Scene, path: str, dpi: int) -> None:
    """Only black and white dots, as a laser printer's page in a fax archive."""
    scene.sheets = scene.sheets[:1]
    _convert(scene, path, "-sDEVICE=pngmono", f"-r{dpi}")
