"""How long a test waits for what must come: only what hangs is ended by it, on the busiest machine. Nothing is measured with it."""

PATIENCE = 600.0
"""[s]; less than CI waits for all tests."""
