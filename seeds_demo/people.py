"""The people of the demo: an invented service company and a few of its customers' staff."""

from seeds_demo.parts import Cells


def _person(tag: str, name: str, role: str, phone: str, company: str = "coldhands") -> Cells:
    email = tag.rsplit(". ", maxsplit=1)[-1].lower() + f"@{company}.example"
    return {"person": tag, "name": name, "role": role, "phone": f"555 {phone}", "email": email}


PEOPLE: tuple[Cells, ...] = (
    _person("N. Halvorsen", "Nora Halvorsen", "planner", "0110"),
    _person("T. Mbeki", "Thandi Mbeki", "lead-technician", "0111"),
    _person("P. Castellano", "Pia Castellano", "account-manager", "0112"),
    _person("G. Whitlock", "Gareth Whitlock", "account-manager", "0113"),
    _person("D. Sorensen", "Dag Sorensen", "technician", "0121"),
    _person("L. Achterberg", "Lotte Achterberg", "technician", "0122"),
    _person("J. Okonjo", "Joseph Okonjo", "technician", "0123"),
    _person("R. Vance", "Ruth Vance", "technician", "0124"),
    _person("H. Lindqvist", "Håkan Lindqvist", "technician", "0125"),
    _person("M. Tesfaye", "Miriam Tesfaye", "technician", "0126"),
    _person("A. Petrov", "Anton Petrov", "technician", "0127"),
    _person("B. Quill", "Bess Quill", "site-staff", "0141", "quillfeather"),
    _person("K. Okabe", "岡部 健 (Ken Okabe)", "site-staff", "0142", "okabe"),
    _person("F. Amsel", "Franziska Amsel", "site-staff", "0143", "lindenmarkt"),
    _person("S. Pym", "Stella Pym [nights]", "other", "0144", "bramley"),
)
