"""Down the axis: cutters that come down one after the other. Each file knows one sort of stroke, or what is made by
several: a hole, a counterbore."""
