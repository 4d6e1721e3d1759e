"""Placing: manifests in, a page in the teacher's own browser, and the same manifests changed out.

``Counter`` answers the browser from the desk (the manifests as they are changed) and the
bench (a page laid out by the stages that make the book); ``app_of`` puts it
behind a guard, and ``serve`` answers on this computer alone. The browser knows no rule of a game:
README.md in this folder says what is asked and answered.
"""

from bookmaker.place.app import app_of
from bookmaker.place.counter import Counter
from bookmaker.place.review import ReviewCounter
from bookmaker.place.serving import InUse, address_of, hosts_of, listen, serve
from bookmaker.place.sole import Held, sole_writer
from bookmaker.place.tools import Maker, Tools, What

__all__ = [
    "Counter",
    "Held",
    "InUse",
    "Maker",
    "ReviewCounter",
    "Tools",
    "What",
    "address_of",
    "app_of",
    "hosts_of",
    "listen",
    "serve",
    "sole_writer",
]
