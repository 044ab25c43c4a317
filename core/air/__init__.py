"""Clear time, and what fits before the presenter must be back."""
