"""The movements a coach may name: the catalogue, its tables and its page."""
