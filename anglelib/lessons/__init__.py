"""The lessons as live pictures and questions: only here are widgets imported.

A lesson's module has three separate things: what is computed, what is drawn, and the wiring. Each
cell of its notebook calls one function, which returns one box.
"""
