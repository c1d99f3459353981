"""How fast people move and how much they do in one go: facts, each with its source."""
