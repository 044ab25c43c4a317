"""Pages on paper, drawn without a screen: tables, page numbers, pictures, in black and white."""
