"""The plan: its immutable model, its reader and its writer."""
