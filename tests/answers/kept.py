"""The file of what was asked and answered: lines of JSON, packed. The cribs stand first, then a line for a question."""

from __future__ import annotations

import gzip
import io
import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

from tests.answers.asking import Answer, Crib, Question

NAME = "answers.jsonl.gz"
Record = tuple[dict[str, Crib], list[Question], list[Answer]]


def write(folder: Path, cribs: Mapping[str, Crib], questions: Sequence[Question], answers: Sequence[Answer]) -> int:
    """Keep a record; the bytes that it takes. The same record is the same bytes."""
    lines = [_text({"cribs": {name: asdict(crib) for name, crib in cribs.items()}})]
    for question, answer in zip(questions, answers, strict=True):
        lines.append(_text({"question": asdict(question), "steps": answer.steps, "pages": dict(answer.pages)}))
    packed = io.BytesIO()
    with gzip.GzipFile(fileobj=packed, mode="wb", compresslevel=9, mtime=0) as file:
        file.write("\n".join([*lines, ""]).encode())
    folder.mkdir(parents=True, exist_ok=True)
    (folder / NAME).write_bytes(packed.getvalue())
    return len(packed.getvalue())


def read(folder: Path) -> Record:
    """A record: its cribs, its questions, and the answer of each."""
    with gzip.open(folder / NAME, "rt", encoding="utf-8") as file:
        first, *rest = (json.loads(line) for line in file)
    cribs = {name: Crib(one["files"], _words(one["steps"])) for name, one in first["cribs"].items()}
    questions = [Question(one["crib"], _words(one["steps"]), tuple(one["pages"]), one["quick"])
                 for one in (line["question"] for line in rest)]
    answers = [Answer(tuple((status, document) for status, document in line["steps"]), line["pages"]) for line in rest]
    return cribs, questions, answers


def _text(line: Any) -> str:
    return json.dumps(line, ensure_ascii=False, separators=(",", ":"))


def _words(steps: Sequence[Sequence[str]]) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(words) for words in steps)
