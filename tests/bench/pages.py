"""Every kind of page in a real browser: wide, on a phone, and printed.

    python -m tests.bench.pages FOLDER [NAME ...]

Renders reports of the demo and of invented sessions, comparison, history, agreement, pairing, cohort and
blank sheets (or those whose names hold one of the words given) into FOLDER: NAME.html, NAME-phone.png (390
px wide), NAME-wide.png (1200 px), NAME-a4.pdf, NAME-letter.pdf and their pages as NAME-a4-1.png and so on.
Prints for each what axe-core finds, what is wider than the page, errors of HTML by html5lib, and anything
asked from outside.

Needs Chromium (Debian: chromium), pdftoppm (poppler-utils), `pip install playwright`, and axe-core: say where
with AXE=/path/to/axe-core/axe.min.js (npm install axe-core). None of them is a dependency of the program.
"""

from __future__ import annotations

import contextlib
import io
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import html5lib
from playwright.sync_api import Page, sync_playwright

from hands_on.cli import main as hands_on
from tests.report.invented import write

DEMO = Path("sessions")
PAPERS = {"a4": "A4", "letter": "Letter"}
WIDTHS = {"phone": 390, "wide": 1200}


def pages(folder: Path) -> Iterator[tuple[str, list[str]]]:
    """Name and arguments of each page."""
    made = write(folder / "sessions")
    for path in (*sorted(DEMO.glob("*.toml")), *made):
        yield f"report-{path.stem}", ["report", str(path), "--to", "html"]
    yield "report-german", ["report", str(made[0]), "--to", "html", "--language", "de"]
    demo = {path.stem[11:]: str(path) for path in DEMO.glob("*.toml")}
    three = [demo["brumo-m-quill"], demo["fenja-m-quill"], demo["tovik-m-quill"]]
    yield "comparison", ["report", *three[:2], "--as", "comparison", "--to", "html"]
    yield "comparison-of-three", ["report", *three, "--as", "comparison", "--to", "html"]
    hostile = str(folder / "sessions" / "hostile.toml")
    yield (
        "comparison-hostile",
        ["report", hostile, demo["fenja-m-quill"], "--as", "comparison", "--to", "html"],
    )
    yield "pairing", ["report", *three[:2], "--as", "pairing", "--to", "html"]
    yield (
        "history",
        ["report", demo["brumo-m-quill"], demo["brumo-a-thornby"], "--as", "history", "--to", "html"],
    )
    yield "history-growing", ["report", *_growing(folder), "--as", "history", "--to", "html"]
    yield "agreement", ["report", str(DEMO), "--as", "agreement", "--to", "html"]
    yield "cohort", ["cohort", str(DEMO), "--to", "html"]
    for edition in ("hovawart-fci-190", "dachshund-fci-148", "poodle-fci-172", "any-dog"):
        yield f"blank-{edition}", ["blank", edition]


def _growing(folder: Path) -> list[str]:
    """The young demo dog, seen again twice, grown."""
    young = (DEMO / "2026-09-19-tovik-m-quill.toml").read_text(encoding="utf-8")
    young = young.split("[signature]")[0]
    paths = []
    for day, times in (("2026-09-19", 1.0), ("2027-03-20", 1.05), ("2027-12-04", 1.075)):
        rows = []
        for row in young.replace("2026-09-19", day).splitlines():
            key, _, value = row.partition(" = ")
            grown = key == "value" and float(value) > 1
            rows.append(f"value = {float(value) * times:.1f}" if grown else row)
        path = folder / "sessions" / f"tovik-{day}.toml"
        path.write_text("\n".join(rows) + "\n", encoding="utf-8")
        paths.append(str(path))
    return paths


def printed(arguments: list[str]) -> str:
    """What the command prints."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        code = hands_on(arguments)
    if code:
        raise SystemExit(f"{' '.join(arguments)}: exit {code}")
    return out.getvalue()


def too_wide(page: Page) -> list[str]:
    """Elements that stick out of the page to the right, outermost first."""
    found: list[str] = page.evaluate(
        """() => [...document.querySelectorAll('body *')]
             .filter(e => !e.closest('.scroll') && !e.closest('svg'))
             .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
             .map(e => e.tagName + '.' + e.className + ' ' + (e.textContent || '').slice(0, 40))"""
    )
    return found


def accessible(page: Page, axe: str) -> list[str]:
    """What axe-core finds, worst first."""
    page.add_script_tag(content=axe)
    found: list[str] = page.evaluate(
        """async () => (await axe.run()).violations.map(
             v => v.impact + ': ' + v.id + ' (' + v.nodes.length + ') ' + v.nodes[0].html.slice(0, 90))"""
    )
    return found


def main() -> None:
    """Render, look, tell."""
    folder, wanted = Path(sys.argv[1]), sys.argv[2:]
    folder.mkdir(parents=True, exist_ok=True)
    axe = Path(os.environ["AXE"]).read_text(encoding="utf-8") if "AXE" in os.environ else ""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    with sync_playwright() as play:
        browser = play.chromium.launch(
            executable_path=chromium,
            args=["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync"],
        )
        for name, arguments in pages(folder):
            if wanted and not any(word in name for word in wanted):
                continue
            text = printed(arguments)
            path = folder / f"{name}.html"
            path.write_text(text, encoding="utf-8")
            parser = html5lib.HTMLParser()
            parser.parse(text)
            told = [f"HTML {error}" for error in parser.errors]
            for size, width in WIDTHS.items():
                page = browser.new_page(viewport={"width": width, "height": 900})
                asked: list[str] = []
                page.on("request", lambda request, asked=asked: asked.append(request.url))
                page.goto(path.resolve().as_uri())
                told += [f"asks for {url}" for url in asked[1:]]
                told += [f"{size}: sticks out: {one}" for one in too_wide(page)[:3]]
                page.screenshot(path=folder / f"{name}-{size}.png", full_page=True)
                if size == "wide":
                    for paper, form in PAPERS.items():
                        page.pdf(path=folder / f"{name}-{paper}.pdf", format=form, prefer_css_page_size=False)
                if axe:
                    told += [f"{size}: axe {one}" for one in accessible(page, axe)]
                page.close()
            for paper in PAPERS:
                stem = folder / f"{name}-{paper}"
                for old in folder.glob(f"{name}-{paper}-*.png"):
                    old.unlink()
                subprocess.run(["pdftoppm", "-png", "-r", "60", f"{stem}.pdf", str(stem)], check=True)
            count = len(list(folder.glob(f"{name}-a4-*.png")))
            print(f"{name}: {count} pages A4; {'; '.join(told) or 'nothing to tell'}", flush=True)
        browser.close()


if __name__ == "__main__":
    main()
