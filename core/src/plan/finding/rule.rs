//! The rules: what a finding checks and how a figure is worked out, each with its key.

/// An enum of rules whose keys stand in files and text ids.
macro_rules! rules {
    ($(#[$doc:meta])* $name:ident { $($variant:ident = $key:literal,)* }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $(#[doc = concat!("`", $key, "`")] $variant,)*
        }

        impl $name {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Its name in files and text ids.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self {
                    $(Self::$variant => $key,)*
                }
            }

            /// The rule of a key.
            #[must_use]
            pub fn of_key(key: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|rule| rule.key() == key)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.key())
            }
        }
    };
}

rules! {
    /// What a finding checks. Its texts are `finding-…` and `remedy-…` with the key.
    Rule {
        AcceptedOrderDoesNotFit = "accepted-order-does-not-fit",
        BothDeepen = "both-deepen",
        CarrierClearance = "carrier-clearance",
        CarrierDepth = "carrier-depth",
        CarrierLineShort = "carrier-line-short",
        CarrierMissing = "carrier-missing",
        CarrierNotForImplant = "carrier-not-for-implant",
        CarrierTooLong = "carrier-too-long",
        ClampUnknown = "clamp-unknown",
        Convergence = "convergence",
        CrownNotMeasured = "crown-not-measured",
        CrownsBesideSeat = "crowns-beside-seat",
        DeepStructure = "deep-structure",
        DeeperThanBefore = "deeper-than-before",
        DeeperThanImplant = "deeper-than-implant",
        DensityUnknown = "density-unknown",
        DiameterFalls = "diameter-falls",
        DiffersFromProtocol = "differs-from-protocol",
        DistanceToNoRoot = "distance-to-no-root",
        DrillNotLed = "drill-not-led",
        EndsAbovePlatform = "ends-above-platform",
        EndsShort = "ends-short",
        FixedStopOffGauge = "fixed-stop-off-gauge",
        FlangeNotInRecess = "flange-not-in-recess",
        FluteShort = "flute-short",
        FreeLengthShort = "free-length-short",
        FullDiameterAboveApex = "full-diameter-above-apex",
        GaugeFaceUnknown = "gauge-face-unknown",
        GuideNotHeld = "guide-not-held",
        GuideSeatsLower = "guide-seats-lower",
        GuidedClearance = "guided-clearance",
        GuidedPartUnknown = "guided-part-unknown",
        ImplantDoesNotPass = "implant-does-not-pass",
        KitIsInvented = "kit-is-invented",
        LandingOnDrillSleeve = "landing-on-drill-sleeve",
        LandingOnMasterSleeve = "landing-on-master-sleeve",
        LandingOnPinSleeve = "landing-on-pin-sleeve",
        LookAlikesSideBySide = "look-alikes-side-by-side",
        NeighbourImplant = "neighbour-implant",
        NeighbourImplantBody = "neighbour-implant-body",
        NeighbourNotEntered = "neighbour-not-entered",
        NeighbourOldImplant = "neighbour-old-implant",
        NeighbourRoot = "neighbour-root",
        NoFixedLengthFits = "no-fixed-length-fits",
        NoFullDepth = "no-full-depth",
        NoMarkFits = "no-mark-fits",
        NoPilotFirst = "no-pilot-first",
        NoReceipt = "no-receipt",
        NoSequence = "no-sequence",
        NoSites = "no-sites",
        NoSlot = "no-slot",
        NoTray = "no-tray",
        OffClampingLength = "off-clamping-length",
        OralProfileNotMeasured = "oral-profile-not-measured",
        OutsideGauge = "outside-gauge",
        PinDepthNotGiven = "pin-depth-not-given",
        PinDepthUnknown = "pin-depth-unknown",
        PinDrillShort = "pin-drill-short",
        PinEndsShort = "pin-ends-short",
        ProtocolForAnotherDensity = "protocol-for-another-density",
        ProtocolForAnotherImplant = "protocol-for-another-implant",
        Receipt = "receipt",
        ReceiptSeat = "receipt-seat",
        RecessUnknown = "recess-unknown",
        SeatAgainstFlange = "seat-against-flange",
        SequenceWithoutProtocol = "sequence-without-protocol",
        SettingUnknown = "setting-unknown",
        SiteAwayFromItsTooth = "site-away-from-its-tooth",
        SleeveClearance = "sleeve-clearance",
        SleeveNotForMaster = "sleeve-not-for-master",
        SleeveNotInMaster = "sleeve-not-in-master",
        SleeveWithoutGuide = "sleeve-without-guide",
        StepLimitUnknown = "step-limit-unknown",
        StepTooLarge = "step-too-large",
        StockShort = "stock-short",
        StopBore = "stop-bore",
        StopHeldByRim = "stop-held-by-rim",
        StopRoom = "stop-room",
        StopSeatUnknown = "stop-seat-unknown",
        StopSinksIntoRecess = "stop-sinks-into-recess",
        TissueRoom = "tissue-room",
        ToothAtSite = "tooth-at-site",
        TrayPlaceDoesNotFit = "tray-place-does-not-fit",
        Wall = "wall",
        WallNotMeasured = "wall-not-measured",
        WiderThanImplant = "wider-than-implant",
        WidestNotToFullDepth = "widest-not-to-full-depth",
    }
}

rules! {
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
