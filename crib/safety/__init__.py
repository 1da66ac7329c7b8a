"""What is referred to somebody else, and what is cautioned."""
