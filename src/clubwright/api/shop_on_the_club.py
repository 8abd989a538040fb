"""What is measured, made and read on the club in hand, from Python.

Written from the register: `python tests/unit/api/test_shop_methods.py`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from clubwright.api.acting import NOTHING, Acting, documented
from clubwright.services.told.kept import KeptAnswer


@documented
class OnTheClub(Acting):
    """What is measured, made and read on the club in hand."""

    def read(
        self,
        club: str,
        quantity: str,
        value: str,
        stage: str = "finished",
        *,
        weights: Sequence[str] | None = None,
        gauge: str | None = None,
        repeats: str = "1",
        clamp: str | None = None,
        done_at: str | None = None,
        key: str | None = None,
    ) -> KeptAnswer:
        """Take a reading. One that does not fit is kept aside, with its likeliest causes, until a person decides."""
        return self._do(
            "read",
            key,
            job=club,
            quantity=quantity,
            value=value,
            stage=stage,
            weights=weights,
            instrument=gauge,
            repeats=repeats,
            clamp=clamp,
            done_at=done_at,
        )

    def trace(
        self,
        club: str,
        frequency: str,
        *,
        second_plane: str | None = None,
        stage: str = "finished",
        clamp: str | None = None,
        key: str | None = None,
    ) -> KeptAnswer:
        """Keep the frequency of a recorded oscillation as a reading, with the second plane's where there are two."""
        return self._do(
            "trace", key, job=club, frequency=frequency, second_plane=second_plane, stage=stage, clamp=clamp
        )

    def decide(
        self, club: str, reading: int, *, keep: bool, reason: str = "", site: str | None = None, key: str | None = None
    ) -> KeptAnswer:
        """Decide about a reading that does not fit: keep it, or leave it out."""
        return self._do("decide", key, job=club, reading=reading, keep=keep, reason=reason, site=site)

    def fit(self, club: str, weights: Sequence[str], *, key: str | None = None) -> KeptAnswer:
        """Record the weights that are on now."""
        return self._do("fit", key, job=club, weights=weights)

    def pull(self, club: str, hand: str, *, key: str | None = None) -> KeptAnswer:
        """Record the hand of the head that was pulled: the step is done when it is the ordered one."""
        return self._do("pull", key, job=club, hand=hand)

    def measure(
        self,
        club: str,
        section: str,
        values: Mapping[str, str],
        *,
        another: bool = False,
        said_by: str = "",
        reason: str = "",
        gauge: str | None = None,
        step: str | None = None,
        key: str | None = None,
    ) -> KeptAnswer:
        """Record what was measured of a part; or another part in its place, with who said so and why."""
        return self._do(
            "measure",
            key,
            job=club,
            section=section,
            values=values,
            another=another,
            said_by=said_by,
            reason=reason,
            gauge=gauge,
            step=step,
        )

    def figures(
        self,
        club: str,
        values: Mapping[str, str],
        *,
        gauges: Mapping[str, str] = NOTHING,
        step: str | None = None,
        key: str | None = None,
    ) -> KeptAnswer:
        """Record what was measured of several parts, all or nothing; with --step, the step that is done with it."""
        return self._do("figures", key, job=club, values=values, gauges=gauges, step=step)

    def trim(self, club: str, end: Literal["tip", "butt"], amount: str, *, key: str | None = None) -> KeptAnswer:
        """Record a trim of the tip (or the butt) before the cut to length."""
        return self._do("trim", key, job=club, end=end, amount=amount)

    def cut(
        self,
        club: str,
        cut_length: str,
        *,
        mass: str | None = None,
        balance: str | None = None,
        mass_gauge: str | None = None,
        balance_gauge: str | None = None,
        short: bool = False,
        done_at: str | None = None,
        key: str | None = None,
    ) -> KeptAnswer:
        """Record the cut: length of the shaft, tip end to butt end, as measured after it; and what it weighs then.

        The same length again with a weight or a balance records what was measured of the cut shaft since.
        """
        return self._do(
            "cut",
            key,
            job=club,
            cut_length=cut_length,
            cut_mass=mass,
            cut_balance_from_tip=balance,
            mass_gauge=mass_gauge,
            balance_gauge=balance_gauge,
            short=short,
            done_at=done_at,
        )

    def bend(
        self,
        club: str,
        *,
        loft: str | None = None,
        lie: str | None = None,
        bounce: str | None = None,
        done_at: str | None = None,
        key: str | None = None,
    ) -> KeptAnswer:
        """Record the angles after a bend."""
        return self._do("bend", key, job=club, loft=loft, lie=lie, bounce=bounce, done_at=done_at)

    def tape(
        self, club: str, name: str, layers: str, mass: str, *, gauge: str | None = None, key: str | None = None
    ) -> KeptAnswer:
        """Record the tape laid: its name, wraps, and their weight together. The last of the tapes does the step."""
        return self._do("tape", key, job=club, name=name, layers=layers, mass=mass, gauge=gauge)

    def mix(
        self,
        club: str,
        part_a: str,
        part_b: str,
        *,
        temperature: str,
        batch: str = "",
        done_at: str | None = None,
        key: str | None = None,
    ) -> KeptAnswer:
        """Record the adhesive mixed, as weighed; its pot life runs from when it was mixed."""
        return self._do(
            "mix", key, job=club, part_a=part_a, part_b=part_b, temperature=temperature, batch=batch, done_at=done_at
        )

    def mix_from(self, club: str, mix: str, *, done_at: str | None = None, key: str | None = None) -> KeptAnswer:
        """Record that a joint is glued from a mix that was made for another one; its pot life goes on running."""
        return self._do("mix-from", key, job=club, mix=mix, done_at=done_at)

    def bad_mix(self, club: str, *, reason: str, mix: str | None = None, key: str | None = None) -> KeptAnswer:
        """Say that the mix of a joint is bad: every joint glued from it, on any job, shows that and is not released."""
        return self._do("bad-mix", key, job=club, reason=reason, mix=mix)

    def glue(self, club: str, *, temperature: str, done_at: str | None = None, key: str | None = None) -> KeptAnswer:
        """Record that the head is glued; its joint cures from when that was done, at that temperature."""
        return self._do("glue", key, job=club, temperature=temperature, done_at=done_at)

    def grip(self, club: str, *, done_at: str | None = None, key: str | None = None) -> KeptAnswer:
        """Record that the grip is on for good."""
        return self._do("grip", key, job=club, done_at=done_at)

    def family(self, club: str, *, factor: str | None = None, key: str | None = None) -> KeptAnswer:
        """Take over what like shafts of the record say of this one."""
        return self._do("family", key, job=club, factor=factor)
