"""Where the craft is, and from which ground station it can be reached: geometry, no tables."""
