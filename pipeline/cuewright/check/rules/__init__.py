"""One rule a file; the list and its order stand in ``cuewright.check``."""
