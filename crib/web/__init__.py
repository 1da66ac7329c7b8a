"""The bench page: a small local site for whoever stands at the mill with a phone, a tablet or a laptop. A route reads
what was typed, calls one use case and shows a page; it works without a script."""
