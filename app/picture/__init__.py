"""The signal as a page to print, drawn without a screen."""
