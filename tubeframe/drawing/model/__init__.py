"""What drawings are made of: pictures at true size, sheets of paper, scenes, fonts."""
