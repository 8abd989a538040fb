"""The bench in the browser: pages, forms and live news; no arithmetic, no SQL."""
