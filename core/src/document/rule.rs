//! The rules that a document can break.

/// Lists the rules once: the enum, all of them in order, and their ids.
macro_rules! rules {
    ($($(#[doc = $doc:literal])+ $name:ident = $id:literal,)+) => {
        /// A rule that a document broke. Its text has the id of the rule.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Rule {
            $($(#[doc = $doc])+ $name,)+
        }

        impl Rule {
            /// Every rule there is.
            pub const ALL: &[Self] = &[$(Self::$name),+];

            /// The id of the rule's text.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self {
                    $(Self::$name => $id,)+
                }
            }
        }
    };
}

rules! {
    // The file as a whole.
    /// The file has more bytes than any document. Args: `bytes`, `limit`.
    TooLarge = "fault-too-large",
    /// There is nothing in the file, or only blanks.
    Empty = "fault-empty",
    /// The text is UTF-16 or UTF-32. Args: `encoding`.
    OtherEncoding = "fault-other-encoding",
    /// A byte that is no UTF-8. Args: `byte`.
    NotUtf8 = "fault-not-utf8",
    /// A NUL byte: the file is damaged or no text.
    NulByte = "fault-nul-byte",

    // Strict JSON.
    /// The text stops inside a value. Args: `open` (`object`, `list`, `text`, `value`), `line`.
    Unfinished = "fault-unfinished",
    /// Something else is where a value must begin. Args: `found`.
    ExpectedValue = "fault-expected-value",
    /// Something else is where a key must begin. Args: `found`.
    ExpectedKey = "fault-expected-key",
    /// No colon after a key. Args: `found`.
    ExpectedColon = "fault-expected-colon",
    /// No comma or closing bracket after a member or item. Args: `found`, `open`.
    ExpectedComma = "fault-expected-comma",
    /// Nothing is where a value must be. Args: `found` (what follows).
    MissingValue = "fault-missing-value",
    /// A comma before a closing bracket, or two in a row.
    StrayComma = "fault-stray-comma",
    /// Something follows the end of the document. Args: `found`.
    TrailingText = "fault-trailing-text",
    /// A comment.
    Comment = "fault-comment",
    /// A text or key in other quotes than `"`.
    OtherQuotes = "fault-other-quotes",
    /// A word that is not `true`, `false` or `null`. Args: `found`.
    BareWord = "fault-bare-word",
    /// `NaN` or an infinity. Args: `found`.
    NotFinite = "fault-not-finite",
    /// A number in a form that JSON does not have. Args: `found`.
    NumberForm = "fault-number-form",
    /// A comma as decimal mark. Args: `found`, `instead`.
    DecimalComma = "fault-decimal-comma",
    /// A backslash before something that it cannot precede. Args: `found`.
    BadEscape = "fault-bad-escape",
    /// A line break or another control character in a text. Args: `code`.
    ControlCharacter = "fault-control-character",
    /// A character that no bundled font can print. Args: `code`, `found`.
    UnprintableCharacter = "fault-unprintable-character",
    /// A character that is not seen and can show a text as another one. Args: `code`.
    UnseenCharacter = "fault-unseen-character",
    /// More levels of brackets than any document has. Args: `limit`.
    TooDeep = "fault-too-deep",
    /// More values than any document has. Args: `limit`.
    TooManyValues = "fault-too-many-values",
    /// A key that occurs twice in one object. Args: `key`, `line` (of the first).
    DuplicateKey = "fault-duplicate-key",

    // Kind and version.
    /// The document is no object, or has no version key. Args: `kind`, `key`, `version`.
    NotThisKind = "fault-not-this-kind",
    /// The document is of another kind. Args: `kind`, `other`.
    OtherKind = "fault-other-kind",
    /// The version is no whole number from 1. Args: `value`, `kind`, `version`.
    BadVersion = "fault-bad-version",
    /// The document was written by a newer program. Args: `value`, `version`, `kind`.
    NewerVersion = "fault-newer-version",
    /// Its figures came about by rules of a newer program. Args: `value`, `version`, `kind`.
    NewerRules = "fault-newer-rules",
    /// The document is of a version that is no longer read. Args: `value`, `oldest`, `kind`.
    OlderVersion = "fault-older-version",

    // Numbers.
    /// More than three decimals. Args: `value`, `limit`, `instead`.
    TooManyDecimals = "fault-too-many-decimals",
    /// Farther from 0 than anything of its unit can be. Args: `value`, `limit`.
    BeyondAllBounds = "fault-beyond-all-bounds",
    /// Minus zero. Args: `value`.
    MinusZero = "fault-minus-zero",

    // Structure.
    /// A key that nothing here has. Args: `key`, `known`.
    UnknownKey = "fault-unknown-key",
    /// A key that nothing here has, though one like it. Args: `key`, `instead`.
    MisspeltKey = "fault-misspelt-key",
    /// A key that must be there is not. Args: `key`.
    MissingKey = "fault-missing-key",
    /// The key that says what an object is must be there and is not. Args: `key`, `known`.
    MissingTag = "fault-missing-tag",
    /// A value of another type. Args: `found`, `expected`, `value`.
    WrongType = "fault-wrong-type",
    /// A number in quotes. Args: `value`, `instead`.
    NumberInQuotes = "fault-number-in-quotes",
    /// A number with a fraction where only whole ones are. Args: `value`.
    NotWhole = "fault-not-whole",
    /// Below what is allowed. Args: `value`, `limit`.
    BelowMinimum = "fault-below-minimum",
    /// Above what is allowed. Args: `value`, `limit`.
    AboveMaximum = "fault-above-maximum",
    /// Not above what it must exceed. Args: `value`, `limit`.
    NotAbove = "fault-not-above",
    /// Not below what it must stay under. Args: `value`, `limit`.
    NotBelow = "fault-not-below",
    /// Not a multiple. Args: `value`, `limit`.
    NotMultiple = "fault-not-multiple",
    /// Not one of the values that are known. Args: `value`, `known`.
    NotOneOf = "fault-not-one-of",
    /// Not one of the values that are known, though like one. Args: `value`, `known`, `instead`.
    MisspeltValue = "fault-misspelt-value",
    /// A text without a character.
    EmptyText = "fault-empty-text",
    /// A text with too few characters. Args: `value`, `limit`.
    TextTooShort = "fault-text-too-short",
    /// A text with too many characters. Args: `length`, `limit`.
    TextTooLong = "fault-text-too-long",
    /// A text of another form. Args: `value`, `pattern`, `form` (the schema's `x-form`, or `other`).
    TextForm = "fault-text-form",
    /// A text that is no date, time or the like. Args: `value`, `format`.
    TextFormat = "fault-text-format",
    /// A list without an item.
    EmptyList = "fault-empty-list",
    /// Too few items or members. Args: `count`, `limit`.
    TooFew = "fault-too-few",
    /// Too many items or members. Args: `count`, `limit`.
    TooMany = "fault-too-many",
    /// An item that occurs twice in a list.
    RepeatedItem = "fault-repeated-item",
    /// An object that has to say one thing says none or several. Args: `known`.
    OneKeyOf = "fault-one-key-of",
    /// Refused by the type itself, for a reason its schema cannot say. Args: `reason`.
    Refused = "fault-refused",

    // What the caller's own checks find.
    /// Below another value of the document. Args: `value`, `limit`, `other` (what the limit is).
    BelowOther = "fault-below-other",
    /// Above another value of the document. Args: `value`, `limit`, `other` (what the limit is).
    AboveOther = "fault-above-other",
    /// A value that another one says otherwise. Args: `other` (its place).
    AgainstOther = "fault-against-other",
    /// An id or the like that is given twice. Args: `id`, `first` (its place), `key`.
    DuplicateId = "fault-duplicate-id",
    /// An id that nothing has. Args: `id`, `noun`.
    DanglingReference = "fault-dangling-reference",
    /// An id that nothing has, though one like it. Args: `id`, `noun`, `instead`.
    MisspeltReference = "fault-misspelt-reference",
    /// A tooth of the jaw that the case is not about. Args: `position`.
    OtherJaw = "fault-other-jaw",
    /// A deep structure that the case's jaw does not have. Args: `structure` (its key), `jaw`.
    StructureOfOtherJaw = "fault-structure-of-other-jaw",
    /// Two slots of a tray that take some of the same room. Args: `slot`, `other`.
    SlotsOverlap = "fault-slots-overlap",
    /// A slot that is for things of one `kind` and to hold one of the `other`.
    /// Args: `slot`, `kind`, `other`.
    OtherSlotKind = "fault-other-slot-kind",
    /// One thing in two slots of a tray. Args: `slot`, `first`.
    InTwoSlots = "fault-in-two-slots",
    /// Two sites that replace one tooth. Args: `position`, `first`.
    SameTooth = "fault-same-tooth",
    /// Something refers to itself. Args: `id`.
    RefersToItself = "fault-refers-to-itself",
    /// A direction without length.
    NoDirection = "fault-no-direction",
    /// An axis that does not point from platform to apex. Args: `jaw`.
    AxisPointsBack = "fault-axis-points-back",
}
