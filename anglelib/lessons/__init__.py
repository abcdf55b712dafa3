"""The lessons as live pictures and questions: only here are widgets imported.

A lesson's module has three separate things: what is computed, what is drawn, and the wiring. Each
cell of its notebook calls one function, which returns one box.
"""

import gc

gc.freeze()  # what a kernel has read when its page begins stays until it ends: nobody looks it through for what can be thrown away
