//! What is done on each page, in the order of the job.

use super::section::section;
use eframe::egui::Ui;

/// A page or an action, and what to do there.
type Section = (&'static str, &'static [&'static str]);

const SECTIONS: [Section; 10] = [
    (
        "Load case: what must be proved, and where",
        &[
            "Start from a published rule, which fills in occupant mass, load factor and factors and names its paragraphs as the basis. Or type your own figures and say in the basis what they rest on.",
            "The page multiplies limit and ultimate load step by step. It shows how far the load leans against gravity, and the pitch of the article that brings them together.",
            "The occupant point comes from one of four ways: typed, from the posture of the occupant, from two weighings, or from a document. A weighing is the best of them.",
        ],
    ),
    (
        "Fixture: article, supports, straps, bearings",
        &[
            "Drag supports, straps, catch blocks, bearings, gauges, centroid and pivot in the drawing, or type their numbers. A part can be mirrored to the other side of the centreline, or duplicated.",
            "Draw outline lines and keep-clear regions corner by corner, over a photograph if you have one. Two clicks on a known length give its scale.",
            "Mass and centroid of the article come from weighings: one level, one pitched for the waterline.",
        ],
    ),
    (
        "Ballast: what there is to load with",
        &[
            "Add a lot from a ready kind (sand, shot, plate, water, lumber). Published densities and dressed sizes give a first thickness, mass and tolerance, each with its source. A scale reading overrides them.",
            "The weighing list takes bag by bag by keyboard alone, a column pasted from a spreadsheet, or a CSV file. It shows mean and scatter, marks weighings that stand apart, and says what weighing the rest would gain.",
            "Bags give: measure three of them on the floor. Type the mass on the board, how far it goes down after 60 s and 600 s, and the flat on which the bag stood. The page shows the arithmetic; “Take it over” gives modulus, rim and creep to the lot. Bags that nobody measured are judged at 0.1, 0.3 and 1 MPa.",
        ],
    ),
    (
        "Stack: lay it out",
        &[
            "Pick a lot in the tray and click in a view. The piece comes to rest on what is below it. Load, offset, tip margin and findings follow while you drag; the pointer shows each check that the move would make fail.",
            "Propose lays out a whole stack: up to three that differ in kind, side by side with their numbers. Locked pieces stay where they are. Order keeps every place and finds a steadier order. Center keeps order and bond and shifts the stack over the occupant point. Both make the fewest changes that do it, and none where the gain is less than anybody can measure.",
            "Move the slider to see the stack after each step. Every step is checked, not only the last: a stack that ends balanced may fall on the way.",
            "“Lean” draws how the bags let the stack lean and sink at the step that is shown, to exaggerated scales that stand beside it. A reserve that “leans” ends by the bags giving way, before a piece tips or slides; “0.12 or more” is said of a step that was not pushed over: it was only asked whether it bears so much, and it does. While a piece is dragged, and until all is solved, “upper bound” stands beside the number: it is then no promise. A binding strap counts whole as load, and in the reserve with what the sinking stack leaves of its pull.",
        ],
    ),
    (
        "Findings: what falls short, and what fixes it",
        &[
            "Click a finding to bring its pieces and its step into view. Where the program found a move that fixes it, a button does that move. It was tried on a copy of the plan, and no other check gets worse.",
            "From above, the teal curve is the level push that the fixture withstands in each direction. The dashed orange one is the required push.",
        ],
    ),
    (
        "Sheet: print it",
        &[
            "The page shows what is printed: summary, fixture, one page for each layer, holds, unloading, signatures. Save it as PDF, as SVG, or the steps alone as CSV; the ending of the name decides.",
            "The fingerprint on the sheet is that of the plan, so that a sheet can be matched to its file.",
        ],
    ),
    (
        "Test day: load it",
        &[
            "The plan is frozen when the day starts. The page leads from the tare through each piece to the last reading, shows what each scale should read and within what band, and stops with likely causes when a reading does not fit.",
            "Every entry is on the disk before it is shown as taken. A day that was left open is offered again at the next start.",
            "A predicted collapse cannot be overridden. Leave the piece out, take it off, or plan again.",
        ],
    ),
    (
        "Typing values",
        &[
            "Type a value with its unit, whatever units the plan is shown in: 60 lb, 27,2 kg, 4 ft 2 in, 4' 2\", 3 1/4 in. Pure numbers may also be 2/3 or 67 %.",
            "A number alone is taken in the unit that its field shows. It is refused where metres and millimetres could both be meant, and always in a file.",
            "Switching the units of the plan changes what is shown, never what is kept.",
        ],
    ),
    (
        "Saving and recovering",
        &[
            "Work that was not saved when the program ended badly is offered at the next start.",
            "A photograph behind the side view is not in the plan file, only its path from the folder of the plan: move both together.",
        ],
    ),
    (
        "What the numbers do not cover",
        &[
            "Friction is Coulomb's and on the high side once it is needed: enter low values. “Cannot stand” is certain; “can stand” is necessary, not sufficient, where friction holds the stack.",
            "Timber values are for dry wood lying flat, loaded for days. Those that were recalled and not read are marked.",
            "The lifting index is a caution, not a check. Its equation is for steady loads, one person and a warm room: for bags, in the cold, it is the best case.",
        ],
    ),
];

pub(super) fn show(ui: &mut Ui) {
    for (head, paragraphs) in SECTIONS {
        section(ui, head, paragraphs);
    }
}
