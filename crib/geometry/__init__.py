"""The kernel: where a turning body can stand in a section without touching what must remain, what that removes, and
the proof of it. Whole nanometres throughout; z upwards, x across. No word of any trade."""
