"""A real browser for the tests, and what looks pages over for people who can't see or point well."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from pathlib import Path

NAMED = "CRIB_CHROMIUM"
NONE = f"no Chromium was found (apt-get install chromium, or {NAMED}=PATH): pages weren't opened in a browser"
NO_AXE = "axe-core couldn't be fetched by npm: pages weren't looked over for accessibility"
AXE = "4.10.3"
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
             "--disable-sync", "--no-first-run", "--disable-quic"]
_COLOURS_ONCE = """
{
  const proto = axe.commons.color.Color.prototype, parse = proto.parseString, known = new Map();
  proto.parseString = function (text) {
    const read = known.get(text);
    if (read) [this.r, this.g, this.b, this.alpha] = read;
    else {
      parse.call(this, text);
      known.set(text, [this.r, this.g, this.b, this.alpha]);
    }
    return this; };
}
undefined;"""
"""What a colour's text says is read once for a page, not once for each word on it: that took a third of the time."""
_KEPT = """
(() => {
  class WeakMap {
    key = Symbol();
    has(one) { return Object.hasOwn(one, this.key); }
    get(one) { return one[this.key]; }
    set(one, value) { one[this.key] = value; return this; }
    delete(one) { return delete one[this.key]; }
  }
  class WeakSet {
    key = Symbol();
    has(one) { return Object.hasOwn(one, this.key); }
    add(one) { one[this.key] = true; return this; }
  }
  %s
})();"""
"""What the script keeps beside each of its colours it keeps in it: in the browser's own weak maps it took a quarter of
the time."""
AUDIT = """(only) => {
  const {rules, tagExclude} = axe._audit;
  const tried = rules.filter((one) => one.enabled && !one.tags.some((tag) => tagExclude.includes(tag)));
  const grave = tried.filter((one) => ['serious', 'critical'].includes(one.impact)).map((one) => one.id);
  const told = grave.filter((id) => !only || only.includes(id));
  return axe.run(document, {runOnly: told, resultTypes: ['violations'], preload: false}).then((found) =>
    found.violations.map((one) => [one.impact, one.id, one.nodes[0].html.slice(0, 200)])); }"""
"""What is serious or critical on a page, of the rules that go unless others are asked for: a rule's findings are as
grave as the rule is. `only`: of these."""
_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")


def program() -> str | None:
    """The browser's program: the one that is named, the system's, or one that Playwright has installed."""
    if named := os.environ.get(NAMED):
        return named
    if found := next(filter(None, map(shutil.which, _NAMES)), None):
        return found
    installed = sorted(Path.home().glob(".cache/ms-playwright/chromium-*/chrome-linux*/chrome"))
    return str(installed[-1]) if installed else None


def axe() -> str | None:
    """The script of axe-core, fetched once and kept among the temporary files; None where it can't be had."""
    folder = Path(tempfile.gettempdir()) / f"crib-tests-axe-{AXE}"
    script = folder / "node_modules" / "axe-core" / "axe.min.js"
    if not script.exists():
        if shutil.which("npm") is None:
            return None
        folder.mkdir(exist_ok=True)
        try:
            subprocess.run(["npm", "install", "--silent", "--no-audit", "--no-fund", "--prefix", str(folder),
                            f"axe-core@{AXE}"], check=True, capture_output=True, timeout=60)
        except (OSError, subprocess.SubprocessError):
            return None
    return _KEPT % script.read_text(encoding="utf-8") + _COLOURS_ONCE if script.exists() else None
