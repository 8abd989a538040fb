"""A recorded oscillation, step by step: the samples, the spectrum, the span that is fitted, the fit, and its bounds."""
