"""Pictures of answers, for those who have matplotlib.

What is told apart by colour is also told apart by shape, line or words, in colours that people with
any colour vision can tell apart (Okabe and Ito 2008), and stays readable in grey print.
"""

from ._feedstock_map import feedstock_map
from ._forecast import forecast
from ._reachable import reachable, reachable_region
from ._trial import trial

__all__ = ["feedstock_map", "forecast", "reachable", "reachable_region", "trial"]
