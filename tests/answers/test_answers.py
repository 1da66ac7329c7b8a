"""The program still gives the answers that are on record, and what would differ is found and named.

A record is no proof that an answer is right: it tells what a change of the program changed that wasn't meant to.
"""

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from tests.answers import kept
from tests.answers.asking import Answer, Question
from tests.answers.differences import ABSENT, Accepted, Difference, accepted, of_values, told

HERE = Path(__file__).parent
ROOT = HERE.parents[1]


def run(*words):
    done = subprocess.run([sys.executable, "-m", "tests.answers", *map(str, words)], cwd=ROOT, text=True,
                          capture_output=True, check=False)
    return done.returncode, done.stdout + done.stderr


def test_a_sample_of_the_answers_is_as_it_was():
    """Quick ones of every command and crib; all of them are compared by hand, as the package says."""
    status, said = run("compare", HERE, "--quick")
    assert status == 0, said


def test_the_record_is_what_it_is_said_to_be():
    cribs, questions, answers = kept.read(HERE)
    last = [one.steps[-1] for one in questions]
    assert len(questions) == len(answers) >= 450 and set(cribs) == {one.crib for one in questions}
    assert (HERE / kept.NAME).stat().st_size < 2_000_000
    assert 0.5 < sum(words[0] == "make" for words in last) / len(last) < 0.7
    assert sum(one.quick for one in questions) >= 30 and sum(len(one.pages) == 2 for one in questions) >= 60
    assert not any(step[0] is None or "no JSON" in str(step[1])[:9] for one in answers for step in one.steps)


@pytest.fixture(scope="module")
def five(tmp_path_factory):
    """Five questions on record, asked of the program as it is."""
    cribs, questions, answers = kept.read(HERE)
    quick = [place for place, one in enumerate(questions) if one.quick and one.crib in ("few", "sample")]
    page = next(place for place in quick if questions[place].pages)
    plan = next(place for place, one in enumerate(questions) if one.crib == "sample" and one.steps[-1][:1] == ("make",)
                and not one.pages and len(one.steps) == 1 and answers[place].steps[-1][0] == 0)
    chosen = [plan, page, *[place for place in quick if place not in (plan, page)][:3]]
    folder = tmp_path_factory.mktemp("five")
    kept.write(folder, cribs, [questions[place] for place in chosen], [answers[place] for place in chosen])
    assert run("record", folder)[0] == 0
    return folder


def test_the_same_is_recorded_again(five, tmp_path):
    """Nothing in it hangs on the hour, the folder, or the order in which a set is gone through."""
    assert run("record", tmp_path, "--questions", five)[0] == 0
    assert (tmp_path / kept.NAME).read_bytes() == (five / kept.NAME).read_bytes()


def planted(answers):
    """The answers with a number, a text, a status, an entry and a line of a page that are others."""
    first, second, third, *rest = answers
    status, document = first.steps[-1]
    plan = {**document["plans"][0], "minutes": document["plans"][0]["minutes"] + 1e-6,
            "passes": document["plans"][0]["passes"][:-1]}
    document = {**document, "plans": [plan, *document["plans"][1:]], "answer": "never"}
    units = next(iter(second.pages))
    return [Answer((*first.steps[:-1], (status, document)), first.pages),
            replace(second, pages={**second.pages, units: second.pages[units] + "\nand more"}),
            Answer((*third.steps[:-1], (7, third.steps[-1][1])), third.pages), *rest]


def test_what_is_planted_is_found(five, tmp_path):
    cribs, questions, answers = kept.read(five)
    kept.write(tmp_path, cribs, questions, planted(answers))
    (tmp_path / "meant.toml").write_text('[[accepted]]\npath = "plans.*.minutes"\nwhy = "slower hands"\n'
                                         '[[accepted]]\npath = "nothing"\nwhy = "never comes"\n', encoding="utf-8")
    status, said = run("compare", tmp_path, "--accepted", tmp_path / "meant.toml")
    assert status == 1 and "4 differences, 1 more are accepted" in said
    for words in ("  answer\n    before never\n", "  page.", "  status\n    before 7\n", "before (absent)",
                  "in    1 questions  plans.*.passes.*\n", "1 accepted  plans.*.minutes: slower hands",
                  "0 accepted  nothing: never comes"):
        assert words in said, said


@pytest.mark.parametrize(("was", "now", "paths"), [
    ({"a": 1.0}, {"a": 1.0 + 1e-12}, []),
    ({"a": 1.0}, {"a": 1.000001}, ["a"]),
    ({"a": True}, {"a": 1}, ["a"]),
    ({"a": None}, {}, ["a"]),
    ({}, {"b": {"c": 1}}, ["b"]),
    ({"a": [1, 2, 3]}, {"a": [1, 3]}, ["a.1"]),
    ({"a": [{"b": 1}, {"b": 2}]}, {"a": [{"b": 1}, {"b": 3}]}, ["a.1.b"]),
    ({"a": [1]}, {"a": "1"}, ["a"]),
])
def test_values(was, now, paths):
    assert [one.path for one in of_values("make slot", "", was, now)] == paths


def test_accepted_by_path_question_and_values():
    one = Difference("make slot --width 1/2 (of the crib few)", "refused.3.says", "neck 4", "neck 5")
    assert Accepted("refused.*.says", "why").covers(one)
    assert Accepted("refused.*", "why", asked="make slot*").covers(one)
    assert not Accepted("refused.*.fix", "why").covers(one) and not Accepted("*", "why", after="neck 6").covers(one)
    assert Accepted("*", "why", before=ABSENT).covers(replace(one, before=ABSENT))
    assert told([one], ()) != told([one], (Accepted("*", "why"),)) and told([one], (Accepted("*", "why"),))[1] == 0


def test_what_is_accepted_says_why():
    assert all(one.why.strip() for one in accepted(HERE / "accepted.toml"))


def test_a_question_is_kept_as_it_was_asked(tmp_path):
    question = Question("few", (("make", "slot", "--width", "3/8±.002"),), ("in",), True)
    answer = Answer(((0, {"says": "±"}),), {"in": "a page"})
    kept.write(tmp_path, {}, [question], [answer])
    assert kept.read(tmp_path) == ({}, [question], [answer])
