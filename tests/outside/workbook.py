"""Reads lists.xlsx with a reader of workbooks, and in an office suite without a screen in three languages.

Every cell of the workbook is held against the CSV file of the same name, lengths as the tape shows them, and the total
against takeoff.json. The office suite then opens the workbook, and the CSV files with the settings that the README
names, where the decimal sign is a point, a comma, and a comma with spaces between thousands; no number may change.

usage: workbook.py COUNT FOLDER...    folders as `build` writes them; so many of them go through the office suite
"""

import csv
import json
import os
import re
import subprocess
import sys
import tempfile
from fractions import Fraction
from pathlib import Path

import openpyxl

from report import Report

LOCALES = ["C", "de_DE.UTF-8", "fr_FR.UTF-8"]
# Semicolon, quotes, UTF-8; numbers as they are stored, of every sheet, a file each.
WRITE = "csv:Text - txt - csv (StarCalc):59,34,76,1,,0,false,false,false,false,false,-1"
# Comma, quotes, UTF-8, from the first line, numbers of the United States.
READ = "Text - txt - csv (StarCalc):44,34,76,1,,1033"


def tape(text):
    """A length as the tape shows it, in its unit: 12'-0 1/2", 36-3/4", 2054 mm; nothing for any other text."""
    metric = re.fullmatch(r"(-?)(\d+) mm", text)
    if metric:
        return float(metric[1] + metric[2])
    parts = re.fullmatch(r"(-?)(?:(\d+)'-)?(?:(\d+)(?:[- ](\d+/\d+))?|(\d+/\d+))\"", text)
    if not parts:
        return None
    sign, feet, whole, more, only = parts.groups()
    size = 12 * int(feet or 0) + int(whole or 0) + Fraction(more or only or 0)
    return float(-size if sign else size)


def number(text):
    """A number of a CSV file; nothing for any other text."""
    text = text.removesuffix("\N{DEGREE SIGN}")
    try:
        return float(text)
    except ValueError:
        return tape(text)


def records(path):
    with open(path, newline="", encoding="utf-8") as file:
        return list(csv.reader(file))


def bare(heading):
    """A heading without its unit."""
    return re.sub(r" \([^()]*\)$", "", heading or "")


def against_csv(report, folder):
    """The workbook and the CSV files cell by cell; the numbers of the workbook by sheet and cell."""
    book = openpyxl.load_workbook(folder / "lists.xlsx", data_only=True)
    formulas = openpyxl.load_workbook(folder / "lists.xlsx")
    files = sorted(path.stem for path in folder.glob("*.csv"))
    report.check(
        sorted(name.replace(" ", "-") for name in book.sheetnames) == files,
        f"{folder.name}: a sheet a list: {book.sheetnames}, {files}",
    )
    for sheet in book:
        where = f"{folder.name}: {sheet.title}"
        rows = records(folder / f"{sheet.title.replace(' ', '-')}.csv")
        report.check(sheet.freeze_panes == "A2", f"{where}: headings stay: {sheet.freeze_panes}")
        found = [[cell.value for cell in row] for row in sheet.iter_rows()]
        heads = [bare(it) for it in rows[0]]
        report.check([bare(it) for it in found[0]] == heads, f"{where}: headings {found[0]}")
        for at, row in enumerate(rows[1:], 2):
            for column, text in enumerate(row):
                value = found[at - 1][column] if at <= len(found) else None
                place = f"{where}, row {at}, {heads[column]}: {value!r} and {text!r}"
                if isinstance(value, (int, float)):
                    expected = number(text)
                    near = expected is not None and abs(expected - value) <= 0.06
                    # the CSV file rounds angles and weights to a tenth, all else is the same
                    exact = near and (abs(expected - value) < 1e-3 or "." in text)
                    report.check(near and exact, place)
                else:
                    report.check((value or "") == text, place)
        for row in formulas[sheet.title].iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    report.check(sheet.title == "buy list", f"{where}: {cell.value}")
    total = json.loads((folder / "takeoff.json").read_text())["cost"]
    column = [bare(cell.value) for cell in book["buy list"][1]].index("cost") + 1
    last = book["buy list"].cell(book["buy list"].max_row, column).value
    report.near(float(last), total, 1e-9, f"{folder.name}: the sum of the buy list")
    return book


def office(arguments, language, folder):
    """Runs the office suite with a profile of its own."""
    command = ["soffice", f"-env:UserInstallation=file://{folder}/profile", "--headless", *arguments]
    surroundings = {**os.environ, "LC_ALL": language, "LANG": language}
    done = subprocess.run(command, env=surroundings, capture_output=True, text=True, timeout=300)
    return done.returncode == 0


def as_read(text, language):
    """A number as the office suite writes it in a language."""
    if language != "C":
        text = text.replace("\N{NARROW NO-BREAK SPACE}", "").replace(",", ".")
    try:
        return float(text)
    except ValueError:
        return None


def same_numbers(report, found, expected, language, where):
    """Rows of texts in a language against cells with numbers."""
    for at, row in enumerate(expected):
        for column, value in enumerate(row):
            if not isinstance(value, (int, float)):
                continue
            text = found[at][column] if at < len(found) and column < len(found[at]) else ""
            read = as_read(text, language)
            holds = read is not None and abs(read - value) < 1e-6
            report.check(holds, f"{where}, row {at + 1}, column {column + 1}: {text!r} for {value}")


def in_office(report, folder, book):
    for language in LOCALES:
        with tempfile.TemporaryDirectory() as out:
            where = f"{folder.name} in {language}"
            source = str(folder / "lists.xlsx")
            if not office(["--convert-to", WRITE, "--outdir", out, source], language, out):
                report.check(False, f"{where}: the office suite did not read the workbook")
                continue
            for sheet in book:
                with open(Path(out) / f"lists-{sheet.title}.csv", newline="", encoding="utf-8") as file:
                    found = list(csv.reader(file, delimiter=";"))
                cells = [[cell.value for cell in row] for row in sheet.iter_rows()]
                same_numbers(report, found, cells, language, f"{where}: {sheet.title}")
            for path in sorted(folder.glob("*.csv")):
                read = Path(out) / "read" / path.stem
                arguments = [f"--infilter={READ}", "--convert-to", WRITE, "--outdir", str(read), str(path)]
                if not office(arguments, language, out):
                    report.check(False, f"{where}: the office suite did not read {path.name}")
                    continue
                [written] = read.glob("*.csv")
                with open(written, newline="", encoding="utf-8") as file:
                    found = list(csv.reader(file, delimiter=";"))
                plain = re.compile(r"-?\d+(\.\d+)?")
                cells = [
                    [float(it) if plain.fullmatch(it) else it for it in row]
                    for row in records(path)
                ]
                same_numbers(report, found, cells, language, f"{where}: {path.name}")


def main():
    report = Report("workbook")
    count, folders = int(sys.argv[1]), [Path(it) for it in sys.argv[2:]]
    report.check(0 < count <= len(folders), f"{count} of {len(folders)} folders for the office suite")
    for at, folder in enumerate(folders):
        book = against_csv(report, folder)
        if at < count:
            in_office(report, folder, book)
    report.finish()


main()
