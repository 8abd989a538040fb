"""The interface for programs."""

from clubwright.web.api import clubs, forget, mixes, orders, routes, shop, ticket, touched, why

ROUTERS = tuple(module.router for module in (routes, shop, clubs, mixes, orders, forget, touched, why, ticket))
"""Every group of addresses, in the order of the generated description."""
