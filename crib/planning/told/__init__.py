"""The shape of an answer: advice, plans, passes and verdicts, in mm and minutes."""
