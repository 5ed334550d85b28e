"""Use cases: the only layer that joins calculation and register.

Commands and screens ask here and get frozen values back; neither holds SQL or a formula.
"""
