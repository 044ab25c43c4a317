"""The commands, a module each: its `arguments`, and `run`, which gives its exit status.

Only the module of the command that is called is loaded.
"""
