"""A PDF made by cairo and rendered with poppler-utils, as a stitcher's own picture of a bought file."""

from __future__ import annotations

import os
import subprocess
import tempfile

from producers import cairo_draw
from scene import Scene


def write_png(scene: Scene, path: str, dpi: int, *options: str) -> None:
    with tempfile.TemporaryDirectory() as work:
        pdf = os.path.join(work, "leaf.pdf")
        cairo_draw.write(scene, pdf)
        subprocess.run(["pdftoppm", "-r", str(dpi), "-png", "-singlefile", "-f", "1", "-l", "1", *options, pdf, path[:-4]], check=True)


def write_grey(scene: Scene, path: str, dpi: int) -> None:
    write_png(scene, path, dpi, "-gray")
