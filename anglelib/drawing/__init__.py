"""One drawing as data, several papers: SVG for the screen, matplotlib for figures and 1:1 pages, DXF."""
