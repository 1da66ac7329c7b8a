"""The pictures that the README shows are those that are made today."""

from __future__ import annotations

from tests.docs import pictures


def test_the_section_is_todays() -> None:
    assert (pictures.HERE / "section.svg").read_text(encoding="utf-8") == pictures.section(), pictures.RENEW


def test_the_photograph_is_of_todays_sheet() -> None:
    kept = (pictures.HERE / "sheet.sha256").read_text(encoding="utf-8").strip()
    assert kept == pictures.hash_of(pictures.sheet()), pictures.RENEW


def test_the_photograph_is_of_todays_part() -> None:
    kept = (pictures.HERE / "part.sha256").read_text(encoding="utf-8").strip()
    assert kept == pictures.hash_of(pictures.part()), pictures.RENEW


def test_the_photograph_is_of_todays_bench_page() -> None:
    kept = (pictures.HERE / "bench.sha256").read_text(encoding="utf-8").strip()
    assert kept == pictures.hash_of(pictures.bench()), pictures.RENEW


def test_the_readme_shows_them() -> None:
    text = (pictures.ROOT / "README.md").read_text(encoding="utf-8")
    for name in ("section.svg", "sheet.png", "part.png", "bench.png"):
        assert f"(tests/docs/pictures/{name})" in text and (pictures.HERE / name).exists()
