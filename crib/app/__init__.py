"""The use cases: open a crib once, read what is asked once, plan, keep what is to be kept. Nothing is printed here, and
nothing here knows of options. What a use case finds is data; the pages and whoever calls make something of it."""
