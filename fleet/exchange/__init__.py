"""Files in and out: the register as CSV, read, compared, imported, and written.

Each module is imported where it is used; `apply` and `register` bring SQLAlchemy with them, the
others do not.
"""
