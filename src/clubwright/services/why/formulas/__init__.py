"""The equations behind what is shown, with page, source and tests of each."""
