"""What stands in for modules of the standard library that take long to load, for the use that is made of them here."""
