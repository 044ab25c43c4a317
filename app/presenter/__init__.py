"""The presenter window: one countdown, one sentence, the contact."""
