"""Whether a reading proves a limit: decision rules and the risks they carry."""
