"""Inspection: what a slip makes of a part, and which slip a finished part's readings point to."""
