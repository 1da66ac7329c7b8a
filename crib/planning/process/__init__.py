"""What a plan tells whoever stands at the machine: fluid, holding, touching off, dials, stops for chips, and where to
measure what."""
