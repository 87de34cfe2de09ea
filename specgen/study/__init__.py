"""Why each thing stands where it stands, what would change it, and practice at seeing it."""
