"""JupyterLab as the course opens it (``course --lab``, and a learner's server in a class): its settings, and what a saved lesson keeps.

:mod:`anglelib.lab.views` keeps dead views of widgets out of saved lessons, :mod:`anglelib.lab.lessons` is the place where the server
reads and saves them, :mod:`anglelib.lab.handlers` answers the course's own script in the browser (``extensions/anglelib-lab``).
"""
