"""Layers of a PDF: optional content groups (ISO 32000-1, 8.11), which the PDF library does not offer by itself."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from core.wording import tr


class LayerGroups:
    """Named layers of the document that a canvas writes, all of them in sight when it is opened."""

    def __init__(self, canvas: Any, names: Sequence[str]) -> None:
        from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFName, PDFString

        self._canvas, self._tags = canvas, {name: f"L{index}" for index, name in enumerate(names)}
        self._groups = {
            tag: canvas._doc.Reference(PDFDictionary({"Type": PDFName("OCG"), "Name": PDFString(tr(name))}))
            for name, tag in self._tags.items()
        }

    @contextmanager
    def on(self, name: str) -> Iterator[None]:
        """Whatever is painted inside belongs to the layer."""
        self._canvas._code.append(f"/OC /{self._tags[name]} BDC")
        yield
        self._canvas._code.append("EMC")

    def finish(self) -> None:
        """Name the layers in the document and in the resources of its pages; after the last page, before saving."""
        from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary

        document = self._canvas._doc
        every = PDFArray(list(self._groups.values()))
        catalog = document.Catalog
        catalog.__NoDefault__ = [*catalog.__NoDefault__, "OCProperties"]
        catalog.OCProperties = PDFDictionary({"OCGs": every, "D": PDFDictionary({"Order": every, "ON": every})})
        for page in document.Pages.pages:
            page.Resources = self._resources()

    def _resources(self) -> Any:
        from reportlab.pdfbase.pdfdoc import BasicFonts, PDFObjectReference, PDFResourceDictionary

        resources = PDFResourceDictionary(Properties=dict(self._groups))
        resources.Font = PDFObjectReference(BasicFonts)
        return resources
