"""What several tests share."""

from html.parser import HTMLParser

import pytest


class Outline(HTMLParser):
    """Tags that are closed as they were opened, and the text between."""

    def __init__(self):
        super().__init__()
        self.open, self.seen, self.text = [], [], ""

    def handle_starttag(self, tag, attributes):
        self.open.append(tag)
        self.seen.append(tag)
        for name, value in attributes:
            assert name not in ("src", "href", "onclick"), "nothing from elsewhere"
            assert "url(" not in (value or "")

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text += data


@pytest.fixture(scope="session")
def outline():
    """Give a function that checks how a thing shows in a notebook, and its text."""

    def of(thing):
        parser = Outline()
        parser.feed(thing._repr_html_())
        parser.close()
        assert not parser.open
        assert "script" not in parser.seen
        for table in ("caption", "thead", "tbody"):
            assert parser.seen.count(table) == parser.seen.count("table")
        return parser

    return of
