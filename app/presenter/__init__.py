"""The presenter window: read at three metres, on any screen, and never with anything typed."""
