"""How the bench is served."""

from __future__ import annotations

import msgspec


class WebSettings(msgspec.Struct, frozen=True, kw_only=True):
    """Settings of one served workshop.

    Attributes:
        shop: Folder of the workshop's record, or a ``postgresql://`` address.
        site: Which bench writes; facts are numbered for each site.
        open_network: Whether other devices of the workshop's network may come in; then everybody needs a PIN.
        by: Who works at the bench on loopback, as written into the record.
        secure_cookies: Whether cookies are only sent over HTTPS.
        proxies: Networks of the proxies whose word on who asks is taken, such as ``127.0.0.1/32``; nobody else's is.
    """

    shop: str
    site: str = "bench"
    by: str = "bench"
    open_network: bool = False
    secure_cookies: bool = False
    proxies: tuple[str, ...] = ()
