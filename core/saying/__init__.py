"""What the presenter says: sentences from situations, and for how long they stay true."""
