"""Prints the owner's paper of every example on A4 and on Letter: two sides, and no letter below 9 pt.

Returns 77, which the test program takes as "skipped", where no program that prints a page is installed.
"""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

MOST_SIDES = 2
LEAST_PT = 9.0

program, examples = sys.argv[1], pathlib.Path(sys.argv[2])
printer = shutil.which("chromium") or shutil.which("chromium-browser")
if printer is None:
    print("skipped: chromium, which prints the pages, is not installed")
    sys.exit(77)


def sides(page: pathlib.Path, folder: pathlib.Path) -> int:
    pdf = page.with_suffix(".pdf")
    subprocess.run(
        [printer, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
         f"--user-data-dir={folder / 'profile'}", f"--print-to-pdf={pdf}", page.as_uri()],
        check=True, capture_output=True, timeout=120)
    return len(re.findall(rb"/Type\s*/Page\b", pdf.read_bytes()))


def report(project: pathlib.Path, reader: str, units: str, page: pathlib.Path) -> None:
    subprocess.run([program, "report", str(project), "--reader", reader, "--units", units, "-o", str(page)],
                   check=True, capture_output=True)


def least_letter(html: str) -> float:
    """Of the page's printed text outside its drawings, in points."""
    style = html[html.index("@media print"):html.index("</style>")]
    root = float(re.search(r"html\{font-size:([\d.]+)pt", style).group(1))
    sizes = [float(rem) * root for rem in re.findall(r"\.brief[^{]*\{[^}]*font-size:([\d.]+)rem", style)]
    sizes += [float(pt) for pt in re.findall(r"font:([\d.]+)pt", style)]
    assert len(sizes) > 3, "the rules of the printed page are not where this test looks for them"
    return min(sizes)


failed = []
with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as name:
    folder = pathlib.Path(name)
    projects = sorted(examples.glob("*.json"))
    assert len(projects) > 5, f"hardly an example in {examples}"
    for project in projects:
        for units in ("us", "metric"):
            page = folder / f"{project.stem}-{units}.html"
            report(project, "owner", units, page)
            count = sides(page, folder)
            letter = least_letter(page.read_text(encoding="utf-8"))
            print(f"{page.stem}: {count} sides, {letter:.1f} pt at least")
            if not 1 <= count <= MOST_SIDES or letter < LEAST_PT:
                failed.append(page.stem)
    # That sides are counted at all shows where there must be more.
    page = folder / "adviser.html"
    report(projects[0], "adviser", "us", page)
    if sides(page, folder) <= MOST_SIDES:
        failed.append("the adviser's paper has no more sides than the owner's: are they counted?")
if failed:
    sys.exit("more than two sides, or letters too small: " + ", ".join(failed))
