"""The session's title and date, as the coach says them."""

import re
from collections.abc import Sequence

from cuewright.parse.build import Quote
from cuewright_models.divided import Divided
from cuewright_models.plan import Date
from cuewright_models.tokens import CalendarDate, Token
from cuewright_models.transcript import Transcript


def title(heard: Transcript, divided: Divided) -> str | None:
    return None


def date(divided: Divided, quote: Quote) -> Date | None:
    return None
