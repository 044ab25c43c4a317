"""Trajectory and element files of the open standards (CCSDS orbit data messages, two-line).

What is read of an OEM are its states; how its sender would interpolate them is not, nor their
covariances and accelerations: between two states the path is drawn from their positions and
velocities. Frames on the axes of the ICRF are taken as the ICRF itself (EME2000 lies within 0.02
arcsec of it), TDB as TT (within 2 ms) and UT1 as UTC (within 0.9 s).
"""
