"""Sentences of findings and choices: the only place where a frame is talked about, in the user's units."""
