"""The plan in words on the terminal: the whole job, one part now, cuts done."""
