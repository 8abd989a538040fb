"""What every answer says to the browser: load nothing from elsewhere, show us in no frame, keep no page."""

from __future__ import annotations

from starlette.datastructures import MutableHeaders
from starlette.types import Message, Send

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
ALWAYS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    # not no-referrer: browsers would then say "Origin: null" on our own forms
    "Referrer-Policy": "same-origin",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), geolocation=(), microphone=(), payment=(), usb=(self), serial=(self)",
}
FOR_EVER = "public, max-age=31536000, immutable"


def with_headers(send: Send, path: str, query: bytes, cookies: list[str]) -> Send:
    """Put the headers, and cookies of ours, on whatever answer comes."""

    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in ALWAYS.items():
                headers[name] = value
            headers["Cache-Control"] = _caching(path, query, message["status"])
            for cookie in cookies:
                headers.append("Set-Cookie", cookie)
        await send(message)

    return sending


def _caching(path: str, query: bytes, status: int) -> str:
    """Static files carry their content's hash in the address, so they never change; everything else is kept nowhere."""
    if path.startswith("/static/") and status in (200, 206, 304):
        return FOR_EVER if query.startswith(b"v=") else "no-cache"
    return "no-store"
