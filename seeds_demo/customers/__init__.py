"""The customers of the demo, one module each; all of them invented."""

from seeds_demo.customers.bramley import BRAMLEY
from seeds_demo.customers.civic import CIVIC
from seeds_demo.customers.linden import LINDEN
from seeds_demo.customers.okabe import OKABE
from seeds_demo.customers.perrin import PERRIN
from seeds_demo.customers.quill import QUILL
from seeds_demo.customers.sable import SABLE
from seeds_demo.customers.saltmarsh import SALTMARSH

CUSTOMERS = (BRAMLEY, CIVIC, LINDEN, OKABE, PERRIN, QUILL, SABLE, SALTMARSH)
