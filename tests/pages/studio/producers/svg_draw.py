"""Writes SVG, as drawing programs save it, and lets librsvg make the PDF or PNG (package librsvg2-bin)."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from xml.sax.saxutils import escape

from producers import Missing
from scene import FONTS, Line, Scene, Shape, Text


def svg_of(scene: Scene) -> str:
    rgb = lambda c: f"#{c[0]:02x}{c[1]:02x}{c[2]:02x}" if c else "none"
    out = [f'<svg xmlns="http://www.w3.org/2000/svg" width="{scene.width}pt" height="{scene.height}pt" '
           f'viewBox="0 0 {scene.width} {scene.height}">']
    for item in scene.sheets[0]:
        if isinstance(item, Line):
            extra = f' stroke-dasharray="{" ".join(map(str, item.dash))}"' if item.dash else ""
            extra += ' stroke-linecap="round"' if item.round else ""
            out.append(f'<line x1="{item.a[0]:.3f}" y1="{item.a[1]:.3f}" x2="{item.b[0]:.3f}" y2="{item.b[1]:.3f}" '
                       f'stroke="{rgb(item.colour)}" stroke-width="{item.width:.3f}"{extra}/>')
        elif isinstance(item, Shape):
            d = " ".join("M" + " L".join(f"{x:.3f},{y:.3f}" for x, y in c) + "Z" for c in item.contours)
            out.append(f'<path d="{d}" fill-rule="evenodd" fill="{rgb(item.fill)}" stroke="{rgb(item.stroke)}" stroke-width="{item.width:.3f}"/>')
        elif isinstance(item, Text):
            font = FONTS[item.font]
            turn = f' transform="rotate(-90 {item.x:.3f} {item.y:.3f})"' if item.turned else ""
            out.append(f'<text x="{item.x:.3f}" y="{item.y:.3f}" font-family="{font.family}" font-weight="{"bold" if font.bold else "normal"}" '
                       f'font-size="{item.size:.3f}" fill="{rgb(item.colour)}"{turn}>{escape(item.text)}</text>')
    return "\n".join(out + ["</svg>"])


def _convert(scene: Scene, path: str, *options: str) -> None:
    if not shutil.which("rsvg-convert"):
        raise Missing("librsvg2-bin")
    with tempfile.TemporaryDirectory() as work:
        drawing = os.path.join(work, "leaf.svg")
        with open(drawing, "w", encoding="utf-8") as file:
            file.write(svg_of(scene))
        subprocess.run(["rsvg-convert", *options, "-o", path, drawing], check=True, capture_output=True)


def write(scene: Scene, path: str) -> None:
    _convert(scene, path, "-f", "pdf", "--page-width", f"{scene.width}pt", "--page-height", f"{scene.height}pt")


def write_png(scene: Scene, path: str, dpi: int) -> None:
    _convert(scene, path, "-f", "png", "-d", str(dpi), "-p", str(dpi), "-b", "white")
