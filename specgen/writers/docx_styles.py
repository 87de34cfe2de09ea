"""The styles and the numbering of a drafted document, as WordprocessingML.

One multilevel list whose levels name the paragraph styles, and styles that name the list: a
paragraph deleted in a word processor renumbers the rest.
"""

from __future__ import annotations

from dataclasses import dataclass

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
NAMESPACE = f'xmlns:w="{W}"'
FONT = "Arial"
NUMBERING_ID = 1
TWIPS = 1440
INK = "1F2933"
RULE = "8A94A0"
OPEN_SHADE = "yellow"


@dataclass(frozen=True, slots=True)
class Level:
    """One level of the section's numbering: its style, number format and indents in twips."""

    style: str
    name: str
    number_format: str
    text: str
    left: int
    hanging: int
    before: int
    after: int
    size: int
    bold: bool
    outline: int | None


LEVELS = (
    Level("Part", "Part", "decimal", "PART %1 -", 0, 0, 360, 120, 22, True, 0),
    Level("Article", "Article", "decimal", "%1.%2", 720, 720, 240, 80, 20, True, 1),
    Level("Paragraph1", "Paragraph 1", "upperLetter", "%3.", 1152, 432, 0, 100, 20, False, None),
    Level("Paragraph2", "Paragraph 2", "decimal", "%4.", 1584, 432, 0, 60, 20, False, None),
    Level("Paragraph3", "Paragraph 3", "lowerLetter", "%5.", 2016, 432, 0, 60, 20, False, None),
    Level("Paragraph4", "Paragraph 4", "decimal", "%6)", 2448, 432, 0, 60, 20, False, None),
)


def numbering_xml() -> str:
    """The numbering part: one list, six levels, each bound to its style."""
    levels = "".join(_level_xml(index, level) for index, level in enumerate(LEVELS))
    return (
        f"<w:numbering {NAMESPACE}>"
        f'<w:abstractNum w:abstractNumId="{NUMBERING_ID}">'
        f'<w:multiLevelType w:val="multilevel"/>{levels}</w:abstractNum>'
        f'<w:num w:numId="{NUMBERING_ID}"><w:abstractNumId w:val="{NUMBERING_ID}"/></w:num>'
        "</w:numbering>"
    )


def _level_xml(index: int, level: Level) -> str:
    suffix = "space" if level.hanging == 0 else "tab"
    tab = (
        ""
        if level.hanging == 0
        else (f'<w:tabs><w:tab w:val="num" w:pos="{level.left}"/></w:tabs>')
    )
    return (
        f'<w:lvl w:ilvl="{index}"><w:start w:val="1"/>'
        f'<w:numFmt w:val="{level.number_format}"/><w:pStyle w:val="{level.style}"/>'
        f'<w:suff w:val="{suffix}"/><w:lvlText w:val="{level.text}"/><w:lvlJc w:val="left"/>'
        f'<w:pPr>{tab}<w:ind w:left="{level.left}" w:hanging="{level.hanging}"/></w:pPr></w:lvl>'
    )


def styles_xml() -> str:
    """Every style that a drafted document uses, and no other."""
    return (
        f"<w:styles {NAMESPACE}>"
        "<w:docDefaults><w:rPrDefault><w:rPr>"
        f'<w:rFonts w:ascii="{FONT}" w:hAnsi="{FONT}" w:eastAsia="{FONT}" w:cs="{FONT}"/>'
        f'<w:color w:val="{INK}"/><w:sz w:val="20"/><w:szCs w:val="20"/>'
        '<w:lang w:val="en-US" w:eastAsia="en-US" w:bidi="ar-SA"/>'
        "</w:rPr></w:rPrDefault><w:pPrDefault><w:pPr>"
        '<w:spacing w:after="0" w:line="252" w:lineRule="auto"/>'
        "</w:pPr></w:pPrDefault></w:docDefaults>"
        '<w:style w:type="paragraph" w:default="1" w:styleId="Normal"><w:name w:val="Normal"/>'
        "<w:qFormat/><w:pPr><w:widowControl/></w:pPr></w:style>"
        '<w:style w:type="character" w:default="1" w:styleId="DefaultParagraphFont">'
        '<w:name w:val="Default Paragraph Font"/><w:uiPriority w:val="1"/></w:style>'
        '<w:style w:type="table" w:default="1" w:styleId="TableNormal">'
        '<w:name w:val="Normal Table"/><w:uiPriority w:val="99"/><w:tblPr>'
        '<w:tblInd w:w="0" w:type="dxa"/><w:tblCellMar><w:top w:w="0" w:type="dxa"/>'
        '<w:left w:w="108" w:type="dxa"/><w:bottom w:w="0" w:type="dxa"/>'
        '<w:right w:w="108" w:type="dxa"/></w:tblCellMar></w:tblPr></w:style>'
        '<w:style w:type="numbering" w:default="1" w:styleId="NoList">'
        '<w:name w:val="No List"/><w:uiPriority w:val="99"/></w:style>'
        + "".join(_numbered_style(index, level) for index, level in enumerate(LEVELS))
        + _plain_style(
            "SectionNumber",
            "Section Number",
            'w:before="120" w:after="40"',
            26,
            True,
            extra="<w:keepNext/>",
            align="center",
        )
        + _plain_style(
            "SectionTitle",
            "Section Title",
            'w:before="0" w:after="240"',
            26,
            True,
            extra="<w:keepNext/>",
            align="center",
        )
        + _plain_style(
            "SectionEnd", "Section End", 'w:before="360" w:after="0"', 20, True, align="center"
        )
        + _plain_style(
            "ScheduleHead",
            "Schedule Head",
            'w:before="40" w:after="40"',
            18,
            True,
            extra="<w:keepNext/>",
        )
        + _plain_style("ScheduleCell", "Schedule Cell", 'w:before="40" w:after="40"', 18, False)
        + _plain_style("Header", "header", 'w:after="0"', 17, False)
        + _plain_style("Footer", "footer", 'w:after="0"', 17, False)
        + _plain_style("CommentText", "annotation text", 'w:after="60"', 18, False)
        + '<w:style w:type="character" w:styleId="CommentReference">'
        '<w:name w:val="annotation reference"/><w:rPr><w:sz w:val="16"/></w:rPr></w:style>'
        '<w:style w:type="character" w:customStyle="1" w:styleId="OpenDecision">'
        '<w:name w:val="Open Decision"/><w:qFormat/><w:rPr><w:b/>'
        f'<w:highlight w:val="{OPEN_SHADE}"/></w:rPr></w:style>'
        "</w:styles>"
    )


def _numbered_style(index: int, level: Level) -> str:
    outline = "" if level.outline is None else f'<w:outlineLvl w:val="{level.outline}"/>'
    keep = "" if level.outline is None else "<w:keepNext/><w:keepLines/>"
    following = LEVELS[min(index + 1, len(LEVELS) - 1)].style if index < 2 else level.style
    bold = "<w:b/>" if level.bold else ""
    return (
        f'<w:style w:type="paragraph" w:customStyle="1" w:styleId="{level.style}">'
        f'<w:name w:val="{level.name}"/><w:basedOn w:val="Normal"/><w:next w:val="{following}"/>'
        f"<w:qFormat/><w:pPr>{keep}"
        f'<w:numPr><w:ilvl w:val="{index}"/><w:numId w:val="{NUMBERING_ID}"/></w:numPr>'
        f'<w:spacing w:before="{level.before}" w:after="{level.after}"/>{outline}</w:pPr>'
        f'<w:rPr>{bold}<w:sz w:val="{level.size}"/></w:rPr></w:style>'
    )


def _plain_style(
    style: str, name: str, spacing: str, size: int, bold: bool, extra: str = "", align: str = "left"
) -> str:
    custom = "" if name in ("header", "footer", "annotation text") else ' w:customStyle="1"'
    weight = "<w:b/>" if bold else ""
    return (
        f'<w:style w:type="paragraph"{custom} w:styleId="{style}"><w:name w:val="{name}"/>'
        f'<w:basedOn w:val="Normal"/><w:pPr>{extra}<w:spacing {spacing}/>'
        f'<w:jc w:val="{align}"/></w:pPr><w:rPr>{weight}<w:sz w:val="{size}"/></w:rPr></w:style>'
    )
