"""Who meets where, which fitting takes them, and where long tubes are split."""
