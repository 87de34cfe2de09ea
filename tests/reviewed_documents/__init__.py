"""Sections as other offices write them: six clean, three with faults, and what builds them."""
