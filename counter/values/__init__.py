"""Exact little things, without input or output: money, dates, letters, gauges, strengths."""
