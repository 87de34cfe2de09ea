"""What a section for a standing seam roof must cover, how that reads, and which clause fills it."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Need:
    """A requirement that a section cannot do without.

    ``when`` are facts of the library of which one must be known to hold for the need to arise
    (empty: always); it is covered where one of ``questions`` is answered or ``reads`` is found in
    one of ``parts``. ``clauses`` would fill it: the first that stands for the answers.
    ``level`` tells a student how hard its absence is to see, 1 to 5.
    """

    id: str
    topic: str
    says: str
    because: str
    clauses: tuple[str, ...]
    reads: re.Pattern[str]
    questions: tuple[str, ...] = ()
    parts: tuple[int, ...] = (1, 2, 3)
    when: tuple[str, ...] = ()
    source: str = "common practice"
    level: int = 2


def _any(*words: str) -> re.Pattern[str]:
    return re.compile("|".join(words), re.IGNORECASE)


NEEDS = (
    Need(
        "slope", "roof", "The lowest slope of the roof is not stated.",
        "Seam, sealant, underlayment and tests all hang on the slope.",
        ("examine-slope", "warranty-weathertight-confirmation"),
        _any(r"\b(?:slope|pitch)\w*\b[^.;]{0,60}\d", r"\d\s?(?::|in|on)\s?12\b"),
        ("lowest_slope",),
    ),
    Need(
        "panel-metal", "panel", "The metal of the panels is not stated.",
        "Metals differ in price by several times, and in everything that may touch them.",
        ("panel-metal-steel", "panel-metal-aluminum", "panel-metal-zinc", "panel-metal-copper",
         "panel-metal-stainless"),
        _any(r"$.^"), ("metal",), level=1,
    ),
    Need(
        "panel-thickness", "panel", "The thickness of the panels is not stated.",
        "The thinnest sheet that forms is the cheapest, and no tested assembly covers it.",
        ("panel-thickness-steel", "panel-thickness-aluminum", "panel-thickness-zinc",
         "panel-thickness-copper", "panel-thickness-stainless"),
        _any(r"\b\d\d[\s-]?(?:gauge|ga)\b", r"\b0?\.0\d\d\d?\s?-?in", r"\b\d\d[\s-]?(?:oz|ounce)",
             r"\b[01][.,]\d\d?\s?mm"),
        ("panel_thickness",), (2,),
    ),
    Need(
        "panel-width", "panel", "The coverage width of the panels is not stated.",
        "Width sets the uplift on a clip, the waviness of a pan and the look of the roof.",
        ("panel-width",),
        _any(r"\b(?:width|wide|coverage|centers?|spacing of seams)\b[^.;]{0,50}\d",
             r"\d[^.;]{0,25}\b(?:wide|width|coverage|on center|o\.c\.|(?:from seam )?to seam"
             r"|between seams)"),
        ("panel_width",), (2,),
    ),
    Need(
        "seam", "panel", "The kind of seam is not stated.",
        "A snap-lock, a single and a double fold shed, hold and seal differently.",
        ("panel-seam-double-lock", "panel-seam-snap-lock", "panel-seam-single-lock",
         "panel-seam-batten"),
        _any(r"snap[\s-]?(?:lock|on|together)", r"(?:double|single)[\s-]?(?:lock|fold)",
             r"\b(?:180|90)[\s-]?deg", r"\bbatten", r"\bmechanical(?:ly)? seam"),
        ("seam",), level=1,
    ),
    Need(
        "seam-height", "panel", "The height of the seam is not stated.",
        "A low seam floods first, and clamps and tests are made for one height.",
        ("panel-seam-double-lock", "panel-seam-snap-lock", "panel-seam-single-lock",
         "panel-seam-batten"),
        _any(r"\b(?:seam|rib|leg|batten)s?\b[^.;]{0,60}\d[^.;]{0,20}\b(?:high|height|tall|in\b"
             r"|inch|mm)",
             r"\b(?:height|high)\b[^.;]{0,40}\d", r"\d[^.;]{0,20}\bhigh\b"),
        ("seam_height",), (2, 3),
    ),
    Need(
        "support", "support", "What the panels are fastened to is not stated.",
        "Clips, fasteners, underlayment and the uplift test are chosen for the support.",
        ("examine-substrate",),
        _any(r"\b(?:deck|decking|purlins?|framing|sheathing|plywood|OSB|substrate"
             r"|subgirts?|concrete)\b"),
        ("support",),
    ),
    Need(
        "wind-design", "wind", "No wind pressures are given, and nobody is asked to compute them.",
        "Without pressures by roof zone a bidder spaces the clips for the field of the roof.",
        ("wind-uplift-resistance",),
        _any(r"\b(?:uplift|wind|design) (?:design )?(?:pressures?|loads?)\b", r"\bwind[- ]uplift\b",
             r"\bASCE\b", r"\bbasic wind speed\b", r"\bpsf\b[^.;]{0,30}\buplift\b",
             r"\buplift\b[^.;]{0,60}\d\s?(?:psf|kPa|kN)"),
        ("zone_pressures", "wind_speed", "design_responsibility"), (1, 2, 3), level=3,
    ),
    Need(
        "uplift-test", "performance", "No test shows the uplift that the roof resists.",
        "Standing seams are proved by test; nothing computes a seam that opens.",
        ("uplift-test-e1592", "uplift-test-ul1897", "uplift-test-ul580", "uplift-rating-fm4471"),
        _any(r"\bE\s?-?1592\b", r"\bUL[\s-]?(?:580|1897)\b", r"\bFM\b[^.;]{0,25}\b447[014]\b",
             r"\bTAS[\s-]?(?:110|125)\b"),
        ("uplift_tests",), level=3,
    ),
    Need(
        "water-test", "performance", "No test of driven rain is asked for.",
        "Below 3:12, and wherever no deck backs the panel, wind drives rain up through seams that"
        " shed it on a steeper roof.",
        ("water-penetration-test",),
        _any(r"\bE\s?-?1646\b", r"\bE\s?-?331\b", r"\bTAS[\s-]?100\b", r"\b501\.1\b"),
        ("water_test",), when=("below_3_12", "open_framing"), level=3,
    ),
    Need(
        "static-head-test", "performance", "No test of the seams under standing water is asked"
                                           " for.",
        "Below 2:12 a seam stands under water at every eave, valley and curb that backs up.",
        ("static-head-test",),
        _any(r"\bE\s?-?2140\b", r"\bstatic (?:water )?(?:pressure )?head\b", r"\bstanding water\b"),
        ("static_head_test",), when=("below_2_12",), level=4,
    ),
    Need(
        "thermal-movement", "performance", "Thermal movement of the panels is not provided for.",
        "A panel that cannot move buckles, tears its clips, or saws through its flashings.",
        ("thermal-movement",),
        _any(r"\bthermal(?:ly)? (?:movement|expan\w+|cycl\w+|contrac\w+|mov\w+)",
             r"\bexpan\w+ and contract\w+", r"\bexpansion\b", r"\b(?:thermal"
                                                              r"|temperature)\b[^.;]{0,60}\bmov\w+",
             r"\bmov\w+\b[^.;]{0,90}\b(?:temperature|deg|°)", r"\b(?:slid\w*|move) freely\b",
             r"\bfree(?:ly)? to (?:move|slide)\b", r"\blengthen\w*\b", r"\bthermal movement\b"),
        ("panel_temperature_high", "panel_temperature_low"), level=3,
    ),
    Need(
        "clips", "attachment", "The clips are not described.",
        "The clip carries the whole uplift, and lets the panel move or holds it.",
        ("clips-two-piece", "clips-one-piece", "batten-clips"),
        _any(r"\bclips?\b", r"\bcleats?\b"),
        ("clip_kind",), (2,), level=2,
    ),
    Need(
        "clip-spacing", "attachment", "Nobody says how far apart the clips stand.",
        "Clip spacing is what turns a test into a roof that stays on at its corners.",
        ("set-clips",),
        _any(r"\b(?:clip|cleat|anchor|attachment|fastener)s?\b[^.]{0,140}\b(?:spac\w+"
             r"|centers?|o\.c\.|apart|intervals?)\b",
             r"\b(?:spac\w+|centers?|o\.c\.|apart)\b[^.]{0,90}\b(?:clip|cleat|attachment)s?\b"),
        ("spacing_basis", "clip_schedule"), level=4,
    ),
    Need(
        "clip-fasteners", "attachment", "The fasteners of the clips are not described.",
        "The weakest link of a tested assembly is often its screw, or the deck below it.",
        ("clip-fasteners",),
        _any(r"\b(?:fasteners?|screws?|nails?|bolts?|anchors?)\b"),
        ("fastener_metal", "fastener_penetration"), (2,), level=2,
    ),
    Need(
        "fixed-point", "attachment", "No fixed point of the panels is stated.",
        "A panel that nothing holds creeps down the slope; one that is held twice buckles.",
        ("fixed-point-fasteners", "fix-panels"),
        _any(r"\bfixed[\s-](?:points?|end|clip|line)", r"\bfix(?:ed|ity)?\b[^.;]{0,60}\b(?:ridge"
                                                       r"|eave|point|panel|midpoint|mid-?length"
                                                       r"|head|end)",
             r"\b(?:pin(?:ned)?|anchor(?:ed)?|hold|held|fasten(?:ed)?|secure[sd]?)\b[^.;]{0,50}\b"
             r"(?:at|along) (?:the |their |its )?(?:ridge|eave|head|upper end|midpoint|one "
             r"(?:point|end|line))",
             r"\bpoint of fix"),
        ("fixed_point",), level=4,
    ),
    Need(
        "seam-sealant", "sealant", "No sealant in the seams is asked for.",
        "Below 2:12 water stands over the seams, and a dry fold draws it in.",
        ("seam-sealant-factory", "seam-sealant-field"),
        _any(r"\bseam[\s-]sealants?\b", r"\bsealant\b[^.;]{0,60}\bseams?\b",
             r"\bseams?\b[^.;]{0,60}\bseal(?:ant|ed|er)\b",
             r"\b(?:butyl|mastic)\b[^.;]{0,60}\b(?:seam|leg|fold|rib)s?\b", r"\b(?:seam|leg|fold"
                                                                            r"|rib)s?\b[^.;]{0,60}\b(?:butyl|mastic)\b"),
        ("seam_sealant",), (2, 3), when=("below_2_12",), level=4,
    ),
    Need(
        "finish", "finish", "The finish of the panels is not stated.",
        "Finish decides life, color, warranty and price as much as the metal does.",
        ("finish-pvdf", "finish-smp", "finish-mill", "finish-natural", "finish-preweathered"),
        _any(r"\bfinish(?:es|ed)?\b", r"\bcoating\b", r"\bpaint", r"\bmill\b",
             r"\bpatina", r"\bPVDF\b"),
        ("finish",), (2,), level=1,
    ),
    Need(
        "finish-warranty", "warranty", "No warranty of the finish is asked for.",
        "The maker of a paint stands for its film, chalk and fade only where it is asked to.",
        ("warranty-finish",),
        _any(r"\b(?:finish|coating|color|paint|fluoropolymer|PVDF|film)\b[^.]{0,140}\b"
             r"(?:warrant\w*|years?)\b",
             r"\b(?:warrant\w*|years?)\b[^.]{0,160}\b(?:finish|coating|chalk|fade|color|paint"
             r"|peel|film)\b"),
        ("finish_warranty_years",), (1, 2, 3), when=("painted",), level=3,
    ),
    Need(
        "installation-warranty", "warranty", "Nobody warrants the installation.",
        "Most leaks of the first years are the installer's, and no paint or panel warranty covers"
        " them.",
        ("warranty-workmanship",),
        _any(r"\b(?:workmanship|watertight\w*|weathertight\w*|weather-tight\w*"
             r"|leak\w*)\b[^.]{0,170}\b(?:warrant\w*|guarant\w*|years?)\b",
             r"\b(?:install\w*|contractor|roofer)\b[^.]{0,170}\b(?:warrant\w*|guarant\w*)\b",
             r"\b(?:warrant\w*|guarant\w*)\b[^.]{0,170}\b(?:workmanship|install\w*|leak\w*"
             r"|watertight\w*|weathertight\w*)\b",
             r"\byears?\b[^.]{0,170}\b(?:workmanship|leak\w*|watertight\w*|weathertight\w*)\b"),
        ("workmanship_years", "weathertight_warranty", "weathertight_years"), level=3,
    ),
    Need(
        "underlayment", "underlayment", "No underlayment over the deck is asked for.",
        "It keeps the deck dry until the panels are on, and whenever a joint fails after that.",
        ("underlayment-self-adhering", "underlayment-synthetic", "underlayment-felt"),
        _any(r"\bunderlay\w*\b", r"\bfelt\b", r"\bself-adher\w+",
             r"\bD\s?-?(?:1970|226)\b"),
        ("underlayment",), (2, 3), when=("solid_deck",), level=3,
    ),
    Need(
        "ice-barrier", "underlayment", "No ice barrier is asked for where ice dams form.",
        "Water stands behind ice at the eave, higher than seams and laps were made for.",
        ("ice-barrier-sheet",),
        _any(r"\bice[\s-](?:barrier|dam|and[\s-]water|shield|guard)", r"\bself-adher\w+"),
        ("ice_barrier",), when=("ice_dams",), level=3,
    ),
    Need(
        "oil-canning", "panel", "Nothing is said of oil canning.",
        "Waviness is the commonest quarrel about a metal roof, and is settled by words agreed on"
        " before it is seen.",
        ("oil-canning-mock-up", "oil-canning-accepted"),
        _any(r"\boil[\s-]?cann?ing\b", r"\bwav(?:e|es|iness|y)\b", r"\bflatness of (?:the"
                                                                   r" )?pans?\b"),
        ("oil_canning",), level=3,
    ),
    Need(
        "unlike-metals", "accessories", "Nothing keeps unlike metals, or treated wood, off the"
                                        " panels.",
        "Copper, lead, bare steel and treated wood eat through a panel that they touch or drain"
        " onto.",
        ("metals-less-noble", "separate-metals", "separation-tape"),
        _any(r"\bdissimilar\b", r"\bunlike (?:metals|materials)", r"\bgalvanic\b",
             r"\bincompatible\b", r"\belectroly\w+",
             r"\b(?:copper|lead|treated|steel|metals?|aluminum|mortar|lime)\b[^.]{0,120}\b"
             r"(?:contact|touch\w*|apart|drain\w*|separat\w+|run[- ]?off|isolat\w+)",
             r"\b(?:contact|touch\w*|apart|drain\w*|separat\w+|run[- ]?off|isolat\w+"
             r"|keep)\b[^.]{0,120}\b(?:copper|lead|treated|other metals|wood|mortar|lime"
             r"|concrete)"),
        when=("noble",), level=4,
    ),
    Need(
        "flashings", "accessories", "The flashings are not described.",
        "A roof leaks at its edges; what is not described there is bent on the spot.",
        ("flashing-metal",),
        _any(r"\bflashings?\b", r"\btrim\b"),
        (), (2,), level=2,
    ),
    Need(
        "shop-drawings", "execution", "No shop drawings are asked for.",
        "Panel layout, clip spacing by zone and edge details are decided on them, before metal is"
        " cut.",
        ("action-shop-drawing-form",),
        _any(r"\bshop[\s-]?drawings?\b", r"\bfabrication drawings?\b", r"\blayout drawings?\b",
             r"\bdrawings?\b[^.;]{0,60}\b(?:layout|details?|panel|setting[- ]out|eaves?|ridge)"),
        (), (1, 2, 3), level=2,
    ),
    Need(
        "installer", "execution", "Nothing is asked of the installer's experience.",
        "A seam is as good as who folds it; the manufacturer of the panel is not on the roof.",
        ("installer-qualification",),
        _any(r"\b(?:install\w*|roofer|applicator|firm|contractor|workers?|foreman|craftsm[ae]n"
             r"|crew|seamer)\b[^.]{0,160}\b(?:years?|experien\w+|train\w*|approv\w*|accepted"
             r"|qualif\w*|certif\w*|completed)",
             r"\b(?:experien\w+|train\w*|qualif\w*)\b[^.]{0,120}\b(?:install\w*|roof\w*|worker"
             r"|foreman)"),
        ("installer_years", "installer_approved"), level=2,
    ),
    Need(
        "storage", "execution", "Nothing is said of storing the panels.",
        "Nested panels that stay wet stain within days, before they are on the roof.",
        ("delivery-storage-bearers", "delivery-storage-cover"),
        _any(r"\bstor(?:e|ed|age|ing)\b", r"\bstack(?:ed|ing)?\b"),
        level=2,
    ),
    Need(
        "examination", "execution", "Nobody is asked to examine the support before panels are"
                                    " laid.",
        "A pan shows every hump of its deck, and afterward nobody knows whose it was.",
        ("examine-substrate",),
        _any(r"\bexamin\w+", r"\binspect\w*\b", r"\bverif\w+", r"\bcheck\w*\b", r"\bsurvey\w*\b"),
        (), (3,), level=2,
    ),
    Need(
        "panel-installation", "execution", "How the panels are set is not said.",
        "Direction, clips, fixed points and laps are decided on the roof if not here.",
        ("install-panels",),
        _any(r"\b(?:install|set|lay|place|erect|setting|laying|fasten|mount|start|hook|turn up"
             r"|hang)\w*\b[^.]{0,120}\b(?:panels?|pans?|trays?|sheets?|roofing)\b",
             r"\b(?:panels?|pans?|trays?)\b[^.]{0,120}\b(?:installed|set|laid|fastened|screwed"
             r"|install|fixed|hook|hooked|start)"),
        (), (3,), level=1,
    ),
    Need(
        "seaming", "execution", "How the seams are closed is not said.",
        "A seam that is half folded looks closed from below, and opens in the first storm.",
        ("seam-powered", "seam-hand", "engage-snap-lock"),
        _any(r"\bseam(?:er|ers|ing|ed)\b",
             r"\b(?:fold|crimp|clos(?!er\b)|lock|engag|snap)\w*\b[^.]{0,90}\bseams?\b",
             r"\bseams?\b[^.]{0,90}\b(?:fold|crimp|clos(?!er\b)|lock|engag|snap)\w*\b"),
        ("seaming_means",), (3,), when=("seamed",), level=3,
    ),
    Need(
        "protection", "execution", "Nothing protects or cleans the finished roof.",
        "Drill chips rust on a finish overnight, and the next trade walks where it likes.",
        ("clean-panels", "protect-roof"),
        _any(r"\bclean\w*\b", r"\bprotect\w*\b", r"\bsweep\w*\b", r"\bwash\w*\b",
             r"\bdebris\b", r"\bremove\b[^.]{0,60}\b(?:chips|cuttings|film|stains)"),
        (), (3,), level=2,
    ),
)  # fmt: skip
