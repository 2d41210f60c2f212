"""All papers in a made-up language: no word that a person reads is left in English, numbers have its decimal comma."""

import pytest
from reportlab.pdfgen.textobject import PDFTextObject

from conftest import SAMPLES
from core.derive.cutting import cut_project
from core.lay.lay import quick_lay
from core.matching.solve import match
from core.model.project import Project
from core.papers.choices import PaperChoices
from core.papers.papers import write_papers
from made_up import made_up
from places import furnished, nameless
from said import bare_lines

EDGES = ("inner edge", "inner side", "seam side", "left side", "right side", "top", "bottom")
"""What is derived names its edges itself; edges keep the names by which a file refers to them."""


@pytest.fixture
def written(monkeypatch) -> list[str]:
    """The texts set on papers, line by line."""
    texts: list[str] = []
    monkeypatch.setattr(PDFTextObject, "textOut", lambda self, text: texts.append(text))
    return texts


def laid(sample: str) -> Project:
    project = furnished(nameless(SAMPLES / f"{sample}.stripewright"))
    solved = match(project).project
    return solved.placed(quick_lay(cut_project(solved)).project.placements)


@pytest.mark.parametrize(("sample", "units"), [("boathouse-plaid", "mm"), ("pier-parasol", "in")])
def test_papers_speak_it(written, tmp_path, sample, units):
    with made_up():
        write_papers(laid(sample), tmp_path, choices=PaperChoices(units=units))
    assert len(written) > 500
    wrong = {f"{text!r}: {why}" for text, why in bare_lines(written, (), " ".join(written)) if text not in EDGES}
    assert not wrong, "\n".join(sorted(wrong))
