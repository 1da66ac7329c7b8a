"""A tool in this shop and metal: how it is held, fed, and clears a room."""
