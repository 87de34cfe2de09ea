"""A section that somebody else wrote: read, understood, and held against what the library knows."""
