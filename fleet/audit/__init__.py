"""A whole register in columns, to findings: pure, no register and no screen."""
