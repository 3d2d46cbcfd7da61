"""What is done to rendered pages: policy, styles, scripts, what readers of a screen are told."""
