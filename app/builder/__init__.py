"""The builder window: a plan made and changed in tables, without its file being opened."""
