"""What may be said at a moment, made from the same scene as the cards."""
