"""What a part is: its stock, its features and where they lie, and the order that must hold."""
