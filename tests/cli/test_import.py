"""`stripewright import` from outside: what it writes and says, and one line and exit 2 for everything it can't take."""

import io
import os

import ezdxf
import pytest
from reportlab.pdfgen import canvas

from app.cli import main
from core.files.project_file import read_project

GORES = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="90cm" height="70cm" viewBox="0 0 900 700">'
    '<path id="front" d="M 100 0 h 60 l 40 500 h -140 z"/><path id="back" d="M 400 0 h 60 l 40 500 h -140 z"/></svg>'
)


def imported(tmp_path, content, *options, suffix=".svg", code=0):
    source, target = tmp_path / f"drawing{suffix}", tmp_path / "out.stripewright"
    source.write_bytes(content.encode() if isinstance(content, str) else content)
    assert main(["import", str(source), "-o", str(target), *options]) == code
    return target


def test_a_drawing_becomes_a_project_that_can_be_checked_and_matched(tmp_path, capsys):
    target = imported(tmp_path, GORES, "--ring", "--cut", "pair", "--allowance", "15", "--allowance", "hem=4cm")
    told = capsys.readouterr().out
    assert "front (pair): stitching line 140.0 x 500.0 mm" in told
    assert "  hem" in told
    assert f"{target}: 2 pieces, 4 seams, no findings" in told
    project = read_project(target)
    assert project.title == "drawing"
    assert {edge.name: edge.allowance for edge in project.pieces[0].edges} == {
        "waist": 15.0,
        "right": 15.0,
        "hem": 40.0,
        "left": 15.0,
    }
    assert main(["check", str(target)]) == 0
    assert main(["match", str(target)]) == 0


def test_every_option_reaches_the_pieces(tmp_path, harbour_skirt):
    options = (
        "--only back --only front --scale 2 --outline cut --name waist=crown --title Kiosk --turn 180 --corner-angle 10"
    )
    project = read_project(imported(tmp_path, GORES, *options.split(), "--cloth-from", str(harbour_skirt)))
    assert [piece.id for piece in project.pieces] == ["back", "front"]
    assert project.pieces[0].outline_is == "cut"
    assert project.title == "Kiosk"
    assert project.cloths == read_project(harbour_skirt).cloths[:1]
    assert project.pieces[0].edges[0].name == "crown"
    assert project.pieces[0].edges[0].path == "M -140 0 L 140 0"
    wide = read_project(imported(tmp_path, GORES, "--cloth-width", "55in", "--units", "cm"))
    assert wide.cloths[0].width == pytest.approx(1397)
    assert wide.pieces[0].edges[0].path == "M -300 0 L 300 0"


def dxf(draw):
    document, text = ezdxf.new(), io.StringIO()
    document.header["$INSUNITS"] = 4
    draw(document.modelspace())
    document.write(text)
    return text.getvalue()


def pdf(draw):
    out = io.BytesIO()
    sheet = canvas.Canvas(out, pagesize=(1000, 1000))
    draw(sheet)
    sheet.showPage()
    sheet.save()
    return out.getvalue()


def svg(body, head='width="900mm" height="900mm" viewBox="0 0 900 900"'):
    return f'<svg xmlns="http://www.w3.org/2000/svg" {head}>{body}</svg>'


BOMB = (
    '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">'
    + "".join(f'<!ENTITY {chr(98 + n)} "{f"&{chr(97 + n)};" * 10}">' for n in range(9))
    + ']><svg xmlns="http://www.w3.org/2000/svg"><title>&j;</title></svg>'
)
OUTSIDE = '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>' + svg("<title>&x;</title>")


def copied_ten_times(level):
    return f'<g id="g{level}">' + f'<use href="#g{level - 1}"/>' * 10 + "</g>"


COPIES = svg(
    '<defs><g id="g0"><rect width="90" height="90"/></g>'
    + "".join(map(copied_ten_times, range(1, 9)))
    + '</defs><use href="#g8"/>'
)
LOOP = svg('<g id="g"><use href="#g"/></g>')
BOW = "M 0 0 L 300 300 L 300 0 L 0 300 Z"
OPEN = "M 0 0 L 300 0 L 300 300 L 0 300 L 0 50"
ZIGZAG = "".join(f"L {n % 7} {n % 11}" for n in range(200_010))
STAR = "M 300 0" + "".join(f" L {300 - 300 * (n % 2)} {5 * n}" for n in range(1, 120)) + " L -50 600 L -50 0 Z"

HOSTILE = {
    "nothing": ("", ".svg", "the file is empty"),
    "blanks": ("   \n  ", ".dxf", "the file is empty"),
    "noise": (bytes(range(256)) * 40, ".pdf", "neither SVG nor DXF nor PDF"),
    "prose": ("0 is a number\nand this is prose", ".dxf", "neither SVG nor DXF nor PDF"),
    "too large": (b"<svg>" + b" " * (16 * 1024 * 1024), ".svg", "17 MB"),
    "broken XML": ("<svg><path", ".svg", "not sound XML"),
    "other XML": ("<html><body/></html>", ".svg", "starts with <html>"),
    "other name space": ('<svg xmlns="http://example.org/"><path d="M0 0H9V9Z"/></svg>', ".svg", "starts with <svg>"),
    "entities that multiply": (BOMB, ".svg", "declares entities"),
    "an entity from outside": (OUTSIDE, ".svg", "declares entities"),
    "groups without end": ("<svg>" + "<g>" * 100_000, ".svg", "nest too deep"),
    "copies that multiply": (COPIES, ".svg", "copies"),
    "a copy of itself": (LOOP, ".svg", "copies"),
    "no lines": (svg("<text>Front</text>"), ".svg", "draws no lines"),
    "not a number": (svg('<path d="M 0 0 L nan 9"/>'), ".svg", "for a number"),
    "infinite": (svg('<polygon points="0,0 inf,0 9,9"/>'), ".svg", "no list of numbers"),
    "immense": (svg('<path d="M 0 0 L 1e308 9"/>'), ".svg", "too large"),
    "immense by transforms": (svg('<g transform="scale(1e6)"><path d="M 0 0 L 1e6 9"/></g>'), ".svg", "lies at"),
    "transforms without end": (svg("<g transform='scale(1e7)'>" * 60 + "</g>" * 60), ".svg", "too large"),
    "no size": (svg('<path d="M0 0"/>', 'width="0" height="5mm"'), ".svg", "above 0"),
    "a size that floats": (svg('<path d="M0 0"/>', 'width="3em" height="5mm"'), ".svg", "no fixed size"),
    "a flat view box": (svg("", 'viewBox="0 0 0 10"'), ".svg", "viewBox"),
    "a strange transform": (svg('<path transform="spin(3)" d="M0 0H9"/>'), ".svg", "transform"),
    "odd points": (svg('<polygon points="1 2 3"/>'), ".svg", "two for every point"),
    "crossing itself": (svg(f'<path id="bow" d="{BOW}"/>'), ".svg", "'bow' crosses itself"),
    "open": (svg(f'<path id="gap" d="{OPEN}"/>'), ".svg", "ends 50.0 mm from there"),
    "too small": (svg('<path d="M 0 0 H 9 V 9 H 0 Z"/>'), ".svg", "9.0 x 9.0 mm"),
    "too many lines": (svg(f'<path d="M 0 0 {ZIGZAG}"/>'), ".svg", "more than 200000 lines"),
    "too many shapes": (svg('<path d="M0 0H9"/>' * 10_001), ".svg", "more than 10000 shapes"),
    "too many pieces": (
        svg("".join(f'<path d="M {n % 20 * 45} {n // 20 * 55} h 44 v 50 h -44 z"/>' for n in range(320))),
        ".svg",
        "320 outlines to take",
    ),
    "too many corners": (svg(f'<path id="comb" d="{STAR}"/>'), ".svg", "corners"),
    "a picture without a scale": (b"\x89PNG\r\n\x1a\n", ".png", "state the corners and the size"),
    "truncated DXF": ("  0\nSECTION\n  2\nENTITIES\n  0\nLINE\n 10\n", ".dxf", "draws no lines"),
    "DXF without lines": (dxf(lambda space: space.add_point((1, 1))), ".dxf", "draws no lines"),
    "DXF with a number that is none": (
        dxf(lambda space: space.add_line((123.25, 0), (9, 9))).replace("123.25", "nan"),
        ".dxf",
        "lies at (nan",
    ),
    "DXF crossing itself": (
        dxf(lambda space: space.add_lwpolyline([(0, 0), (300, 300), (300, 0), (0, 300)], close=True)),
        ".dxf",
        "crosses itself",
    ),
    "DXF left open": (dxf(lambda space: space.add_arc((0, 0), 300, 0, 300)), ".dxf", "no outline is closed"),
    "binary DXF cut short": (b"AutoCAD Binary DXF\r\n\x1a\x00\x00", ".dxf", "DXF"),
    "broken PDF": (b"%PDF-1.7\n%%EOF", ".pdf", "no PDF that can be opened"),
    "PDF of text": (pdf(lambda sheet: sheet.drawString(9, 9, "Front")), ".pdf", "draws no lines"),
    "PDF crossing itself": (
        pdf(lambda sheet: sheet.lines([(0, 0, 600, 600), (600, 600, 600, 0), (600, 0, 0, 600), (0, 600, 0, 0)])),
        ".pdf",
        "but crosses itself",
    ),
}


@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_input_gets_one_line_and_exit_2(kind, tmp_path, capsys):
    content, suffix, says = HOSTILE[kind]
    target = imported(tmp_path, content, suffix=suffix, code=2)
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.count("\n") == 1
    assert printed.err.startswith(f"stripewright: {tmp_path / 'drawing'}{suffix}")
    assert says in printed.err
    assert not target.exists()


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ("--only sleeve", "no outline is called 'sleeve'"),
        ("--scale 0", "not above 0"),
        ("--scale nan", "no number"),
        ("--units furlong", "invalid choice"),
        ("--allowance hem=wide", "no length"),
        ("--allowance side=5", "no edge is called 'side'"),
        ("--allowance 2000", "0 to 1000 is right"),
        ("--outline cut --allowance 80", "allowance"),
        ("--name hem", "EDGE=NAME"),
        ("--name hem=left", "stands 2 times"),
        ("--check-square 50", "no check square"),
        ("--corners 1,1 9,1 9,9 1,9", "a photograph needs both"),
        ("--corners 1,1 9,1 9,9 1,9 --rectangle 9 9", "no picture"),
        ("--corners 1,1 9,1 9,9 x,9 --rectangle 9 9", "no number"),
        ("--corners 1,1 2,2 3,3 4,4 --rectangle 9 9", "round no rectangle"),
        ("--check-square 50 --scale 2", "one of the two"),
        ("--scale 1000", "up to 100000 mm is right"),
        ("--cloth-from nowhere.stripewright", "nowhere.stripewright"),
    ],
)
def test_wishes_that_can_not_be_met_get_one_line_and_exit_2(options, says, tmp_path, capsys):
    target = imported(tmp_path, GORES, *options.split(), code=2)
    printed = capsys.readouterr()
    assert printed.err.count("\n") == 1
    assert says in printed.err
    assert not target.exists()


def test_a_source_that_is_not_there_or_a_folder_is_told(tmp_path, capsys):
    for source in (tmp_path / "none.svg", tmp_path):
        assert main(["import", str(source), "-o", str(tmp_path / "out.stripewright")]) == 2
        assert "can't be read" in capsys.readouterr().err


def test_nothing_is_fetched_or_left_behind(tmp_path, capsys):
    body = (
        '<image href="http://example.org/x.png"/><use href="http://example.org/y.svg#z"/>'
        '<path d="M 0 0 H 90 V 95 H 0 Z"/>'
    )
    imported(tmp_path, svg(body))
    told = capsys.readouterr().out
    assert "a picture was left out" in told
    assert "a copy of something that is not in the file was left out" in told
    assert sorted(os.listdir(tmp_path)) == ["drawing.svg", "out.stripewright"]
