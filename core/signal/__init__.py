"""The signal: contacts and gaps per lane, and their edges."""
