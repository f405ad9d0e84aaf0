"""The cells of a workbook as Python's own zip and XML readers find them: one line a cell, "sheet place kind value".

usage: read_workbook.py FILE. A formula is named as one. For tests.
"""

import sys
import xml.etree.ElementTree as xml
import zipfile

MAIN = "{*}"  # any namespace


def text_of(element):
    return "".join(part.text or "" for part in element.findall(".//" + MAIN + "t"))


def value_of(cell, shared):
    if cell.find(MAIN + "f") is not None:
        return "formula " + (cell.findtext(MAIN + "f") or "")
    kind, value = cell.get("t", "n"), cell.findtext(MAIN + "v")
    if kind == "s":
        return "text " + shared[int(value)]
    if kind == "inlineStr":
        return "text " + text_of(cell)
    return "number " + value


def main(path):
    with zipfile.ZipFile(path) as book:
        assert book.testzip() is None
        names = book.namelist()
        shared = []
        if "xl/sharedStrings.xml" in names:
            shared = [text_of(one) for one in xml.fromstring(book.read("xl/sharedStrings.xml")).findall(MAIN + "si")]
        sheets = xml.fromstring(book.read("xl/workbook.xml")).find(MAIN + "sheets")
        for number, sheet in enumerate(sheets, 1):
            for cell in xml.fromstring(book.read(f"xl/worksheets/sheet{number}.xml")).findall(".//" + MAIN + "c"):
                if cell.find(MAIN + "v") is not None or cell.get("t") == "inlineStr":
                    print(sheet.get("name"), cell.get("r"), value_of(cell, shared))


if __name__ == "__main__":
    main(sys.argv[1])
