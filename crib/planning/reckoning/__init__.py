"""What a draft comes to: its minutes, its money, and the verdict that it earns."""
