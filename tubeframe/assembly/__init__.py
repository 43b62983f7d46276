"""In which order a frame goes together: found, checked, and told as data without a word."""
