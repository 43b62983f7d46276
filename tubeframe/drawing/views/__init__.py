"""What is seen of a frame from one side, in its plane."""
