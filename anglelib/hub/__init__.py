"""A class on one machine or many: JupyterHub, a learner in each account, the lessons shared and read-only."""
