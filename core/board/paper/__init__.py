"""The plan on paper, as text: every word that is printed; who lays it out knows no plan."""
