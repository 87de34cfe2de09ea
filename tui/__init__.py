"""The terminal screens. They hold an engine and compute nothing themselves."""
