//! The ways in which figures are worked out.

use crate::case::keyed;

keyed! {
    /// The way in which a figure is worked out; its key is the id of its text.
    FigureRule {
        Bench = "rule-bench",
        Carrier = "rule-carrier",
        Cut = "rule-cut",
        DeepestCut = "rule-deepest-cut",
        DepthBelowPlatform = "rule-depth-below-platform",
        DepthFull = "rule-depth-full",
        DepthShort = "rule-depth-short",
        Distance = "rule-distance",
        DrillSleeveRoom = "rule-drill-sleeve-room",
        EndsShort = "rule-ends-short",
        Exact = "rule-exact",
        ExactPin = "rule-exact-pin",
        FinalDepth = "rule-final-depth",
        GaugeLanding = "rule-gauge-landing",
        GaugeUpper = "rule-gauge-upper",
        NeighbourArchModel = "rule-neighbour-arch-model",
        NeighbourMeasured = "rule-neighbour-measured",
        PairAxes = "rule-pair-axes",
        PairPlatforms = "rule-pair-platforms",
        PlayAtTip = "rule-play-at-tip",
        PlayTilt = "rule-play-tilt",
        Radius = "rule-radius",
        SeatAboveCrowns = "rule-seat-above-crowns",
        SeatCrest = "rule-seat-crest",
        SeatDrillSleeve = "rule-seat-drill-sleeve",
        SeatMasterSleeve = "rule-seat-master-sleeve",
        SetFixed = "rule-set-fixed",
        SetGauge = "rule-set-gauge",
        SetMark = "rule-set-mark",
        SetOneFigure = "rule-set-one-figure",
        Shortfall = "rule-shortfall",
        Sounding = "rule-sounding",
        StopRoom = "rule-stop-room",
        StructureAlongAxis = "rule-structure-along-axis",
        StructureBeside = "rule-structure-beside",
        StructureTilted = "rule-structure-tilted",
        StructureUpright = "rule-structure-upright",
        TissueRoomFlap = "rule-tissue-room-flap",
        TissueRoomPunch = "rule-tissue-room-punch",
        Wall = "rule-wall",
    }
}
