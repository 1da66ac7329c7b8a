"""Answers of the program, kept as they were, and what of them is different today.

    python -m tests.answers compare tests/answers          # ask all of it again: status 1 where something differs
    python -m tests.answers compare tests/answers --only "make t-slot*"
    python -m tests.answers record  tests/answers          # the same questions, today's answers
    python -m tests.answers choose  tests/answers          # other questions

`-n 2` asks in so many processes; `--of FOLDER` asks the program in another checkout. What is meant to differ is named
in `accepted.toml`. Nothing of the program is imported here but its command line: it is asked as a user asks it.
"""
