"""A theory page as HTML, with nothing fetched from anywhere: links lead to other pages and to source that is served here.

Markdown is read by markdown-it-py (CommonMark and tables); HTML in a page is shown as text. See decision 0025.
"""

from __future__ import annotations

import re
from functools import cache
from urllib.parse import quote

import msgspec
from markdown_it import MarkdownIt
from markdown_it.token import Token

from clubwright.services.why.library import sources, theory_text

NOT_IN_A_SLUG = re.compile(r"[^\w\- ]")


class TheoryPage(msgspec.Struct, frozen=True, kw_only=True):
    """A page, ready to be shown.

    Attributes:
        name: Its name in the address.
        title: Its first heading.
        body: HTML.
        sections: Address part and words of each heading below the first.
    """

    name: str
    title: str
    body: str
    sections: tuple[tuple[str, str], ...]


def slug(words: str) -> str:
    """Return what a heading goes by in an address, as the usual hosts of Markdown make it."""
    return NOT_IN_A_SLUG.sub("", words.lower()).replace(" ", "-")


@cache
def theory_page(name: str) -> TheoryPage | None:
    """Return a theory page; None where there is none of that name."""
    text = theory_text(name)
    if text is None:
        return None
    reader = MarkdownIt("commonmark", {"html": False}).enable("table")
    tokens = reader.parse(text)
    title, sections = name, []
    for place, token in enumerate(tokens):
        if token.type == "heading_open":
            words = tokens[place + 1].content
            token.attrSet("id", slug(words))
            if token.tag == "h1":
                title = words
            else:
                sections.append((slug(words), words))
        if token.children is not None:
            token.children = _led(token.children)
    body = reader.renderer.render(tokens, reader.options, {})
    return TheoryPage(name=name, title=title, body=body, sections=tuple(sections))


def _led(tokens: list[Token]) -> list[Token]:
    """Lead links to what is served here: other theory pages, and source where a path is named; other links go."""
    found: list[Token] = []
    open_links: list[bool] = []
    for token in tokens:
        if token.type == "link_open":
            target = _address(str(token.attrs.get("href", "")))
            open_links.append(target is not None)
            if target is not None:
                token.attrSet("href", target)
                found.append(token)
        elif token.type == "link_close":
            if open_links.pop():
                found.append(token)
        elif token.type == "code_inline" and not open_links and (path := _source(token.content)) is not None:
            found += [
                Token("link_open", "a", 1, attrs={"href": f"/source/{quote(path)}"}),
                token,
                Token("link_close", "a", -1),
            ]
        else:
            found.append(token)
    return found


def _address(target: str) -> str | None:
    page, _, section = target.partition("#")
    name, dot, kind = page.partition(".")
    if kind == "md" and dot and "/" not in name:
        return f"/theory/{name}" + (f"#{section}" if section else "")
    return target if target.startswith("#") else None


def _source(words: str) -> str | None:
    """Return the file that a page names: by its path, or by the end of it where only one file ends so."""
    path = words.removeprefix("src/")
    if path in sources():
        return path
    ends = [known for known in sources() if path.endswith(".py") and known.endswith(f"/{path}")]
    return ends[0] if len(ends) == 1 else None
