"""Charts set with LaTeX's own picture environment (packages texlive-latex-base, texlive-latex-recommended)."""

from __future__ import annotations

import os
import random
import shutil
import subprocess
import tempfile

import words
from chart import ChartSymbol
from looks import PAPERS
from marks import Mark
from producers import Missing
from producers.native import chance_cells, truth_of

_SIGNS = (r"\heartsuit \spadesuit \bullet \circ \star \triangle \bigtriangledown \times \div \oplus \otimes \clubsuit \diamondsuit "
          r"\ast \dagger \sharp \natural \flat \infty \wedge \vee \cap \cup \subset \supset \top \bot \equiv \pm \Pi \Sigma \Omega "
          r"\Phi \Psi \Gamma \Delta \aleph \wp").split()
# A sharp and a natural, a wedge and Delta ... are told apart only when large: one of each is enough.
_ALIKE = [{r"\sharp", r"\natural"}, {r"\wedge", r"\triangle", r"\Delta"}, {r"\vee", r"\bigtriangledown"}, {r"\oplus", r"\otimes", r"\Phi"},
          {r"\ast", r"\star", r"\times"}, {r"\div", r"\pm"}, {r"\cup", r"\subset"}, {r"\cap", r"\supset"}]


def set_page(source: str, path: str) -> None:
    if not shutil.which("pdflatex"):
        raise Missing("texlive-latex-base")
    with tempfile.TemporaryDirectory() as work:
        with open(os.path.join(work, "leaf.tex"), "w", encoding="utf-8") as file:
            file.write(source)
        subprocess.run(["pdflatex", "-interaction=batchmode", "leaf.tex"], cwd=work, check=True, capture_output=True)
        shutil.move(os.path.join(work, "leaf.pdf"), path)


def _signs(rng: random.Random, count: int) -> list[str]:
    pool = list(_SIGNS)
    for group in _ALIKE:
        keep = rng.choice(sorted(group))
        pool = [s for s in pool if s == keep or s not in group]
    return rng.sample(pool, count)


def _ruled(place, count: int, style: dict[str, float]) -> list[str]:
    return [place(k, style["tens"] if k % 10 == 0 else style["thin"]) for k in range(count + 1)]


def write_chart(rng: random.Random, path: str) -> tuple[dict, str]:
    paper = PAPERS[rng.choice(["a4", "letter", "a5"])]
    side = rng.choice([9, 10, 11, 12.5])
    left, top = rng.uniform(45, 70), rng.uniform(80, 110)
    columns, rows = (min(rng.randint(20, 50), int((paper[k] - 2 * (left if k == 0 else top)) / side)) for k in (0, 1))
    rows = min(rows, int((paper[1] - top - 190) / side))
    cells, used = chance_cells(rng, ["figures", "border", "mirrored", "quilt", "letters"], columns, rows, rng.randint(3, 9))
    codes, names = words.thread_codes(rng, used), words.thread_names(rng, used)
    symbols = [ChartSymbol(Mark(s, "", s), None, code=c, name=n) for s, c, n in zip(_signs(rng, used), codes, names)]
    y = lambda v: paper[1] - v
    style = {"thin": rng.uniform(0.15, 0.4), "tens": rng.uniform(0.7, 1.2)}
    put = lambda x, v, what: f"\\put({x:.3f},{y(v):.3f}){{{what}}}"
    size = rng.choice([7, 8]) if side < 11 else rng.choice([8, 9, 10])
    out = [put(left + (c + .5) * side, top + (r + .5) * side, f"\\makebox(0,0){{\\S{chr(65 + v)}}}")
           for r, row in enumerate(cells) for c, v in enumerate(row) if v >= 0]
    wide, high = columns * side, rows * side
    out += _ruled(lambda k, w: put(left + k * side - w / 2, top + high, f"\\rule{{{w:.3f}bp}}{{{high:.3f}bp}}"), columns, style)
    out += _ruled(lambda k, w: put(left, top + k * side + w / 2, f"\\rule{{{wide:.3f}bp}}{{{w:.3f}bp}}"), rows, style)
    tiny = "\\fontsize{6}{6}\\selectfont "
    out += [put(left + k * side, top - 7, f"\\makebox(0,0){{{tiny}{k}}}") for k in range(10, columns + 1, 10)]
    out += [put(left - 9, top + k * side, f"\\makebox(0,0){{{tiny}{k}}}") for k in range(10, rows + 1, 10)]
    out.append(put(left, top - 30, f"\\makebox(0,0)[bl]{{\\Large {words.title(rng)}}}".replace("&", "\\&")))
    for i, s in enumerate(symbols):
        x, v = left + i // 6 * 150, top + high + 28 + i % 6 * 14
        out.append(put(x + 5, v, f"\\makebox(0,0){{\\S{chr(65 + i)}}}") + put(x + 18, v, f"\\makebox(0,0)[l]{{\\small {s.code}\\quad {s.name}}}"))
    macros = "".join(f"\\newcommand{{\\S{chr(65 + i)}}}{{\\fontsize{{{size}}}{{{size}}}\\selectfont${s.mark.text}$}}" for i, s in enumerate(symbols))
    set_page("\\documentclass{article}\\pagestyle{empty}\\parindent0pt\\topskip0pt\\setlength\\unitlength{1bp}"
             f"\\pdfpagewidth={paper[0]}bp\\pdfpageheight={paper[1]}bp\\hoffset-1in\\voffset-1in\\oddsidemargin0pt\\topmargin0pt\\headheight0pt\\headsep0pt"
             f"\\textwidth={paper[0]}bp\\textheight={paper[1]}bp {macros}\\begin{{document}}\\vbox to 0pt{{\\offinterlineskip\\begin{{picture}}({paper[0]},{paper[1]})\n"
             + "\n".join(out) + "\n\\end{picture}\\vss}\\end{document}\n", path)
    return truth_of(cells, symbols, left, top, (side, side), paper), "set with a text setter's picture commands"
