"""Treatments: judged, prepared, timed, noted."""
