"""Questions, fresh numbers for them, grading, and the answers a learner keeps: no widgets here."""
