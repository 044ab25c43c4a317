"""Instants and lengths, zones, how a time is written, clocks."""
