"""The kinds of fault that a student may name, in the order in which a list of them shows them."""

from __future__ import annotations

from specgen.study.practice_shapes import Kind

KINDS = (
    # What was left over.
    Kind("choice-left", "a choice left open",
         "Two or more offers stand side by side, in brackets, and nobody chose.", "project"),
    Kind("blank-left", "a blank, or a decision put off",
         "A figure or a name is not filled in, or is promised for later.", "project"),
    Kind("note-left", "a note to the writer left in",
         "A line speaks to whoever writes the section, not to whoever builds from it.", "project"),
    Kind("other-project", "another project named",
         "A building that is not this one is named.", "project"),
    Kind("vague-words", "words that nobody can measure",
         "The words set no figure, standard or judge by which the work passes or fails.",
         "project"),
    # How the section hangs together.
    Kind("reference-broken", "a reference that leads nowhere",
         "An article is named that the section does not have.", "project"),
    Kind("article-lost", "an article lost, its number skipped",
         "The numbers of the articles jump. Mark the article after the jump.", "project"),
    Kind("two-figures", "two paragraphs that disagree",
         "One thing has two figures in two places. Mark the later of the two.", "project"),
    Kind("missing", "a requirement is missing",
         "The section needs something that no paragraph says. Mark the article where it belongs.",
         "project"),
    # The standards.
    Kind("not-in-force", "a standard or edition not in force",
         "It is withdrawn, or a later one replaced it, or the code adopts another edition.",
         "performance"),
    Kind("wrong-title", "a standard under another's title",
         "In the list, the designation is one standard's and the title another's.", "project"),
    Kind("list-and-text", "the list of standards and the text differ",
         "One is listed that no paragraph cites: mark it. Or one is cited and not listed: mark the"
         " article of the list.", "project"),
    Kind("wall-method", "a test for walls, not for roofs",
         "The method is written for windows, doors and curtain walls.", "performance"),
    Kind("no-criterion", "a test without pressure or result",
         "A method is named, and not at what pressure or with what result the roof passes.",
         "performance"),
    Kind("test-too-mild", "a test that asks too little",
         "The pressure, the depth of water or the time is below what the method or the seam"
         " needs.", "performance"),
    # The roof.
    Kind("seam-for-slope", "a seam too open for the slope",
         "Water can stand or be driven over a seam that only sheds it.", "panel"),
    Kind("movement", "too little room for movement",
         "Clips, ends or fixings stop the panel before it has moved as far as its temperature"
         " makes it.", "attachment"),
    Kind("uplift-test", "an uplift test that does not fit the support",
         "A test over a deck is asked for panels over framing, or the reverse.", "performance"),
    Kind("metals", "metals that must not touch",
         "One metal eats the other where they meet and water reaches both.", "attachment"),
    Kind("too-thin", "sheet or deck too thin",
         "It is below what the code or the trade takes for this metal or this screw.", "panel"),
    Kind("underlayment", "an underlayment that does not suit the roof",
         "It cannot take the heat, or the metal, or the slope.", "underlayment"),
    Kind("warranty", "a warranty that will not be given or is not enough",
         "The term or a condition of it is not what is given for this finish, or this work.",
         "warranty"),
)  # fmt: skip
KIND_IDS = frozenset(kind.id for kind in KINDS)
