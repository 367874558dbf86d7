"""Purchases completed and lots broken up."""
