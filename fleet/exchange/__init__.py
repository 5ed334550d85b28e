"""Files in and out: the register as CSV, read, compared, imported, and written."""
