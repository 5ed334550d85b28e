"""The terminal interface: it shows what the desk computes and posts what the person wants."""
