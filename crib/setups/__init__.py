"""The ways that work and cutter stand to each other. A set-up turns the section so that the axis always stands upright,
and adds its own minutes. One file each; so far the work lies as it is drawn."""
