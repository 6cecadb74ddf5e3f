"""Charts that run over several pages of one PDF, adjoining or overlapping."""
import numpy as np

import chart_page
import contents
import styles
from draw_cairo import CairoCanvas
from draw_reportlab import ReportlabCanvas
from grid import draw_grid, edge_room, truth_of_grid

# across, down: pages; overlap: columns and rows printed twice; key: where the key page stands.
RECIPES = [
    ("two-adjoining", dict(across=2, down=1, columns=96, rows=70, overlap=0, key=None,
                           numbers="ten four", mode="glyphs", engine="cairo")),
    ("three-shaded-overlap", dict(across=3, down=1, columns=120, rows=80, overlap=3, key="last",
                                  shade=True, numbers="ten two", mode="shapes",
                                  engine="reportlab")),
    ("two-no-numbers", dict(across=2, down=1, columns=85, rows=60, overlap=5, key=None,
                            numbers="none", mode="glyphs", engine="cairo")),
    ("four-adjoining-key-first", dict(across=2, down=2, columns=110, rows=130, overlap=0,
                                      key="first", numbers="ten two", mode="mixed",
                                      engine="reportlab")),
    ("six-overlap", dict(across=2, down=3, columns=100, rows=170, overlap=4, key="last",
                         numbers="ten two", mode="fill symbols", engine="cairo")),
    ("two-down-overlap-no-numbers", dict(across=1, down=2, columns=60, rows=130, overlap=2,
                                         key=None, numbers="none", mode="fills",
                                         engine="reportlab")),
    ("two-down-shaded", dict(across=1, down=2, columns=64, rows=140, overlap=2, key=None,
                             shade=True, numbers="ten four", mode="hard glyphs",
                             engine="cairo")),
    ("four-bare-adjoining", dict(across=2, down=2, columns=117, rows=143, overlap=0, key="last",
                                 numbers="ten four", mode="glyphs", content="motif",
                                 coverage="bare", engine="cairo")),
]


def _cuts(length, pages, overlap):
    """First cell and number of cells on each page, counted from 0."""
    each = -(-(length + overlap * (pages - 1)) // pages)
    starts = [i * (each - overlap) for i in range(pages)]
    return [(s, min(each, length - s)) for s in starts]


def make_joined(rng, path, recipe):
    fixed = dict(legend="none", second=False, picture=False, aspect=1.0, broken=False,
                 content="patches", coverage="full", count=16, border=0.9, thin=True,
                 every=10, outlined=False, centre="none", landscape=False, hidden=False,
                 backstitch=False)
    fixed.update(recipe)
    style = styles.random_style(rng, False, fixed)
    chosen = styles.choose_symbols(rng, style, False)
    numbers = np.random.default_rng(rng.getrandbits(64))
    cells = contents.make_cells(rng, numbers, style.rows, style.columns, len(chosen),
                                style.content, style.coverage)
    page = style.page()
    near, far = edge_room(style)
    overlap = recipe["overlap"]
    columns = _cuts(style.columns, recipe["across"], overlap)
    rows = _cuts(style.rows, recipe["down"], overlap)
    left, top = 34 + near, 66 + near
    pitch = min(9.0, (page[0] - left - 34 - far) / max(n for _, n in columns),
                (page[1] - top - 40 - far) / max(n for _, n in rows))
    if pitch < 4:
        raise ValueError("the cells of %s are too small" % path.name)
    title, designer = rng.choice(chart_page._TITLES), rng.choice(chart_page._DESIGNERS)
    style.legend = "page" if recipe["key"] else "none"
    style.titled = style.footer = True
    style.picture = False
    chart = chart_page.Chart(style, chosen, cells, [], title=title, designer=designer)
    canvas = (CairoCanvas.pdf(path, *page) if style.engine == "cairo"
              else ReportlabCanvas(path, *page))
    pages = []

    def key_page():
        chart_page.draw_around(canvas, chart, len(pages) + 1)
        chart_page.draw_key(canvas, chart, 40, 90, 2)
        pages.append({"page": len(pages) + 1, "kind": "key"})
        canvas.next_page()

    if recipe["key"] == "first":
        key_page()
    for i, (row, count_rows) in enumerate(rows):
        for j, (column, count_columns) in enumerate(columns):
            part = cells[row:row + count_rows, column:column + count_columns]
            shaded = None
            if recipe.get("shade"):
                shaded = np.zeros(part.shape, bool)
                shaded[:, :overlap] = j > 0
                if i > 0:
                    shaded[:overlap] = True
            chart_page.draw_around(canvas, chart, len(pages) + 1)
            box = (left, top, pitch, pitch)
            draw_grid(canvas, rng, style, chosen, part, [], box, column + 1, row + 1, shaded)
            told = truth_of_grid(page, part, [], box, column + 1, row + 1)
            del told["cells"], told["lines"]
            pages.append({"page": len(pages) + 1, "kind": "chart", **told,
                          "overlap_columns": overlap if j else 0,
                          "overlap_rows": overlap if i else 0})
            canvas.next_page()
    if recipe["key"] == "last":
        key_page()
    canvas.finish()
    whole = truth_of_grid(page, cells, [], (0, 0, pitch, pitch))
    whole["box"] = whole["corners"] = None
    words = ["%d pages across, %d down" % (recipe["across"], recipe["down"]),
             "overlap %d%s" % (overlap, " shaded" if recipe.get("shade") else "")
             if overlap else "adjoining"]
    if recipe["key"]:
        words.append("key page " + recipe["key"])
    return {"page": 1, "class": "joined", "style": ", ".join([style.words()] + words),
            "dpi": None, "grids": [whole], "symbols": chart_page.truth_of_symbols(chart),
            "pages": pages}
