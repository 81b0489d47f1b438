//! The rules: what a finding checks, each with its key.

use super::Subject;
use crate::case::keys::keyed;

/// The marks that a clearance can bear, as they are written before it.
#[expect(non_camel_case_types, reason = "it is written as an attribute")]
enum ClearanceMark {
    /// It is about two planned implants.
    two_sites,
}

/// The rules of findings, by what they are about; `two_sites` marks those about two planned implants,
/// whose place names another site.
macro_rules! rules {
    (
        Clearance { $($(#[$mark:ident])? $clearance:ident = $clearance_key:literal,)* }
        $($subject:ident { $($rule:ident = $key:literal,)* })*
    ) => {
        keyed! {
            /// The check behind a finding. Its texts are `finding-…` and `remedy-…` with the key.
            Rule {
                $($clearance = $clearance_key,)*
                $($($rule = $key,)*)*
            }
        }

        /// The rules that are about a distance to anatomy or to a neighbour.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        #[expect(missing_docs, reason = "the rules say it")]
        pub enum Clearance {
            $($clearance,)*
        }

        impl Rule {
            /// The subject of its findings.
            #[must_use]
            pub const fn subject(self) -> Subject {
                match self {
                    $(Self::$clearance => Subject::Clearance,)*
                    $($(Self::$rule => Subject::$subject,)*)*
                }
            }

            /// The clearance that it checks; nothing where it is about something else.
            #[must_use]
            pub const fn clearance(self) -> Option<Clearance> {
                match self {
                    $(Self::$clearance => Some(Clearance::$clearance),)*
                    _ => None,
                }
            }

            /// True if it is about two planned implants, so that its place names another site.
            pub(super) const fn is_of_two_sites(self) -> bool {
                match self {
                    $(Self::$clearance => !<[ClearanceMark]>::is_empty(&[$(ClearanceMark::$mark)?]),)*
                    _ => false,
                }
            }
        }
    };
}

rules! {
    Clearance {
        AxisTiltedFar = "axis-tilted-far",
        BoneTowardsSocket = "bone-towards-socket",
        ConfirmedDisagree = "confirmed-disagree",
        #[two_sites]
        Convergence = "convergence",
        DeepStructure = "deep-structure",
        DistanceToNoRoot = "distance-to-no-root",
        #[two_sites]
        DistancesDisagree = "distances-disagree",
        DrillSleeveRoom = "drill-sleeve-room",
        MeasuredDownTooFar = "measured-down-too-far",
        MeasuredTooFar = "measured-too-far",
        MeasuredTooNear = "measured-too-near",
        #[two_sites]
        NeighbourImplant = "neighbour-implant",
        #[two_sites]
        NeighbourImplantBody = "neighbour-implant-body",
        NeighbourNotEntered = "neighbour-not-entered",
        NeighbourOldImplant = "neighbour-old-implant",
        NeighbourRoot = "neighbour-root",
        OralProfileNotMeasured = "oral-profile-not-measured",
        #[two_sites]
        PlacesDisagree = "places-disagree",
        PlatformAboveCrest = "platform-above-crest",
        RootDistancesDisagree = "root-distances-disagree",
        #[two_sites]
        SitesMeasuredTooFar = "sites-measured-too-far",
        SocketGapUnusual = "socket-gap-unusual",
        SocketNotEntered = "socket-not-entered",
        SocketWithoutTooth = "socket-without-tooth",
        SiteAwayFromItsTooth = "site-away-from-its-tooth",
        StructureBelowNotMeasured = "structure-below-not-measured",
        StructureBesideNotMeasured = "structure-beside-not-measured",
        TissueRoom = "tissue-room",
        ToothAtSite = "tooth-at-site",
        Wall = "wall",
        WallNotMeasured = "wall-not-measured",
        WallsDisagree = "walls-disagree",
    }
    Instrument {
        AllowanceFarOff = "allowance-far-off",
        BothDeepen = "both-deepen",
        CarrierClearance = "carrier-clearance",
        CarrierDepth = "carrier-depth",
        CarrierLineShort = "carrier-line-short",
        CarrierMissing = "carrier-missing",
        CarrierNotForImplant = "carrier-not-for-implant",
        CarrierTooLong = "carrier-too-long",
        ClampUnknown = "clamp-unknown",
        CrownDoubtful = "crown-doubtful",
        CrownNotMeasured = "crown-not-measured",
        CrownOfNoTooth = "crown-of-no-tooth",
        CrownsBesideSeat = "crowns-beside-seat",
        DrillNotLed = "drill-not-led",
        DrillingDataMissing = "drilling-data-missing",
        EndsAbovePlatform = "ends-above-platform",
        EndsShort = "ends-short",
        FixedStopOffGauge = "fixed-stop-off-gauge",
        FlatPointCounted = "flat-point-counted",
        FlangeNotInRecess = "flange-not-in-recess",
        FluteShort = "flute-short",
        FreeLengthShort = "free-length-short",
        FullDiameterAboveApex = "full-diameter-above-apex",
        GaugeConstantMissing = "gauge-constant-missing",
        GaugeFaceUnknown = "gauge-face-unknown",
        GuidedClearance = "guided-clearance",
        GuidedPartUnknown = "guided-part-unknown",
        ImplantBelowLabel = "implant-below-label",
        ImplantDoesNotPass = "implant-does-not-pass",
        InsertionTorqueMissing = "insertion-torque-missing",
        KitIsInvented = "kit-is-invented",
        LandingOnDrillSleeve = "landing-on-drill-sleeve",
        LandingOnMasterSleeve = "landing-on-master-sleeve",
        LandingOnPinSleeve = "landing-on-pin-sleeve",
        NoFixedLengthFits = "no-fixed-length-fits",
        NoMarkFits = "no-mark-fits",
        NothingToPunch = "nothing-to-punch",
        OffClampingLength = "off-clamping-length",
        OutsideGauge = "outside-gauge",
        PinDepthNotGiven = "pin-depth-not-given",
        PinDepthUnknown = "pin-depth-unknown",
        PinDrillShort = "pin-drill-short",
        PinDrillingDataMissing = "pin-drilling-data-missing",
        PinEndsShort = "pin-ends-short",
        PlayAtTip = "play-at-tip",
        RecessUnknown = "recess-unknown",
        SeatAgainstFlange = "seat-against-flange",
        SettingUnknown = "setting-unknown",
        SleeveClearance = "sleeve-clearance",
        SleeveNotForMaster = "sleeve-not-for-master",
        SleeveNotInMaster = "sleeve-not-in-master",
        SleeveWithoutGuide = "sleeve-without-guide",
        SpeedFarOff = "speed-far-off",
        StopBore = "stop-bore",
        StopHeldByRim = "stop-held-by-rim",
        StopRoom = "stop-room",
        StopSeatUnknown = "stop-seat-unknown",
        StopSinksIntoRecess = "stop-sinks-into-recess",
        TorqueFarOff = "torque-far-off",
    }
    Stock {
        LookAlikesSideBySide = "look-alikes-side-by-side",
        NoSlot = "no-slot",
        NoTray = "no-tray",
        StockShort = "stock-short",
        TrayPlaceDoesNotFit = "tray-place-does-not-fit",
    }
    Sequence {
        AcceptedOrderDoesNotFit = "accepted-order-does-not-fit",
        CollarReachUnknown = "collar-reach-unknown",
        CutBefore = "cut-before",
        CutBeforeUnknown = "cut-before-unknown",
        DeeperThanBefore = "deeper-than-before",
        DeeperThanImplant = "deeper-than-implant",
        DeeperThanProtocol = "deeper-than-protocol",
        DensityUnknown = "density-unknown",
        DiameterFalls = "diameter-falls",
        DiffersFromProtocol = "differs-from-protocol",
        KitNotAtHand = "kit-not-at-hand",
        LastDrillThin = "last-drill-thin",
        LastDrillWide = "last-drill-wide",
        NoFullDepth = "no-full-depth",
        NoPilotFirst = "no-pilot-first",
        NoSequence = "no-sequence",
        NoSites = "no-sites",
        PassCutsNothing = "pass-cuts-nothing",
        ProtocolForAnotherDensity = "protocol-for-another-density",
        ProtocolForAnotherImplant = "protocol-for-another-implant",
        ProtocolStepLeftOut = "protocol-step-left-out",
        RulesOlder = "rules-older",
        ShapingBeforeBore = "shaping-before-bore",
        SequenceWithoutProtocol = "sequence-without-protocol",
        StepLimitUnknown = "step-limit-unknown",
        StepTooLarge = "step-too-large",
        TapInSoftBone = "tap-in-soft-bone",
        WiderThanImplant = "wider-than-implant",
        WidestNotToFullDepth = "widest-not-to-full-depth",
    }
    Guide {
        FewPins = "few-pins",
        DepthOverMadeGuide = "depth-over-made-guide",
        GuideLeft = "guide-left",
        GuideMadeByOther = "guide-made-by-other",
        GuideNotHeld = "guide-not-held",
        GuideSeatsLower = "guide-seats-lower",
        GuideTeethLost = "guide-teeth-lost",
        NoReceipt = "no-receipt",
        NoToothHolds = "no-tooth-holds",
        PinsNotSpread = "pins-not-spread",
        PunchOnBone = "punch-on-bone",
        Receipt = "receipt",
        ReceiptSeat = "receipt-seat",
        ScanBeforeGraft = "scan-before-graft",
        SleeveFaceDoubtful = "sleeve-face-doubtful",
    }
}

impl Rule {
    /// True if it holds a guide that was made against the plan.
    #[must_use]
    pub const fn is_of_made_guide(self) -> bool {
        matches!(
            self,
            Self::DepthOverMadeGuide
                | Self::GuideMadeByOther
                | Self::GuideSeatsLower
                | Self::GuideTeethLost
                | Self::NoReceipt
                | Self::Receipt
                | Self::ReceiptSeat
        )
    }

    /// The rule of a key.
    #[must_use]
    pub fn of_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|rule| rule.key() == key)
    }
}
