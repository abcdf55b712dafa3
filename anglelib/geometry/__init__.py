"""Geometry of a part: the formulas, the marks they give, and the solid they leave."""
