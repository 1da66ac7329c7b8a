"""What is sure before anything is drafted: what a tool is able to, and the least that a draft can still come to."""
