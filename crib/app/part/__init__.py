"""What is made of whole parts: put on file, planned, changed, made and measured."""
