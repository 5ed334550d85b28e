"""The pages that F1 shows, one file each, readable in the repository too."""

from importlib import resources


def page(name: str) -> str:
    """Return the text of a page.

    >>> page("audit").splitlines()[0]
    '# Audit'
    """
    return resources.files(__name__).joinpath(f"{name}.md").read_text(encoding="utf-8")
