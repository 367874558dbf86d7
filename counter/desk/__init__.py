"""The few verbs a person has: the only floor where the judge meets the ledger."""
