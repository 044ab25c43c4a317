"""Trajectory and element files of the open standards (CCSDS orbit data messages, two-line)."""
