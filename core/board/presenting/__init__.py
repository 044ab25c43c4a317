"""What the presenter window shows."""
