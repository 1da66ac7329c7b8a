"""Questions in words: a line as a shop says it, read into a kind of feature and what is asked of it, by key. Words may
be misspelt, sizes never are; a number of which nothing can be made is asked about."""

from crib.intake.questions.kinds import names_a_kind
from crib.intake.questions.lacking import Lack, lacking, would_do
from crib.intake.questions.reading import Question, read_question

__all__ = ["Lack", "Question", "lacking", "names_a_kind", "read_question", "would_do"]
