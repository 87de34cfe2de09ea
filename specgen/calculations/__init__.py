"""The engineering: plain functions over figures in named units. They import units and no more."""
