"""The trainer's window of a rehearsal, one widget a file, and the rehearsal opened with it."""
