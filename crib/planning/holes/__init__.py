"""Plans for what is made down its own axis: holes, counterbores, tapped holes, gib-screw holes."""
