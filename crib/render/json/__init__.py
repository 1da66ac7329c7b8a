"""What is found as the JSON that other programs rely on: lengths in mm, keys in the agreed order."""
