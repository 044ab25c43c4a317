"""The page that hands the desk over: what whoever comes next has to know."""
