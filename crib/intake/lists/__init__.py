"""Lists of cutters: a file of them is read, whatever it is written in, known when it comes again, and written."""
