"""The interface for programs."""

from clubwright.web.api import actions, clubs, forget, mixes, papers, routes, shop, ticket, touched, why

ROUTERS = tuple(module.router for module in (routes, actions, shop, clubs, mixes, forget, touched, why, ticket, papers))
"""Every group of addresses, in the order of the generated description."""
