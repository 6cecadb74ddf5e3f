# SPDX-License-Identifier: MIT
"""What `draw_charts.py` draws: the two demo charts, the canvas that they are drawn on, and their files."""
