"""The record to look at: two pictures, a page that needs nothing beside it, and paper."""
