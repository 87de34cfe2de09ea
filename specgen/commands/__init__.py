"""The commands, one a module: each adds its arguments to the parser and runs.

They import the engine only when they run, so that help is shown at once.
"""
