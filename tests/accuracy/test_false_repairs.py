"""Plain English is not taken for misheard; `python tests/accuracy/false_repairs.py` reads more."""

import sysconfig
from pathlib import Path

from accuracy.false_repairs import MOST, PER, Text, docstrings, measure

# Long docstrings, in every Python: prose about numbers, dates, texts and rounds of a protocol.
MODULES = (
    "argparse.py", "ast.py", "bdb.py", "calendar.py", "datetime.py", "difflib.py", "doctest.py",
    "email/message.py", "fractions.py", "gettext.py", "http/cookiejar.py", "inspect.py",
    "logging/__init__.py", "mailbox.py", "mimetypes.py", "optparse.py",
    "pickletools.py", "random.py", "shutil.py", "smtplib.py", "socketserver.py", "statistics.py",
    "string.py", "subprocess.py", "tarfile.py", "textwrap.py", "threading.py", "trace.py",
    "turtle.py", "typing.py", "unittest/case.py", "unittest/mock.py", "urllib/request.py",
)  # fmt: skip


def test_prose_of_the_standard_library_is_left_as_it_is() -> None:
    top = Path(sysconfig.get_path("stdlib"))
    words, found = measure(Text(name, docstrings(top / name)) for name in MODULES)
    assert words > PER
    assert PER * len(found) / words <= MOST, found


def test_a_repair_is_found_and_shown_with_its_neighbours() -> None:
    words, (one, other) = measure([Text("talk", "then swing the cattle bell for a warmup")])
    assert words == 8
    assert (one.heard, one.meant) == ("cattle", "kettlebell")
    assert one.around == "then swing the cattle bell for a warmup"
    assert (other.heard, other.meant) == ("warmup", "warm up")


def test_a_text_that_stands_twice_counts_once() -> None:
    assert measure([Text("a", "one two"), Text("b", "one two")]) == (2, [])
