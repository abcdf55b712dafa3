"""Small faults planted in the library, one at a time, and whether its area's quick tests find them: ``python -m tests.mutants --help``."""
