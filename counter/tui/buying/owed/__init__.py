"""Completing a purchase."""
