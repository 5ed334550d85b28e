"""``python -m fleet`` is the command ``coldround``."""

from fleet.cli import main

if __name__ == "__main__":
    main()
