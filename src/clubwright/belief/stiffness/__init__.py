"""How stiff a shaft is along its length, fitted to what a profile measured."""
