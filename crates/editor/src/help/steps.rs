//! What is done in each job of the help: its steps, and what is good to know of it.

use super::job::{Job, Step};

/// A step without a mark in the picture.
const fn step(says: &'static str) -> Step {
    Step { says, at: "" }
}

/// A step with a mark beside a control.
const fn at(control: &'static str, says: &'static str) -> Step {
    Step { says, at: control }
}

/// The steps of a job, in their order.
pub(super) fn steps(job: Job) -> &'static [Step] {
    match job {
        Job::Begin => BEGIN,
        Job::LoadCase => LOAD_CASE,
        Job::Fixture => FIXTURE,
        Job::Ballast => BALLAST,
        Job::Bags => BAGS,
        Job::Stack => STACK,
        Job::Propose => PROPOSE,
        Job::Findings => FINDINGS,
        Job::Sheet => SHEET,
        Job::TestDay => TEST_DAY,
    }
}

/// What is good to know, a paragraph each.
pub(super) fn notes(job: Job) -> &'static [&'static str] {
    match job {
        Job::Begin => &[
            "Work that was not saved when the program ended badly is offered at the next start.",
            "A photograph behind the side view is not in the plan file, only its path from the folder of the plan: move both together.",
        ],
        Job::LoadCase => &[
            "Type a value with its unit, whatever units the plan is shown in: 60 lb, 27,2 kg, 4 ft 2 in, 4' 2\", 3 1/4 in. Pure numbers may also be 2/3 or 67 %. A number alone is taken in the unit that its field shows; it is refused where metres and millimetres could both be meant.",
            "Switching the units of the plan changes what is shown, never what is kept.",
        ],
        Job::Fixture => &[
            "Mass and centroid of the article come from weighings: one level, one pitched for the waterline.",
            "A part can be mirrored to the other side of the centreline, or duplicated.",
        ],
        Job::Ballast => &[
            "Published densities and dressed sizes give a first mass, each with its source. A scale reading overrides it.",
        ],
        Job::Bags => &[
            "Bags that nobody measured are judged at 0.1, 0.3 and 1 MPa: in order only if all three are.",
            "Left out: sand that runs inside a bag, uneven bags, neighbours that hold one another up. Keep piles low and in bond.",
        ],
        Job::Stack => &[
            "Every step is checked, not only the last: a stack that ends balanced may fall on the way.",
            "“Lean” draws how the bags let the stack lean and sink at the step that is shown, to exaggerated scales that stand beside it.",
        ],
        Job::Propose => &[
            "Order and Center make the fewest changes that do it, and none where the gain is less than anybody can measure.",
        ],
        Job::Findings => &[
            "Friction is Coulomb's and on the high side once it is needed: enter low values. “Cannot stand” is certain; “can stand” is necessary, not sufficient, where friction holds the stack.",
            "Timber values are for dry wood lying flat, loaded for days. Those that were recalled and not read are marked.",
            "The lifting index is a caution, not a check. Its equation is for steady loads, one person and a warm room: for bags, in the cold, it is the best case.",
        ],
        Job::Sheet => {
            &["The fingerprint on the sheet is that of the plan, so that a sheet can be matched to its file."]
        }
        Job::TestDay => &[
            "Every entry is on the disk before it is shown as taken. A day that was left open is offered again at the next start.",
            "A predicted collapse cannot be signed away by anybody. Leave the piece out, take it off, or plan again.",
        ],
    }
}

const BEGIN: &[Step] = &[
    at(
        "Bucket in a frame, three load cells",
        "File > New begins an empty plan. Choose the shape that is like your fixture and type its five sizes: outline, supports, bearings, marks and string follow.",
    ),
    at("None of these", "A fixture that is like none of them is drawn on the Fixture page."),
    step(
        "Follow “Next”: load case, fixture, ballast, stack. What is missing counts as falling short until it is entered.",
    ),
    at("Open the demo: Four faults to find (metric)", "Or open a finished plan, to try things on."),
    step(
        "Save under a name of your own. One file is one test; “Save as” keeps a copy and never writes over the log of a test day.",
    ),
];

const LOAD_CASE: &[Step] = &[
    at(
        "Start from a published rule…",
        "Start from a published rule. It fills in occupant mass, load factor and factors, and names its paragraphs as the basis.",
    ),
    at("load case basis", "Or type your own figures, and say in the basis what they rest on."),
    at(
        "Load direction: load factor 3.8 straight down, article pitched 0.0 deg",
        "Read limit and ultimate load, and how far the load leans against gravity. The pitch of the article brings both together.",
    ),
    at(
        "Where it must act",
        "Say where the load must act: typed, from the posture of the occupant, from two weighings, or from a document. A weighing is the best of them.",
    ),
];

const FIXTURE: &[Step] = &[
    step(
        "Drag supports, straps, catch blocks, bearings, gauges, centroid and pivot in the drawing, or type their numbers.",
    ),
    step(
        "Draw outline lines and keep-clear regions corner by corner, over a photograph if you have one. Two clicks on a known length give its scale.",
    ),
    step("Enter mass and centroid of the article: they decide whether it tips on its supports."),
    step("Give each bearing what it may bear. One without a limit is told, and nobody says that it is in order."),
];

const BALLAST: &[Step] = &[
    at("Add lot", "Add a lot from a ready kind: sand, shot, plate, water, lumber."),
    at("weighed mass", "Weigh bag by bag by keyboard alone, paste a column from a spreadsheet, or read a CSV file."),
    at(
        "46 masses of shot bag, 0 stand apart",
        "Look at mean and scatter. Weighings that stand apart are marked; the page says what weighing the rest would gain.",
    ),
    step("Mind the lifting index. Above 1 it strains most people: smaller pieces, two people, or a hoist."),
];

const BAGS: &[Step] = &[
    step("Lay one bag on a hard floor and a board on it. Put a known mass on the board."),
    at(
        "shot bag sinking after 60 s",
        "Read how far the board goes down after 60 s and after 600 s, and the flat on which the bag stood.",
    ),
    at("shot bag bags added", "Do so with three bags, and type each reading. The page shows the arithmetic."),
    at(
        "Take it over",
        "“Take it over” gives modulus, rim and creep to the lot. Reserve, lean and critical load factor then rest on your own bags.",
    ),
];

const STACK: &[Step] = &[
    at(
        "Place shot bag",
        "Pick a lot in the tray and click in a view. The piece comes to rest on the highest thing below it.",
    ),
    at(
        "From the side",
        "Drag a piece. Load, offset and findings follow; the pointer shows each check that the move would make fail.",
    ),
    at("Show: Turned view", "Choose the large view: turned, from the side, from the front, from above."),
    at("Step slider: 49 of 49", "Move the slider, or let it play: the stack as it stands after each step."),
    step("While a piece is dragged, and until all is solved, the reserve is an upper bound: no promise."),
];

const PROPOSE: &[Step] = &[
    step("Lock the pieces that must stay."),
    at("Propose", "Press Propose. Up to three stacks of different kinds stand side by side with their numbers."),
    step("Where no stack meets every check, one best attempt is shown with what binds, and what would help."),
    at(
        "Use this: in order",
        "Order keeps every place and finds a steadier order. Center keeps order and bond and shifts the stack over the occupant point.",
    ),
];

const FINDINGS: &[Step] = &[
    at("Go to the weighing list", "Begin at “Next”: it does the most urgent thing."),
    at("Applied load: fails", "Click a finding to bring its pieces and its step into view."),
    step(
        "Where the program found a move that fixes it, a button makes that move. It was tried on a copy of the plan, and no other check gets worse.",
    ),
    step("“Not decided” counts as falling short: what is needed to decide is not known, or a solver stopped short."),
];

const SHEET: &[Step] = &[
    step("Look through the pages: what is shown is what is printed."),
    at(
        "Save sheet…",
        "Save as PDF, as SVG (a file for each page), or the steps alone as CSV; the ending of the name decides.",
    ),
    at(
        "Print",
        "Print with Ctrl+P: it goes to the printer, or opens in the PDF viewer where no printer takes it. Sign it, and hang it where the stack is laid. A plan that fails says DO NOT LOAD on each page.",
    ),
];

const TEST_DAY: &[Step] = &[
    step("Start the test. From then on the plan stays as it is: whoever changes it plans another test."),
    at(
        "Placed",
        "Read the tare with the scales not set to zero, then place piece by piece. The page shows what each scale should read, and within what band.",
    ),
    at("STOP", "Stop at any noise, shift or odd reading: the button in the corner, the space bar, or F12."),
    step(
        "A reading that does not fit stops the day by itself. Choose the cause that explains it by its number, or take the piece off.",
    ),
    step("Hold, read gauges, unload, read again. The last page is the record."),
];
