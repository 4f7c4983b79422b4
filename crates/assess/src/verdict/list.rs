//! The list of checks: a line each with its heading, its group, what it measures, on which side of its limit
//! it falls short, and the function in `checks` that looks at a plan.

/// Hands the list to a macro.
macro_rules! every_check {
    ($with:ident) => {
        $with! {
            AppliedLoad: "Applied load", Load, Mass, AtLeast, load::check;
            ValuesToBeEntered: "Values to be entered", Load, None, Free, entered::check;
            Basis: "Basis of the load", Load, None, Free, basis::check;
            FactorOfSafety: "Factor of safety", Load, Ratio, AtLeast, safety_factor::check;
            OccupantPoint: "Occupant point", Position, None, Free, occupant::check;
            PointKnown: "Point known within", Position, Distance, Free, known::check;
            OffsetForeAndAft: "Offset fore and aft", Position, Distance, AtMost, offset::fore_and_aft;
            OffsetLateral: "Offset lateral", Position, Distance, AtMost, offset::lateral;
            OffsetAtHolds: "Offset at the holds", Position, Distance, AtMost, holds::check;
            SeatWithStraps: "Seat with straps", Load, Mass, AtMost, seat_straps::check;
            OffsetWithStraps: "Offset with straps", Position, Distance, AtMost, straps_offset::check;
            EveryPieceRests: "Every piece rests", Stability, Count, AtMost, rest::check;
            EveryStepStands: "Every step stands", Stability, Count, AtLeast, stands::check;
            CollapseReserve: "Collapse reserve", Stability, OfWeight, AtLeast, reserve::check;
            CriticalLoadFactor: "Critical load factor", Stability, Ratio, AtLeast, critical::check;
            Lean: "Lean", Stability, Distance, AtMost, lean::check;
            HoldTime: "Hold time", Stability, Time, AtLeast, hold_time::check;
            SetDownHard: "Set down hard", Stability, Force, Free, set_down::check;
            TipMargin: "Tip margin", Stability, OfWeight, AtLeast, tip::check;
            Sliding: "Sliding", Stability, OfWeight, AtLeast, slide::check;
            BareArticle: "Bare article", Fixture, OfWeight, AtLeast, tare::check;
            Footprint: "Footprint", Fixture, OfWeight, AtLeast, footprint::check;
            StrapStretch: "Strap stretch", Fixture, OfWeight, AtLeast, slack::check;
            ArticleStands: "Article stands", Fixture, None, Free, article::check;
            SupportsGive: "Supports give", Fixture, None, Free, supports::check;
            Scales: "Scales", Fixture, Mass, AtMost, scales::check;
            BedAsDrawn: "Bed as drawn", Fixture, Angle, Free, drawn::check;
            CatchBlocks: "Catch blocks", Fixture, Distance, AtLeast, catch_blocks::check;
            StrapPreload: "Strap preload", Fixture, Force, AtMost, preload::check;
            StrapPull: "Strap pull", Fixture, Force, AtMost, straps::check;
            BindingStraps: "Binding straps", Stability, None, Free, bindings::check;
            Boards: "Boards", BoardsAndBearings, Stress, AtMost, boards::check;
            Bearings: "Bearings", BoardsAndBearings, Force, AtMost, bearings::check;
            ChanceToMiss: "Chance to miss", Position, Ratio, AtMost, chances::check;
            KeepClear: "Keep clear", Clearance, Distance, AtLeast, keep_clear::check;
            LoadDirection: "Load direction", Load, Angle, AtMost, direction::check;
            BagsSideBySide: "Bags side by side", Stability, Distance, AtMost, beside::check;
            OverTheEdge: "Over the edge", Stability, Distance, Free, over_the_edge::check;
            FrictionAlike: "Friction alike", Stability, Ratio, Free, friction::check;
            AfterUltimate: "After ultimate load", Load, Count, AtMost, after_ultimate::check;
            SetShown: "Set after limit", Load, None, Free, set_shown::check;
            PiecesWeighed: "Pieces weighed", Load, Count, Free, weighed::check;
            UnlikelyFigures: "Unlikely figures", Load, None, Free, slips::check;
            Lifting: "Lifting by hand", People, Ratio, Free, lifting::check;
        }
    };
}

pub(super) use every_check;
