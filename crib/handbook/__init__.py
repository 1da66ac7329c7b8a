"""What is written down in the trade: materials, speeds, feeds, bites, T-slots. Every value names where it stands."""
