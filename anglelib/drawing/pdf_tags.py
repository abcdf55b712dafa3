"""The tags of a PDF: what a screen reader is told of each page, the drawing by its sentence and then its words in order.

Each page is a section with the sheet's title; in it one figure, whose alternative text is the sheet's
sentence, and one paragraph of all that is written. reportlab writes no tags of its own; it takes them
as objects, and each page's number in the tree.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from anglelib.drawing.escape import clean
from anglelib.drawing.sheet import Sheet

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas


FIGURE, PARAGRAPH = "Figure", "P"
"""Kinds of content by the format's own names."""


class Tags:
    """The tags of one document, kept page by page and written at the end."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas
        self._pages: list[tuple[str, Sheet, list[str]]] = []
        self._open = ""
        self._number_pages()

    def _number_pages(self) -> None:
        """Each page is told its number in the tree as it is added."""
        from reportlab.pdfbase.pdfdoc import PDFName, PDFPage

        document = self.canvas._doc
        add = document.addPage

        def numbered(page: PDFPage) -> None:
            page.__NoDefault__ = [*PDFPage.__NoDefault__, "StructParents", "Tabs"]
            page.StructParents, page.Tabs = len(self._pages) - 1, PDFName("S")
            add(page)

        document.addPage = numbered

    def page(self, sheet: Sheet) -> None:
        """Begins a page."""
        self._pages.append((self.canvas._doc.thisPageName(), sheet, []))

    def mark(self, kind: str) -> None:
        """What is drawn from here on is FIGURE or PARAGRAPH; "" ends it."""
        if kind == self._open:
            return
        if self._open:
            self.canvas.addLiteral("EMC")
        if kind:
            marks = self._pages[-1][2]
            self.canvas.addLiteral(f"/{kind} <</MCID {len(marks)}>> BDC")
            marks.append(kind)
        self._open = kind

    def write(self) -> None:
        """Writes the tree into the document."""
        from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFObjectReference, PDFString

        document = self.canvas._doc

        def element(kind: str, name: str, **entries) -> PDFObjectReference:
            found = PDFDictionary({"Type": PDFName("StructElem"), "S": PDFName(kind), **entries})
            found.__RefOnly__ = 1
            return document.Reference(found, name)

        root, whole = PDFObjectReference("tags"), PDFObjectReference("tags.document")
        sections, parents = [], []
        for number, (page_name, sheet, marks) in enumerate(self._pages):
            section, page = PDFObjectReference(f"tags.{number}"), PDFObjectReference(page_name)
            places = {kind: [i for i, mark in enumerate(marks) if mark == kind] for kind in (FIGURE, PARAGRAPH)}
            made = {}
            for kind, where in places.items():
                if where:
                    told = {"Alt": PDFString(clean(sheet.sentence))} if kind == FIGURE else {}
                    made[kind] = element(kind, f"tags.{number}.{kind}", P=section, Pg=page, K=PDFArray(where), **told)
            title = PDFString(clean(sheet.title))
            sections.append(element("Sect", f"tags.{number}", P=whole, Pg=page, T=title, K=PDFArray(list(made.values()))))
            parents += [number, PDFArray([made[mark] for mark in marks])]
        element("Document", "tags.document", P=root, K=PDFArray(sections))
        tree = PDFDictionary(
            {
                "Type": PDFName("StructTreeRoot"),
                "K": whole,
                "ParentTree": PDFDictionary({"Nums": PDFArray(parents)}),
                "ParentTreeNextKey": len(self._pages),
            }
        )
        document.Catalog.StructTreeRoot = document.Reference(tree, "tags")
        document.Catalog.MarkInfo = PDFDictionary({"Marked": "true"})
