"""The course shared with a workshop: plain pages for the visitors on its network, who can read and answer, and nothing else."""
