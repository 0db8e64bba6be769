"""Reads a DOCX and an XLSX back with python-docx and openpyxl, and says what they hold.
Run: python3 read_word.py report.docx yard.xlsx"""
import sys
import docx, openpyxl

document = docx.Document(sys.argv[1])
print("python-docx", docx.__version__ if hasattr(docx, "__version__") else "")
print("title:", document.core_properties.title)
for paragraph in document.paragraphs:
    if paragraph.style.name.startswith(("Heading", "heading", "Appendix")):
        print(f"  {paragraph.style.name}: {paragraph.text}")
print("tables:", [(len(t.rows), len(t.columns)) for t in document.tables])
print("pictures:", [shape._inline.docPr.get("descr") for shape in document.inline_shapes])
print("captions:", [p.text for p in document.paragraphs if p.style.name in ("Caption", "caption", "Table Title")])

book = openpyxl.load_workbook(sys.argv[2])
print("openpyxl", openpyxl.__version__)
for sheet in book:
    print(f"  {sheet.title}: {sheet.max_row} rows, {sheet.max_column} columns; printed on one page wide: {sheet.page_setup.fitToWidth}")
