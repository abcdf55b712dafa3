"""The rack, and the plan of which stick each blank comes from."""
